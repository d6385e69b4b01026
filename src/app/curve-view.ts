import type { PressureBuildSettings, PressureDecaySettings } from '../checks/check-settings.ts';
import type { ValueMeasurement } from '../checks/value-measurement.ts';
import type { JudgedCheck } from '../jobs/judged-check.ts';
import { describeProblem } from '../problems/problem.ts';
import { formatNumber } from '../quantities/format.ts';
import { SIGNALS } from '../signals/catalogue.ts';
import { downSample } from '../signals/down-sample.ts';
import { staleAfterMs } from '../signals/freshness.ts';
import type { TraceColumns } from '../signals/trace.ts';
import type { PressureCurveView } from '../ui/pressure-curve.ts';
import type { CurvePoint } from '../ui/pressure-curve-scale.ts';
import { currentValue } from './held-view.ts';
import type { RunView } from './run-view.ts';
import { pressureScale, type PressureScale, type PressureUnits } from './shown-pressure.ts';

type CurveSettings = PressureBuildSettings | PressureDecaySettings;

/** So much of the trace is drawn around what was found, and before that of what came last, ms. */
const AROUND_MS = 3000;
const LAST_MS = 60_000;
const PIXELS = 700;
const FITTED_POINTS = 60;

/** A build or decay as it is shown, while it is measured and after; null for checks of another kind. */
export function curveView(
  { measurement }: JudgedCheck,
  view: RunView,
  units: PressureUnits,
): PressureCurveView | null {
  const { settings } = view.guide;
  const isCurve = settings.kind === 'pressure build' || settings.kind === 'pressure decay';
  if (!isCurve || measurement.kind !== settings.kind || !('value' in measurement)) return null;
  const { value: measured } = measurement;
  const scale = pressureScale(settings, units);
  const drawn = { zeroMs: view.pipeline?.firstMs ?? 0, scale };
  const trace = view.facts.signals[settings.signal]?.trace;
  return {
    label: SIGNALS[settings.signal].label,
    unit: scale.unit,
    digits: scale.digits,
    points: trace ? pointsOf(trace, { ...drawn, ...drawnSpan(measured, view) }) : [],
    fromPressure: scale.of(settings.fromKPa),
    toPressure: scale.of(settings.toKPa),
    ...foundOf(settings, measured, drawn),
    ratePerSecond: rateOf(measured, scale),
    tauSeconds: tauOf(measured),
    words: wordsOf(settings, measured, { view, scale }),
  };
}

type Found = Pick<PressureCurveView, 'fromSeconds' | 'toSeconds' | 'fitted' | 'spanSeconds'>;

/** Where it began and ended; what is only known to be at least so long has no end yet. */
function foundOf(settings: CurveSettings, measured: ValueMeasurement, drawn: Drawn): Found {
  const { stretch, value, atLeast } = measured;
  const seconds = (ms: number) => (ms - drawn.zeroMs) / 1000;
  const fromSeconds = stretch && seconds(stretch.startMs);
  if (value === null || atLeast) return { fromSeconds, toSeconds: null, fitted: [], spanSeconds: null };
  return {
    fromSeconds,
    toSeconds: stretch && seconds(stretch.endMs),
    fitted: fittedOf(settings, measured, drawn),
    spanSeconds: value / 1000,
  };
}

/** Around what was found; while it is waited for, the last minute. */
function drawnSpan({ stretch, atLeast }: ValueMeasurement, { nowMs }: RunView) {
  if (!stretch) return { fromMs: nowMs - LAST_MS, toMs: nowMs };
  const toMs = atLeast ? Math.max(nowMs, stretch.endMs) : stretch.endMs + AROUND_MS;
  return { fromMs: stretch.startMs - AROUND_MS, toMs };
}

interface Drawn {
  readonly zeroMs: number;
  readonly scale: PressureScale;
}

function pointsOf(
  trace: TraceColumns,
  { zeroMs, scale, fromMs, toMs }: Drawn & { readonly fromMs: number; readonly toMs: number },
): readonly CurvePoint[] {
  const { x, y } = downSample(trace, { fromMs, toMs, pixels: PIXELS, staleMs: staleAfterMs(trace) });
  return x.map((ms, row): CurvePoint => {
    const value = y[row] ?? null;
    return [(ms - zeroMs) / 1000, value === null ? null : scale.of(value)];
  });
}

const factOf = ({ facts }: ValueMeasurement, name: string): number | null =>
  facts.find((each) => each.name === name)?.value ?? null;

function rateOf(measured: ValueMeasurement, { of }: PressureScale): number | null {
  const rise = factOf(measured, 'mean rate of the rise');
  if (rise !== null) return of(rise);
  const fall = factOf(measured, 'mean rate of the fall');
  return fall === null ? null : -of(fall);
}

const tauOf = (measured: ValueMeasurement): number | null =>
  factOf(measured, 'time constant') ?? factOf(measured, 'time constant of the rise');

/**
 * The curve that was fitted, laid through the crossing of `toKPa`: a fall p = p1 e^(−t/τ), a rise towards its end value, else a straight one.
 * Empty where nothing was fitted.
 */
function fittedOf(
  settings: CurveSettings,
  measured: ValueMeasurement,
  { zeroMs, scale }: Drawn,
): readonly CurvePoint[] {
  const { stretch } = measured;
  const pressureAt = fitOf(settings, measured);
  if (!stretch || !pressureAt) return [];
  const spanMs = stretch.endMs - stretch.startMs;
  const all = Array.from({ length: FITTED_POINTS + 1 }, (_, place): CurvePoint => {
    const beforeMs = spanMs * (1 - place / FITTED_POINTS);
    return [(stretch.endMs - beforeMs - zeroMs) / 1000, scale.of(pressureAt(-beforeMs / 1000))];
  });
  return all.filter(([, pressure]) => pressure !== null && pressure >= 0);
}

/** The pressure, kPa, so many seconds after the crossing of `toKPa`. */
function fitOf(
  { kind, toKPa }: CurveSettings,
  measured: ValueMeasurement,
): ((seconds: number) => number) | null {
  const tau = tauOf(measured);
  if (kind === 'pressure decay') return tau === null ? null : (seconds) => toKPa * Math.exp(-seconds / tau);
  const endKPa = factOf(measured, 'would level off at');
  if (tau !== null && endKPa !== null)
    return (seconds) => endKPa - (endKPa - toKPa) * Math.exp(-seconds / tau);
  const rate = factOf(measured, 'mean rate of the rise');
  return rate === null ? null : (seconds) => toKPa + rate * seconds;
}

function wordsOf(
  settings: CurveSettings,
  measured: ValueMeasurement,
  { view, scale }: { readonly view: RunView; readonly scale: PressureScale },
): string {
  const shown = (kPa: number) => formatNumber(scale.of(kPa), { decimals: scale.digits });
  const to = `${shown(settings.toKPa)} ${scale.unit}`;
  const levels = `from ${shown(settings.fromKPa)} to ${to}`;
  if (measured.typed) return 'The time was typed.';
  if (measured.value !== null && !measured.atLeast)
    return settings.kind === 'pressure build' && settings.from === 'crank start'
      ? `From the start of the crank to ${to}.`
      : `Found: ${levels}.`;
  const now = currentValue(view.facts.signals, { signal: settings.signal }, view.nowMs);
  const moves = settings.kind === 'pressure build' ? 'Rising' : 'Falling';
  if (measured.atLeast && now !== null) return `${moves}: ${shown(now)} of ${to}.`;
  return waitingWords(settings, measured, `${shown(settings.fromKPa)} ${scale.unit}`);
}

/** What is waited for, as long as nothing went wrong that has to be said first. */
function waitingWords(settings: CurveSettings, { reasons }: ValueMeasurement, from: string): string {
  const [first] = reasons;
  if (!first) return '';
  if (settings.kind === 'pressure build' && first.code === 'check.no-cranks') return 'Waiting for the crank.';
  if (first.code === 'check.build-not-begun') return `Waiting for the rise through ${from}.`;
  if (first.code === 'check.decay-not-begun') return `Waiting for the fall through ${from}.`;
  return describeProblem(first).message;
}
