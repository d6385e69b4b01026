import { boundaryAt, commonRange, type CurveJoin, type CurvePoint } from '../limits/boundary-curve.ts';
import { lowestGap } from '../limits/lowest-gap.ts';
import { cellNumber, CURVE_NAMES, type CurveDraft, type CurveName, type CurveRow } from './curve-edit.ts';
import type { Boundaries } from './limit-chart-geometry.ts';

/** What a person calls a boundary. */
export const CURVE_WORDS: Readonly<Record<CurveName, string>> = {
  failBelow: 'Fail below',
  passAbove: 'Pass above',
  failAbove: 'Fail above',
};

/** A mistake at a row, in plain words. `index` -1 means the boundary as a whole. `field` null means both cells. */
export interface CurveMistake {
  readonly curve: CurveName;
  readonly index: number;
  readonly field: keyof CurveRow | null;
  readonly words: string;
}

/** A speed chart without mistakes. Points are [rpm, volume in the printed unit]. */
export interface CurveChart {
  readonly failBelow: readonly CurvePoint[];
  readonly passAbove: readonly CurvePoint[];
  readonly failAbove: readonly CurvePoint[] | null;
  readonly join: CurveJoin;
}

/** Either the chart, or what keeps it from being one. */
export interface CurveReading {
  readonly chart: CurveChart | null;
  readonly mistakes: readonly CurveMistake[];
}

/** The draft as numbers: the chart, or every mistake with its row. Rows are judged in the order in which they stand. */
export function readCurves(draft: CurveDraft, unit = 'mL'): CurveReading {
  const used = CURVE_NAMES.filter((curve) => curve !== 'failAbove' || draft.failAbove.length > 0);
  const own = used.flatMap((curve) => [...rowMistakes(draft[curve], curve), ...tooFew(draft[curve], curve)]);
  if (own.length > 0) return { chart: null, mistakes: own };
  const chart: CurveChart = {
    failBelow: pointsOf(draft.failBelow),
    passAbove: pointsOf(draft.passAbove),
    failAbove: draft.failAbove.length > 0 ? pointsOf(draft.failAbove) : null,
    join: draft.join,
  };
  const mistakes = togetherMistakes(chart, unit);
  return { chart: mistakes.length > 0 ? null : chart, mistakes };
}

/** The points of the rows that can be read, with the row they came from. */
export function readablePoints(
  rows: readonly CurveRow[],
): readonly { readonly index: number; readonly point: CurvePoint }[] {
  return rows.flatMap(({ speed, volume }, index) => {
    const point: CurvePoint = [cellNumber(speed), cellNumber(volume)];
    return point.some(Number.isNaN) ? [] : [{ index, point }];
  });
}

const pointsOf = (rows: readonly CurveRow[]) => readablePoints(rows).map(({ point }) => point);

function tooFew(rows: readonly CurveRow[], curve: CurveName): readonly CurveMistake[] {
  if (rows.length >= 2) return [];
  const words = `${CURVE_WORDS[curve]} has ${rows.length === 0 ? 'no points' : 'one point'}. A line needs at least two.`;
  return [{ curve, index: -1, field: null, words }];
}

function rowMistakes(rows: readonly CurveRow[], curve: CurveName): readonly CurveMistake[] {
  return rows.flatMap((row, index) => {
    const found: CurveMistake[] = [];
    const say = (field: keyof CurveRow, words: string) => found.push({ curve, index, field, words });
    for (const field of ['speed', 'volume'] as const) {
      const text = row[field].trim();
      const value = cellNumber(text);
      if (text === '') say(field, `The ${field} is missing.`);
      else if (Number.isNaN(value)) say(field, `“${text}” is not a plain number.`);
      else if (value < 0) say(field, `A ${field} cannot be below zero.`);
    }
    const [speed, before] = [cellNumber(row.speed), lastSpeedBefore(rows, index)];
    if (speed === before) say('speed', `The speed ${before} rpm is there twice. Give each speed once.`);
    if (speed < before) {
      say(
        'speed',
        `Slower than the point before it (${before} rpm). The rows are put in order when you leave the table.`,
      );
    }
    return found;
  });
}

const lastSpeedBefore = (rows: readonly CurveRow[], index: number): number =>
  rows
    .slice(0, index)
    .map(({ speed }) => cellNumber(speed))
    .findLast((speed) => !Number.isNaN(speed)) ?? NaN;

function togetherMistakes(chart: CurveChart, unit: string): readonly CurveMistake[] {
  const curves = [chart.failBelow, chart.passAbove, ...(chart.failAbove ? [chart.failAbove] : [])];
  if (!commonRange(curves)) {
    const words =
      'The boundaries share no speeds, so no point could be judged by all of them. Give them over the same speeds.';
    return [{ curve: 'passAbove', index: -1, field: null, words }];
  }
  return [
    ...crossing(chart, 'failBelow', 'passAbove', unit),
    ...(chart.failAbove ? crossing(chart, 'passAbove', 'failAbove', unit) : []),
  ];
}

/** Rounding of a gap, in the unit of the chart. */
const ROUNDING = 1e-9;

/** As in a limit sheet: pass above may touch fail below; fail above may not touch pass above. */
function crossing(
  chart: CurveChart,
  lower: CurveName,
  upper: CurveName,
  unit: string,
): readonly CurveMistake[] {
  const points = chart[upper] ?? [];
  const gap = lowestGap(points, chart[lower] ?? [], chart.join);
  if (!gap || gap.gapMl >= (upper === 'failAbove' ? ROUNDING : -ROUNDING)) return [];
  const away = points.map(([rpm]) => Math.abs(rpm - gap.atRpm));
  const by = Number(Math.max(0, -gap.gapMl).toPrecision(3));
  const how = by === 0 ? 'touches' : `lies ${by} ${unit} below`;
  const words = `${CURVE_WORDS[upper]} ${how} ${CURVE_WORDS[lower].toLowerCase()} near ${Math.round(gap.atRpm)} rpm. Two points may be exchanged.`;
  return [{ curve: upper, index: away.indexOf(Math.min(...away)), field: 'volume', words }];
}

/** Pieces in which a cubic join is drawn. */
const CUBIC_PIECES = 80;

/** Boundaries as lines to draw: the points for straight joins, a dense line through `boundaryAt` for cubic ones. */
export function drawnCurves(chart: CurveChart): Boundaries {
  return {
    failBelow: drawnLine(chart.failBelow, chart.join),
    passAbove: drawnLine(chart.passAbove, chart.join),
    failAbove: chart.failAbove && drawnLine(chart.failAbove, chart.join),
  };
}

/** One boundary as a line to draw. Fewer than two points, or speeds that do not rise, are joined straight. */
export function drawnLine(points: readonly CurvePoint[], join: CurveJoin): readonly CurvePoint[] {
  const rising = points.every(([speed], index) => index === 0 || speed > (points[index - 1]?.[0] ?? NaN));
  if (join === 'straight' || points.length < 2 || !rising) return points;
  const [from, to] = [points[0]?.[0] ?? NaN, points.at(-1)?.[0] ?? NaN];
  const dense = Array.from(
    { length: CUBIC_PIECES + 1 },
    (_, piece) => from + ((to - from) * piece) / CUBIC_PIECES,
  );
  // The points themselves belong to the line: a corner between two pieces must not be cut.
  const speeds = [...new Set([...dense.slice(0, -1), ...points.map(([speed]) => speed)])].sort(
    (a, b) => a - b,
  );
  return speeds.map((rpm): CurvePoint => [rpm, boundaryAt(points, join, rpm)?.volumeMl ?? NaN]);
}
