import type { CollectedVolumeSettings } from '../checks/check-settings.ts';
import type { Collection } from '../checks/collection.ts';
import type { Bounds } from '../checks/held-signal.ts';
import type { ValueMeasurement } from '../checks/value-measurement.ts';
import type { JudgedCheck } from '../jobs/judged-check.ts';
import type { HeldView } from '../ui/held-words.ts';
import type { StopwatchView } from '../ui/stopwatch-words.ts';
import { READY_STOPWATCH } from '../ui/stopwatch-words.ts';
import { heldView } from './held-view.ts';
import type { RunView } from './run-view.ts';
import type { PressureUnits } from './shown-pressure.ts';

/** The value of a check that measures one; null for collections, cranks and inspections. */
export function measuredValue({ measurement }: JudgedCheck): ValueMeasurement | null {
  return 'value' in measurement ? measurement.value : null;
}

/** What a collection waits for when it is not started by hand. */
const WAITS_FOR = {
  hand: '',
  signal: 'Starts and stops by itself with its signal.',
  cranks: 'Counts the cranks: turn the starter.',
};

/** Default tolerance of a collection's time (measurement.md 4). */
const TOLERANCE = 0.05;

/** The collection clock as the screen shows it, with what has to hold meanwhile. `nowMs`: on the clock that times it. */
export function stopwatchView(
  { measurement }: JudgedCheck,
  view: RunView,
  { nowMs, units }: { readonly nowMs: number; readonly units: PressureUnits },
): StopwatchView {
  const { guide, values } = view;
  if (measurement.kind !== 'collected volume' || guide.settings.kind !== 'collected volume')
    return READY_STOPWATCH;
  const { collected, collection } = measurement;
  const { settings } = guide;
  const targetSeconds = collected.targetSeconds ?? settings.seconds;
  const held = values.stopwatch;
  const byHand = held !== null && held.by === 'hand';
  const startedBy = byHand ? 'hand' : settings.startedBy;
  const common = {
    ...READY_STOPWATCH,
    targetSeconds,
    toleranceSeconds: targetSeconds * TOLERANCE,
    startedBy,
    waitsFor: WAITS_FOR[startedBy],
    typed: collection.from === 'typed',
    held: collectionHeld(settings, collection, view, units),
  };
  if (byHand && held.endMs === null && values.collectedMs === null)
    return { ...common, phase: 'running', elapsedSeconds: Math.max(0, nowMs - held.startMs) / 1000 };
  if (collection.time) return { ...common, phase: 'stopped', elapsedSeconds: collection.time.spanMs / 1000 };
  return collection.runningSinceMs === null
    ? common
    : { ...common, phase: 'running', elapsedSeconds: (nowMs - collection.runningSinceMs) / 1000 };
}

/** What has to hold while it is collected: a pressure that the check asks for, else the engine speed. Null without data. */
function collectionHeld(
  { holds, speed }: CollectedVolumeSettings,
  { stretches, runningSinceMs }: Collection,
  { pipeline, facts, nowMs }: RunView,
  units: PressureUnits,
): HeldView | null {
  const atSpeed: Bounds | null = speed && { signal: 'engineSpeed', min: speed.minRpm, max: speed.maxRpm };
  const bounds = holds ?? atSpeed;
  if (!pipeline || !bounds) return null;
  const running = runningSinceMs === null ? [] : [{ startMs: runningSinceMs, endMs: nowMs }];
  return heldView(
    { bounds, signals: facts.signals, nowMs, over: stretches.length > 0 ? stretches : running },
    units,
  );
}
