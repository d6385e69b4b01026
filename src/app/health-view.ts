import { busHealth } from '../j1939/bus-health.ts';
import { sourceName } from '../j1939/source-addresses.ts';
import type { PipelineState } from '../pipeline/pipeline.ts';
import { formatQuantity, unitSymbol, usualDecimals } from '../quantities/format.ts';
import { QUALITIES, SIGNAL_IDS, type SignalId } from '../quantities/reading.ts';
import type { UnitId } from '../quantities/unit.ts';
import { SIGNALS } from '../signals/catalogue.ts';
import { freshness, usualIntervalMs } from '../signals/freshness.ts';
import { chosenOrigin, originsOf, traceOf } from '../signals/trace-set.ts';
import type { TraceColumns } from '../signals/trace.ts';
import type { HeardAddress, LinkHealthView, SignalHealth } from '../ui/link-health-parts.ts';
import { addressOf } from './origin-words.ts';
import type { Settings } from './settings.ts';

/** What of the pipeline's state the health is told from. */
export type HeardState = Pick<PipelineState, 'atMs' | 'lastMs' | 'wire' | 'traces' | 'bus'>;

export interface HealthMeans {
  /** What the source's clock shows now, ms. */
  readonly nowMs: number;
  /** CAN bit rate, bit/s, where it is known: the bus load is told against it. */
  readonly bitRate: number | null;
  readonly bytesPerSecond: number | null;
  /** The person's units of pressures. */
  readonly units: Pick<Settings, 'pressureUnit' | 'supplyUnit'>;
  /** The person's choice of origin for engine speed. */
  readonly speedOrigin?: number | undefined;
}

/** How well data comes, for the screen. Null stands where nothing came yet or the bridge does not tell. Pure: time is an argument. */
export function healthView(state: HeardState, means: HealthMeans): LinkHealthView {
  const { wire, bus, traces } = state;
  const { nowMs, bitRate, bytesPerSecond } = means;
  const { framesPerSecond, loadPercent, addresses } = busHealth(bus.tally, nowMs, bitRate);
  const counts = wire?.counts ?? null;
  const heardAny = (counts?.bytes ?? 0) > 0 || traces.traces.size > 0;
  return {
    framesPerSecond,
    busLoadPercent: loadPercent && [Math.min(loadPercent.least, 100), Math.min(loadPercent.most, 100)],
    malformed: counts ? Object.values(counts.malformed).reduce((sum, count) => sum + count, 0) : 0,
    // A bridge that never told of a loss may be one that cannot tell.
    lost: counts && counts.lost > 0 ? counts.lost : null,
    brokenTransfers: bus.facts.brokenCount,
    bytesPerSecond,
    secondsSinceLast: heardAny ? Math.max(0, nowMs - (state.lastMs ?? state.atMs)) / 1000 : null,
    addresses: addresses.map(({ origin, framesPerSecond: rate }): HeardAddress => ({
      channel: Math.floor(origin / 256),
      address: origin % 256,
      name: sourceName(origin % 256) ?? '',
      framesPerSecond: rate ?? NaN, // shown as no number: a log without time
    })),
    signals: SIGNAL_IDS.flatMap((signal) => signalHealth(traces, signal, means)),
  };
}

/** Every origin of a signal, the one that is used first. */
function signalHealth(
  traces: PipelineState['traces'],
  signal: SignalId,
  { nowMs, units, speedOrigin }: HealthMeans,
): readonly SignalHealth[] {
  const used = chosenOrigin(traces, signal, signal === 'engineSpeed' ? speedOrigin : undefined);
  const origins = originsOf(traces, signal).map(({ origin }) => origin);
  const inOrder = origins.toSorted((a, b) => Number(b === used) - Number(a === used) || a - b);
  return inOrder.map((origin) => {
    const trace = traceOf(traces, signal, origin);
    const { state, ageMs } = freshness(trace, nowMs);
    const last = trace.length - 1;
    const valid = QUALITIES[trace.quality[last]!] === 'valid';
    const { unit, decimals } = shownAs(signal, units);
    return {
      label: SIGNALS[signal].label,
      value: formatQuantity(valid ? trace.value[last] : null, unit, { decimals }),
      unit: unitSymbol(unit),
      source: addressOf(origin),
      perSecond: readingsPerSecond(trace, nowMs),
      ageSeconds: ageMs === null ? null : ageMs / 1000,
      state: state === 'fresh' && !valid ? 'notAvailable' : state,
    };
  });
}

const RATE_SPAN_MS = 5000;
/** Below so many readings in the span a count says little; the usual interval says more. */
const ENOUGH = 3;

/**
 * Readings a second over the last five seconds, or since the first reading where that is less (but one second at least). For a signal that
 * comes seldom, from its usual interval while it is fresh. Null below two readings.
 */
export function readingsPerSecond(trace: TraceColumns, nowMs: number): number | null {
  const { atMs, length } = trace;
  if (length < 2) return null;
  const spanMs = Math.min(RATE_SPAN_MS, Math.max(1000, nowMs - atMs[0]!));
  const rows = length - firstAfter(atMs, length, nowMs - spanMs);
  const usualMs = usualIntervalMs(trace);
  if (rows >= ENOUGH || !usualMs || freshness(trace, nowMs).state !== 'fresh') return (rows * 1000) / spanMs;
  return 1000 / usualMs;
}

/** Index of the first row later than `sinceMs`; times never fall, so the middle tells which half it lies in. */
function firstAfter(atMs: Float64Array, length: number, sinceMs: number): number {
  let from = 0;
  let to = length;
  while (from < to) {
    const middle = (from + to) >> 1;
    if (atMs[middle]! > sinceMs) to = middle;
    else from = middle + 1;
  }
  return from;
}

const RAIL: readonly SignalId[] = [
  'railPressure',
  'commandedRailPressure',
  'rail2Pressure',
  'injectionControlPressure',
];

function shownAs(signal: SignalId, units: HealthMeans['units']): { unit: UnitId; decimals: number } {
  const usual = SIGNALS[signal];
  const unit = RAIL.includes(signal)
    ? units.pressureUnit
    : signal === 'supplyPressure'
      ? units.supplyUnit
      : usual.unit;
  if (unit === usual.unit) return { unit, decimals: usual.decimals };
  // A whole bar of supply pressure is a quarter of it.
  return { unit, decimals: signal === 'supplyPressure' && unit === 'bar' ? 1 : usualDecimals(unit) };
}

/** Bytes a second, told anew once a second. */
export interface ByteRate {
  readonly bytes: number;
  readonly sinceMs: number;
  readonly perSecond: number | null;
}

const BYTE_SPAN_MS = 1000;

/**
 * The rate after another look at the count of bytes received (`LinkState.bytes`), by the wall clock. Until a second has passed there is none
 * to tell; a count that fell is another source, and begins anew.
 */
export function byteRate(last: ByteRate | null, bytes: number, wallMs: number): ByteRate {
  if (!last || bytes < last.bytes || wallMs < last.sinceMs)
    return { bytes, sinceMs: wallMs, perSecond: null };
  const spanMs = wallMs - last.sinceMs;
  if (spanMs < BYTE_SPAN_MS) return last;
  return { bytes, sinceMs: wallMs, perSecond: ((bytes - last.bytes) * 1000) / spanMs };
}
