import { spreadOf } from './repeats.ts';

/** A measured value with its standard uncertainty (instrument and reading), same unit for all that are compared. */
export interface ComparedValue {
  readonly value: number;
  readonly standardUncertainty: number;
}

/** What changed between the runs before a work and those after it. */
export interface BeforeAfter {
  readonly before: number;
  readonly after: number;
  /** After minus before. */
  readonly difference: number;
  /** 100 * difference / before; NaN where that is 0. */
  readonly differencePercent: number;
  readonly standardUncertainty: number;
  /** `COVERAGE` times the standard uncertainty. */
  readonly expandedUncertainty: number;
  readonly moreThanChance: boolean;
  /** Two runs or more on one side: then how far runs differ among themselves counts too. Else only the instrument does, and the screen says so. */
  readonly spreadKnown: boolean;
}

/** Coverage factor: two standard uncertainties, about 95 % where the values are normal (JCGM 100:2008, 6.3.3). */
export const COVERAGE = 2;

/**
 * Compares the runs before and after (measurement.md 7). Each side stands by its mean; its uncertainty is that of its least certain run, which
 * repeating does not lessen (same vessel, same gauge), and the scatter s/√n of runs among themselves (JCGM 100, 4.2.3), with s pooled over both sides.
 * Both sides are combined as uncorrelated (JCGM 100, 5.1.2): with one and the same instrument this errs towards chance. Null where a side is empty
 * or a number is not finite.
 */
export function beforeAfter(
  before: readonly ComparedValue[],
  after: readonly ComparedValue[],
): BeforeAfter | null {
  const numbers = [...before, ...after].flatMap((run) => [run.value, run.standardUncertainty]);
  if (before.length === 0 || after.length === 0 || !numbers.every(Number.isFinite)) return null;
  const sides = [before, after].map((runs) => ({ ...spreadOf(runs.map(({ value }) => value)), runs }));
  const freedom = before.length + after.length - 2;
  const squares = sides.reduce(
    (sum, { runs, standardDeviation }) =>
      runs.length < 2 ? sum : sum + (runs.length - 1) * standardDeviation ** 2,
    0,
  );
  const pooled = freedom === 0 ? 0 : squares / freedom;
  const variance = sides.reduce((sum, { runs }) => {
    const instrument = Math.max(...runs.map(({ standardUncertainty }) => standardUncertainty));
    return sum + instrument ** 2 + pooled / runs.length;
  }, 0);
  const [from, to] = sides.map(({ mean }) => mean) as [number, number];
  const standardUncertainty = Math.sqrt(variance);
  const difference = to - from;
  return {
    before: from,
    after: to,
    difference,
    differencePercent: from === 0 ? NaN : (100 * difference) / from,
    standardUncertainty,
    expandedUncertainty: COVERAGE * standardUncertainty,
    moreThanChance: Math.abs(difference) > COVERAGE * standardUncertainty,
    spreadKnown: freedom > 0,
  };
}
