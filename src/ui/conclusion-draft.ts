/** The three ends of a job and what each means. The same words as in the jobs folder, which this folder may not import. */
export const DECISION_FORMS = {
  'repair now': {
    title: 'Repair now',
    means: 'The loss is found. It is put right before the vehicle works again.',
  },
  'run on and watch': {
    title: 'Run on and watch',
    means: 'It works today, and the owner knows what to look for and when to come back.',
  },
  'look elsewhere': {
    title: 'Look elsewhere',
    means: 'What was checked of the fuel path does not explain the complaint.',
  },
} as const;

export type DecisionWord = keyof typeof DECISION_FORMS;

/** A conclusion as it is being typed. */
export interface ConclusionDraft {
  readonly decision: DecisionWord | null;
  readonly words: string;
  readonly cause: string;
  readonly watchFor: string;
}

/** What is missing before a job can be concluded, by part, each with what to do. Empty: nothing. */
export function conclusionMistakes({
  decision,
  words,
  watchFor,
}: ConclusionDraft): Partial<Record<keyof ConclusionDraft, string>> {
  return {
    ...(decision === null ? { decision: 'Choose one of the three.' } : {}),
    ...(words.trim() === ''
      ? { words: 'Say in your own words what was found; one sentence is enough.' }
      : {}),
    ...(decision === 'run on and watch' && watchFor.trim() === ''
      ? { watchFor: 'Say what the driver has to watch for.' }
      : {}),
  };
}
