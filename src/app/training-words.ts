import type { Match } from '../training/compare-conclusion.ts';
import type { CaseReview } from '../training/review-case.ts';
import { stationsOf } from '../training/compare-conclusion.ts';
import { DEFECT_FACTS, severityWords } from '../training/defect-facts.ts';
import type { Procedure } from '../procedures/procedure.ts';
import { checkOf } from '../procedures/library.ts';
import { STATIONS } from '../procedures/station.ts';
import type { ShortStep } from '../training/shortest-path.ts';
import type { TakenStep } from '../training/path-taken.ts';
import { WORK_WORD } from './training-marks.ts';

/** What each comparison is called on the screen. */
export const MATCH_WORDS: Readonly<Record<Match, { readonly words: string; readonly shape: string }>> = {
  right: { words: 'right', shape: 'pass' },
  partly: { words: 'partly right', shape: 'marginal' },
  wrong: { words: 'not right', shape: 'fail' },
  'not named': { words: 'not named', shape: 'none' },
  open: { words: 'compare it yourself', shape: 'unsure' },
};

/** One thing that was wrong, as sentences. */
export interface TruthWords {
  readonly name: string;
  readonly severity: string;
  readonly where: string;
  readonly did: string;
}

export const truthWords = (procedure: Procedure, { truth }: CaseReview): readonly TruthWords[] =>
  truth.map((defect) => {
    const { name, did, ofMeasuring } = DEFECT_FACTS[defect.kind];
    const stations = stationsOf(procedure, defect).map((id) => STATIONS[id].name);
    return {
      name: `${name.charAt(0).toUpperCase()}${name.slice(1)}`,
      severity: severityWords(defect),
      where: ofMeasuring ? 'In the measuring, not in the engine' : stations.join(', '),
      did,
    };
  });

/** Hours and minutes of the table. */
export const spanWords = (minutes: number): string =>
  minutes < 60
    ? `${minutes} min`
    : `${Math.floor(minutes / 60)} h ${String(minutes % 60).padStart(2, '0')} min`;

export interface StepRow {
  readonly what: string;
  readonly outcome: string;
  readonly cost: string;
}

/** The way that was gone, a row a step. */
export const takenRows = (procedure: Procedure, steps: readonly TakenStep[]): readonly StepRow[] =>
  steps.map((step) => {
    if (step.kind === 'work')
      return {
        what: `${WORK_WORD[step.work.what]}: ${step.part ?? step.work.part}`,
        outcome:
          step.part === null
            ? 'the old part stayed in'
            : step.cured.length > 0
              ? 'was at fault'
              : 'was not at fault',
        cost: `${step.minutes} min, ${step.points} part points`,
      };
    const what = checkOf(procedure, step.checkId)?.title ?? step.checkId;
    return step.kind === 'run'
      ? { what, outcome: step.word, cost: `${step.minutes} min` }
      : { what, outcome: `left out: ${step.reason}`, cost: '' };
  });

/** The shortest way, a row a step. */
export const shortRows = (procedure: Procedure, steps: readonly ShortStep[]): readonly StepRow[] =>
  steps.map((step) =>
    step.kind === 'work'
      ? {
          what: `Replaced: ${step.part}`,
          outcome: '',
          cost: `${step.minutes} min, ${step.points} part points`,
        }
      : {
          what: checkOf(procedure, step.checkId)?.title ?? step.checkId,
          outcome: [step.again ? 'after the repair' : '', step.runs > 1 ? `${step.runs} runs` : '']
            .filter(Boolean)
            .join(', '),
          cost: `${step.minutes} min`,
        },
  );
