import type { Override } from '../checks/measurement.ts';
import type { ProblemCode } from '../problems/catalogue.ts';
import type { RunValues } from './run-entries.ts';

/** What the person let stand as a warning, with the reasons. */
export const overridesOf = ({ overrides }: RunValues): readonly Override[] =>
  [...overrides].map(([code, reason]) => ({ code: code as ProblemCode, reason }));
