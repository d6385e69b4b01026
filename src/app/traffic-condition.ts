import type { Condition } from './source-condition.ts';
import type { SessionState } from './session.ts';

/** Traffic is stale after this, ms: engine controllers send many groups at 100 ms and faster. */
const STALE_MS = 2_000;
const LOST_MS = 10_000;

/** How a source does where nothing is measured yet: by whether anything comes at all, whatever it is. */
export function trafficCondition({ link, pipeline }: SessionState, nowMs: number): Condition {
  const ageMs = pipeline ? nowMs - (pipeline.lastMs ?? pipeline.atMs) : 0;
  if (link.kind === 'refused') return { state: 'none', secondsSinceLast: null };
  if (link.kind !== 'live')
    return {
      state: link.kind,
      secondsSinceLast: link.kind === 'waiting' || link.kind === 'reopening' ? ageMs / 1000 : null,
    };
  const state = ageMs > LOST_MS ? 'lost' : ageMs > STALE_MS ? 'stale' : 'live';
  return { state, secondsSinceLast: ageMs / 1000 };
}
