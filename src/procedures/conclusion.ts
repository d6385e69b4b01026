import type { CheckKind } from '../checks/check-kind.ts';
import type { CheckFinding } from './finding.ts';
import { causeOf, checkOf } from './library.ts';
import { MARGINAL_MEANING } from './marginal-meaning.ts';
import { checkOrder, checkState, standsFirm } from './order.ts';
import type { Cause, Procedure } from './procedure.ts';
import { rankCauses } from './suspicion.ts';

/** What the evidence suggests; the technician's own words decide. */
export interface SuggestedConclusion {
  readonly decision: 'repair now' | 'run on and watch' | 'look elsewhere' | 'not yet';
  /** The likeliest cause, in words; empty where nothing points anywhere. */
  readonly cause: string;
  readonly causeId: string | null;
  readonly sentences: readonly string[];
  readonly watchFor: readonly string[];
}

/** Always to be looked for where a vehicle runs on; what a kind of check adds stands in marginal-meaning.ts. */
const WATCH_FOR = [
  'Low-rail-pressure codes coming back, under load first.',
  'Loss of power on hills or with a trailer, more so with hot fuel.',
] as const;

/**
 * What the findings together suggest, each sentence with the check that it stands on. Nothing is suggested from results that do not stand firm,
 * nor that all is well while checks are open, unless the last check, which verifies, passed. `putRight` holds the ids of the causes that were
 * put right in this job: where all stands well afterwards, the first of them is what the loss came from.
 */
export function suggestConclusion(
  procedure: Procedure,
  findings: readonly CheckFinding[],
  putRight: readonly string[] = [],
): SuggestedConclusion {
  const evidence = evidenceOf(procedure, findings);
  const { failing, marginal, cause, unsettled, skipped, stillOpen } = evidence;
  const common = { cause: cause?.text ?? '', causeId: cause?.id ?? null, watchFor: [] };
  if (failing.length > 0) return { ...common, decision: 'repair now', sentences: repairWords(evidence) };
  if (marginal.length > 0) return { ...common, decision: 'run on and watch', ...marginalWords(evidence) };
  if (evidence.firm === 0 || unsettled.length > 0 || stillOpen.length > 0)
    return {
      ...common,
      decision: 'not yet',
      sentences: ['Nothing stands firm enough to conclude.', ...unsettled, ...stillOpen, ...skipped],
    };
  const mended = putRight.map((id) => causeOf(procedure, id)).find((each) => each !== null);
  return mended ? afterRepair(mended, evidence) : { ...common, ...nothingFound(evidence) };
}

const repairWords = ({ failing, cause, unsettled, skipped }: Evidence): readonly string[] => [
  ...failing,
  ...(cause ? [`Most speaks for: ${cause.text}. ${cause.repair}`] : []),
  ...unsettled,
  ...skipped,
];

function marginalWords({ marginal, marginalKinds, unsettled, skipped, stillOpen }: Evidence) {
  const meanings = marginalKinds.map((kind) => MARGINAL_MEANING[kind]);
  return {
    sentences: [
      ...marginal,
      ...meanings.flatMap(({ means, meansNot }) => [means, meansNot]),
      ...unsettled,
      ...stillOpen,
      ...skipped,
    ],
    watchFor: [...WATCH_FOR, ...meanings.map(({ watchFor }) => watchFor)],
  };
}

/** The work is done: the decision to repair was right, and says so beside what proves it. */
function afterRepair(cause: Cause, { firm, skipped }: Evidence): SuggestedConclusion {
  return {
    decision: 'repair now',
    cause: cause.text,
    causeId: cause.id,
    sentences: [
      `Put right in this job: ${cause.text}.`,
      `Nothing fails any more in ${firm === 1 ? 'the check that stands' : `the ${firm} checks that stand`}.`,
      ...skipped,
    ],
    watchFor: [],
  };
}

function nothingFound({ firm, skipped }: Evidence) {
  const checks = firm === 1 ? 'check' : `${firm} checks`;
  return {
    decision: 'look elsewhere' as const,
    sentences: [
      `Nothing failed in the ${checks} that stand: the loss was not found on the stretch that they cover.`,
      ...skipped,
    ],
  };
}

interface Evidence {
  /** How many checks stand firm. */
  readonly firm: number;
  readonly failing: readonly string[];
  readonly marginal: readonly string[];
  readonly marginalKinds: readonly CheckKind[];
  /** What is neither done nor left out, in one sentence; empty where nothing is, or where the last check passed. */
  readonly stillOpen: readonly string[];
  readonly unsettled: readonly string[];
  readonly skipped: readonly string[];
  readonly cause: Cause | null;
}

function evidenceOf(procedure: Procedure, findings: readonly CheckFinding[]): Evidence {
  const firm = findings.filter(standsFirm);
  const title = ({ checkId }: CheckFinding) => checkOf(procedure, checkId)?.title ?? checkId;
  const failing = firm.filter(({ word }) => word === 'fail low' || word === 'fail high');
  const marginal = firm.filter(({ word }) => word === 'marginal');
  const open = findings.filter((finding) => checkState(finding) === 'repeat');
  const skipped = findings.filter((finding) => checkState(finding) === 'left out');
  const top = rankCauses(procedure, firm)[0];
  return {
    firm: firm.length,
    failing: failing.map((finding) => `"${title(finding)}": ${finding.word ?? ''}.`),
    marginal: marginal.map((finding) => `"${title(finding)}" is marginal.`),
    marginalKinds: kindsOf(procedure, marginal),
    stillOpen: stillOpenIn(procedure, findings),
    unsettled: open.map(
      (finding) => `"${title(finding)}" is not settled: ${finding.repeatBecause ?? unsettledWord(finding)}.`,
    ),
    skipped: skipped.map((finding) => `"${title(finding)}" was left out: ${finding.skipped ?? ''}.`),
    cause: top && failing.length + marginal.length > 0 ? causeOf(procedure, top.causeId) : null,
  };
}

const kindsOf = (procedure: Procedure, some: readonly CheckFinding[]): readonly CheckKind[] => [
  ...new Set(some.flatMap(({ checkId }) => checkOf(procedure, checkId)?.settings.kind ?? [])),
];

function stillOpenIn(procedure: Procedure, findings: readonly CheckFinding[]): readonly string[] {
  const last = findings.find(({ checkId }) => checkId === procedure.checks.at(-1)?.id);
  if (last?.word === 'pass' && standsFirm(last)) return [];
  const open = checkOrder(procedure, findings).filter(({ state }) => state === 'open');
  const titles = open.map(({ checkId }) => `"${checkOf(procedure, checkId)?.title ?? checkId}"`);
  return titles.length === 0 ? [] : [`Not done and not left out: ${titles.join(', ')}.`];
}

const unsettledWord = ({ word, runs, runsNeeded }: CheckFinding): string =>
  runs < runsNeeded ? `${word ?? ''}, ${runs} of ${runsNeeded} runs` : (word ?? '');
