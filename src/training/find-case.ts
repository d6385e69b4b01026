import { problem } from '../problems/problem.ts';
import { failed, ok, type Result } from '../problems/result.ts';
import { fingerprintOf, readCaseId } from './case-id.ts';
import type { CaseSet } from './case-set.ts';
import { drawCase, type TrainingCase } from './draw-case.ts';

/**
 * The case that a job's scenario id names, drawn again. Problems: `training.not-a-case`; `training.set-missing` and `training.set-changed` where the
 * sets at hand cannot draw the very same engine.
 */
export function findCase(scenarioId: string | null, sets: readonly CaseSet[]): Result<TrainingCase> {
  const named = readCaseId(scenarioId);
  if (!named) return failed(problem('training.not-a-case', { id: scenarioId ?? 'none' }));
  const set = sets.find(({ id }) => id === named.setId);
  if (!set) return failed(problem('training.set-missing', { id: named.setId }));
  if (fingerprintOf(set) !== named.fingerprint)
    return failed(problem('training.set-changed', { id: named.setId }));
  return ok(drawCase(set, named.seed));
}
