import type { LinkEvent } from '../link/link-event.ts';
import { LogPlan } from '../logs/log-plan.ts';
import { readSpeedLog } from '../logs/read-log.ts';
import { toLinkEvents } from '../logs/to-link-events.ts';
import { problem } from '../problems/problem.ts';
import { failed, ok, type Result } from '../problems/result.ts';

/** Reads a file of numbers by a plan that may come from a stored recording: a plan that is none gives a problem. */
export function readLogNumbers(bytes: Uint8Array, plan: unknown): Result<Iterable<LinkEvent>> {
  const parsed = LogPlan.safeParse(plan);
  if (!parsed.success) return failed(problem('log.bad-plan'));
  const log = readSpeedLog(bytes, parsed.data);
  return log.ok ? ok(toLinkEvents(log.value)) : log;
}
