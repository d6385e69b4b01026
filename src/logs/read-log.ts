import { problem, type Problem } from '../problems/problem.ts';
import type { ProblemCode } from '../problems/catalogue.ts';
import { failed, ok, type Result } from '../problems/result.ts';
import type { SignalId } from '../quantities/reading.ts';
import { collectRows, type CellCounts, type CollectedRows } from './collect-rows.ts';
import { decodeText } from './decode-text.ts';
import { listColumns } from './plan-columns.ts';
import { BLOCKING_NEEDS, type LogNeed, type LogPlan } from './log-plan.ts';
import { monotonicTime, type MonotonicTime, type TimeBreak } from './monotonic-time.ts';
import type { LeftOutRows } from './left-out-rows.ts';
import type { TimeKind } from './time-cell.ts';

/** Readings of one signal in canonical units. `value` is NaN where the log says that it has none ("N/A"). */
export interface SignalReadings {
  readonly atMs: Float64Array;
  readonly value: Float64Array;
}

/**
 * A speed log as read. `atMs` never falls. It is the log's own time where that counts from a zero of its own (seconds,
 * milliseconds, minutes), and counts from the first row where the log gives clock times or dates.
 * A blank cell gives no reading at all: loggers of several rates leave the slow columns blank in most rows.
 */
export interface SpeedLog {
  readonly readings: Readonly<Partial<Record<SignalId, SignalReadings>>>;
  readonly rowsUsed: number;
  readonly leftOut: readonly LeftOutRows[];
  /** Cells by signal that were blank, that said "no data" or made no number, and speeds that no engine has. */
  readonly cells: Readonly<Partial<Record<SignalId, CellCounts>>>;
  readonly breaks: readonly TimeBreak[];
  readonly intervalMs: number;
  readonly spread: MonotonicTime['spread'];
}

/**
 * Reads a log as planned. A problem when a question that decides the readings is still open, or when no row fits the plan.
 */
export function readSpeedLog(bytes: Uint8Array, plan: LogPlan): Result<SpeedLog> {
  const open = openQuestion(plan);
  if (open) return failed(open);
  const text = decodeText(bytes, plan.encoding);
  const rows = collectRows(text, plan);
  if (rows.count === 0) return failed(problem('log.plan-does-not-fit', { detail: describeLeftOut(rows) }));
  return ok(assemble(rows, plan));
}

const NOTES: Readonly<Partial<Record<LogNeed, readonly ProblemCode[]>>> = {
  speedColumn: ['log.no-speed', 'log.which-speed'],
  speedUnit: ['log.speed-unit'],
  interval: ['log.no-time', 'log.which-time', 'log.coarse-time'],
  timeUnit: ['log.time-unit'],
};

/** The first question that must be answered before the log can be read, as its problem; null when there is none. */
export function openQuestion(plan: LogPlan): Problem | null {
  const need = ['speedColumn' as const, ...BLOCKING_NEEDS].find((blocking) => plan.needs.includes(blocking));
  if (!need) return null;
  const code = NOTES[need]?.find((known) => plan.notes.some((note) => note.code === known));
  const context = plan.notes.find((note) => note.code === code)?.context;
  const columns = { count: plan.columns.length, columns: listColumns(plan.columns) };
  return problem(code ?? (need === 'interval' ? 'log.no-time' : 'log.no-speed'), context ?? columns);
}

const describeLeftOut = ({ leftOut }: CollectedRows): string =>
  leftOut.map(({ reason, count }) => `${count} × ${reason}`).join(', ') ||
  'it ends before the first row of data';

const OWN_ZERO: ReadonlySet<TimeKind> = new Set<TimeKind>(['seconds', 'milliseconds', 'minutes']);

function assemble(rows: CollectedRows, { time }: LogPlan): SpeedLog {
  const kind = time.source === 'column' ? time.kind : 'milliseconds';
  const monotonic = monotonicTime(rows.rawMs, rows.lines, kind);
  const zeroMs = OWN_ZERO.has(kind) ? 0 : (monotonic.atMs[0] ?? 0);
  const atMs = monotonic.atMs.map((at) => at - zeroMs);
  const readings: Partial<Record<SignalId, SignalReadings>> = {};
  const cells: Partial<Record<SignalId, CellCounts>> = {};
  for (const { signal, value, counts } of rows.columns) {
    readings[signal] = counts.blank === 0 ? { atMs, value } : withoutBlanks(atMs, value);
    cells[signal] = counts;
  }
  return {
    readings,
    cells,
    rowsUsed: rows.count,
    leftOut: rows.leftOut,
    breaks: monotonic.breaks.map((broken) => ({ ...broken, atMs: broken.atMs - zeroMs })),
    intervalMs: time.source === 'interval' ? (time.intervalMs ?? NaN) : monotonic.intervalMs,
    spread: monotonic.spread,
  };
}

/** Blank cells were collected as infinity, which no cell can say. */
function withoutBlanks(atMs: Float64Array, value: Float64Array): SignalReadings {
  const isReading = (_: number, i: number) => value[i] !== Infinity;
  return { atMs: atMs.filter(isReading), value: value.filter(isReading) };
}
