import { crankTable, type CrankTable } from '../pipeline/crank-table.ts';
import { describeProblem, type Problem } from '../problems/problem.ts';
import { NO_ORIGIN, SIGNAL_IDS, type SignalId } from '../quantities/reading.ts';
import { canonicalUnit } from '../quantities/convert.ts';
import { SIGNALS } from '../signals/catalogue.ts';
import { chosenOrigin, traceOf } from '../signals/trace-set.ts';
import type { ReadLog } from './read-log.ts';

/** One crank as the command line gives it. Seconds count from the first frame or row of the file. */
export interface CrankLine {
  readonly startSeconds: number;
  readonly endSeconds: number;
  readonly durationSeconds: number;
  readonly meanSpeedRpm: number | null;
  readonly sampleMeanRpm: number | null;
  readonly minRpm: number | null;
  readonly maxRpm: number | null;
  readonly samples: number;
  readonly coverage: number;
  readonly endedBy: string;
  readonly cutAtStart: boolean;
}

export interface SignalLine {
  /** Who sent it: channel * 256 + J1939 source address; null for a log without addresses. */
  readonly origin: number | null;
  readonly samples: number;
  readonly min: number | null;
  readonly max: number | null;
  readonly unit: string;
}

export interface CrankReport {
  readonly file: string;
  readonly format: string;
  readonly signals: Readonly<Record<string, SignalLine>>;
  readonly malformed: number;
  readonly malformedByReason: Readonly<Record<string, number>>;
  readonly cranks: readonly CrankLine[];
  readonly warnings: readonly { readonly code: string; readonly message: string; readonly remedy: string }[];
}

/** The table of a log that was read to its end. */
export const tableOf = ({ state }: ReadLog): CrankTable => crankTable(state, { over: true });

/** What `cranks` prints with --json. */
export function crankReport(file: string, input: ReadLog): CrankReport {
  const { state, format, warnings } = input;
  const firstMs = state.firstMs ?? 0;
  const byReason = Object.fromEntries(
    Object.entries(state.wire?.counts.malformed ?? {}).filter(([, count]) => count > 0),
  );
  return {
    file,
    format,
    signals: signalLines(input),
    malformed: Object.values(byReason).reduce((sum, count) => sum + count, 0),
    malformedByReason: byReason,
    cranks: tableOf(input).cranks.map(({ crank, startMs, endMs, time, average }) => ({
      startSeconds: round((startMs - firstMs) / 1000, 4),
      endSeconds: round((endMs - firstMs) / 1000, 4),
      durationSeconds: round(time.spanMs / 1000, 4),
      meanSpeedRpm: number(average.meanRpm),
      sampleMeanRpm: number(average.sampleMeanRpm),
      minRpm: number(average.minRpm),
      maxRpm: number(average.maxRpm),
      samples: average.samples,
      coverage: round(average.coverage, 4),
      endedBy: crank.endedBy,
      cutAtStart: crank.cutAtStart,
    })),
    warnings: warnings.map(problemLine),
  };
}

export const problemLine = (each: Problem) => ({ code: each.code, ...describeProblem(each) });

function signalLines({ state }: ReadLog): Record<string, SignalLine> {
  const lines: Partial<Record<SignalId, SignalLine>> = {};
  for (const signal of SIGNAL_IDS) {
    const origin = chosenOrigin(state.traces, signal);
    if (origin === null) continue;
    const { value, length } = traceOf(state.traces, signal, origin);
    let min = Infinity;
    let max = -Infinity;
    for (let row = 0; row < length; row++) {
      if (value[row]! < min) min = value[row]!;
      if (value[row]! > max) max = value[row]!;
    }
    const unit = canonicalUnit(SIGNALS[signal].dimension);
    lines[signal] = {
      origin: origin === NO_ORIGIN ? null : origin,
      samples: length,
      min: number(min),
      max: number(max),
      unit,
    };
  }
  return lines;
}

const round = (value: number, digits: number): number => Number(value.toFixed(digits));
const number = (value: number): number | null => (Number.isFinite(value) ? round(value, 4) : null);

/** What `cranks` prints for people: a short aligned table. */
export function crankText({ file, format, signals, malformed, cranks, warnings }: CrankReport): string {
  const speed = signals['engineSpeed'];
  const lines = [
    `${file}: ${format}, ${speed ? `${speed.samples} speed readings` : 'no engine speed'}, ${malformed} lines not understood`,
    ...warnings.map(({ message, remedy }) => `! ${message} ${remedy}`),
    '',
  ];
  if (cranks.length === 0) return [...lines, 'No crank was found.', ''].join('\n');
  const head = [
    'crank',
    'start s',
    'end s',
    'time s',
    'mean rpm',
    'plain mean',
    'min',
    'max',
    'samples',
    'coverage',
    'ended by',
  ];
  const rows = cranks.map((crank, place) => [
    `${place + 1}`,
    crank.startSeconds.toFixed(2),
    crank.endSeconds.toFixed(2),
    crank.durationSeconds.toFixed(2),
    shown(crank.meanSpeedRpm),
    shown(crank.sampleMeanRpm),
    shown(crank.minRpm),
    shown(crank.maxRpm),
    `${crank.samples}`,
    `${(crank.coverage * 100).toFixed(0)} %`,
    `${crank.endedBy}${crank.cutAtStart ? ', cut at its beginning' : ''}`,
  ]);
  return [...lines, ...aligned([head, ...rows]), ''].join('\n');
}

const shown = (value: number | null): string => (value === null ? '–' : value.toFixed(1));

function aligned(rows: readonly (readonly string[])[]): readonly string[] {
  const widths = rows[0]!.map((_, column) => Math.max(...rows.map((row) => row[column]!.length)));
  return rows.map((row) =>
    row
      .map((cell, column) => (column === row.length - 1 ? cell : cell.padStart(widths[column]!)))
      .join('  ')
      .trimEnd(),
  );
}
