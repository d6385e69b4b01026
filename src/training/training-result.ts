import { z } from 'zod';
import { DEFECT_KINDS } from '../../simulators/engine/defects.ts';
import { DECISIONS } from '../jobs/job-entry.ts';
import { CaseSeed, LEVELS } from './case-set.ts';
import { fingerprintOf } from './case-id.ts';
import { MATCHES } from './compare-conclusion.ts';
import type { TrainingCase } from './draw-case.ts';
import type { CaseReview } from './review-case.ts';

/** Form in which results are written. */
export const RESULT_FORMAT = 1;

const iso = z.iso.datetime({ offset: true });
const count = z.number().int().nonnegative();
const Matched = z.enum(MATCHES);

/**
 * How one case ended for one trainee: a row of a class. Kept at the moment at which the truth was shown, and never changed. Fields are described in
 * docs/training-results.md.
 */
export const TrainingResult = z.strictObject({
  formatVersion: z.literal(RESULT_FORMAT),
  /** Id of the job. */
  id: z.string().min(1).max(200),
  setId: z.string().min(1),
  setTitle: z.string(),
  setFingerprint: z.string(),
  level: z.enum(LEVELS),
  seed: CaseSeed,
  trainee: z.string(),
  begunAt: iso,
  endedAt: iso,
  ended: z.enum(['concluded', 'given up']),
  truth: z.array(z.strictObject({ kind: z.enum(DEFECT_KINDS), severity: z.number().min(0).max(1) })),
  /** What the trainee wrote as the cause. */
  named: z.string(),
  decided: z.enum(DECISIONS).nullable(),
  cause: Matched,
  station: Matched,
  decision: Matched,
  runs: count,
  runsNotValid: count,
  checksLeftOut: count,
  partsReplaced: count,
  partsNotAtFault: count,
  minutes: count,
  partPoints: count,
  shortestMinutes: count,
  shortestPartPoints: count,
});
export type TrainingResult = z.infer<typeof TrainingResult>;

interface Ended {
  readonly jobId: string;
  readonly trainee: string;
  readonly begunAt: string;
  readonly endedAt: string;
}

/** The row of a case that is over. */
export function resultOf(drawn: TrainingCase, review: CaseReview, ended: Ended): TrainingResult {
  const { path, shortest, compared } = review;
  const runs = path.steps.filter((step) => step.kind === 'run');
  const parts = path.steps.filter((step) => step.kind === 'work').filter(({ part }) => part !== null);
  const leftOut = path.steps.flatMap((step) => (step.kind === 'left out' ? [step.checkId] : []));
  return {
    formatVersion: RESULT_FORMAT,
    id: ended.jobId,
    setId: drawn.set.id,
    setTitle: drawn.set.title,
    setFingerprint: fingerprintOf(drawn.set),
    level: drawn.set.level,
    seed: drawn.seed,
    trainee: ended.trainee,
    begunAt: ended.begunAt,
    endedAt: ended.endedAt,
    ended: review.ended,
    truth: review.truth.map(({ kind, severity }) => ({ kind, severity })),
    named: compared.words,
    decided: compared.decided,
    cause: compared.cause,
    station: compared.station,
    decision: compared.decision,
    runs: runs.length,
    runsNotValid: runs.filter(({ word }) => word === 'not valid').length,
    checksLeftOut: new Set(leftOut).size,
    partsReplaced: parts.length,
    partsNotAtFault: parts.filter(({ cured }) => cured.length === 0).length,
    minutes: path.minutes,
    partPoints: path.points,
    shortestMinutes: shortest.minutes,
    shortestPartPoints: shortest.points,
  };
}
