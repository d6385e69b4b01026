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
