import {
  fromPrinted,
  LIMIT_UNIT,
  printedQuantity,
  printedSymbol,
  type PrintedUnit,
} from '../limits/printed-unit.ts';
import { formatNumber } from '../quantities/format.ts';
import { cellNumber, numberText, type CurveDraft, type CurveRow } from './curve-edit.ts';
import { readCurves } from './curve-reading.ts';

/** One range of serial numbers as typed. An empty end is open; `prefix` stands before both ends. */
export interface SerialRangeDraft {
  readonly prefix: string;
  readonly from: string;
  readonly to: string;
}

/** A window as typed, in the printed unit. An empty bound is none. */
export interface WindowDraft {
  readonly kind: 'window';
  readonly check: string;
  readonly title: string;
  readonly unit: PrintedUnit;
  readonly min: string;
  readonly max: string;
  readonly durationSeconds: string;
  /** At what it holds, e.g. "high idle, rail pressure 90 MPa". */
  readonly operatingPoint: string;
}

/** A speed chart as typed; the volumes of its curves stand in the printed unit. */
export interface SpeedChartDraft {
  readonly kind: 'speed chart';
  readonly check: string;
  readonly title: string;
  readonly unit: VolumeUnit;
  readonly cranks: string;
  readonly crankSeconds: string;
  /** Which average speed the chart was made for. */
  readonly speedAverage: 'time-weighted' | 'samples';
  readonly curves: CurveDraft;
}

export type LimitDraft = WindowDraft | SpeedChartDraft;

/** A whole sheet as typed. Days are yyyy-mm-dd, or empty. */
export interface SheetDraft {
  readonly title: string;
  readonly engineFamily: string;
  readonly ranges: readonly SerialRangeDraft[];
  readonly revision: string;
  readonly validFrom: string;
  readonly readFrom: string;
  readonly readBy: string;
  readonly confirmedOn: string;
  readonly limits: readonly LimitDraft[];
}

/** What is wrong with a field, in plain words. `field` is e.g. "engineFamily", "ranges.0.from", "limits.1.min". */
export interface FieldProblem {
  readonly field: string;
  readonly words: string;
}

/** Units that the volumes of a chart are printed in. */
export const VOLUME_UNITS = ['mL', 'L', 'usFlOz', 'impFlOz'] as const satisfies readonly PrintedUnit[];
export type VolumeUnit = (typeof VOLUME_UNITS)[number];

const EMPTY_CURVES: CurveDraft = { failBelow: [], passAbove: [], failAbove: [], join: 'straight' };
export const EMPTY_RANGE: SerialRangeDraft = { prefix: '', from: '', to: '' };
export const EMPTY_WINDOW: WindowDraft = {
  kind: 'window',
  check: '',
  title: '',
  unit: 'mL',
  min: '',
  max: '',
  durationSeconds: '',
  operatingPoint: '',
};
export const EMPTY_CHART: SpeedChartDraft = {
  kind: 'speed chart',
  check: '',
  title: '',
  unit: 'mL',
  cranks: '2',
  crankSeconds: '15',
  speedAverage: 'time-weighted',
  curves: EMPTY_CURVES,
};
export const EMPTY_SHEET: SheetDraft = {
  title: '',
  engineFamily: '',
  ranges: [EMPTY_RANGE],
  revision: '',
  validFrom: '',
  readFrom: '',
  readBy: '',
  confirmedOn: '',
  limits: [],
};

const REQUIRED: readonly (readonly [keyof SheetDraft, string])[] = [
  ['title', 'Give the sheet a name by which you find it.'],
  ['engineFamily', 'Say which engines it is for.'],
  ['revision', 'Give the revision as printed, or 1.'],
  ['validFrom', 'Give the day from which these numbers hold.'],
  ['readFrom', 'Say where the numbers were read, so that another person can find them again.'],
  ['readBy', 'Say who read them.'],
];

/** What is missing or contradicts itself, field by field. Empty when the draft can be kept. */
export function sheetDraftProblems(draft: SheetDraft): readonly FieldProblem[] {
  const missing = REQUIRED.filter(([field]) => String(draft[field]).trim() === '').map(([field, words]) => ({
    field,
    words,
  }));
  const none =
    draft.limits.length > 0 ? [] : [{ field: 'limits', words: 'A sheet needs at least one limit.' }];
  const limits = draft.limits.flatMap((limit, index) =>
    limitProblems(limit).map(({ field, words }) => ({ field: `limits.${index}.${field}`, words })),
  );
  return [...missing, ...draft.ranges.flatMap(rangeProblems), ...none, ...limits, ...twice(draft.limits)];
}

function twice(limits: readonly LimitDraft[]): readonly FieldProblem[] {
  const checks = limits.map(({ check }) => check);
  return checks.flatMap((check, index) =>
    check !== '' && checks.indexOf(check) < index
      ? [{ field: `limits.${index}.check`, words: 'There is a limit for this check already.' }]
      : [],
  );
}

function rangeProblems({ from, to }: SerialRangeDraft, index: number): readonly FieldProblem[] {
  const [low, high] = [from.trim(), to.trim()];
  const digits = /^\d+$/;
  if (!digits.test(low) || !digits.test(high) || BigInt(low) <= BigInt(high)) return [];
  return [
    { field: `ranges.${index}.to`, words: 'The range ends before it begins. Exchange or correct the two.' },
  ];
}

function limitProblems(limit: LimitDraft): readonly FieldProblem[] {
  const check = limit.check.trim() === '' ? [{ field: 'check', words: 'Say which check it is for.' }] : [];
  return [...check, ...(limit.kind === 'window' ? windowProblems(limit) : chartProblems(limit))];
}

function windowProblems({ min, max, durationSeconds, unit }: WindowDraft): readonly FieldProblem[] {
  const found = [
    ...numberProblem('min', min, unit),
    ...numberProblem('max', max, unit),
    ...aboveZero('durationSeconds', durationSeconds, false),
  ];
  if (found.length > 0) return found;
  if (min.trim() === '' && max.trim() === '')
    return [{ field: 'min', words: 'Give a lowest value, a highest value or both.' }];
  return cellNumber(min) > cellNumber(max)
    ? [{ field: 'max', words: 'The highest value is below the lowest.' }]
    : [];
}

function chartProblems({ cranks, crankSeconds, curves }: SpeedChartDraft): readonly FieldProblem[] {
  const mistakes = readCurves(curves).mistakes.length;
  const words = mistakes === 1 ? 'One mistake in the boundaries.' : `${mistakes} mistakes in the boundaries.`;
  return [
    ...aboveZero('cranks', cranks, true),
    ...aboveZero('crankSeconds', crankSeconds, true),
    ...(mistakes > 0 ? [{ field: 'curves', words }] : []),
  ];
}

/** A pressure may lie below zero: suction is read on a gauge. */
function numberProblem(field: string, text: string, unit: PrintedUnit): readonly FieldProblem[] {
  if (text.trim() === '') return [];
  const value = cellNumber(text);
  if (Number.isNaN(value)) return [{ field, words: `“${text.trim()}” is not a plain number.` }];
  return value < 0 && printedQuantity(unit) !== 'pressure'
    ? [{ field, words: 'It cannot be below zero.' }]
    : [];
}

function aboveZero(field: string, text: string, needed: boolean): readonly FieldProblem[] {
  if (text.trim() === '') return needed ? [{ field, words: 'Type a number.' }] : [];
  return cellNumber(text) > 0 ? [] : [{ field, words: 'Type a number above zero.' }];
}

/** What one range covers, in words. */
export function rangeWords({ prefix, from, to }: SerialRangeDraft): string {
  const [start, low, high] = [prefix.trim(), from.trim(), to.trim()];
  const ends =
    low === '' && high === '' ? null : low === high ? `only ${start}${low}` : spanWords(start, low, high);
  if (ends !== null) return ends;
  return start === '' ? 'every serial number' : `every serial number that begins with ${start}`;
}

function spanWords(start: string, low: string, high: string): string {
  if (high === '')
    return `${start}${low} and every later one${start === '' ? '' : ` that begins with ${start}`}`;
  if (low === '') return `every one up to ${start}${high}${start === '' ? '' : ` that begins with ${start}`}`;
  return `${start}${low} to ${start}${high}, both included`;
}

/** What all ranges cover together, as a sentence. As in choosing a sheet, one without any bound is never taken by itself. */
export function coverageWords(ranges: readonly SerialRangeDraft[]): string {
  if (ranges.length === 0) return 'Holds for no engine. Add a range.';
  const open = ranges.some(({ prefix, from, to }) => (prefix + from + to).trim() === '');
  if (open) return 'Names no serial numbers: a person has to choose this sheet each time.';
  const words = ranges.map(rangeWords);
  const last = words.at(-1) ?? '';
  return `Holds for ${words.length === 1 ? last : `${words.slice(0, -1).join('; ')}; and ${last}`}.`;
}

/** A typed number in its printed unit and in the unit that is kept: "12 US fl oz = 354.9 mL". Empty where both are one, or there is no number. */
export function bothWays(text: string, unit: PrintedUnit): string {
  const value = cellNumber(text);
  const kept = LIMIT_UNIT[printedQuantity(unit)];
  if (Number.isNaN(value) || unit === kept) return '';
  return `${numberText(value)} ${printedSymbol(unit)} = ${formatNumber(fromPrinted(value, unit), { decimals: 1 })} ${kept}`;
}

/** The same amount in another printed unit of its kind; what is no number, or of another kind, stays as typed. */
export function inUnit(text: string, from: PrintedUnit, to: PrintedUnit): string {
  const value = cellNumber(text);
  if (Number.isNaN(value) || printedQuantity(from) !== printedQuantity(to)) return text;
  return numberText(fromPrinted(value, from) / fromPrinted(1, to));
}

/** Curves with their volumes as numbers of another unit. */
export function curvesInUnit(curves: CurveDraft, from: VolumeUnit, to: VolumeUnit): CurveDraft {
  const rows = (each: readonly CurveRow[]) =>
    each.map(({ speed, volume }) => ({ speed, volume: inUnit(volume, from, to) }));
  return {
    ...curves,
    failBelow: rows(curves.failBelow),
    passAbove: rows(curves.passAbove),
    failAbove: rows(curves.failAbove),
  };
}
