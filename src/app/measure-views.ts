import type { ValueMeasurement } from '../checks/value-measurement.ts';
import type { JudgedCheck } from '../jobs/judged-check.ts';
import type { StopwatchView } from '../ui/stopwatch-words.ts';
import { READY_STOPWATCH } from '../ui/stopwatch-words.ts';
import type { RunView } from './run-view.ts';

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

/** The collection clock as the screen shows it. @param nowMs on the clock that times it. */
export function stopwatchView(
  { measurement }: JudgedCheck,
  { guide, values }: RunView,
  nowMs: number,
): StopwatchView {
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
  };
  if (byHand && held.endMs === null && values.collectedMs === null)
    return { ...common, phase: 'running', elapsedSeconds: Math.max(0, nowMs - held.startMs) / 1000 };
  if (collection.time) return { ...common, phase: 'stopped', elapsedSeconds: collection.time.spanMs / 1000 };
  return collection.runningSinceMs === null
    ? common
    : { ...common, phase: 'running', elapsedSeconds: (nowMs - collection.runningSinceMs) / 1000 };
}
