import type { LinkEvent } from '../link/link-event.ts';
import { problem } from '../problems/problem.ts';
import { NO_ORIGIN, SIGNAL_IDS, type Reading, type SignalId } from '../quantities/reading.ts';
import { millis } from '../quantities/time.ts';
import type { SignalReadings, SpeedLog } from './read-log.ts';

/**
 * The readings of a log in time order, at one instant in the order of SIGNAL_IDS, with a `gap` where the log's time
 * steps back. A cell that said "no data" is a reading that is not available.
 */
export function* toLinkEvents({ readings, breaks }: SpeedLog): Generator<LinkEvent, void, undefined> {
  const cursors = SIGNAL_IDS.flatMap((signal) => cursorOf(signal, readings[signal]) ?? []);
  const stepsBack = breaks.filter(({ kind }) => kind === 'backwards');
  let nextBreak = 0;
  for (;;) {
    let first: Cursor | undefined;
    for (const cursor of cursors)
      if (cursor.at < cursor.end && (!first || timeOf(cursor) < timeOf(first))) first = cursor;
    if (!first) return;
    const atMs = timeOf(first);
    for (let step = stepsBack[nextBreak]; step && step.atMs <= atMs; step = stepsBack[++nextBreak]) {
      yield {
        kind: 'gap',
        atMs: millis(step.atMs),
        problem: problem('log.time-backwards', { line: step.line }),
      };
    }
    yield { kind: 'reading', atMs: millis(atMs), reading: readingAt(first) };
    first.at++;
  }
}

interface Cursor {
  readonly signal: SignalId;
  readonly columns: SignalReadings;
  readonly end: number;
  at: number;
}

const cursorOf = (signal: SignalId, columns: SignalReadings | undefined): Cursor | null =>
  columns ? { signal, columns, end: columns.atMs.length, at: 0 } : null;

const timeOf = ({ columns, at }: Cursor): number => columns.atMs[at] ?? Infinity;

function readingAt({ signal, columns, at }: Cursor): Reading {
  const value = columns.value[at] ?? NaN;
  const missing = Number.isNaN(value);
  return {
    signal,
    atMs: millis(columns.atMs[at] ?? 0),
    value: missing ? null : value,
    quality: missing ? 'notAvailable' : 'valid',
    origin: NO_ORIGIN,
  };
}
