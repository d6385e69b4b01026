import type { Vessel } from './measurement.ts';

/**
 * Vessels offered at first, with honest defaults; the person may enter the tolerance printed on their own.
 * Cylinders: ASTM E1272-02 table 1, class B, and its divisions (1000 mL: from memory). Beakers: ISO 3819 and ASTM E960 call their marks
 * approximate; makers state 5 % or 10 % (from memory), so a verdict on them is warned of.
 */
export const VESSELS: readonly Vessel[] = [
  cylinder(100, 1, 1),
  cylinder(250, 2, 2),
  cylinder(500, 4, 5),
  cylinder(1000, 6, 10),
  beaker(600, 50, 5),
  beaker(1000, 100, 10),
];

/** The vessel with this id; null when there is none. */
export const vesselById = (id: string, vessels: readonly Vessel[] = VESSELS): Vessel | null =>
  vessels.find((vessel) => vessel.id === id) ?? null;

function cylinder(capacityMl: number, halfWidth: number, graduationMl: number): Vessel {
  const id = `cylinder-${capacityMl}`;
  const name = `Graduated cylinder ${capacityMl} mL`;
  return { id, name, capacityMl, graduationMl, tolerance: { kind: 'mL', halfWidth }, measures: true };
}

function beaker(capacityMl: number, graduationMl: number, percent: number): Vessel {
  const id = `beaker-${capacityMl}`;
  const name = `Beaker ${capacityMl} mL (±${percent} %, not for measuring)`;
  const tolerance = { kind: 'fraction', halfWidth: percent / 100 } as const;
  return { id, name, capacityMl, graduationMl, tolerance, measures: false };
}
