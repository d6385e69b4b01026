import type { VerdictWord } from '../grading/verdict.ts';
import type { PathStation } from '../procedures/fuel-path.ts';
import type { BeforeAfterRow } from './before-after.ts';

/** One check on the page. All texts as they are printed. */
export interface SheetCheckRow {
  readonly title: string;
  /** With unit and uncertainty; empty where nothing was measured. */
  readonly value: string;
  /** E.g. "at most 525 mL"; empty where there is none. */
  readonly limit: string;
  /** Limit sheet and revision. */
  readonly sheet: string;
  readonly word: VerdictWord | 'disagree' | null;
  /** E.g. "97.2 % sure". */
  readonly sure: string;
  /** E.g. "left out", "not done", "to be repeated"; empty where the verdict stands. */
  readonly state: string;
  /** Reasons of leaving out, runs that do not count, overrides: one sentence each. */
  readonly notes: readonly string[];
}

/** Everything on the page of a job. */
export interface JobSheetView {
  readonly title: string;
  readonly dates: string;
  /** E.g. "Signed, revision 2" or "Open: not the final page". */
  readonly standing: string;
  /** That its numbers are invented or its engine simulated; empty where they are real. */
  readonly practice: string;
  readonly complaint: string;
  /** Name and value of each field. */
  readonly identity: readonly (readonly [string, string])[];
  readonly codes: readonly { readonly code: string; readonly words: string; readonly from: string }[];
  readonly path: readonly PathStation[];
  readonly pathWords: string;
  readonly checks: readonly SheetCheckRow[];
  readonly works: readonly {
    readonly time: string;
    readonly words: string;
    readonly notes: readonly string[];
  }[];
  /** In the order of time. The photographs of note n lie in the slot `note-n`. */
  readonly notes: readonly { readonly time: string; readonly words: string }[];
  readonly beforeAfter: readonly BeforeAfterRow[];
  /** Null: the job is still open. `by` empty: not signed yet. */
  readonly conclusion: {
    readonly decision: string;
    readonly words: string;
    readonly cause: string;
    readonly watchFor: string;
    readonly by: string;
    readonly time: string;
  } | null;
  /** What a marginal result means and what it does not; empty where there is none. */
  readonly caveat: string;
  /** Why and when it was opened again, one sentence each. */
  readonly reopened: readonly string[];
  readonly cautions: readonly string[];
  /** Program, grading, procedure and format revisions. */
  readonly versions: string;
}
