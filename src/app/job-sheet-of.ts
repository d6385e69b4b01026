import { GRADING_REVISION } from '../grading/verdict.ts';
import { describeCode } from '../j1939/trouble-code-words.ts';
import type { StoredRun } from '../jobs/run.ts';
import type { Limit } from '../limits/limit-sheet.ts';
import { LIMIT_UNIT } from '../limits/printed-unit.ts';
import type { CheckFinding } from '../procedures/finding.ts';
import { standsFirm } from '../procedures/order.ts';
import { STATIONS } from '../procedures/station.ts';
import { checkLook, sureText } from '../ui/finding-look.ts';
import { JOB_FIELD_FORMS } from '../ui/job-fields.ts';
import type { JobSheetView, SheetCheckRow } from '../ui/job-sheet-view.ts';
import { changeRows } from './job-changes.ts';
import { marginalCaveat } from './job-conclusion-view.ts';
import { dayAndTime } from './job-rows.ts';
import type { JobView } from './job-view.ts';
import { isTraining } from '../training/case-id.ts';
import { PRACTICE_CASE } from './training-marks.ts';
import { valueWords } from './value-words.ts';

const PRACTICE = 'Practice on the bench: the engine is simulated, its limits are invented.';
const CAUTION =
  'Fuel under pressure goes through skin and needs a surgeon at once; fuel burns and scalds. The engine maker’s current procedure for the serial number, local rules and qualified people decide.';

/** The printed page of a job, as texts: what was asked, measured, done and concluded. */
export function jobSheetOf(view: JobView): JobSheetView {
  const { job, values } = view;
  const of = (field: keyof typeof JOB_FIELD_FORMS) => values.fields.get(field)?.value ?? '';
  return {
    title: of('unitNumber') || of('vin') || 'Job',
    dates: `Begun ${dayAndTime(job.createdAt)}, last entry ${dayAndTime(job.updatedAt)}`,
    standing: standing(view),
    practice: isTraining(job.scenarioId) ? PRACTICE_CASE : job.scenarioId === null ? '' : PRACTICE,
    complaint: of('complaint'),
    identity: identity(view),
    codes: codes(view),
    path: view.path,
    pathWords: view.stretch,
    checks: checkRows(view),
    works: works(view),
    notes: values.notes.map(({ atIso, text }) => ({ time: dayAndTime(atIso), words: text })),
    beforeAfter: changeRows(view),
    conclusion: conclusion(view),
    caveat: marginalCaveat(view).join(' '),
    reopened: values.earlier.map(
      ({ revision, reopened }) =>
        `Revision ${revision} was opened again ${dayAndTime(reopened.atIso)}: ${reopened.reason}`,
    ),
    cautions: [CAUTION],
    versions: `Meniscus, grading revision ${GRADING_REVISION}, procedure "${job.procedure.title}" revision ${job.procedure.revision}, job format ${job.formatVersion}`,
  };
}

function standing({ values: { state, revision } }: JobView): string {
  if (state === 'signed') return `Signed, revision ${revision}`;
  return state === 'concluded' ? `Concluded, not signed, revision ${revision}` : 'Open: not the final page';
}

function identity({ values }: JobView): JobSheetView['identity'] {
  const fields = Object.entries(JOB_FIELD_FORMS) as [
    keyof typeof JOB_FIELD_FORMS,
    { label: string; unit: string },
  ][];
  return fields.flatMap(([field, { label, unit }]) => {
    const value = values.fields.get(field)?.value ?? '';
    return field === 'complaint' || value === '' ? [] : [[label, `${value} ${unit}`.trim()] as const];
  });
}

function codes({ values: { typedCodes, busCodes } }: JobView): JobSheetView['codes'] {
  const words = (spn: number, fmi: number) => {
    const { what, how } = describeCode({ spn, fmi, occurrences: null, otherSpns: [] });
    return `${what}: ${how}`;
  };
  const row = (spn: number, fmi: number, from: string, note = '') => ({
    code: `SPN ${spn} FMI ${fmi}`,
    words: note || words(spn, fmi),
    from,
  });
  const heard = (busCodes?.active ?? []).flatMap((report) => report.codes);
  return [
    ...typedCodes.map(({ spn, fmi, note }) => row(spn, fmi, 'typed', note)),
    ...heard.map(({ spn, fmi }) => row(spn, fmi, 'from the bus')),
  ];
}

function checkRows(view: JobView): readonly SheetCheckRow[] {
  const { job, runs, values } = view;
  return view.findings.map((finding) => {
    const own = runs.filter(({ check, verdict }) => check === finding.checkId && verdict !== null);
    const last = own.findLast(({ id }) => !values.leftOutRuns.has(id));
    return {
      title: job.procedure.checks.find(({ id }) => id === finding.checkId)?.title ?? finding.checkId,
      value: valueWords(last?.valueSummary ?? null),
      limit: last ? limitWords(last) : '',
      sheet: last?.sheet ? `${last.sheet.title}, revision ${last.sheet.revision}` : '',
      word: finding.word,
      sure: sureText(finding.confidence),
      state: stateWords(finding),
      notes: checkNotes(view, finding, own),
    };
  });
}

/** What is still missing of a check; empty where its verdict stands. */
function stateWords(finding: CheckFinding): string {
  if (standsFirm(finding)) return '';
  return finding.word === null && finding.skipped === null ? 'not done' : checkLook(finding).words;
}

function checkNotes(
  { values }: JobView,
  finding: CheckFinding,
  own: readonly StoredRun[],
): readonly string[] {
  const left = own.flatMap(({ id, createdAt }) => {
    const reason = values.leftOutRuns.get(id);
    return reason === undefined ? [] : [`A run of ${dayAndTime(createdAt)} does not count: ${reason}`];
  });
  const skipped = finding.skipped === null ? [] : [`Left out: ${finding.skipped}`];
  const repeat = finding.repeatBecause === null ? [] : [`To be repeated: ${finding.repeatBecause}`];
  return [...skipped, ...repeat, ...left];
}

function limitWords({ sheet, check }: StoredRun): string {
  const limit = sheet?.limits.find((each) => each.check === check);
  return limit ? boundsWords(limit) : '';
}

function boundsWords(limit: Limit): string {
  if (limit.kind === 'speed chart') return 'chart of volume over speed';
  const isTime = limit.quantity === 'time';
  const unit = isTime ? 's' : LIMIT_UNIT[limit.quantity];
  const shown = (value: number) => `${isTime ? value / 1000 : value} ${unit}`;
  const { min, max } = limit;
  if (min !== null && max !== null) return `${shown(min)} to ${shown(max)}`;
  if (min !== null) return `at least ${shown(min)}`;
  return max === null ? '' : `at most ${shown(max)}`;
}

function works({ values }: JobView): JobSheetView['works'] {
  return values.works.map(({ atIso, station, what, part, note, primedAtIso }) => ({
    time: dayAndTime(atIso),
    words: `${STATIONS[station].name}: ${what}, ${part}`,
    notes: [
      ...(note ? [note] : []),
      primedAtIso === null ? 'Priming was not noted.' : `Primed ${dayAndTime(primedAtIso)}.`,
    ],
  }));
}

function conclusion({ values }: JobView): JobSheetView['conclusion'] {
  const held = values.conclusion;
  if (!held) return null;
  const { decision, words, cause, watchFor } = held;
  const { signed } = values;
  return {
    decision,
    words,
    cause,
    watchFor,
    by: signed?.by ?? '',
    time: dayAndTime(signed?.atIso ?? held.atIso),
  };
}
