import type { ClockView } from '../ui/crank-clock-words.ts';
import { crankClock } from '../crank/crank-clock.ts';
import type { Verdict } from '../grading/verdict.ts';
import { checkFacts, type CheckFacts } from '../jobs/check-facts.ts';
import { judgeCheck } from '../jobs/judge-check.ts';
import { judgeRun, type JudgedRun } from '../jobs/judge-run.ts';
import type { JudgedCheck } from '../jobs/judged-check.ts';
import { runValues, sheetInForce, type RunValues } from '../jobs/run-entries.ts';
import type { StoredRun } from '../jobs/run.ts';
import type { LimitSheet, SpeedChart } from '../limits/limit-sheet.ts';
import type { LinkKind } from '../link/link-state.ts';
import { crankTable, type CrankTable } from '../pipeline/crank-table.ts';
import type { PipelineState } from '../pipeline/pipeline.ts';
import type { ProcedureCheck } from '../procedures/procedure.ts';
import { problem } from '../problems/problem.ts';
import { failed, type Result } from '../problems/result.ts';
import { staleAfterMs } from '../signals/freshness.ts';
import { chosenOrigin, traceOf } from '../signals/trace-set.ts';
import { guideOf, starterRules } from './guide-of.ts';
import { stageOf, type Stage } from './run-stage.ts';
import { neverOpened, type SessionState } from './session.ts';

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
  /** What the data say, each signal of the origin that is used. */
  readonly facts: CheckFacts;
  /** The check as it is written for this run. */
  readonly guide: ProcedureCheck;
  /** A crank delivery, judged; a run of another kind has no cranks to judge by a chart. */
  readonly judged: Result<JudgedRun>;
  /** A run of another kind than crank delivery, measured and judged; null for crank deliveries. */
  readonly checked: Result<JudgedCheck> | null;
  /** The verdict of either; null while there is none. */
  readonly verdict: Verdict | null;
  readonly clock: ClockView;
  /** The last instant of the data when the check was judged, ms; null without data. */
  readonly judgedAtMs: number | null;
}

export interface RunViewInput {
  readonly run: StoredRun;
  readonly session: SessionState;
  readonly nowMs: number;
  /** The person said that they are done cranking. */
  readonly doneCranking: boolean;
  /** The look before, where there was one: a drive is not judged anew at every look. */
  readonly earlier?: RunView | null;
}

/** A long drive takes a noticeable part of a second to be judged: while it is recorded, once a second of wall time is enough. */
const JUDGE_DRIVE_EVERY_MS = 1000;

const EMPTY_TABLE: CrankTable = { origin: null, phase: 'noData', cranks: [], underWay: null };

/** Everything that the run screen shows, from the kept run and what has been heard. Pure: time is an argument. */
export function viewRun({ run, session, nowMs, doneCranking, earlier = null }: RunViewInput): RunView {
  const own = session.runId === run.id ? session : null;
  const pipeline = own?.pipeline ?? null;
  const values = valuesOf(run, pipeline);
  const link = own && !neverOpened(own) ? own.link.kind : 'none';
  const over = link === 'ended' || link === 'lost';
  const table = pipeline
    ? crankTable(pipeline, { origin: values.origins.get('engineSpeed'), edges: values.edges, over })
    : EMPTY_TABLE;
  const guide = guideOf(run);
  const facts = checkFacts(pipeline, table, values, run.createdAt.slice(0, 10));
  const sheet = sheetInForce(run.sheet, values);
  const kept = stillHolds(earlier, { run, facts, over, rate: session.rate });
  const { judged, checked, verdict, judgedAtMs } = kept ?? judge({ run, guide, facts, values, over });
  const countedUntilMs = pipeline ? countedUntil(pipeline, table, nowMs) : nowMs;
  const clock = clockOf(guide, targetOf(sheet, run.check), { table, values, nowMs: countedUntilMs });
  const stage = stageOf({ run, guide, values, link, clock, doneCranking, verdict });
  const found = { facts, guide, judged, checked, verdict, clock, judgedAtMs };
  return { run, values, sheet, stage, link, pipeline, nowMs, countedUntilMs, table, ...found };
}

/** The look before, where what it says of a drive that goes on is not older than a second; nothing may have been entered since. */
function stillHolds(
  earlier: RunView | null,
  { run, facts, over, rate }: Pick<Judging, 'run' | 'facts' | 'over'> & { readonly rate: number },
): RunView | null {
  if (over || run.kind !== 'pressure deviation' || earlier?.run !== run) return null;
  if (facts.lastMs === null || earlier.judgedAtMs === null) return null;
  const ageMs = facts.lastMs - earlier.judgedAtMs;
  return ageMs >= 0 && ageMs < JUDGE_DRIVE_EVERY_MS * rate ? earlier : null;
}

interface Judging {
  readonly run: StoredRun;
  readonly guide: ProcedureCheck;
  readonly facts: CheckFacts;
  readonly values: RunValues;
  readonly over: boolean;
}

function judge({
  run,
  guide,
  facts,
  values,
  over,
}: Judging): Pick<RunView, 'judged' | 'checked' | 'verdict' | 'judgedAtMs'> {
  const judgedAtMs = facts.lastMs;
  const { kind, check, sheet } = run;
  if (kind === 'crank delivery') {
    const judged = judgeRun(sheet, check, facts, values);
    return { judged, checked: null, verdict: judged.ok ? judged.value.verdict : null, judgedAtMs };
  }
  const checked = judgeCheck({ kind, guide, check, sheet, facts, values, over });
  return {
    judged: failed(problem('limit.not-a-speed-chart', { check, sheet: sheet?.title ?? '' })),
    checked,
    verdict: checked.ok ? checked.value.verdict : null,
    judgedAtMs,
  };
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

interface Cranked {
  readonly table: CrankTable;
  readonly values: RunValues;
  readonly nowMs: number;
}

type ClockTarget = Pick<SpeedChart, 'cranks' | 'crankSeconds' | 'timeTolerancePercent'>;

function targetOf(sheet: LimitSheet | null, check: string): ClockTarget {
  const chart = sheet?.limits.find((limit) => limit.check === check && limit.kind === 'speed chart');
  return chart?.kind === 'speed chart' ? chart : { cranks: 1, crankSeconds: 15, timeTolerancePercent: 5 };
}

function clockOf(guide: ProcedureCheck, target: ClockTarget, cranked: Cranked): ClockView {
  const { table, values, nowMs } = cranked;
  const rules = starterRules(guide);
  const clock = crankClock({
    cranks: target.cranks,
    crankSeconds: target.crankSeconds,
    tolerancePercent: target.timeTolerancePercent,
    finished: table.cranks.filter((_, place) => !values.leftOut.has(place)).map(({ crank }) => crank),
    underWay: table.underWay?.start ?? null,
    nowMs,
    ...rules,
  });
  // The screen draws the rest against the least rest, not against what has passed of it.
  const restSeconds = clock.state === 'resting' ? rules.leastRestSeconds : 0;
  return { ...clock, restSeconds };
}
