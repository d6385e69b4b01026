import { causeOf, checkOf } from '../procedures/library.ts';
import { STATIONS } from '../procedures/station.ts';
import type { CauseView, NextStepView } from '../ui/what-next.ts';
import type { JobView } from './job-view.ts';

/** As many causes as a person looks at before measuring again. */
const CAUSES_SHOWN = 4;
/** Suspicion below this share of the first cause is not worth a line. */
const LEAST_SHARE = 0.15;

const ACTIONS: Readonly<Record<NextStepView['step'], string>> = {
  'do check': 'Start this check',
  'repeat check': 'Repeat this check',
  repair: 'Note a part or work',
  conclude: 'Write the conclusion',
};

/** The next step as the screen says it: the first sentence names it, what follows is the why. */
export function nextStepView({ job, next }: JobView): NextStepView {
  const { step, checkId, sentence } = next;
  const purpose = checkId === null ? '' : (checkOf(job.procedure, checkId)?.purpose ?? '');
  // Where the sentence ends in the purpose already, it is not said twice.
  const why = sentence.toLowerCase().includes(purpose.toLowerCase()) ? '' : purpose;
  return { step, checkId, sentence, why, action: ACTIONS[step], causes: causeViews({ job, next }) };
}

/** What may be wrong, likeliest first; empty while nothing speaks for anything. */
function causeViews({ job, next }: Pick<JobView, 'job' | 'next'>): readonly CauseView[] {
  const least = (next.causes[0]?.share ?? 0) * LEAST_SHARE;
  return next.causes
    .filter(({ because, share }) => because.length > 0 && share >= least)
    .slice(0, CAUSES_SHOWN)
    .flatMap(({ causeId, because }): CauseView[] => {
      const cause = causeOf(job.procedure, causeId);
      if (!cause) return [];
      const { id, text, station, look, repair } = cause;
      const says = because.map(
        ({ checkId, word }) => `${checkOf(job.procedure, checkId)?.title ?? checkId}: ${word}`,
      );
      return [{ id, text, station: STATIONS[station].name, look, repair, because: says }];
    });
}
