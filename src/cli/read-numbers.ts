import { DEFAULT_CRANK_SETTINGS } from '../crank/crank.ts';
import type { LogColumn, LogPlan } from '../logs/log-plan.ts';
import { planSpeedLog, type LogAnswers } from '../logs/plan-import.ts';
import { openQuestion, readSpeedLog } from '../logs/read-log.ts';
import { toLinkEvents } from '../logs/to-link-events.ts';
import { finishPipeline, startPipeline, stepPipeline } from '../pipeline/pipeline.ts';
import type { ProblemCode } from '../problems/catalogue.ts';
import { problem } from '../problems/problem.ts';
import { failed, ok, type Result } from '../problems/result.ts';
import type { InputOptions } from './arguments.ts';
import type { ReadLog } from './read-log.ts';

/** Reads a speed log to its end. What only a person could answer gives the question as a problem. */
export function readNumbers(bytes: Uint8Array, options: InputOptions): Result<ReadLog> {
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
