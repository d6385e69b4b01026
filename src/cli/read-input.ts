import { DEFAULT_CRANK_SETTINGS } from '../crank/crank.ts';
import type { LogColumn, LogPlan } from '../logs/log-plan.ts';
import { planSpeedLog, type LogAnswers } from '../logs/plan-import.ts';
import { openQuestion, readSpeedLog } from '../logs/read-log.ts';
import { toLinkEvents } from '../logs/to-link-events.ts';
import { finishPipeline, startPipeline, stepPipeline, type PipelineState } from '../pipeline/pipeline.ts';
import type { ProblemCode } from '../problems/catalogue.ts';
import { problem, type Problem } from '../problems/problem.ts';
import { failed, ok, type Result } from '../problems/result.ts';
import { millis } from '../quantities/time.ts';
import { recogniseWire } from '../wire/recognise.ts';
import type { WireProtocol } from '../wire/wire-decoder.ts';
import type { InputOptions } from './arguments.ts';
import { openFile, type OpenedFile } from './open-file.ts';

/** A log read to its end: the pipeline's last state, and what the reading of it warns about. */
export interface ReadInput {
  readonly format: WireProtocol | 'speed log';
  readonly state: PipelineState;
  readonly warnings: readonly Problem[];
}

/** Reads FILE, plain or gzip, whatever it holds. Everything that cannot be used gives a problem with its remedy. */
export function readInput(options: InputOptions): Result<ReadInput> {
  const opened = openFile(options.file);
  if (!opened.ok) return opened;
  const file = opened.value;
  try {
    const wire = recogniseWire(file.beginning);
    return wire ? readFrames(file, wire, options) : readNumbers(file.all(), options);
  } finally {
    file.close();
  }
}

function readFrames(file: OpenedFile, wire: WireProtocol, { intervalMs }: InputOptions): Result<ReadInput> {
  let state = startPipeline({ wire, crankSettings: DEFAULT_CRANK_SETTINGS, givenIntervalMs: intervalMs });
  for (const bytes of file.pieces()) state = stepPipeline(state, { kind: 'bytes', atMs: millis(0), bytes });
  state = finishPipeline(state);
  if (state.untimedFrames > 0) return failed(problem('wire.no-time'));
  return ok({ format: wire, state, warnings: [] });
}

function readNumbers(bytes: Uint8Array, options: InputOptions): Result<ReadInput> {
  const plan = planWithAnswers(bytes, options);
  if (!plan.ok) return plan;
  const question = openQuestion(plan.value);
  if (question) return failed(question);
  const log = readSpeedLog(bytes, plan.value);
  if (!log.ok) return log;
  let state = startPipeline({
    wire: 'readings',
    crankSettings: DEFAULT_CRANK_SETTINGS,
    givenIntervalMs: null,
  });
  for (const event of toLinkEvents(log.value)) state = stepPipeline(state, event);
  const warnings = plan.value.notes.map(({ code, context }) => ({ code: code as ProblemCode, context }));
  return ok({ format: 'speed log', state: finishPipeline(state), warnings });
}

/** The plan with the options of the command line as answers; columns are named as in the header, or by number from 1. */
function planWithAnswers(bytes: Uint8Array, options: InputOptions): Result<LogPlan> {
  const first = planSpeedLog(bytes);
  if (!first.ok) return first;
  const { columns } = first.value;
  const speed = options.speedColumn === null ? undefined : columnNamed(columns, options.speedColumn);
  const time = options.timeColumn === null ? undefined : columnNamed(columns, options.timeColumn);
  for (const [asked, found] of [
    [options.speedColumn, speed],
    [options.timeColumn, time],
  ] as const)
    if (found === null)
      return failed(
        problem('log.no-such-column', { asked: asked ?? '', has: columns.map(nameOf).join(', ') }),
      );
  const answers: LogAnswers = {
    ...(speed
      ? { signals: { engineSpeed: speed.index }, units: { [speed.index]: speed.unit ?? 'rpm' } }
      : {}),
    ...(time ? { timeColumn: time.index } : {}),
    ...(options.intervalMs === null ? {} : { timeColumn: null, intervalMs: options.intervalMs }),
  };
  return Object.keys(answers).length > 0 ? planSpeedLog(bytes, answers) : first;
}

function columnNamed(columns: readonly LogColumn[], name: string): LogColumn | null {
  const wanted = name.trim().toLowerCase();
  return (
    columns.find((column) => nameOf(column).toLowerCase() === wanted) ?? columns[Number(wanted) - 1] ?? null
  );
}

const nameOf = ({ header, index }: LogColumn): string => header || `${index + 1}`;
