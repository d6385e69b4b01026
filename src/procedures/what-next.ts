import type { CheckFinding } from './finding.ts';
import { causeOf, checkOf } from './library.ts';
import { clearedStretch, fuelPath } from './fuel-path.ts';
import { tellsApart } from './likelihood.ts';
import { checkOrder, standsFirm, type OrderedCheck } from './order.ts';
import type { Procedure, ProcedureCheck } from './procedure.ts';
import { STATIONS } from './station.ts';
import { rankCauses, type RankedCause } from './suspicion.ts';

/** The one thing to do next, and why in one sentence. */
export interface NextStep {
  readonly step: 'do check' | 'repeat check' | 'repair' | 'conclude';
  /** The check to be done or repeated; null for the other steps. */
  readonly checkId: string | null;
  readonly sentence: string;
  /** What may be wrong, likeliest first. */
  readonly causes: readonly RankedCause[];
}

/** Share of suspicion on one station that makes looking at it better than another check (common practice, no source). */
const ENOUGH_SUSPICION = 0.6;

/**
 * What to do next after the findings so far. Repeats come before belief, the low-pressure side before the high-pressure side, and a failing
 * check leads to the one that its advice names.
 */
export function whatNext(procedure: Procedure, findings: readonly CheckFinding[]): NextStep {
  const job: Job = {
    procedure,
    findings: new Map(findings.map((finding) => [finding.checkId, finding])),
    order: checkOrder(procedure, findings),
    causes: rankCauses(procedure, findings),
  };
  return repeatFirst(job) ?? afterFailure(job) ?? nextInOrder(job) ?? conclusion(job);
}

interface Job {
  readonly procedure: Procedure;
  readonly findings: ReadonlyMap<string, CheckFinding>;
  readonly order: readonly OrderedCheck[];
  readonly causes: readonly RankedCause[];
}

function repeatFirst(job: Job): NextStep | null {
  const place = job.order.find(({ state }) => state === 'repeat');
  const finding = place && job.findings.get(place.checkId);
  if (!finding) return null;
  const title = titleOf(job, finding.checkId);
  return stepTo(job, 'repeat check', finding.checkId, `Repeat "${title}": ${whyRepeat(finding)}.`);
}

function whyRepeat({ word, repeatBecause, runs, runsNeeded }: CheckFinding): string {
  if (repeatBecause !== null) return repeatBecause;
  if (word === 'too close to call') return 'it is too close to the line to decide';
  if (word === 'not valid') return 'the last run could not be graded';
  if (word === 'disagree') return 'its runs do not agree';
  return `a finding needs ${runsNeeded} runs that agree, and there ${runs === 1 ? 'is one' : `are ${runs}`}`;
}

function afterFailure(job: Job): NextStep | null {
  const failing = failingChecks(job);
  const low = failing.find(isLow);
  const first = low ?? failing[0];
  if (!first) return null;
  const pointed = failing.map((check) => namedNext(job, check)).find((id) => id !== null) ?? null;
  if (pointed !== null) return leadOn(job, first, pointed);
  const sure = low !== undefined || shareOfFirstStation(job) >= ENOUGH_SUSPICION;
  const telling = tellingCheck(job, low !== undefined);
  const open = telling ?? (sure ? null : openCheck(job, true));
  return open === null ? repair(job, first) : leadOn(job, first, open);
}

/** A cause with less than this share of the first one's suspicion is no rival of it. */
const RIVAL = 0.5;

/**
 * The open check that tells the first cause from a rival, while it is not sure; on the low side only one of that side: what lies behind cannot be
 * judged yet.
 */
function tellingCheck({ procedure, order, causes: [one, ...others] }: Job, low: boolean): string | null {
  if (!one || one.share >= ENOUGH_SUSPICION) return null;
  const rivals = others.filter(({ share }) => share >= RIVAL * one.share);
  const telling = order.slice(0, -1).find(({ checkId, state, waitsFor }) => {
    const check = checkOf(procedure, checkId);
    if (!check || state !== 'open' || waitsFor.length > 0 || (low && !isLow(check))) return false;
    return rivals.some((other) => tellsApart(check, one.causeId, other.causeId));
  });
  return telling?.checkId ?? null;
}

/** Of the low side alone, or of what comes before the whole path. */
const isLow = ({ stations }: ProcedureCheck): boolean =>
  stations.every((station) => STATIONS[station].side === 'low');

function shareOfFirstStation({ procedure, causes }: Job): number {
  const stationOf = ({ causeId }: RankedCause) => causeOf(procedure, causeId)?.station;
  const first = causes[0] ? stationOf(causes[0]) : undefined;
  return causes.filter((each) => stationOf(each) === first).reduce((sum, { share }) => sum + share, 0);
}

const failingChecks = ({ procedure, findings }: Job): readonly ProcedureCheck[] =>
  procedure.checks.filter(({ id }) => {
    const finding = findings.get(id);
    return finding && standsFirm(finding) && (finding.word === 'fail low' || finding.word === 'fail high');
  });

/** The check that a failing one leads to, where it is still open and may start. */
function namedNext({ findings, order }: Job, check: ProcedureCheck): string | null {
  const word = findings.get(check.id)?.word;
  if (word !== 'fail low' && word !== 'fail high') return null;
  const { nextCheck } = check.advice[word];
  const place = order.find(({ checkId }) => checkId === nextCheck);
  return place?.state === 'open' && place.waitsFor.length === 0 ? place.checkId : null;
}

/** The next open check that may start. The last check of a procedure verifies: with something failing it is not a step. */
function openCheck({ order }: Job, butTheLast: boolean): string | null {
  const places = butTheLast ? order.slice(0, -1) : order;
  return places.find(({ state, waitsFor }) => state === 'open' && waitsFor.length === 0)?.checkId ?? null;
}

const leadOn = (job: Job, failed: ProcedureCheck, checkId: string): NextStep =>
  stepTo(
    job,
    'do check',
    checkId,
    `"${failed.title}" failed; "${titleOf(job, checkId)}" comes next to tell the likely causes apart${showsWhat(job, checkId)}.`,
  );

function repair(job: Job, failed: ProcedureCheck): NextStep {
  const likeliest = job.causes[0];
  const top = likeliest ? causeOf(job.procedure, likeliest.causeId) : null;
  const low = isLow(failed);
  const why = low
    ? 'what lies behind it cannot be judged before that is put right'
    : 'no open check tells more';
  const belief = (likeliest?.share ?? 0) > 0.5 ? 'most speaks for this' : 'likeliest, though not alone';
  const look = top ? `${belief}: ${lowerFirst(top.text)}` : 'look at its stations';
  return stepTo(job, 'repair', null, `"${failed.title}" failed, and ${why}; ${look}.`);
}

function nextInOrder(job: Job): NextStep | null {
  const open = openCheck(job, false);
  if (open === null) return null;
  const place = job.order.findIndex(({ checkId }) => checkId === open);
  const last = job.order.slice(0, place).findLast(({ state }) => state === 'done' || state === 'left out');
  const first = 'comes next: the order goes from the low-pressure side to the high-pressure side';
  const sentence = last
    ? `${outcome(job, last)}; "${titleOf(job, open)}" comes next${showsWhat(job, open)}.`
    : `"${titleOf(job, open)}" ${first}${showsWhat(job, open)}.`;
  return stepTo(job, 'do check', open, sentence);
}

/** How the check before it ended, and what that leaves cleared. */
function outcome(job: Job, { checkId, state }: OrderedCheck): string {
  const title = titleOf(job, checkId);
  if (state === 'left out') return `"${title}" was left out`;
  if (job.findings.get(checkId)?.word === 'marginal') return `"${title}" was marginal, which clears nothing`;
  const cleared = clearedStretch(fuelPath(job.procedure, [...job.findings.values()]));
  return `"${title}" passed${cleared === null ? '' : `, so ${cleared}`}`;
}

/** The purpose of a check as the end of a sentence; empty where its text cannot be bent into one. */
function showsWhat({ procedure }: Job, id: string): string {
  const [first = ''] = (checkOf(procedure, id)?.purpose ?? '').split(/[.:](?:\s|$)/);
  return first.startsWith('Shows ') ? `, which ${lowerFirst(first)}` : '';
}

const lowerFirst = (text: string): string => `${text.charAt(0).toLowerCase()}${text.slice(1)}`;

function conclusion(job: Job): NextStep {
  const waiting = job.order.some(({ state, waitsFor }) => state === 'open' && waitsFor.length > 0);
  return stepTo(
    job,
    'conclude',
    null,
    waiting
      ? 'What is left waits for checks that are not done: do those, or leave them out with a reason, or conclude.'
      : 'All checks are done or left out: write the conclusion.',
  );
}

const titleOf = ({ procedure }: Job, id: string): string => checkOf(procedure, id)?.title ?? id;

const stepTo = (
  { causes }: Job,
  step: NextStep['step'],
  checkId: string | null,
  sentence: string,
): NextStep => ({ step, checkId, sentence, causes });
