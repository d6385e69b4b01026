import { rounded } from '../checks/rounded.ts';
import type { VolumeMeasurement } from '../checks/measurement.ts';
import { problem, type Problem } from '../problems/problem.ts';
import { failed, ok, type Result } from '../problems/result.ts';
import { volumeParts, type UncertaintyPart } from './uncertainty.ts';

/** What crank deliveries and collected volumes have in common. */
export interface TimedVolume {
  readonly volume: VolumeMeasurement | null;
  readonly volumeAtTargetMl: number | null;
  readonly seconds: number | null;
  readonly secondsUncertainty: number;
  readonly targetSeconds: number | null;
}

/** The volume that is graded: as read, or scaled to the target time where the time was overridden. */
export interface GradedVolume {
  readonly valueMl: number;
  readonly scale: number;
  readonly parts: readonly UncertaintyPart[];
  /** A beaker, or an estimate: what must be said beside a verdict on this volume. */
  readonly warnings: readonly Problem[];
}

/** Chooses the volume to grade, with the parts of its uncertainty in mL. A missing volume and numbers that are none give a problem. */
export function gradedVolume(timed: TimedVolume): Result<GradedVolume> {
  const { volume, volumeAtTargetMl, seconds, secondsUncertainty } = timed;
  if (!volume) return failed(problem('check.no-volume'));
  const valueMl = volumeAtTargetMl ?? volume.valueMl;
  const scale = volume.valueMl === 0 ? 1 : valueMl / volume.valueMl;
  const time = seconds === null ? null : { seconds, standardUncertainty: secondsUncertainty };
  const parts = volumeParts(volume, scale, time);
  const numbers = [valueMl, ...parts.map(({ contribution }) => contribution)];
  if (!numbers.every((number) => Number.isFinite(number) && number >= 0))
    return failed(problem('check.no-value'));
  const warnings = [...beakerWarning(volume), ...estimateWarning(timed, volume)];
  return ok({ valueMl, scale, parts, warnings });
}

const beakerWarning = ({ vessel }: VolumeMeasurement): readonly Problem[] =>
  vessel.measures ? [] : [problem('check.beaker', { vessel: vessel.name })];

function estimateWarning(
  { volumeAtTargetMl, seconds, targetSeconds }: TimedVolume,
  volume: VolumeMeasurement,
) {
  if (volumeAtTargetMl === null) return [];
  return [
    problem('check.scaled-estimate', {
      measured: rounded(volume.valueMl, 1),
      seconds: rounded(seconds ?? NaN, 2),
      estimate: rounded(volumeAtTargetMl, 1),
      target: targetSeconds ?? NaN,
    }),
  ];
}
