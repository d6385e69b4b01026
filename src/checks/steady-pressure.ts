import { problem, type Problem } from '../problems/problem.ts';
import { NO_ORIGIN } from '../quantities/reading.ts';
import { SIGNALS } from '../signals/catalogue.ts';
import { SPEED_SPIKE, cleanRows, rowAt, type CleanRows } from '../signals/clean-rows.ts';
import { stepOf, topOf } from '../signals/resolution.ts';
import { longestSteady, type RowSpan } from '../signals/steady.ts';
import type { SpeedWindow, SteadyPressureSettings } from './check-settings.ts';
import type { ChosenSignals } from './chosen-signal.ts';
import { noValue } from './empty-value.ts';
import { holeWarnings } from './hole-warnings.ts';
import { referenceOf, restrictionKPa } from './restriction.ts';
import { rounded } from './rounded.ts';
import { stretchValue } from './stretch-value.ts';
import { typedMeasurement } from './typed-measurement.ts';
import type { ChosenStretch, TypedValue, ValueMeasurement } from './value-measurement.ts';

export interface SteadyPressureInput {
  readonly settings: SteadyPressureSettings;
  readonly signals: ChosenSignals;
  /** Read off a gauge by hand; it holds instead of the data. */
  readonly typed: TypedValue | null;
  /** The stretch that the person chose; it holds instead of the found one. */
  readonly chosen: ChosenStretch | null;
}

/**
 * The mean of a pressure over its longest steady stretch at the operating point: all of its values within `steadyWithinKPa` of each other, engine
 * speed within its window, no hole, at least `leastSeconds` long. While there is none the reasons say what is missing. With `vacuum` the value is a
 * positive restriction (restriction.ts says how signs are taken); typed values are restrictions already, a gauge reading below zero is turned.
 */
export function measureSteadyPressure(input: SteadyPressureInput): ValueMeasurement {
  const { settings, signals, typed, chosen } = input;
  if (typed) return typedPressure(settings, typed);
  const heard = signals[settings.signal];
  const rows = pressureRows(settings, signals);
  const label = SIGNALS[settings.signal].label.toLowerCase();
  if (!heard || rows.count === 0) return noValue('pressure', [problem('check.no-signal', { signal: label })]);
  const step = stepOf(settings.signal, heard.origin, rows);
  const speed = cleanRows(signals.engineSpeed?.trace ?? null, SPEED_SPIKE);
  const place = placeOf(settings.speed, speed);
  if (chosen) return ofChosen(input, chosen, { rows, step, speed, place });
  const span = longestSteady(rows, {
    within: settings.steadyWithinKPa,
    mayCount: (row) => place(rows.atMs[row]!) === 'within',
  });
  const seconds = span ? (rows.atMs[span.last]! - rows.atMs[span.first]!) / 1000 : 0;
  if (!span || seconds < settings.leastSeconds)
    return noValue('pressure', [missing(settings, { rows, speed, place, span, seconds })]);
  return finished(input, stretchValue({ rows, span, step, speed, spikes: rows.spikes }));
}

/** The value with all that is odd about it. */
function finished(input: SteadyPressureInput, found: ValueMeasurement): ValueMeasurement {
  const signal = SIGNALS[input.settings.signal].label.toLowerCase();
  const unknown = found.step > 0 ? [] : [problem('check.step-unknown', { signal })];
  return checked(input.settings, atTop(input, { ...found, warnings: [...found.warnings, ...unknown] }));
}

/**
 * Where the sensor or its parameter can say no more, the pressure is only known to be at least so high. For a restriction that is read below the atmosphere the
 * top is the other end, where there is none.
 */
function atTop({ settings, signals }: SteadyPressureInput, found: ValueMeasurement): ValueMeasurement {
  const { signal, vacuum } = settings;
  const top = topOf(signal, signals[signal]?.origin ?? NO_ORIGIN);
  const highest = found.facts.find(({ name }) => name === 'highest')?.value ?? -Infinity;
  if ((vacuum && referenceOf(signal) !== 'differential') || highest < top - found.step / 2) return found;
  const label = SIGNALS[signal].label.toLowerCase();
  const reason = problem('check.at-top-of-range', { signal: label, top: rounded(top) });
  return { ...found, atLeast: true, reasons: [...found.reasons, reason] };
}

/** The pressure as it is graded: as a restriction where the check asks for one. */
function pressureRows(settings: SteadyPressureSettings, signals: ChosenSignals): CleanRows {
  const rule = { floor: settings.steadyWithinKPa / 2, share: 0 };
  const rows = cleanRows(signals[settings.signal]?.trace ?? null, rule);
  if (!settings.vacuum) return rows;
  const reference = referenceOf(settings.signal);
  return { ...rows, value: rows.value.map((reading) => restrictionKPa(reading, reference)) };
}

function typedPressure({ vacuum }: SteadyPressureSettings, typed: TypedValue): ValueMeasurement {
  if (!vacuum) return typedMeasurement('pressure', typed, true);
  const found = typedMeasurement('pressure', { ...typed, value: Math.abs(typed.value) });
  return checked({ vacuum }, found);
}

/** A restriction below zero is a pressure, one beyond the atmosphere cannot be: both mean that the reading is of another kind. */
function checked(
  { vacuum }: Pick<SteadyPressureSettings, 'vacuum'>,
  found: ValueMeasurement,
): ValueMeasurement {
  const { value } = found;
  if (!vacuum || value === null) return found;
  const shown = { value: rounded(value, 1), pressure: rounded(0 - value, 1) };
  const wrong: Problem[] = [];
  // Near zero it may be the noise of a clean path.
  if (value < -Math.max(found.step, 2 * found.standardUncertainty))
    wrong.push(problem('check.restriction-negative', shown));
  if (value > LARGEST_RESTRICTION_KPA) wrong.push(problem('check.restriction-impossible', shown));
  return { ...found, reasons: [...found.reasons, ...wrong] };
}

/** The highest atmosphere ever measured at sea level is a little above 108 kPa (from memory): no restriction is larger. */
const LARGEST_RESTRICTION_KPA = 108;

/** Where the engine speed lies at an instant, seen from the operating point. */
type Place = 'within' | 'below' | 'above' | 'not known';

/** The last speed at or before an instant holds until the next, unless it is stale by then. */
function placeOf(window: SpeedWindow | null, speed: CleanRows): (atMs: number) => Place {
  if (window === null || (window.minRpm === null && window.maxRpm === null)) return () => 'within';
  return (atMs) => {
    const row = rowAt(speed, atMs);
    if (row < 0 || atMs - speed.atMs[row]! > speed.holeMs) return 'not known';
    const rpm = speed.value[row]!;
    if (rpm < (window.minRpm ?? -Infinity)) return 'below';
    return rpm > (window.maxRpm ?? Infinity) ? 'above' : 'within';
  };
}

interface Seen {
  readonly rows: CleanRows;
  readonly speed: CleanRows;
  readonly place: (atMs: number) => Place;
}

/** What is still missing: the speed at the end of the data where nothing counted there, else that it is not steady for long enough yet. */
function missing(
  settings: SteadyPressureSettings,
  { rows, speed, place, span, seconds }: Seen & { readonly span: RowSpan | null; readonly seconds: number },
): Problem {
  const lastMs = rows.atMs[rows.count - 1]!;
  const now = place(lastMs);
  const last = rowAt(speed, lastMs);
  const context = { speed: last < 0 ? 'none' : rounded(speed.value[last]!), window: windowText(settings) };
  if (now === 'not known' && !span) return problem('check.speed-not-known', context);
  if (now === 'below') return problem('check.speed-below-window', context);
  if (now === 'above') return problem('check.speed-above-window', context);
  return problem('check.not-steady', {
    seconds: rounded(seconds, 1),
    least: settings.leastSeconds,
    within: settings.steadyWithinKPa,
  });
}

function windowText({ speed }: SteadyPressureSettings): string {
  const min = speed?.minRpm ?? null;
  const max = speed?.maxRpm ?? null;
  if (min === null) return `at most ${max} rpm`;
  return max === null ? `at least ${min} rpm` : `${min} to ${max} rpm`;
}

/** The stretch that the person chose holds whatever it looks like; what is odd about it warns. */
function ofChosen(
  input: SteadyPressureInput,
  { startMs, endMs, reason }: ChosenStretch,
  { rows, step, speed, place }: Seen & { readonly step: number },
): ValueMeasurement {
  const { settings } = input;
  const before = rowAt(rows, startMs);
  const first = before >= 0 && rows.atMs[before] === startMs ? before : before + 1;
  const last = rowAt(rows, endMs);
  if (last <= first) return noValue('pressure', [problem('check.stretch-empty')]);
  const found = stretchValue({ rows, span: { first, last }, step, speed, spikes: rows.spikes });
  const holes = holeWarnings(rows, settings.signal, { startMs: rows.atMs[first]!, endMs: rows.atMs[last]! });
  const warnings = [problem('check.stretch-chosen', { why: reason }), ...holes];
  const values = rows.value.subarray(first, last + 1);
  const range = values.reduce((a, b) => Math.max(a, b)) - values.reduce((a, b) => Math.min(a, b));
  const seconds = rounded((rows.atMs[last]! - rows.atMs[first]!) / 1000, 1);
  if (range > settings.steadyWithinKPa || seconds < settings.leastSeconds)
    warnings.push(
      problem('check.stretch-not-steady', {
        seconds,
        range: rounded(range, 1),
        within: settings.steadyWithinKPa,
        least: settings.leastSeconds,
      }),
    );
  const outside = rows.atMs.subarray(first, last + 1).some((atMs) => place(atMs) !== 'within');
  if (outside) warnings.push(problem('check.stretch-off-speed', { window: windowText(settings) }));
  return finished(input, { ...found, warnings: [...found.warnings, ...warnings] });
}
