import { asyncScheduler, type Observable } from 'rxjs';
import { replayAdapter } from '../../adapters/replay.ts';
import type { LinkEvent } from '../link/link-event.ts';
import { problem } from '../problems/problem.ts';
import { failed } from '../problems/result.ts';

/** Speeds offered for watching a recording again; `instant` gives all of it at once. */
export const REPLAY_SPEEDS = [0.25, 0.5, 1, 2, 4, 8, 16, 32] as const;
export type ReplaySpeed = (typeof REPLAY_SPEEDS)[number] | 'instant';

/** Recorded events again, with the very same times, paced by them. */
export function replayOf(
  events: readonly LinkEvent[],
  device: string,
  speed: ReplaySpeed,
): Observable<LinkEvent> {
  const adapter = replayAdapter(asyncScheduler, () => Promise.resolve(failed(problem('link.refused'))));
  return adapter.open({ events, device, speed });
}
