import type { LIMIT_UNIT, LimitQuantity } from '../limits/printed-unit.ts';
import type { UncertaintyBudget } from './uncertainty.ts';
import type { NearestBoundary, Zone } from './verdict.ts';

/** A boundary at the place of the measured value. */
export interface Boundary {
  readonly name: NearestBoundary['name'];
  readonly atValue: number;
  /** Change of the boundary with speed, mL per rpm; 0 for windows. */
  readonly slopePerRpm: number;
  /** The zone below this boundary and above the next lower one. */
  readonly below: Zone;
  /** Whether a value exactly on the boundary belongs to the zone below it. */
  readonly ownValueIsBelow: boolean;
  /** How uncertain (value minus boundary) is, and why. */
  readonly budget: UncertaintyBudget;
}

/** A value among its boundaries, lowest first, ready to be judged. */
export interface Placement {
  readonly value: number;
  readonly unit: (typeof LIMIT_UNIT)[LimitQuantity];
  /** The speed at which the chart was entered; null for windows. */
  readonly speedRpm: number | null;
  readonly boundaries: readonly Boundary[];
  /** The zone above the highest boundary. */
  readonly above: Zone;
}

/** The zone of the value at face value. */
export function zoneOf({ value, boundaries, above }: Placement): Zone {
  const ceiling = boundaries.find(({ atValue, ownValueIsBelow }) =>
    ownValueIsBelow ? value <= atValue : value < atValue,
  );
  return ceiling?.below ?? above;
}

/** The boundary nearest to the value, in the unit of the value; the lower of two that are equally near. Null without boundaries. */
export function nearestBoundary({ value, boundaries }: Placement): Boundary | null {
  return boundaries.reduce<Boundary | null>((nearest, boundary) => {
    if (!nearest) return boundary;
    return Math.abs(value - boundary.atValue) < Math.abs(value - nearest.atValue) ? boundary : nearest;
  }, null);
}
