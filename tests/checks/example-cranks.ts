import type { CrankEntry } from '../../src/checks/crank-entry.ts';
import type { Crank, SpeedAverage } from '../../src/crank/crank.ts';
import { millis } from '../../src/quantities/time.ts';

/** A crank of the given span, released at its end, with edges known to 30 ms. */
export function crankOf(startMs: number, spanMs: number, change: Partial<Crank> = {}): Crank {
  const start = { atMs: millis(startMs), standardUncertaintyMs: 30 };
  const end = { atMs: millis(startMs + spanMs), standardUncertaintyMs: 30 };
  const plain = {
    start,
    end,
    endedBy: 'released',
    cutAtStart: false,
    starterOn: start,
    startSign: 'speed',
  } as const;
  return { ...plain, ...change };
}

/** A steady speed, well sampled. */
export function averageOf(meanRpm: number, spanMs: number, change: Partial<SpeedAverage> = {}): SpeedAverage {
  return {
    meanRpm,
    sampleMeanRpm: meanRpm,
    minRpm: meanRpm - 5,
    maxRpm: meanRpm + 5,
    samples: 30,
    spikes: 0,
    coverage: 1,
    standardUncertaintyRpm: 1,
    effectiveSamples: 20,
    integralRpmMs: meanRpm * spanMs,
    durationMs: spanMs,
    ...change,
  };
}

/** A crank as it comes to the check: found, averaged and timed. */
export function entryOf(
  spanSeconds: number,
  change: Partial<CrankEntry> & {
    readonly found?: Partial<Crank>;
    readonly speed?: Partial<SpeedAverage>;
  } = {},
): CrankEntry {
  const { found, speed, ...rest } = change;
  const spanMs = spanSeconds * 1000;
  const time = { spanMs, standardUncertaintyMs: 40 };
  return { crank: crankOf(0, spanMs, found), average: averageOf(180, spanMs, speed), time, ...rest };
}
