import type { Boundary, Placement } from './boundary.ts';
import { normalBelow } from './normal-distribution.ts';
import type { Zone } from './verdict.ts';

/** What a measured value is known to: itself and its standard uncertainty, in one unit. */
export interface Estimate {
  readonly value: number;
  readonly standardUncertainty: number;
}

/** Probability that the true value is below `limit` (JCGM 106:2012, 7.3). Without uncertainty it is 0, 1, or 1/2 exactly on the limit. */
export function probabilityBelow({ value, standardUncertainty }: Estimate, limit: number): number {
  if (standardUncertainty === 0) return value === limit ? 0.5 : value < limit ? 1 : 0;
  return normalBelow((limit - value) / standardUncertainty);
}

/** Probability that the true value lies between the limits (JCGM 106:2012, 7.4); null is an open side. */
export function probabilityInside(estimate: Estimate, lower: number | null, upper: number | null): number {
  const belowUpper = upper === null ? 1 : probabilityBelow(estimate, upper);
  const belowLower = lower === null ? 0 : probabilityBelow(estimate, lower);
  return Math.max(0, belowUpper - belowLower);
}

/**
 * Probability of each zone, together 1. Each boundary has its own uncertainty (its slope makes more or less of a doubtful speed), so the probabilities
 * to be below one boundary after the other could fall by a hair; they are kept from falling, as the boundaries do not cross.
 */
export function zoneProbabilities({ value, boundaries, above }: Placement): Record<Zone, number> {
  const zones: Record<Zone, number> = { pass: 0, marginal: 0, 'fail low': 0, 'fail high': 0 };
  let reached = 0;
  for (const boundary of boundaries) {
    const below = Math.max(reached, belowBoundary(value, boundary));
    zones[boundary.below] += below - reached;
    reached = below;
  }
  zones[above] += 1 - reached;
  return zones;
}

function belowBoundary(value: number, { atValue, ownValueIsBelow, budget }: Boundary): number {
  if (budget.combined === 0 && value === atValue) return ownValueIsBelow ? 1 : 0;
  return probabilityBelow({ value, standardUncertainty: budget.combined }, atValue);
}
