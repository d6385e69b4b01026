import type { VerdictWord, Zone } from '../grading/verdict.ts';

/** What is known of one check of the procedure, from its runs: what advice, order and the fuel path stand on. */
export interface CheckFinding {
  readonly checkId: string;
  /** The finding's verdict; `disagree` where valid runs do not share one or are not repeatable; null where there is no run. */
  readonly word: VerdictWord | 'disagree' | null;
  /** Where a result that is too close to call leans to, the same in all of its valid runs; null or left out elsewhere. */
  readonly leaning?: Zone | null;
  /** A run had holes in its data that could matter. */
  readonly dataLost?: boolean;
  /** Probability of the verdict, 0 to 1, of the last run; null where there is none. */
  readonly confidence: number | null;
  /** Valid runs that count, and how many the procedure asks for. */
  readonly runs: number;
  readonly runsNeeded: number;
  /** Why it was left out; null where it was not. */
  readonly skipped: string | null;
  /** Work was done since that makes it one to be repeated; null where it stands. */
  readonly repeatBecause: string | null;
  /** Of an inspection: the causes of the points that are not in order. */
  readonly causes: readonly string[];
}
