import { problem, type Problem } from '../problems/problem.ts';
import type { ColumnProfile } from './column-profile.ts';
import { normalHeader, NOT_TIME_WORDS, ROW_NUMBER_WORDS, TIME_WORDS } from './header-words.ts';
import { splitDateTime, parseTimeCell, type DateOrder, type TimeKind } from './time-cell.ts';

/** What is still to be asked about time: the interval between rows, whether a column is time, or its unit. */
export type TimeNeed = 'interval' | 'timeColumn' | 'timeUnit';

export interface TimeGuess {
  readonly column: number | null;
  readonly kind: TimeKind;
  readonly dateOrder: DateOrder;
  readonly confidence: number;
  readonly needs: readonly TimeNeed[];
  readonly notes: readonly Problem[];
}

interface Candidate {
  readonly profile: ColumnProfile;
  readonly kind: TimeKind;
  readonly confidence: number;
  readonly need: TimeNeed | null;
}

const NO_COLUMN = { column: null, kind: 'seconds', dateOrder: 'dayFirst', confidence: 0 } as const;

/**
 * Which column is the time of the readings and how it is written. Clock times and dates show by their looks, numbers by
 * header and unit; without a header by their steps. A column that counts 1, 2, 3 is a row number until a person says
 * otherwise. Several candidates: the one with the finest stamps.
 */
export function guessTimeColumn(profiles: readonly ColumnProfile[]): TimeGuess {
  const found = profiles.flatMap((profile) => candidateOf(profile) ?? []);
  const fine = found.filter((candidate) => !isCoarse(candidate));
  const ranked = fine.map((c) => ({
    c,
    rank: c.confidence - (c.need ? 0.3 : 0) + 0.3 * distinctShare(c.profile.cells),
  }));
  ranked.sort((a, b) => b.rank - a.rank);
  const best = ranked[0]?.c;
  if (best && best.need !== 'timeColumn') {
    const { profile, kind, confidence } = best;
    const asked = best.need ? [problem('log.time-unit', { column: titleOf(profile) })] : [];
    const needs = best.need ? [best.need] : [];
    return {
      column: profile.index,
      kind,
      dateOrder: dateOrderOf(profile.cells),
      confidence,
      needs,
      notes: asked,
    };
  }
  const coarse = found.find(isCoarse);
  const notes: readonly Problem[] = best
    ? [problem('log.which-time', { column: titleOf(best.profile) })]
    : coarse
      ? [problem('log.coarse-time', { column: titleOf(coarse.profile) })]
      : [];
  return { ...NO_COLUMN, needs: ['interval'], notes };
}

/** How a column that a person named as time is written, as well as its cells tell. */
export function guessTimeKind(profile: ColumnProfile): TimeKind {
  return textKind(profile) ?? numberKind(profile, true)?.kind ?? 'seconds';
}

const titleOf = ({ header, index }: ColumnProfile): string => header || `column ${index + 1}`;

const distinctShare = (cells: readonly string[]): number => new Set(cells).size / Math.max(1, cells.length);

function candidateOf(profile: ColumnProfile): Candidate | null {
  if (profile.cells.length < 2) return null;
  const text = textKind(profile);
  if (text) return { profile, kind: text, confidence: 0.9, need: null };
  if (profile.numberShare < 0.8 || !mostlyRises(profile.values)) return null;
  const headed = headerSays(profile);
  if (headed !== 'time' && !keepsRising(profile.values)) return null;
  const guess = headed === 'not time' ? null : numberKind(profile, headed === 'time');
  return guess && { profile, ...guess };
}

function headerSays(profile: ColumnProfile): 'time' | 'not time' | 'nothing' {
  const header = normalHeader(profile.name);
  if (timeUnit(profile) !== null) return NOT_TIME_WORDS.test(header) ? 'not time' : 'time';
  if (header === '') return 'nothing';
  const isTime = TIME_WORDS.test(header) && !NOT_TIME_WORDS.test(header) && !ROW_NUMBER_WORDS.test(header);
  return isTime ? 'time' : 'not time';
}

/** Kind of a column of clock times or dates, by its looks; null when most of its cells are neither. */
function textKind({ cells }: ColumnProfile): TimeKind | null {
  const share = (kind: TimeKind, order: DateOrder = 'dayFirst') => {
    const reading = { kind, dateOrder: order, mark: '.' } as const;
    return cells.filter((cell) => !Number.isNaN(parseTimeCell(cell, reading))).length / cells.length;
  };
  if (cells.length === 0) return null;
  if (share('dateTime') >= 0.8 || share('dateTime', 'monthFirst') >= 0.8) return 'dateTime';
  const clock = share('clock');
  const minuteSecond = share('minuteSecond');
  if (minuteSecond < 0.8) return clock >= 0.8 ? 'clock' : null;
  if (clock < 0.8 || cells.some((cell) => /[.,]\d/.test(cell))) return 'minuteSecond';
  // "12:30" alone is hours and minutes where many rows share it, minutes and seconds where few do
  return distinctShare(cells) > 0.1 ? 'minuteSecond' : 'clock';
}

/** Unit of time that header, unit row or cells state. */
function timeUnit({ unit, name }: ColumnProfile): TimeKind | null {
  if (unit === 's') return 'seconds';
  if (unit === 'ms') return 'milliseconds';
  if (unit === 'min') return 'minutes';
  const header = normalHeader(name);
  if (/\b(?:ms|msec|millis\w*)\b/.test(header)) return 'milliseconds';
  return /\b(?:secs?|seconds?|sekunden?|secondes?|segundos?)\b/.test(header) ? 'seconds' : null;
}

type NumberGuess = Pick<Candidate, 'kind' | 'confidence' | 'need'>;

function numberKind(profile: ColumnProfile, named: boolean): NumberGuess | null {
  const steps = stepsOf(profile.values);
  const kind =
    epochKind(profile, steps.medianStep) ??
    timeUnit(profile) ??
    dayKind(profile, steps) ??
    kindBySteps(steps, named);
  if (kind) return { kind, confidence: named ? 0.9 : 0.7, need: null };
  if (!named) return steps.medianStep === 1 ? { kind: 'seconds', confidence: 0.3, need: 'timeColumn' } : null;
  return { kind: steps.medianStep < 5 ? 'seconds' : 'milliseconds', confidence: 0.6, need: 'timeUnit' };
}

/** Unix time: seconds or milliseconds since 1970, for any year from 2001 on. */
function epochKind({ lowest, highest }: ColumnProfile, medianStep: number): TimeKind | null {
  if (lowest >= 1e12 && highest < 1e13) return 'unixMilliseconds';
  return lowest >= 1e9 && highest < 1e10 && medianStep < 1000 ? 'unixSeconds' : null;
}

/** Spreadsheet days: a serial number of the years 1954 to 2119, or the fraction of one day alone, in steps of seconds. */
function dayKind({ lowest, highest }: ColumnProfile, { medianStep, fraction }: Steps): TimeKind | null {
  const isDate = lowest >= 20_000 && highest < 80_000 && fraction && medianStep < 0.01;
  const isPartOfDay = lowest >= 0 && highest < 1 && medianStep < 2e-4;
  return isDate || isPartOfDay ? 'excelDay' : null;
}

/** Fractions are of seconds; whole numbers in tens or more are milliseconds; small ones that repeat are seconds. */
function kindBySteps({ fraction, medianStep, even, repeats }: Steps, named: boolean): TimeKind | null {
  if (fraction) return medianStep <= 2 ? 'seconds' : null;
  if (medianStep >= 10) return named || even ? 'milliseconds' : null;
  return medianStep <= 2 && repeats > 0.2 ? 'seconds' : null;
}

interface Steps {
  readonly medianStep: number;
  readonly even: boolean;
  readonly repeats: number;
  readonly fraction: boolean;
}

function stepsOf(values: readonly number[]): Steps {
  const steps = values.slice(1).map((value, i) => value - (values[i] ?? 0));
  const up = steps.filter((step) => step > 0).sort((a, b) => a - b);
  const medianStep = up[up.length >> 1] ?? NaN;
  const even = up.filter((step) => Math.abs(step - medianStep) <= 0.2 * medianStep).length >= 0.8 * up.length;
  const fraction = values.some((value) => !Number.isInteger(value));
  return {
    medianStep,
    even,
    fraction,
    repeats: steps.filter((step) => step === 0).length / Math.max(1, steps.length),
  };
}

function mostlyRises(values: readonly number[]): boolean {
  const steps = values.slice(1).map((value, i) => value - (values[i] ?? 0));
  const falls = steps.filter((step) => step < 0).length;
  return steps.some((step) => step > 0) && falls <= Math.max(steps.length > 2 ? 1 : 0, 0.05 * steps.length);
}

/** Without a header that says so, time never falls, and rises in at least every fifth row (logs at 4/s stamped in whole seconds). */
function keepsRising(values: readonly number[]): boolean {
  const steps = values.slice(1).map((value, i) => value - (values[i] ?? 0));
  return steps.every((step) => step >= 0) && steps.filter((step) => step > 0).length >= steps.length / 5;
}

/** Stamps to the minute, shared by several rows: they cannot tell readings apart. */
function isCoarse({ profile, kind }: Candidate): boolean {
  if (kind !== 'clock' && kind !== 'dateTime') return false;
  return (
    profile.cells.every((cell) => !/:\d\d?:\d|[T _-]\d{6}/.test(cell)) && distinctShare(profile.cells) < 0.8
  );
}

/**
 * Day or month first, from the dates: a number above 12 tells; else the order that keeps the days of the log closest
 * together. One date alone: either will do, since only differences count.
 */
export function dateOrderOf(cells: readonly string[]): DateOrder {
  const dates = cells.flatMap((cell) => splitDateTime(cell.trim()) ?? []);
  if (dates.length > 0 && dates.every(({ order }) => order !== null)) return 'yearFirst';
  if (dates.some(({ first }) => first > 12)) return 'dayFirst';
  if (dates.some(({ second }) => second > 12)) return 'monthFirst';
  const span = (dateOrder: DateOrder) => {
    const days = cells.map((cell) => parseTimeCell(cell, { kind: 'dateTime', dateOrder, mark: '.' }));
    return days.slice(1).reduce((sum, day, i) => sum + Math.abs(day - (days[i] ?? day)), 0);
  };
  return span('monthFirst') < span('dayFirst') ? 'monthFirst' : 'dayFirst';
}
