import type { ClockView } from '../ui/crank-clock-words.ts';
import { crankClock } from '../crank/crank-clock.ts';
import { judgeRun, type JudgedRun } from '../jobs/judge-run.ts';
import { runValues, sheetInForce, type RunValues } from '../jobs/run-entries.ts';
import type { StoredRun } from '../jobs/run.ts';
import type { LimitSheet, SpeedChart } from '../limits/limit-sheet.ts';
import type { LinkKind } from '../link/link-state.ts';
import { conditionValues } from '../pipeline/condition-values.ts';
import { crankTable, joinedAverage, type CrankTable } from '../pipeline/crank-table.ts';
import type { PipelineState } from '../pipeline/pipeline.ts';
import { CRANK_DELIVERY_GUIDE } from '../procedures/guides.ts';
import type { Result } from '../problems/result.ts';
import { staleAfterMs } from '../signals/freshness.ts';
import { chosenOrigin, traceOf } from '../signals/trace-set.ts';
import { neverOpened, type SessionState } from './session.ts';

/** Where a run stands, which decides what the screen asks for next. */
export type Stage = 'prepare' | 'connect' | 'crank' | 'read' | 'verdict';

export interface RunView {
  readonly run: StoredRun;
  /** What holds after the run's entries; of cranks, for the origin whose speed is used. */
  readonly values: RunValues;
  /** The limit sheet that the run is judged on: the one it began with, or one taken later. */
  readonly sheet: LimitSheet | null;
  readonly stage: Stage;
  readonly link: LinkKind;
  readonly pipeline: PipelineState | null;
  readonly nowMs: number;
  /** Up to where a crank under way is counted and drawn: `nowMs`, or less where speed has become stale. */
  readonly countedUntilMs: number;
  readonly table: CrankTable;
  readonly judged: Result<JudgedRun>;
  readonly clock: ClockView;
}

export interface RunViewInput {
  readonly run: StoredRun;
  readonly session: SessionState;
  readonly nowMs: number;
  /** The person said that they are done cranking. */
  readonly doneCranking: boolean;
}

const EMPTY_TABLE: CrankTable = { origin: null, phase: 'noData', cranks: [], underWay: null };

/** Everything that the run screen shows, from the kept run and what has been heard. Pure: time is an argument. */
export function viewRun({ run, session, nowMs, doneCranking }: RunViewInput): RunView {
  const own = session.runId === run.id ? session : null;
  const pipeline = own?.pipeline ?? null;
  const values = valuesOf(run, pipeline);
  const link = own && !neverOpened(own) ? own.link.kind : 'none';
  const over = link === 'ended' || link === 'lost';
  const table = pipeline
    ? crankTable(pipeline, { origin: values.origins.get('engineSpeed'), edges: values.edges, over })
    : EMPTY_TABLE;
  const facts = { ...factsOf(pipeline, table, values), onDate: run.createdAt.slice(0, 10) };
  const judged = judgeRun(run.sheet, run.check, facts, values);
  const countedUntilMs = pipeline ? countedUntil(pipeline, table, nowMs) : nowMs;
  const sheet = sheetInForce(run.sheet, values);
  const clock = clockOf(targetOf(sheet, run.check), table, values, countedUntilMs);
  const stage = stageOf({ run, values, link, clock, doneCranking, judged });
  return { run, values, sheet, stage, link, pipeline, nowMs, countedUntilMs, table, judged, clock };
}

/** Entries about a crank hold for the origin that they were made on: first it must be known whose speed is used. */
function valuesOf(run: StoredRun, pipeline: PipelineState | null): RunValues {
  const values = runValues(run.vessel, run.entries);
  if (!pipeline) return values;
  const origin = chosenOrigin(pipeline.traces, 'engineSpeed', values.origins.get('engineSpeed'));
  return origin === null ? values : runValues(run.vessel, run.entries, origin);
}

/**
 * How far the crank clock may run: while speed is awaited no further than to where it becomes stale. A bridge that falls silent in a
 * crank must not be counted as cranking (measurement.md 2 and 4).
 */
function countedUntil({ traces }: PipelineState, { origin, underWay }: CrankTable, nowMs: number): number {
  if (origin === null || !underWay) return nowMs;
  const speed = traceOf(traces, 'engineSpeed', origin);
  return Math.min(nowMs, (speed.atMs[speed.length - 1] ?? nowMs) + staleAfterMs(speed));
}

function factsOf(pipeline: PipelineState | null, table: CrankTable, values: RunValues) {
  return {
    cranks: table.cranks,
    average: joinedAverage(table.cranks, values.leftOut),
    conditions: pipeline ? conditionValues(pipeline, table.cranks) : {},
  };
}

type ClockTarget = Pick<SpeedChart, 'cranks' | 'crankSeconds' | 'timeTolerancePercent'>;

function targetOf(sheet: LimitSheet | null, check: string): ClockTarget {
  const chart = sheet?.limits.find((limit) => limit.check === check && limit.kind === 'speed chart');
  return chart?.kind === 'speed chart' ? chart : { cranks: 1, crankSeconds: 15, timeTolerancePercent: 5 };
}

function clockOf(target: ClockTarget, table: CrankTable, values: RunValues, nowMs: number): ClockView {
  const clock = crankClock({
    cranks: target.cranks,
    crankSeconds: target.crankSeconds,
    tolerancePercent: target.timeTolerancePercent,
    finished: table.cranks.filter((_, place) => !values.leftOut.has(place)).map(({ crank }) => crank),
    underWay: table.underWay?.start ?? null,
    nowMs,
    ...CRANK_DELIVERY_GUIDE.target,
  });
  // The screen draws the rest against the least rest, not against what has passed of it.
  const restSeconds = clock.state === 'resting' ? CRANK_DELIVERY_GUIDE.target.leastRestSeconds : 0;
  return { ...clock, restSeconds };
}

const NOT_OPEN: readonly LinkKind[] = ['none', 'opening', 'refused'];
const OVER: readonly LinkKind[] = ['ended', 'lost'];

interface StageFacts {
  readonly run: StoredRun;
  readonly values: RunValues;
  readonly link: LinkKind;
  readonly clock: ClockView;
  readonly doneCranking: boolean;
  readonly judged: Result<JudgedRun>;
}

function stageOf({ run, values, link, clock, doneCranking, judged }: StageFacts): Stage {
  if (judged.ok && judged.value.verdict) return 'verdict';
  if (run.source.adapter !== 'log-file' && !cautionsAccepted(values)) return 'prepare';
  if (NOT_OPEN.includes(link)) return 'connect';
  const reached = clock.state === 'done' || clock.state === 'over time';
  return OVER.includes(link) || doneCranking || reached ? 'read' : 'crank';
}

/** Every caution of the check has been ticked. */
export const cautionsAccepted = (values: RunValues): boolean =>
  CRANK_DELIVERY_GUIDE.cautions.every(({ id }) => values.cautions.has(id));
