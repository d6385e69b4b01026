import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { averageSpeed, joinAverages } from '../../src/crank/average-speed.ts';
import { findAll, log } from './fixtures/find-all.ts';
import { traceOf } from './fixtures/read-recording.ts';

const NO_STEP = { resolutionRpm: 0 };
const trace = (seconds: readonly number[], rpm: readonly number[]) =>
  traceOf(seconds.map((t, i) => ({ atMs: t * 1000, rpm: rpm[i]! })));
const over = (seconds: readonly number[], rpm: readonly number[]) =>
  averageSpeed(trace(seconds, rpm), seconds[0]! * 1000, seconds.at(-1)! * 1000, NO_STEP);

// check-values.md G
const GRID = [0, 0.31, 0.74, 1.52, 2, 3.1, 4.75, 5.5, 7.2, 8.8, 10];
const CRANK_T = [0, 0.5, 1.1, 2.3, 4, 4.1, 7.7, 9.2, 13.6, 15];
const CRANK_N = [0, 150, 210, 196, 188, 192, 185, 187, 181, 178];

describe('average speed', () => {
  it('is exact for a ramp on an uneven grid, where the plain mean is not (check-values.md G)', () => {
    const average = over(
      GRID,
      GRID.map((t) => 120 + 8 * t),
    );
    expect(average.meanRpm).toBeCloseTo(160, 9);
    expect(average.sampleMeanRpm).toBeCloseTo(151.941818, 6);
  });

  it('is the trapezoid sum for t squared and for half a sine (check-values.md G)', () => {
    expect(
      over(
        GRID,
        GRID.map((t) => t * t),
      ).integralRpmMs / 1000,
    ).toBeCloseTo(336.279407, 6);
    const turn = Array.from({ length: 11 }, (_, i) => (i * Math.PI) / 10);
    expect(over(turn, turn.map(Math.sin)).integralRpmMs / 1000).toBeCloseTo(1.983523538, 9);
  });

  it.each([
    [8, 180.083522],
    [10, 180.1],
    [20, 180.120711],
    [40, 180.125683],
  ])('of a compression ripple at %i samples a second is %f (check-values.md G)', (rate, expected) => {
    const t = Array.from({ length: 15 * rate + 1 }, (_, i) => i / rate);
    expect(
      over(
        t,
        t.map((s) => 180 + 15 * Math.sin((2 * Math.PI * s) / 0.4)),
      ).meanRpm,
    ).toBeCloseTo(expected, 5);
  });

  it('of the crank profile is 183.533333, the plain mean 166.7 (check-values.md G)', () => {
    const average = over(CRANK_T, CRANK_N);
    expect(average.integralRpmMs / 1000).toBeCloseTo(2753, 6);
    expect(average.meanRpm).toBeCloseTo(183.533333, 6);
    expect(average.sampleMeanRpm).toBeCloseTo(166.7, 9);
  });

  it('interpolates at edges that lie between samples', () => {
    // The ramp from 2.5 s to 7.5 s has its mean at 5 s: 160 rpm (a straight line).
    const ramp = trace(
      GRID,
      GRID.map((t) => 120 + 8 * t),
    );
    expect(averageSpeed(ramp, 2500, 7500, NO_STEP).meanRpm).toBeCloseTo(160, 9);
  });

  it('two lines a second over two 15 s cranks give some 60 values and the plain mean of a spreadsheet (common practice, no source)', () => {
    const samples = log(
      [
        [3, 0],
        [15, 176, 190],
        [120, 0],
        [15, 171, 188],
        [3, 0],
      ],
      500,
    );
    const cranks = findAll(samples);
    const averages = cranks.map(({ start, end }) =>
      averageSpeed(traceOf(samples), start.atMs, end.atMs, NO_STEP),
    );
    const joined = joinAverages(averages);
    const cells = samples.filter(({ rpm }) => rpm > 50).map(({ rpm }) => rpm);
    expect(Math.abs(joined.samples - 60)).toBeLessThanOrEqual(2);
    expect(joined.sampleMeanRpm).toBeCloseTo(cells.reduce((sum, rpm) => sum + rpm, 0) / cells.length, 9);
  });

  it('leaves a single spike out of the mean and says so', () => {
    const samples = log([[10, 180]], 100).map((each, i) => (i === 50 ? { ...each, rpm: 5000 } : each));
    const average = averageSpeed(traceOf(samples), 0, 9900, NO_STEP);
    expect(average.meanRpm).toBeCloseTo(180, 9);
    expect(average).toMatchObject({ spikes: 1, maxRpm: 180 });
  });

  it('counts a hole against the coverage', () => {
    const holed = log([[10, 180]], 100).filter(({ atMs }) => atMs <= 4000 || atMs >= 4900);
    const average = averageSpeed(traceOf(holed), 0, 9900, NO_STEP);
    expect(average.coverage).toBeGreaterThan(0.9);
    expect(average.coverage).toBeLessThan(0.93);
  });

  it('adds the resolution: 0.125 rpm / sqrt 12 for a steady speed (GUM 4.3.7)', () => {
    const average = averageSpeed(traceOf(log([[5, 180]], 100)), 0, 4900, { resolutionRpm: 0.125 });
    expect(average.standardUncertaintyRpm).toBeCloseTo(0.0360844, 6);
  });

  it('joins cranks by their time, not by their number', () => {
    const long = over([0, 10], [200, 200]);
    const short = over([0, 5], [170, 170]);
    expect(joinAverages([long, short]).meanRpm).toBeCloseTo((200 * 10 + 170 * 5) / 15, 9);
    expect(joinAverages([]).meanRpm).toBeNaN();
  });

  it('gives no number where there is no sample, and never throws', () => {
    expect(averageSpeed(trace([], []), 0, 1000, NO_STEP)).toMatchObject({
      meanRpm: NaN,
      samples: 0,
      coverage: 0,
    });
    fc.assert(
      fc.property(fc.array(fc.double()), fc.double(), fc.double(), (rpm, a, b) => {
        const { coverage } = averageSpeed(
          trace(
            rpm.map((_, i) => i),
            rpm,
          ),
          a,
          b,
          NO_STEP,
        );
        expect(coverage).toBeGreaterThanOrEqual(0);
        expect(coverage).toBeLessThanOrEqual(1);
      }),
    );
  });
});

describe('the weights of the time-weighted mean (check-values.md G)', () => {
  const WEIGHTS = [0.016667, 0.036667, 0.06, 0.096667, 0.06, 0.123333, 0.17, 0.196667, 0.193333, 0.046667];
  /** What one sample more by 1 rpm does to the mean is its weight. */
  const weights = CRANK_N.map(
    (_, at) =>
      over(
        CRANK_T,
        CRANK_N.map((rpm, i) => (i === at ? rpm + 1 : rpm)),
      ).meanRpm - over(CRANK_T, CRANK_N).meanRpm,
  );

  it('are half of the intervals on both sides, over the whole', () => {
    weights.forEach((weight, i) => expect(weight).toBeCloseTo(WEIGHTS[i]!, 5));
    expect(weights.reduce((sum, weight) => sum + weight, 0)).toBeCloseTo(1, 9);
  });

  it('give 0.374848 of the uncertainty of a sample where the noise is independent', () => {
    expect(Math.hypot(...weights)).toBeCloseTo(0.374848, 6);
  });

  it('are not those of a value held to the left or to the right: 182.593333 and 184.473333', () => {
    const held = (from: number) =>
      CRANK_T.slice(1).reduce((sum, t, i) => sum + CRANK_N[i + from]! * (t - CRANK_T[i]!), 0) / 15;
    // The values of the source are what holding gives, and not what comes out.
    expect([held(0), held(1)].map((rpm) => rpm.toFixed(6)).sort()).toEqual(['182.593333', '184.473333']);
    const { meanRpm } = over(CRANK_T, CRANK_N);
    expect(Math.abs(meanRpm - held(0))).toBeGreaterThan(0.9);
    expect(Math.abs(meanRpm - held(1))).toBeGreaterThan(0.9);
    expect(meanRpm).toBeCloseTo((held(0) + held(1)) / 2, 9);
  });
});

describe('how far the correlation is followed', () => {
  /** Values without pattern (a linear congruential series), each held so many times. */
  const heldValues = (count: number, times: number) => {
    let seed = 7;
    const sent = Array.from(
      { length: count },
      () => 180 + ((seed = (seed * 16807) % 2147483647) % 1000) / 50,
    );
    return Array.from({ length: count * times }, (_, i) => sent[Math.floor(i / times)]!);
  };
  const averageOf = (rpm: readonly number[], stampMs: (i: number) => number) =>
    averageSpeed(
      traceOf(rpm.map((value, i) => ({ atMs: stampMs(i), rpm: value }))),
      stampMs(0),
      stampMs(rpm.length - 1),
      NO_STEP,
    );

  it('counts a value that a controller holds for 180 ms about once, at 10 and at 20 ms', () => {
    for (const [times, intervalMs] of [
      [18, 10],
      [9, 20],
    ] as const) {
      const { effectiveSamples } = averageOf(heldValues(80, times), (i) => i * intervalMs);
      expect(effectiveSamples).toBeGreaterThan(40);
      expect(effectiveSamples).toBeLessThan(160); /* within a factor of two of the 80 sent */
    }
  });

  it('is by time and not by bunches: the same values in bunches of five are as uncertain', () => {
    const rpm = heldValues(80, 18);
    const even = averageOf(rpm, (i) => i * 10);
    const bunched = averageOf(rpm, (i) => Math.floor(i / 5) * 50);
    expect(bunched.standardUncertaintyRpm / even.standardUncertaintyRpm).toBeCloseTo(1, 1);
  });

  it('judges a ripple of 400 ms by the Bartlett spectrum over 600 ms (by hand)', () => {
    const ripple = Array.from({ length: 1500 }, (_, i) => 180 + 15 * Math.sin((2 * Math.PI * i) / 40));
    // Fejér kernel with 60 lags at 1/40: (sin(61π/40) / sin(π/40))² / 61; the ripple has variance 15²/2.
    const kernel = (Math.sin((61 * Math.PI) / 40) / Math.sin(Math.PI / 40)) ** 2 / 61;
    const { standardUncertaintyRpm } = averageOf(ripple, (i) => i * 10);
    expect(standardUncertaintyRpm / Math.sqrt((112.5 / 1500) * kernel)).toBeCloseTo(1, 1);
  });

  it('is three samples at least where they come slowly', () => {
    // By hand, -1 1 -1 1 … eight times 1 rpm: rho 1 = -7/8, rho 2 = 6/8, rho 3 = -5/8; weights 3/4, 1/2, 1/4.
    // 1 + 2(-0.65625 + 0.375 - 0.15625) = 0.125, below the floor 1/3: u = sqrt(1/8 / 3).
    const { standardUncertaintyRpm } = averageOf([179, 181, 179, 181, 179, 181, 179, 181], (i) => i * 500);
    expect(standardUncertaintyRpm).toBeCloseTo(Math.sqrt(1 / 24), 9);
  });

  it('of samples 500 ms apart stops at lag 3 (by hand)', () => {
    // 1 1 1 1 -1 -1 -1 -1: shared sums 5, 2, -1 of 8; 1 + 2(0.75·5 + 0.5·2 - 0.25·1)/8 = 2.125; u = sqrt(2.125/8).
    const { standardUncertaintyRpm } = averageOf([181, 181, 181, 181, 179, 179, 179, 179], (i) => i * 500);
    expect(standardUncertaintyRpm).toBeCloseTo(Math.sqrt(2.125 / 8), 9);
  });
});

describe('several cranks as one', () => {
  it('adds their uncertainties in quadrature, by duration (by hand)', () => {
    const each = { ...over([0, 10], [200, 200]), standardUncertaintyRpm: 3 };
    const other = { ...over([0, 10], [180, 180]), standardUncertaintyRpm: 4, spikes: 2 };
    const joined = joinAverages([each, other]);
    expect(joined.standardUncertaintyRpm).toBeCloseTo(2.5, 9);
    expect(joined).toMatchObject({
      meanRpm: 190,
      minRpm: 180,
      maxRpm: 200,
      samples: 4,
      spikes: 2,
      coverage: 1,
    });
    expect(joined).toMatchObject({ durationMs: 20_000, integralRpmMs: 3_800_000 });
  });

  it('of which one has no samples takes its speed from the other, and says so in the coverage', () => {
    const empty = averageSpeed(trace([], []), 0, 10_000, NO_STEP);
    const joined = joinAverages([over([0, 10], [200, 200]), empty]);
    expect(joined).toMatchObject({ meanRpm: 200, coverage: 0.5, samples: 2 });
  });

  it('weighs the plain mean by samples', () => {
    const joined = joinAverages([over([0, 5, 10], [200, 200, 200]), over([0, 10], [100, 100])]);
    expect(joined).toMatchObject({ sampleMeanRpm: 160, meanRpm: 150 });
  });
});
