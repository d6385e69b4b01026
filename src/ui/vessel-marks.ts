/** One etched mark. Majors carry a number. */
export interface VesselMark {
  readonly ml: number;
  readonly rank: 'major' | 'mid' | 'minor';
}

const MANY = 20;
const FEW = 10;

/** How many divisions lie between two numbers, as on common glass: ten, on coarse beakers two or one. */
export function divisionsPerNumber(divisions: number): number {
  if (divisions > MANY) return 10;
  return divisions > FEW ? 2 : 1;
}

/**
 * The marks of a vessel from 0 to its capacity, in mL. A capacity or graduation that is not positive gives none.
 */
export function vesselMarks(capacityMl: number, graduationMl: number): readonly VesselMark[] {
  if (!(capacityMl > 0) || !(graduationMl > 0)) return [];
  const divisions = Math.floor(capacityMl / graduationMl + 1e-9);
  const every = divisionsPerNumber(divisions);
  return Array.from({ length: divisions + 1 }, (_, index) => {
    const rank = index % every === 0 ? 'major' : index % (every / 2) === 0 ? 'mid' : 'minor';
    return { ml: Number((index * graduationMl).toPrecision(12)), rank };
  });
}

/**
 * The stretch shown enlarged, in mL: at least one number is always in it, and it stays within the vessel. Fourteen
 * divisions, or a third of a coarse vessel.
 */
export function enlargedStretch(
  levelMl: number,
  capacityMl: number,
  graduationMl: number,
): { fromMl: number; toMl: number } {
  const divisions = capacityMl / graduationMl;
  const spanMl = Math.min(14, Math.max(divisionsPerNumber(divisions) * 1.4, divisions / 3)) * graduationMl;
  const margin = graduationMl * 1.5;
  const fromMl = Math.min(Math.max(levelMl - spanMl / 2, -margin / 2), capacityMl + margin - spanMl);
  return { fromMl, toMl: fromMl + spanMl };
}

/** A level as the vessel can hold it: not below empty, not above full, empty when it is not a number. */
export const heldMl = (levelMl: number, capacityMl: number): number =>
  Number.isFinite(levelMl) ? Math.min(Math.max(levelMl, 0), capacityMl) : 0;

/** Where the liquid's skin lies, in drawing units: walls, the bottom of the curve, and how far it climbs the glass. */
export interface Skin {
  readonly left: number;
  readonly right: number;
  readonly levelY: number;
  readonly climb: number;
}

/** The meniscus: concave, climbing both walls, its lowest point exactly at the level. An SVG path from wall to wall. */
export function meniscusPath({ left, right, levelY, climb }: Skin): string {
  const width = right - left;
  const middle = left + width / 2;
  const near = width * 0.1;
  const top = levelY - climb;
  return (
    `M${left} ${top}C${left + near} ${levelY} ${left + width * 0.28} ${levelY} ${middle} ${levelY}` +
    `C${right - width * 0.28} ${levelY} ${right - near} ${levelY} ${right} ${top}`
  );
}
