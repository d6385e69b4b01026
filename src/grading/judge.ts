import type { Problem } from '../problems/problem.ts';
import { nearestBoundary, zoneOf, type Boundary, type Placement } from './boundary.ts';
import { zoneProbabilities } from './conformity.ts';
import { GRADING_REVISION, type NearestBoundary, type Verdict } from './verdict.ts';

/** A verdict needs at least this probability; below it is too close to call (measurement.md section 6, JCGM 106). */
export const NEEDED_CONFIDENCE = 0.95;

/** The verdict on a placed value: its zone at face value, or too close to call with that zone as its leaning. */
export function judge(placement: Placement, warnings: readonly Problem[]): Verdict {
  const leaning = zoneOf(placement);
  const probabilities = zoneProbabilities(placement);
  const confidence = probabilities[leaning];
  const nearest = nearestBoundary(placement);
  return {
    word: confidence >= NEEDED_CONFIDENCE ? leaning : 'too close to call',
    leaning,
    confidence,
    probabilities,
    nearest: nearest ? distanceTo(placement.value, nearest) : null,
    reasons: [],
    warnings,
    gradingRevision: GRADING_REVISION,
  };
}

/** No verdict, and why. */
export function notValid(reasons: readonly Problem[], warnings: readonly Problem[]): Verdict {
  return {
    word: 'not valid',
    leaning: null,
    confidence: null,
    probabilities: null,
    nearest: null,
    reasons,
    warnings,
    gradingRevision: GRADING_REVISION,
  };
}

function distanceTo(value: number, { name, atValue }: Boundary): NearestBoundary {
  const distance = value - atValue;
  return { name, atValue, distance, distancePercent: atValue === 0 ? NaN : (100 * distance) / atValue };
}
