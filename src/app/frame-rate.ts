/** Frames a second, told anew once a second. */
export interface FrameRate {
  readonly frames: number;
  readonly sinceMs: number;
  readonly perSecond: number | null;
}

const WINDOW_MS = 1000;

/** The rate after another look at the count. Until a second has passed there is none to tell. */
export function frameRate(last: FrameRate | null, frames: number, nowMs: number): FrameRate {
  if (!last || frames < last.frames) return { frames, sinceMs: nowMs, perSecond: null };
  const spanMs = nowMs - last.sinceMs;
  if (spanMs < WINDOW_MS) return last;
  return { frames, sinceMs: nowMs, perSecond: Math.round(((frames - last.frames) * 1000) / spanMs) };
}
