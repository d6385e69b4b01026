import { vinCheckDigit } from '../j1939/vin-check-digit.ts';
import { jobMistakes } from '../jobs/job-mistakes.ts';
import type { StoredJob } from '../jobs/job.ts';
import { describeProblem, type Problem } from '../problems/problem.ts';
import type { JobFieldName } from '../ui/job-fields.ts';

/** The field beside which a mistake is told; null where it concerns none. */
function fieldOf({ code, context }: Problem): JobFieldName | null {
  if (code.startsWith('job.vin-')) return 'vin';
  if (code === 'job.serial-is-vin') return 'serialNumber';
  if (code !== 'job.not-a-number' && code !== 'job.impossible-number') return null;
  return context['what'] === 'distance' ? 'distanceKm' : 'engineHours';
}

/** What is likely mistyped in a job, each beside its field, in words with the remedy. Nothing is refused for it. */
export const fieldMistakes = (
  job: Pick<StoredJob, 'createdAt' | 'entries'>,
  nowIso: string,
): readonly { readonly field: JobFieldName; readonly words: string }[] =>
  jobMistakes(job, { nowIso, vinCheckDigit }).flatMap((found) => {
    const field = fieldOf(found);
    const { message, remedy } = describeProblem(found);
    return field === null ? [] : [{ field, words: `${message} ${remedy}` }];
  });

/** What concerns the job as a whole: something in it is dated ahead of this computer's clock. */
export const jobDoubts = (
  job: Pick<StoredJob, 'createdAt' | 'entries'>,
  nowIso: string,
): readonly Problem[] =>
  jobMistakes(job, { nowIso, vinCheckDigit }).filter((found) => fieldOf(found) === null);
