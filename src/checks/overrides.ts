import type { ProblemCode } from '../problems/catalogue.ts';
import { describeProblem, problem, type Problem } from '../problems/problem.ts';
import type { Judged } from './conditions.ts';
import type { Override } from './measurement.ts';

/**
 * The reasons that a person may set aside. Each concerns how long it took, where a person can know better than the data. What falsifies the
 * volume itself (the engine ran, a condition that decides, no speed) cannot be argued away: repeat the run.
 */
const MAY_BE_SET_ASIDE: readonly ProblemCode[] = [
  'check.time-outside',
  'check.crank-cut',
  'check.crank-data-lost',
  'check.drive-too-short',
  'check.clock-too-long',
];

/**
 * Turns overridden reasons into warnings that carry the person's reason. Nothing is dropped: the problem itself stays among the warnings. An
 * override without a reason, or of a reason that must stand, has no effect; the former adds a reason that asks for one.
 */
export function applyOverrides({ reasons, warnings }: Judged, overrides: readonly Override[]): Judged {
  const kept: Problem[] = [];
  const aside: Problem[] = [];
  for (const reason of reasons) {
    const override = MAY_BE_SET_ASIDE.includes(reason.code)
      ? overrides.find(({ code }) => code === reason.code)
      : undefined;
    const why = override?.reason.trim();
    if (why) aside.push(reason, problem('check.overridden', { what: describeProblem(reason).message, why }));
    else kept.push(reason);
    if (why === '')
      kept.push(problem('check.override-without-reason', { what: describeProblem(reason).message }));
  }
  return { reasons: kept, warnings: [...warnings, ...aside] };
}
