/** A stamp of the wire starts again after so long, ms (can-text-formats.md, Part 1). */
const STAMP_PERIOD_MS = 60_000;

/**
 * What the bridge sent in a stretch of at most a minute that ended at `endMs`, with time stamps on, as lines of a candump log
 * (can-text-formats.md, Part 2). Answers to commands are left out. The bench's bus carries 29-bit data frames only.
 */
export function candumpLines(slcan: Uint8Array, endMs: number): string {
  let text = '';
  for (const line of String.fromCharCode(...slcan).split(/[\r\x07]/)) {
    const [, id, data, stamp] = /^T([0-9A-F]{8})[0-8]((?:[0-9A-F]{2})*)([0-9A-F]{4})$/.exec(line) ?? [];
    if (id !== undefined) text += `${timeOf(parseInt(stamp!, 16), endMs)} can0 ${id}#${data}\n`;
  }
  return text;
}

/** `(seconds.microseconds)` since the bench began, so that the same run gives the same log. */
function timeOf(stampMs: number, endMs: number): string {
  const agoMs = (((endMs - stampMs) % STAMP_PERIOD_MS) + STAMP_PERIOD_MS) % STAMP_PERIOD_MS;
  const timeMs = Math.round(endMs - agoMs);
  const seconds = String(Math.floor(timeMs / 1000)).padStart(10, '0');
  return `(${seconds}.${String((timeMs % 1000) * 1000).padStart(6, '0')})`;
}
