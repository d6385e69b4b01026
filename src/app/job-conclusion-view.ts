import type { ClosedRevision } from '../jobs/job-values.ts';
import { MARGINAL_MEANING } from '../procedures/marginal-meaning.ts';
import { checkOf } from '../procedures/library.ts';
import { standsFirm } from '../procedures/order.ts';
import type { EarlierConclusion, SuggestionView } from '../ui/conclusion.ts';
import { dayAndTime } from './job-rows.ts';
import type { JobView } from './job-view.ts';

/** What a marginal result means under full load and what it does not, each kind of check once; empty where none stands. */
export function marginalCaveat({ job, findings }: Pick<JobView, 'job' | 'findings'>): readonly string[] {
  const kinds = findings
    .filter((finding) => finding.word === 'marginal' && standsFirm(finding))
    .flatMap(({ checkId }) => checkOf(job.procedure, checkId)?.settings.kind ?? []);
  return [...new Set(kinds)].map((kind) => {
    const { means, meansNot } = MARGINAL_MEANING[kind];
    return `${means} ${meansNot}`;
  });
}

const MEANINGS: ReadonlySet<string> = new Set(
  Object.values(MARGINAL_MEANING).flatMap(({ means, meansNot }) => [means, meansNot]),
);

/** The suggestion without what a marginal result means: that stands by itself, whatever is suggested. */
export function suggestionView({ suggested }: Pick<JobView, 'suggested'>): SuggestionView {
  const { decision, cause, sentences, watchFor } = suggested;
  return { decision, cause, watchFor, sentences: sentences.filter((words) => !MEANINGS.has(words)) };
}

/** What earlier revisions ended in. */
export const earlierConclusions = ({ values }: Pick<JobView, 'values'>): readonly EarlierConclusion[] =>
  values.earlier.map(({ revision, conclusion, signed, reopened }: ClosedRevision) => ({
    revision,
    decision: conclusion.decision,
    cause: conclusion.cause,
    words: conclusion.words,
    closed: signed ? `Signed by ${signed.by}, ${dayAndTime(signed.atIso)}` : 'Not signed',
    reopened: `Opened again ${dayAndTime(reopened.atIso)}: ${reopened.reason}`,
  }));
