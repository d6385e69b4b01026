import type { Defect } from '../../simulators/engine/defects.ts';
import { lookAround } from '../../simulators/looks.ts';
import { SCENARIO_BY_ID, type Scenario } from '../../simulators/scenarios.ts';
import { newJob } from '../../src/app/new-job.ts';
import { newRun } from '../../src/app/new-run.ts';
import { vesselById } from '../../src/checks/vessels.ts';
import { checkFacts, NO_FACTS } from '../../src/jobs/check-facts.ts';
import { findingsOf } from '../../src/jobs/findings.ts';
import type { JobEntry } from '../../src/jobs/job-entry.ts';
import { jobValues } from '../../src/jobs/job-values.ts';
import { judgeCheck } from '../../src/jobs/judge-check.ts';
import { runValues } from '../../src/jobs/run-entries.ts';
import type { RunEntry } from '../../src/jobs/run-entry.ts';
import type { StoredRun } from '../../src/jobs/run.ts';
import { DEMONSTRATION_JOB_SHEET } from '../../src/limits/demonstration-job-sheet.ts';
import { crankTable } from '../../src/pipeline/crank-table.ts';
import type { CheckFinding } from '../../src/procedures/finding.ts';
import { checkOf, LOW_RAIL_PRESSURE } from '../../src/procedures/library.ts';
import type { ProcedureCheck } from '../../src/procedures/procedure.ts';
import { whatNext, type NextStep } from '../../src/procedures/what-next.ts';
import { playCheck, type PlayedCheck } from './play-check.ts';

/** One engine with one thing wrong. */
export interface AdviceCase {
  readonly seed: number;
  readonly defect: Defect;
}

/** Where the advice led: the first step that is no further check, and what was found on the way. */
export interface WorkedJob {
  readonly step: NextStep;
  readonly findings: readonly CheckFinding[];
  /** Checks in the order in which they were carried out, with what each run gave. */
  readonly path: readonly (readonly [checkId: string, word: string])[];
}

/** After so many runs of a check somebody stops and leaves it out with a reason. */
const MOST_RUNS = 3;
/** Longer than any procedure: the advice goes round in circles. */
const MOST_STEPS = 80;

/** The job worked just as the advice says, check by check, until it says to repair or to conclude. */
export function workJob(worked: AdviceCase): WorkedJob {
  const scenario: Scenario = { ...SCENARIO_BY_ID['sound-engine'], defects: [worked.defect] };
  const path: WorkedJob['path'][number][] = [];
  const runs: StoredRun[] = [];
  const entries: JobEntry[] = [];
  const job = newJob({ id: 'job', createdAt: timeAt(0) });
  for (let turn = 1; turn < MOST_STEPS; turn += 1) {
    const findings = findingsOf(LOW_RAIL_PRESSURE, jobValues({ ...job, entries }, runs), runs);
    const step = whatNext(LOW_RAIL_PRESSURE, findings);
    const check = step.checkId === null ? null : (checkOf(LOW_RAIL_PRESSURE, step.checkId) ?? null);
    if (!check) return { step, findings, path };
    const before = runs.filter((run) => run.check === check.id).length;
    const made = before < MOST_RUNS ? runOnce(scenario, check, worked.seed, before) : null;
    path.push([check.id, made?.verdict?.word ?? 'left out']);
    if (made) runs.push({ ...made, id: `run-${turn}`, createdAt: timeAt(turn) });
    else entries.push(leftOut(check.id, timeAt(turn)));
  }
  throw new Error('the advice goes round in circles');
}

const timeAt = (minute: number): string => new Date(Date.UTC(2026, 0, 2, 8, minute)).toISOString();

const leftOut = (checkId: string, atIso: string): JobEntry => ({
  kind: 'skip',
  atIso,
  checkId,
  skipped: true,
  reason: 'The engine does not start, or it could not be judged in three runs.',
});

/** One graded run; null where the engine has to run for it and does not start. */
export function runOnce(
  scenario: Scenario,
  check: ProcedureCheck,
  seed: number,
  before: number,
): StoredRun | null {
  if (check.settings.kind === 'inspection') return graded(check, observe(scenario, check, seed), null);
  const played = playCheck(scenario, check.id, 100 * seed + before);
  return played && graded(check, played.entries, played);
}

function observe(scenario: Scenario, check: ProcedureCheck, seed: number): readonly RunEntry[] {
  if (check.settings.kind !== 'inspection') return [];
  const look = lookAround(scenario, seed, check.id);
  return check.settings.points.map(({ id }) => ({
    kind: 'observation',
    atIso: timeAt(0),
    reason: '',
    point: id,
    seen: look(id).inOrder ? 'in order' : 'not in order',
    note: '',
    photoIds: [],
  }));
}

function graded(guide: ProcedureCheck, entries: readonly RunEntry[], played: PlayedCheck | null): StoredRun {
  const vessel = vesselById('cylinder-500')!;
  const sheet = DEMONSTRATION_JOB_SHEET;
  const source = { adapter: 'bench', device: 'Bench simulator' } as const;
  const made = { id: '', createdAt: timeAt(0), source, sheet, vessel, within: { jobId: 'job', guide } };
  const run = { ...newRun(made), entries: [...entries] };
  const values = runValues(vessel, entries);
  const facts = played
    ? checkFacts(played.pipeline, crankTable(played.pipeline, { over: true }), values, '2026-01-02')
    : NO_FACTS;
  const judged = judgeCheck({ kind: run.kind, guide, check: guide.id, sheet, facts, values, over: true });
  if (!judged.ok) throw new Error(judged.problem.code);
  const { verdict, valueSummary } = judged.value;
  return { ...run, verdict: verdict as StoredRun['verdict'], valueSummary, state: 'graded' };
}
