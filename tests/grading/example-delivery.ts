import type { CollectedVolume, CrankDelivery, VolumeMeasurement } from '../../src/checks/measurement.ts';
import { VESSELS } from '../../src/checks/vessels.ts';
import { measureVolume } from '../../src/checks/volume.ts';
import type { SpeedAverage } from '../../src/crank/crank.ts';
import type { SpeedChart, Window } from '../../src/limits/limit-sheet.ts';
import { averageOf } from '../checks/example-cranks.ts';

/** Two lines that are easy by hand: at 180 rpm failBelow is 210 (slope 1.5) and passAbove 280 (slope 2). */
export const CHART: SpeedChart = {
  kind: 'speed chart',
  check: 'crank-delivery',
  title: 'By hand',
  cranks: 2,
  crankSeconds: 15,
  timeTolerancePercent: 5,
  speedAverage: 'time-weighted',
  join: 'straight',
  failBelow: [
    [100, 90],
    [260, 330],
  ],
  passAbove: [
    [100, 120],
    [260, 440],
  ],
  failAbove: null,
  conditions: [],
};

/** common practice, no source: a pump return of 125 to 525 mL in 30 s. */
export const RETURN_WINDOW: Window = {
  kind: 'window',
  check: 'pump-return',
  title: 'Pump return',
  quantity: 'volume',
  min: 125,
  max: 525,
  durationSeconds: 30,
  conditions: [],
};

/** A volume in the 500 mL cylinder (index 2 of the vessels) or another one. */
export function volumeOf(valueMl: number, vesselIndex = 2): VolumeMeasurement {
  const vessel = VESSELS[vesselIndex];
  const measured = vessel && measureVolume({ vessel, readingsMl: [valueMl] });
  if (!measured?.ok) throw new Error(`no such volume: ${valueMl}`);
  return measured.value;
}

export function deliveryOf(
  volume: VolumeMeasurement | null,
  speed: Partial<SpeedAverage> = {},
  change: Partial<CrankDelivery> = {},
): CrankDelivery {
  return {
    cranks: [],
    crankSeconds: 30,
    crankSecondsUncertainty: 0.3,
    targetSeconds: 30,
    average: averageOf(180, 30_000, { standardUncertaintyRpm: 2, ...speed }),
    volume,
    volumeAtTargetMl: null,
    reasons: [],
    warnings: [],
    ...change,
  };
}

export const collectedOf = (
  volume: VolumeMeasurement | null,
  change: Partial<CollectedVolume> = {},
): CollectedVolume => ({
  volume,
  seconds: 30,
  secondsUncertainty: 0,
  targetSeconds: 30,
  volumeAtTargetMl: null,
  reasons: [],
  warnings: [],
  ...change,
});

/** The same volume as if it came without the causes of its uncertainty. */
export const withoutParts = ({
  valueMl,
  standardUncertaintyMl,
  vessel,
}: VolumeMeasurement): VolumeMeasurement => ({
  valueMl,
  standardUncertaintyMl,
  vessel,
});
