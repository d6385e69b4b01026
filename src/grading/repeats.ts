import { rounded } from '../checks/rounded.ts';
import type { LIMIT_UNIT } from '../limits/printed-unit.ts';
import { problem, type Problem } from '../problems/problem.ts';
import type { VerdictWord, Zone } from './verdict.ts';

/** A unit in which graded values are kept. */
export type KeptUnit = (typeof LIMIT_UNIT)[keyof typeof LIMIT_UNIT];

/** One run of a check, for comparing runs. */
export interface RepeatedRun {
  /** In the unit in which limits of its quantity are kept; null when the run has no value. */
  readonly value: number | null;
  readonly word: VerdictWord;
  /** Distance of two marks of the vessel or the step of the instrument, in the unit of the value. */
  readonly graduation: number;
}

/** Several runs of one check. */
export interface Repeats {
  /** Runs that are valid and have a value. */
  readonly count: number;
  readonly mean: number; // NaN without a run
  /** Standard deviation with divisor n - 1; NaN for fewer than two runs. */
  readonly standardDeviation: number;
  readonly range: number;
  readonly limit: number;
  readonly limitFrom: 'sheet' | '10 % of the mean' | '2 graduations';
  /** Null while there are fewer than two valid runs. */
  readonly repeatable: boolean | null;
  /** The verdict that all runs share; null when they disagree, are not repeatable or too close to call. */
  readonly finding: Zone | null;
  readonly reasons: readonly Problem[];
}

/**
 * Compares runs of one check (measurement.md section 7). Runs that are not valid do not enter. Repeatable means: range (largest minus smallest) within
 * the limit of the sheet, else within the larger of 10 % of the mean and 2 graduations. Needs two runs.
 */
export function compareRepeats(
  runs: readonly RepeatedRun[],
  sheetLimit: number | null,
  unit: KeptUnit = 'mL',
): Repeats {
  const valid = runs.filter(
    ({ value, word }) => word !== 'not valid' && value !== null && Number.isFinite(value),
  );
  const { mean, standardDeviation, range } = spreadOf(valid.map(({ value }) => value ?? NaN));
  const allowed = allowedRange(mean, valid, sheetLimit);
  const repeatable = valid.length < 2 ? null : range <= allowed.limit * (1 + 1e-12);
  const words = [...new Set(valid.map(({ word }) => word))];
  const reasons: Problem[] = [];
  if (repeatable === null) reasons.push(problem('check.one-run'));
  if (repeatable === false) {
    const limit = inWords(allowed.limit, unit);
    reasons.push(
      problem('check.not-repeatable', {
        range: inWords(range, unit),
        limit,
        from: FROM[allowed.limitFrom],
      }),
    );
  }
  if (words.length > 1) reasons.push(problem('check.verdicts-disagree', { verdicts: words.join(', ') }));
  const shared = words.length === 1 ? zoneOfWord(words[0]) : null;
  if (words.length === 1 && shared === null) reasons.push(problem('check.runs-too-close'));
  const finding = reasons.length === 0 ? shared : null;
  return { count: valid.length, mean, standardDeviation, range, ...allowed, repeatable, finding, reasons };
}

/** Times are kept in ms and read in s. */
const inWords = (value: number, unit: KeptUnit): string =>
  unit === 'ms' ? `${rounded(value / 1000, 2)} s` : `${rounded(value, 1)} ${unit}`;

const zoneOfWord = (word: VerdictWord | undefined): Zone | null =>
  word === undefined || word === 'too close to call' || word === 'not valid' ? null : word;

/** Mean, standard deviation (divisor n - 1, two passes) and range of plain numbers; NaN where there are too few. */
export function spreadOf(values: readonly number[]): Pick<Repeats, 'mean' | 'standardDeviation' | 'range'> {
  const count = values.length;
  const mean = values.reduce((sum, value) => sum + value, 0) / count;
  const square = values.reduce((sum, value) => sum + (value - mean) ** 2, 0);
  const range = count === 0 ? NaN : Math.max(...values) - Math.min(...values);
  return { mean, standardDeviation: count < 2 ? NaN : Math.sqrt(square / (count - 1)), range };
}

const FROM: Readonly<Record<Repeats['limitFrom'], string>> = {
  sheet: 'from the limit sheet',
  '10 % of the mean': '10 % of their mean',
  '2 graduations': 'two graduations of the vessel',
};

function allowedRange(
  mean: number,
  runs: readonly RepeatedRun[],
  sheetLimit: number | null,
): Pick<Repeats, 'limit' | 'limitFrom'> {
  if (sheetLimit !== null) return { limit: sheetLimit, limitFrom: 'sheet' };
  const tenth = Math.abs(mean) / 10;
  const marks = 2 * Math.max(0, ...runs.map(({ graduation }) => graduation));
  return marks > tenth
    ? { limit: marks, limitFrom: '2 graduations' }
    : { limit: tenth, limitFrom: '10 % of the mean' };
}
