import { outsideBy, type Bounds } from '../checks/held-signal.ts';
import type { SteadyPressureSettings } from '../checks/check-settings.ts';
import type { ChosenSignals } from '../checks/chosen-signal.ts';
import { referenceOf, restrictionKPa } from '../checks/restriction.ts';
import type { ValueMeasurement } from '../checks/value-measurement.ts';
import type { JudgedCheck } from '../jobs/judged-check.ts';
import { describeProblem } from '../problems/problem.ts';
import { SPEED_SPIKE, cleanRows, rowAt, type CleanRows } from '../signals/clean-rows.ts';
import { freshness } from '../signals/freshness.ts';
import type { SteadyView } from '../ui/steady-gauge.ts';
import type { Trend } from '../ui/value-tile.ts';
import { heldView } from './held-view.ts';
import type { RunView } from './run-view.ts';
import { measuredLabel, pressureScale, type PressureUnits } from './shown-pressure.ts';

/** Over so much time a trend is told: shorter is noise, longer is history. */
const TREND_MS = 2000;
/** A move by less than this part of what counts as steady is none. */
const TREND_PART = 0.1;

/** A pressure at an operating point as it is shown while it is measured; null for checks of another kind. */
export function steadyView(checked: JudgedCheck, view: RunView, units: PressureUnits): SteadyView | null {
  const { settings } = view.guide;
  const { measurement, limit } = checked;
  if (settings.kind !== 'steady pressure' || measurement.kind !== 'steady pressure') return null;
  const { signals } = view.facts;
  const scale = pressureScale(settings, units);
  const heard = signals[settings.signal];
  const rows = shownRows(settings, signals);
  const bounds = speedBounds(settings);
  const window = limit?.kind === 'window' ? limit : null;
  const of = (kPa: number | null) => (kPa === null ? null : scale.of(kPa));
  return {
    label: measuredLabel(settings),
    value: rows.count === 0 ? null : scale.of(rows.value[rows.count - 1]!),
    state: heard ? freshness(heard.trace, view.nowMs).state : 'waiting',
    unit: scale.unit,
    digits: scale.digits,
    trend: trendOf(rows, settings.steadyWithinKPa * TREND_PART),
    min: of(window?.min ?? null),
    max: of(window?.max ?? null),
    speed: bounds && heldView({ bounds, signals, nowMs: view.nowMs, over: [] }, units),
    steadySeconds: steadyNowMs(rows, signals, settings) / 1000,
    neededSeconds: settings.leastSeconds,
    found: foundOf(measurement.value, scale.of),
    missing: missingOf(measurement.value),
  };
}

/** The pressure as it is graded: below the atmosphere as a positive restriction. */
function shownRows({ signal, steadyWithinKPa, vacuum }: SteadyPressureSettings, signals: ChosenSignals) {
  const rows = cleanRows(signals[signal]?.trace ?? null, { floor: steadyWithinKPa / 2, share: 0 });
  if (!vacuum) return rows;
  return { ...rows, value: rows.value.map((reading) => restrictionKPa(reading, referenceOf(signal))) };
}

function speedBounds({ speed }: Pick<SteadyPressureSettings, 'speed'>): Bounds | null {
  if (!speed || (speed.minRpm === null && speed.maxRpm === null)) return null;
  return { signal: 'engineSpeed', min: speed.minRpm, max: speed.maxRpm };
}

/** How long it has been steady at its operating point until now, back from the last row, ms. */
export function steadyNowMs(
  rows: CleanRows,
  signals: ChosenSignals,
  settings: Pick<SteadyPressureSettings, 'speed' | 'steadyWithinKPa'>,
): number {
  const bounds = speedBounds(settings);
  const speed = bounds && cleanRows(signals.engineSpeed?.trace ?? null, SPEED_SPIKE);
  const last = rows.count - 1;
  let [low, high, first] = [Infinity, -Infinity, rows.count];
  for (let row = last; row >= 0; row--) {
    const value = rows.value[row]!;
    [low, high] = [Math.min(low, value), Math.max(high, value)];
    const isHole = row < last && rows.atMs[row + 1]! - rows.atMs[row]! > rows.holeMs;
    if (isHole || high - low > settings.steadyWithinKPa) break;
    if (bounds && speed && !isAtSpeed(speed, rows.atMs[row]!, bounds)) break;
    first = row;
  }
  return first > last ? 0 : rows.atMs[last]! - rows.atMs[first]!;
}

function isAtSpeed(speed: CleanRows, atMs: number, bounds: Bounds): boolean {
  const row = rowAt(speed, atMs);
  if (row < 0 || atMs - speed.atMs[row]! > speed.holeMs) return false;
  return outsideBy(speed.value[row]!, bounds) === 0;
}

function trendOf(rows: CleanRows, leastKPa: number): Trend | null {
  if (rows.count < 2) return null;
  const last = rows.count - 1;
  const before = Math.max(0, rowAt(rows, rows.atMs[last]! - TREND_MS));
  const by = rows.value[last]! - rows.value[before]!;
  if (Math.abs(by) < leastKPa) return 'steady';
  return by > 0 ? 'rising' : 'falling';
}

function foundOf({ value, facts }: ValueMeasurement, of: (kPa: number) => number): SteadyView['found'] {
  if (value === null) return null;
  const fact = (name: string) => facts.find((each) => each.name === name)?.value ?? 0;
  const halfSpread = Math.abs(of(fact('highest')) - of(fact('lowest'))) / 2;
  return { mean: of(value), halfSpread, seconds: fact('time') };
}

/** What the strip of engine speed says already: here only what to do about it. */
const SHOWN_BY_SPEED: readonly string[] = ['check.speed-below-window', 'check.speed-above-window'];

/** What has to be done first. That it is not steady yet the gauge shows by itself. */
const missingOf = ({ value, reasons }: ValueMeasurement): readonly string[] =>
  value === null
    ? reasons
        .filter(({ code }) => code !== 'check.not-steady')
        .map((reason) => {
          const { message, remedy } = describeProblem(reason);
          return SHOWN_BY_SPEED.includes(reason.code) ? remedy : `${message} ${remedy}`;
        })
    : [];
