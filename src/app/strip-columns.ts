import { fromCanonical } from '../quantities/convert.ts';
import type { SignalId } from '../quantities/reading.ts';
import type { UnitId } from '../quantities/unit.ts';
import type { PipelineState } from '../pipeline/pipeline.ts';
import { downSample, type DrawColumns } from '../signals/down-sample.ts';
import { staleAfterMs } from '../signals/freshness.ts';
import { chosenOrigin, traceOf } from '../signals/trace-set.ts';
import type { StripColumns, StripSeries } from '../ui/strip-chart-summary.ts';
import type { Settings } from './settings.ts';

export interface Strip {
  readonly series: readonly StripSeries[];
  readonly columns: StripColumns;
}

export interface StripWindow {
  readonly fromMs: number;
  readonly toMs: number;
  readonly pixels: number;
}

type StripSettings = Pick<Settings, 'pressureUnit' | 'supplyUnit'>;

/** Signals of the strip chart, the ones that were heard only; speed is always there. */
const STRIP: readonly {
  readonly signal: SignalId;
  readonly kind: StripSeries['kind'];
  readonly label: string;
}[] = [
  { signal: 'engineSpeed', kind: 'speed', label: 'Speed' },
  { signal: 'railPressure', kind: 'rail', label: 'Rail' },
  { signal: 'supplyPressure', kind: 'supply', label: 'Supply' },
];

const DIGITS: Partial<Record<UnitId, number>> = { MPa: 1, bar: 0, psi: 0, kPa: 0, rpm: 0 };

/**
 * What the strip chart draws of a window: seconds from the first data, one column a signal in the person's units. The least and the greatest
 * value of each pixel are kept. A missing value is null (a gap); where another signal has a point and this one none, undefined
 * (drawn through).
 */
export function stripOf(
  state: PipelineState,
  window: StripWindow,
  settings: StripSettings,
  speedOrigin?: number,
): Strip {
  const drawn = STRIP.flatMap((each) => {
    const origin = chosenOrigin(
      state.traces,
      each.signal,
      each.signal === 'engineSpeed' ? speedOrigin : undefined,
    );
    if (origin === null) return [];
    const unit = unitOf(each.kind, settings);
    const trace = traceOf(state.traces, each.signal, origin);
    const columns = downSample(trace, { ...window, staleMs: staleAfterMs(trace) });
    return [{ ...each, unit, columns }];
  });
  const zeroMs = state.firstMs ?? 0;
  return {
    series: drawn.map(({ kind, label, unit }) => ({ kind, label, unit, digits: DIGITS[unit] ?? 0 })),
    columns: align(
      drawn.map(({ columns, unit }) => ({
        x: columns.x.map((ms) => (ms - zeroMs) / 1000),
        y: columns.y.map((value) => (value === null ? null : fromCanonical(value, unit))),
      })),
    ),
  };
}

function unitOf(kind: StripSeries['kind'], { pressureUnit, supplyUnit }: StripSettings): UnitId {
  if (kind === 'speed') return 'rpm';
  return kind === 'rail' ? pressureUnit : supplyUnit;
}

/** Puts columns with times of their own on one shared ascending time column. */
export function align(parts: readonly DrawColumns[]): StripColumns {
  const x = [...new Set(parts.flatMap((part) => part.x))].sort((a, b) => a - b);
  const place = new Map(x.map((value, index) => [value, index]));
  const columns = parts.map((part) => {
    const column = new Array<number | null | undefined>(x.length);
    part.x.forEach((value, index) => (column[place.get(value)!] = part.y[index]!));
    return column as (number | null)[];
  });
  return [x, ...columns];
}
