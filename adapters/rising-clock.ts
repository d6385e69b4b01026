import { millis, type Millis } from '../src/quantities/time.ts';

/** The injected clock, ms, kept from running back: events of one connection never do, a system clock that is set may. */
export function risingClock(clock: () => Millis): () => Millis {
  let last = -Infinity;
  return () => millis((last = Math.max(last, clock())));
}
