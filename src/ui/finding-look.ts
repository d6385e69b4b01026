import type { VerdictWord } from '../grading/verdict.ts';
import type { CheckFinding } from '../procedures/finding.ts';
import type { StationState } from '../procedures/fuel-path.ts';
import type { IconShape } from './shape-icon.ts';
import type { Meaning } from './tokens.ts';
import { confidenceText, VERDICT_MEANING } from './verdict-panel.ts';

/** How a finding looks: shape, colour (by its meaning) and words, always together. */
export interface FindingLook {
  readonly shape: IconShape;
  readonly kind: Meaning | 'plain';
  readonly words: string;
}

/** The states of a station of the fuel path. */
export const STATION_LOOK: Readonly<Record<StationState, FindingLook>> = {
  'not checked': { shape: 'waiting', kind: 'plain', words: 'not checked' },
  cleared: { shape: 'pass', kind: 'pass', words: 'cleared' },
  suspect: { shape: 'marginal', kind: 'marginal', words: 'suspect' },
  fails: { shape: 'fail', kind: 'fail', words: 'fails' },
  'open question': { shape: 'unsure', kind: 'unsure', words: 'open question' },
  'to be repeated': { shape: 'replay', kind: 'stale', words: 'to be repeated' },
};

const DISAGREE: FindingLook = { shape: 'unsure', kind: 'unsure', words: 'the runs disagree' };

/** A verdict, or `disagree`, as shape and colour and word. */
export function wordLook(word: VerdictWord | 'disagree'): FindingLook {
  if (word === 'disagree') return DISAGREE;
  return { shape: VERDICT_MEANING[word], kind: VERDICT_MEANING[word], words: word };
}

type FindingState = Pick<CheckFinding, 'word' | 'runs' | 'runsNeeded' | 'skipped' | 'repeatBecause'>;

/** Where a check of the procedure stands: left out, to be repeated, to do, or its verdict and whether runs are still missing. */
export function checkLook({ word, runs, runsNeeded, skipped, repeatBecause }: FindingState): FindingLook {
  if (skipped !== null) return { shape: 'lost', kind: 'invalid', words: 'left out' };
  if (repeatBecause !== null) return STATION_LOOK['to be repeated'];
  if (word === null) return { shape: 'waiting', kind: 'plain', words: 'to do' };
  const look = wordLook(word);
  const missing = runsNeeded - runs;
  if (missing <= 0 || word === 'disagree' || word === 'not valid') return look;
  return { ...look, words: `${look.words} so far, ${missing} more ${missing === 1 ? 'run' : 'runs'} needed` };
}

/** "97.2 % sure"; empty where there is no confidence. */
export const sureText = (confidence: number | null): string =>
  confidence === null ? '' : `${confidenceText(confidence)} sure`;

/** Where a job stands. The same words as in the jobs folder, which this folder may not import. */
export type JobStateWord = 'open' | 'concluded' | 'signed';

export const JOB_LOOK: Readonly<Record<JobStateWord, FindingLook>> = {
  open: { shape: 'edit', kind: 'cranking', words: 'open' },
  concluded: { shape: 'steady', kind: 'plain', words: 'concluded' },
  signed: { shape: 'shield', kind: 'plain', words: 'signed' },
};
