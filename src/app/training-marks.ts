import type { WorkKind } from '../jobs/job-entry.ts';

/** How work is called in the way that was gone. */
export const WORK_WORD: Readonly<Record<WorkKind, string>> = {
  replaced: 'Replaced',
  repaired: 'Repaired',
  cleaned: 'Cleaned',
  adjusted: 'Adjusted',
  other: 'Worked on',
};

/** On the printed page and in lists: nobody may take it for a customer’s vehicle. */
export const PRACTICE_CASE =
  'Practice case: the engine is simulated and has a hidden defect; its limits are invented. It is no customer’s vehicle.';
