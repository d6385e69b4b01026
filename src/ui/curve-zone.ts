import { boundaryAt, commonRange } from '../limits/boundary-curve.ts';
import { CURVE_NAMES, numberText, type CurveName } from './curve-edit.ts';
import { CURVE_WORDS, type CurveChart } from './curve-reading.ts';
import type { IconShape } from './shape-icon.ts';

export type ZoneWord = 'pass' | 'marginal' | 'fail low' | 'fail high' | 'no limits here';

/** What a tried point lies in. `words` is one line: the distance to the nearest boundary, or why there is none. */
export interface TriedPoint {
  readonly zone: ZoneWord;
  readonly words: string;
}

export const ZONE_LOOK: Readonly<Record<ZoneWord, { readonly shape: IconShape; readonly kind: string }>> = {
  pass: { shape: 'pass', kind: 'pass' },
  marginal: { shape: 'marginal', kind: 'marginal' },
  'fail low': { shape: 'fail', kind: 'fail' },
  'fail high': { shape: 'fail', kind: 'fail' },
  'no limits here': { shape: 'invalid', kind: 'invalid' },
};

/**
 * The zone of a point by the chart alone, without any uncertainty; a point on a line belongs to the better zone, as in
 * grading. Outside the speeds that all boundaries know there is no verdict. `volume` in the unit of the chart.
 */
export function tryPoint(chart: CurveChart, speedRpm: number, volume: number, unit: string): TriedPoint {
  const used = CURVE_NAMES.filter((name) => chart[name] !== null);
  const range = commonRange(used.map((name) => chart[name] ?? []));
  if (!range || speedRpm < range.fromRpm || speedRpm > range.toRpm) {
    const span = range ? `${numberText(range.fromRpm)} to ${numberText(range.toRpm)} rpm` : 'no speeds';
    return { zone: 'no limits here', words: `The chart covers ${span}. Nothing is judged outside it.` };
  }
  const at = used.map((name) => ({
    name,
    value: boundaryAt(chart[name] ?? [], chart.join, speedRpm)?.volumeMl ?? NaN,
  }));
  const nearest = at.reduce((best, next) =>
    Math.abs(volume - next.value) < Math.abs(volume - best.value) ? next : best,
  );
  return { zone: zoneOf(at, volume), words: distanceWords(volume - nearest.value, nearest, unit) };
}

interface BoundaryValue {
  readonly name: CurveName;
  readonly value: number;
}

function zoneOf(at: readonly BoundaryValue[], volume: number): ZoneWord {
  const [fail = NaN, pass = NaN, over = Infinity] = at.map(({ value }) => value);
  if (volume < fail) return 'fail low';
  if (volume > over) return 'fail high';
  return volume < pass ? 'marginal' : 'pass';
}

function distanceWords(distance: number, { name, value }: BoundaryValue, unit: string): string {
  const line = `the line “${CURVE_WORDS[name].toLowerCase()}”`;
  if (Math.abs(distance) < 1e-9) return `On ${line} (${amount(value)} ${unit}).`;
  const share = value > 0 ? ` (${amount((100 * Math.abs(distance)) / value)} %)` : '';
  const side = distance > 0 ? 'above' : 'below';
  return `${amount(Math.abs(distance))} ${unit}${share} ${side} ${line} at ${amount(value)} ${unit}.`;
}

/** Three figures, or whole numbers from 100 on. */
const amount = (value: number): string =>
  String(Math.abs(value) >= 100 ? Math.round(value) : Number(value.toPrecision(3)));
