import { compareRepeats } from '../grading/repeats.ts';
import type { ProblemCode } from '../problems/catalogue.ts';
import type { CheckFinding } from '../procedures/finding.ts';
import type { Procedure, ProcedureCheck } from '../procedures/procedure.ts';
import { runGroups, valueOfRun, type GradedRun } from './check-runs.ts';
import type { JobValues, JobWork } from './job-values.ts';
import { runValues, sheetInForce } from './run-entries.ts';
import type { StoredRun } from './run.ts';

/**
 * What is known of each check of the procedure, in its order, from the runs of the job (measurement.md 7). Runs that were left out, abandoned or not
 * graded do not enter; of those around a work that asks for a repeat only the ones after it. While there are none after it, the word is still that
 * of the runs before, with `runs` 0 and the work in `repeatBecause`. Runs of checks that the procedure does not know are passed over.
 */
export function findingsOf(
  procedure: Procedure,
  values: JobValues,
  runs: readonly StoredRun[],
): readonly CheckFinding[] {
  return procedure.checks.map((check) => findingOf(procedure, check, values, runs));
}

function findingOf(
  procedure: Procedure,
  check: ProcedureCheck,
  values: JobValues,
  runs: readonly StoredRun[],
): CheckFinding {
  const groups = runGroups(procedure, check, values, runs);
  const standing = groups[groups.length - 1]!;
  const told = groups.findLast((group) => group.runs.length > 0) ?? standing;
  const isOld = told !== standing;
  const last = told.runs.findLast(isValid) ?? told.runs.at(-1) ?? null;
  return {
    checkId: check.id,
    word: wordOf(told.runs),
    leaning: leaningOf(told.runs),
    dataLost: told.runs.some(hasHoles),
    confidence: last?.verdict.confidence ?? null,
    runs: standing.runs.filter(isValid).length,
    runsNeeded: check.runsNeeded,
    skipped: values.skipped.get(check.id) ?? null,
    repeatBecause: isOld && standing.after ? becauseOf(standing.after) : null,
    causes: last && isValid(last) ? causesOf(check, last) : [],
  };
}

const isValid = ({ verdict }: GradedRun): boolean => verdict.word !== 'not valid';

/**
 * The verdict of runs that belong together. Something looked at again is as it was seen last; values must be repeatable and share one verdict.
 */
function wordOf(runs: readonly GradedRun[]): CheckFinding['word'] {
  const valid = runs.filter(isValid);
  const last = valid.at(-1);
  if (!last) return runs.at(-1)?.verdict.word ?? null;
  if (valid.length === 1 || last.kind === 'inspection') return last.verdict.word;
  const repeats = compareRepeats(
    valid.map((run) => ({ ...valueOfRun(run), word: run.verdict.word })),
    repeatabilityLimit(last),
  );
  if (repeats.finding) return repeats.finding;
  const words = new Set(valid.map(({ verdict }) => verdict.word));
  return words.size === 1 && repeats.repeatable !== false ? last.verdict.word : 'disagree';
}

/** The side that all valid runs lean to; null where they do not agree, or something was decided. */
function leaningOf(runs: readonly GradedRun[]): NonNullable<CheckFinding['leaning']> | null {
  const valid = runs.filter(isValid).map(({ verdict }) => verdict);
  const first = valid[0]?.leaning ?? null;
  const open = valid.length > 0 && valid.every(({ word }) => word === 'too close to call');
  return open && valid.every(({ leaning }) => leaning === first) ? first : null;
}

/** Problems that say that data did not arrive. */
const HOLES: readonly string[] = [
  'check.crank-data-lost',
  'check.frames-missing',
  'check.coverage-low',
  'check.coverage-too-low',
  'check.signal-hole',
  'check.hold-partly-known',
] satisfies readonly ProblemCode[];

const hasHoles = ({ verdict: { reasons, warnings } }: GradedRun): boolean =>
  [...reasons, ...warnings].some(({ code }) => HOLES.includes(code));

/** What the sheet of the run allows two runs to differ by; null where it says nothing. */
function repeatabilityLimit(run: StoredRun): number | null {
  const sheet = sheetInForce(run.sheet, runValues(run.vessel, run.entries));
  const limit = sheet?.limits.find(({ check }) => check === run.check);
  return limit?.repeatabilityLimit ?? null;
}

/** The causes of the points of an inspection that are not in order, in the order of the points. */
function causesOf(check: ProcedureCheck, run: GradedRun): readonly string[] {
  const settings = (run.guide ?? check).settings;
  if (settings.kind !== 'inspection') return [];
  const { observations } = runValues(run.vessel, run.entries);
  const found = settings.points
    .filter(({ id }) => observations.get(id)?.seen === 'not in order')
    .map(({ cause }) => cause)
    .filter((cause) => cause !== null);
  return [...new Set(found)];
}

/** Ends sentences such as "Repeat …: …", so it has neither capital letter nor full stop. */
const becauseOf = ({ part, what }: JobWork): string =>
  what === 'other'
    ? `work was done after its last run (${part})`
    : `${WORK_WORDS[what]} after its last run: ${part}`;

const WORK_WORDS = {
  replaced: 'a part was replaced',
  repaired: 'a part was repaired',
  cleaned: 'a part was cleaned',
  adjusted: 'a part was adjusted',
} as const;
