import { problem, type Problem } from '../problems/problem.ts';
import { commonRange, type CurvePoint } from './boundary-curve.ts';
import type { Limit, LimitCondition, LimitSheet, SpeedChart, Window } from './limit-sheet.ts';
import { lowestGap } from './lowest-gap.ts';
import { printedMistakes } from './printed-mistakes.ts';
import { bareSerial, compareSerials } from './serial-range.ts';

/** Gaps smaller than this (mL) are rounding, not a crossing. */
const ROUNDING_ML = 1e-9;

/**
 * What contradicts itself in a sheet of the right shape: speeds that do not rise, numbers below zero, min above max, curves that cross or share
 * no speeds, printed numbers that do not fit those that are kept, a check twice, a serial range reversed, a confirmation by nobody. Empty when the sheet
 * makes sense. What may be meant (a gap, an overlap of ranges) is told by `sheetDoubts` instead: it must not keep a sheet from being read.
 */
export function sheetMistakes(sheet: LimitSheet): readonly Problem[] {
  return [
    ...sheet.limits.flatMap((limit, index) => limitMistakes(limit, `entry ${index + 1} (${limit.check})`)),
    ...repeatedChecks(sheet),
    ...serialMistakes(sheet),
    ...(sheet.replaces === sheet.id ? [problem('limit.replaces-itself', { id: sheet.id })] : []),
    ...(sheet.confirmedOn !== null && sheet.confirmedBy.trim() === ''
      ? [problem('limit.confirmed-by-nobody', { confirmedOn: sheet.confirmedOn })]
      : []),
  ];
}

function limitMistakes(limit: Limit, place: string): readonly Problem[] {
  const own = limit.kind === 'speed chart' ? chartMistakes(limit, place) : windowMistakes(limit, place);
  const conditions = limit.conditions.flatMap((condition) => conditionMistakes(condition, place));
  return [...own, ...printedMistakes(limit, place), ...conditions];
}

function chartMistakes(chart: SpeedChart, place: string): readonly Problem[] {
  const curves = [
    { name: 'failBelow', points: chart.failBelow },
    { name: 'passAbove', points: chart.passAbove },
    ...(chart.failAbove ? [{ name: 'failAbove', points: chart.failAbove }] : []),
  ];
  const own = curves.flatMap(({ name, points }) => curveMistakes(points, `${place}, ${name}`));
  if (own.length > 0) return own; // the rest would only repeat them
  if (!commonRange(curves.map(({ points }) => points))) return [problem('limit.no-common-speeds', { place })];
  const low = crossing(chart, ['failBelow', 'passAbove'], place);
  const high = chart.failAbove ? crossing(chart, ['passAbove', 'failAbove'], place) : [];
  return [...low, ...high];
}

function curveMistakes(points: readonly CurvePoint[], place: string): readonly Problem[] {
  const found: Problem[] = [];
  points.forEach(([speed, volume], index) => {
    const before = points[index - 1]?.[0];
    if (before !== undefined && speed <= before) {
      found.push(problem('limit.speeds-not-ascending', { place, before, after: speed }));
    }
    if (speed < 0) found.push(problem('limit.negative-number', { place, value: speed, quantity: 'a speed' }));
    if (volume < 0)
      found.push(problem('limit.negative-number', { place, value: volume, quantity: 'a volume' }));
  });
  return found;
}

type CurveName = 'failBelow' | 'passAbove' | 'failAbove';

/** passAbove may touch failBelow (no marginal band there); failAbove may not touch passAbove, or nothing could pass. */
function crossing(
  chart: SpeedChart,
  [lower, upper]: readonly [CurveName, CurveName],
  place: string,
): readonly Problem[] {
  const gap = lowestGap(chart[upper] ?? [], chart[lower] ?? [], chart.join);
  const least = upper === 'failAbove' ? ROUNDING_ML : -ROUNDING_ML;
  if (!gap || gap.gapMl >= least) return [];
  const byMl = Number(Math.max(0, -gap.gapMl).toPrecision(3));
  return [problem('limit.curves-cross', { place, lower, upper, byMl, atRpm: Math.round(gap.atRpm) })];
}

/** A gauge pressure can be below zero. */
const NEVER_NEGATIVE: Readonly<Record<Window['quantity'], string | null>> = {
  volume: 'a volume',
  pressure: null,
  time: 'a time',
  rate: 'a flow',
};

function windowMistakes({ min, max, quantity }: Window, place: string): readonly Problem[] {
  const never = NEVER_NEGATIVE[quantity];
  const below = never === null ? [] : [min, max].filter((value) => value !== null && value < 0);
  return [
    ...below.map((value) =>
      problem('limit.negative-number', { place, value: value ?? 0, quantity: never ?? '' }),
    ),
    ...boundMistakes(min, max, place),
  ];
}

const conditionMistakes = ({ signal, min, max }: LimitCondition, place: string): readonly Problem[] =>
  boundMistakes(min, max, `${place}, condition on ${signal}`);

function boundMistakes(min: number | null, max: number | null, place: string): readonly Problem[] {
  if (min === null && max === null) return [problem('limit.no-bound', { place })];
  if (min !== null && max !== null && min > max) return [problem('limit.min-above-max', { place, min, max })];
  return [];
}

function repeatedChecks({ limits }: LimitSheet): readonly Problem[] {
  const checks = limits.map(({ check }) => check);
  const twice = checks.filter((check, index) => checks.indexOf(check) !== index);
  return [...new Set(twice)].map((check) => problem('limit.check-twice', { check }));
}

function serialMistakes({ serialRanges }: LimitSheet): readonly Problem[] {
  return serialRanges.flatMap(({ prefix = '', from, to }, index) => {
    const place = `serialRanges, entry ${index + 1}`;
    const start = bareSerial(prefix);
    // A prefix of digits alone may well be followed by the same digits; one with a letter is typed twice.
    const twice = /\D/.test(start) ? [from, to].filter((end) => bareSerial(end ?? '').startsWith(start)) : [];
    const reversed = from !== null && to !== null && compareSerials(from, to) > 0;
    return [
      ...twice.map((serial) => problem('limit.prefix-twice', { place, serial: serial ?? '', prefix })),
      ...(reversed ? [problem('limit.serials-reversed', { place, from, to })] : []),
    ];
  });
}
