import type { CheckFinding } from './finding.ts';
import { causeOf, checkOf } from './library.ts';
import { standsFirm } from './order.ts';
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

const WATCH_FOR = [
  'Low-rail-pressure codes coming back, under load first.',
  'Loss of power on hills or with a trailer, more so with hot fuel.',
  'Longer cranking before it starts.',
] as const;

const MARGINAL_MEANS =
  'Marginal while cranking means: enough to start and to idle today. Under full load, with hot fuel, it may not hold the commanded rail pressure.';
const MARGINAL_MEANS_NOT =
  'It does not prove that a particular part is worn, and it does not say when it will fail: speed, fuel temperature and the supply side move the result too.';

/** What the findings together suggest, each sentence with the check that it stands on. Nothing is suggested from results that do not stand firm. */
export function suggestConclusion(
  procedure: Procedure,
  findings: readonly CheckFinding[],
): SuggestedConclusion {
  const evidence = evidenceOf(procedure, findings);
  const { failing, marginal, cause, unsettled, skipped } = evidence;
  const common = { cause: cause?.text ?? '', causeId: cause?.id ?? null, watchFor: [] };
  if (failing.length > 0)
    return {
      ...common,
      decision: 'repair now',
      sentences: [
        ...failing,
        ...(cause ? [`Most speaks for: ${cause.text}. ${cause.repair}`] : []),
        ...unsettled,
        ...skipped,
      ],
    };
  if (marginal.length > 0)
    return {
      ...common,
      decision: 'run on and watch',
      sentences: [...marginal, MARGINAL_MEANS, MARGINAL_MEANS_NOT, ...unsettled, ...skipped],
      watchFor: WATCH_FOR,
    };
  return { ...common, ...withoutFailure(evidence) };
}

function withoutFailure({ firm, unsettled, skipped }: Evidence) {
  if (firm === 0 || unsettled.length > 0)
    return {
      decision: 'not yet' as const,
      sentences: ['Nothing stands firm enough to conclude.', ...unsettled],
    };
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
  readonly unsettled: readonly string[];
  readonly skipped: readonly string[];
  readonly cause: Cause | null;
}

function evidenceOf(procedure: Procedure, findings: readonly CheckFinding[]): Evidence {
  const firm = findings.filter(standsFirm);
  const title = ({ checkId }: CheckFinding) => checkOf(procedure, checkId)?.title ?? checkId;
  const failing = firm.filter(({ word }) => word === 'fail low' || word === 'fail high');
  const marginal = firm.filter(({ word }) => word === 'marginal');
  const open = findings.filter((finding) => finding.word !== null && !standsFirm(finding));
  const skipped = findings.filter(({ word, skipped: why }) => word === null && why !== null);
  const top = rankCauses(procedure, firm)[0];
  return {
    firm: firm.length,
    failing: failing.map((finding) => `"${title(finding)}": ${finding.word ?? ''}.`),
    marginal: marginal.map((finding) => `"${title(finding)}" is marginal.`),
    unsettled: open.map(
      (finding) => `"${title(finding)}" is not settled: ${finding.repeatBecause ?? unsettledWord(finding)}.`,
    ),
    skipped: skipped.map((finding) => `"${title(finding)}" was left out: ${finding.skipped ?? ''}.`),
    cause: top && failing.length + marginal.length > 0 ? causeOf(procedure, top.causeId) : null,
  };
}

const unsettledWord = ({ word, runs, runsNeeded }: CheckFinding): string =>
  runs < runsNeeded ? `${word ?? ''}, ${runs} of ${runsNeeded} runs` : (word ?? '');
