import { nextChance, uniform, type Chance } from './chance.ts';

/** A graduated cylinder as it is drawn. The marks run to the capacity; more runs over the rim. */
export interface CylinderMarks {
  readonly capacityMl: number;
  readonly graduationMl: number;
  /** How far the fuel climbs at the glass above the true level, mL: the curve whose bottom is read. */
  readonly meniscusMl: number;
}

/** 500 mL in divisions of 5 mL, the usual pattern (check-values.md F). The height of the meniscus: common practice, no source. */
export const BENCH_CYLINDER: CylinderMarks = { capacityMl: 500, graduationMl: 5, meniscusMl: 2 };

/** What the picture needs, and what an honest eye writes down. */
export interface VesselView extends CylinderMarks {
  readonly levelMl: number; // true: bottom of the meniscus
  /** To half a division, from level with the eye. Null when the fuel stands at the rim: more may have run over. */
  readonly readingMl: number | null;
}

const toHalfDivision = (levelMl: number, { graduationMl }: CylinderMarks): number =>
  (Math.round((2 * levelMl) / graduationMl) * graduationMl) / 2;

/** The vessel at a true volume, mL. */
export function vesselView(volumeMl: number, marks: CylinderMarks = BENCH_CYLINDER): VesselView {
  const levelMl = Math.min(marks.capacityMl, Math.max(0, volumeMl));
  const readingMl = levelMl >= marks.capacityMl ? null : toHalfDivision(levelMl, marks);
  return { ...marks, levelMl, readingMl };
}

/**
 * What a hurried person writes: the eye is up to half a division off level (parallax, either way), and the
 * top of the meniscus is sometimes read (one time in five). Null when the fuel stands at the rim. The chance is to be renewed by the caller with
 * two `nextChance`.
 */
export function hurriedReadingMl(view: VesselView, chance: Chance): number | null {
  if (view.readingMl === null) return null;
  const parallax = (uniform(chance) - 0.5) * view.graduationMl;
  const meniscus = uniform(nextChance(chance)) < 0.2 ? view.meniscusMl : 0;
  return Math.max(0, toHalfDivision(view.levelMl + parallax + meniscus, view));
}
