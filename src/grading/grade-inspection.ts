import type { Inspection } from '../checks/inspection.ts';
import { notValid } from './judge.ts';
import { GRADING_REVISION, type Verdict } from './verdict.ts';

/** The verdict on an inspection: the worst point that is not in order, else a pass; not valid while a point is open. It has no probability. */
export function gradeInspection({ word, reasons, warnings }: Inspection): Verdict {
  if (word === null) return notValid(reasons, warnings);
  return {
    word,
    leaning: word,
    confidence: null,
    probabilities: null,
    nearest: null,
    reasons,
    warnings,
    gradingRevision: GRADING_REVISION,
  };
}
