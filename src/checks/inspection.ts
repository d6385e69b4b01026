import { problem, type Problem } from '../problems/problem.ts';
import type { InspectionSettings } from './check-settings.ts';

/** What was seen at one point. */
export interface Observation {
  readonly seen: 'in order' | 'not in order' | 'not looked at';
  readonly note: string;
  readonly photoIds: readonly string[];
}

type Point = InspectionSettings['points'][number];

/** A point of the check with what was seen there. */
export interface InspectedPoint extends Observation {
  readonly point: Point;
}

/** What an inspection found. */
export interface Inspection {
  readonly points: readonly InspectedPoint[];
  /** The worst of the points that are not in order; `pass` where all are in order; null while one was not looked at. */
  readonly word: 'pass' | Point['whenNot'] | null;
  /** Causes that the points not in order speak for, each once, in their order. */
  readonly causes: readonly string[];
  readonly reasons: readonly Problem[];
  readonly warnings: readonly Problem[];
}

const NOT_LOOKED_AT: Observation = { seen: 'not looked at', note: '', photoIds: [] };

/**
 * Puts the observations of an inspection together. A point that was not looked at is a reason, named by what it asks; what is already known to be out of
 * order is told all the same, in `points` and `causes`. Observations of points that the check does not have are left out.
 */
export function inspect(
  { points }: InspectionSettings,
  observations: ReadonlyMap<string, Observation>,
): Inspection {
  const inspected = points.map((point): InspectedPoint => {
    const { seen, note, photoIds } = observations.get(point.id) ?? NOT_LOOKED_AT;
    return { point, seen, note, photoIds };
  });
  const open = inspected.filter(({ seen }) => seen === 'not looked at');
  const bad = inspected.filter(({ seen }) => seen === 'not in order');
  const causes = bad.flatMap(({ point }) => (point.cause === null ? [] : [point.cause]));
  return {
    points: inspected,
    word: open.length > 0 ? null : worst(bad.map(({ point }) => point.whenNot)),
    causes: [...new Set(causes)],
    reasons:
      open.length > 0
        ? [
            problem('check.points-open', {
              number: open.length,
              points: open.map(({ point }) => point.ask).join(' '),
            }),
          ]
        : [],
    warnings: bad.map(({ point, note }) =>
      problem('check.point-not-in-order', { point: point.ask, note: note.trim() === '' ? 'no note' : note }),
    ),
  };
}

/** A failure is worse than a marginal point; of two kinds of failure the first in order speaks. */
const worst = (words: readonly Point['whenNot'][]): Inspection['word'] =>
  words.find((word) => word !== 'marginal') ?? words[0] ?? 'pass';
