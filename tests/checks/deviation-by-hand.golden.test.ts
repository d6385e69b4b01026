import { describe, expect, it } from 'vitest';
import type { PressureDeviationSettings } from '../../src/checks/check-settings.ts';
import { bandTable } from '../../src/checks/deviation-bands.ts';
import { deviationRows } from '../../src/checks/deviation-rows.ts';
import { measurePressureDeviation } from '../../src/checks/pressure-deviation.ts';
import { worstStretches } from '../../src/checks/worst-stretches.ts';
import { sampled, signalsFrom, type Point } from './example-signals.ts';

const SETTINGS: PressureDeviationSettings = {
  kind: 'pressure deviation',
  actual: 'railPressure',
  commanded: 'commandedRailPressure',
  stretchSeconds: 2,
  speedBandsRpm: [1000, 1500],
  loadBandsPercent: [50],
  leastCommandedKPa: 80_000,
  leastSeconds: 5,
};
const EVERYTHING = { runningRpm: 400, chosen: null };

/*
 * Ten values, one a second, worked out by hand. Commanded 100 000 kPa throughout.
 *   s           0     1     2     3     4     5     6     7     8     9
 *   actual    −200  −400  −600 −1000 −3000 −5000 −2000  −800  −400     0   (off 100 000)
 *   speed      800   800   800  1000  1200  1400  1400  1500  1600  1600
 *   load        20    20    30    40    60    80    90    80    60    20
 */
const OFF = [-200, -400, -600, -1000, -3000, -5000, -2000, -800, -400, 0];
const SPEED = [800, 800, 800, 1000, 1200, 1400, 1400, 1500, 1600, 1600];
const LOAD = [20, 20, 30, 40, 60, 80, 90, 80, 60, 20];
const each = (values: readonly number[]): readonly Point[] =>
  values.map((value, s): Point => [1000 * s, value]);
const SIGNALS = signalsFrom({
  railPressure: each(OFF.map((off) => 100_000 + off)),
  commandedRailPressure: each(OFF.map(() => 100_000)),
  engineSpeed: each(SPEED),
  actualTorque: each(LOAD),
});
const ROWS = deviationRows(SETTINGS, SIGNALS, EVERYTHING);

describe('ten values put on common time', () => {
  it('keep their deviation, speed and load, all joined but the first', () => {
    expect([...ROWS.deviationKPa]).toEqual(OFF);
    expect([...ROWS.speedRpm]).toEqual(SPEED);
    expect([...ROWS.loadPercent]).toEqual(LOAD);
    expect([...ROWS.joined]).toEqual([0, 1, 1, 1, 1, 1, 1, 1, 1, 1]);
    expect(ROWS.knownMs).toBe(9000);
  });

  it('begin where the engine runs', () => {
    const late = deviationRows(SETTINGS, SIGNALS, { runningRpm: 1000, chosen: null });
    expect([...late.deviationKPa]).toEqual(OFF.slice(3));
    expect(late.knownMs).toBe(6000);
  });

  it('are those within the chosen stretch, both ends included', () => {
    const chosen = deviationRows(SETTINGS, SIGNALS, {
      runningRpm: 0,
      chosen: { startMs: 2000, endMs: 5000 },
    });
    expect([...chosen.atMs]).toEqual([2000, 3000, 4000, 5000]);
    expect(chosen.knownMs).toBe(3000);
  });

  it('break where the engine stops between them', () => {
    const stalls = signalsFrom({ engineSpeed: each(SPEED.map((rpm, s) => (s === 4 || s === 5 ? 0 : rpm))) });
    const rows = deviationRows(SETTINGS, { ...SIGNALS, ...stalls }, EVERYTHING);
    expect([...rows.atMs]).toEqual([0, 1000, 2000, 3000, 6000, 7000, 8000, 9000]);
    expect([...rows.joined]).toEqual([0, 1, 1, 1, 0, 1, 1, 1]);
    expect(rows.knownMs).toBe(6000);
  });
});

/*
 * By speed. A value stands for the second before it; an upper end belongs to the band above.
 *   below 1000: values 0, 1, 2: −200, −400, −600. Seconds 2. Mean over time (−400 − 600)/2 = −500. s = 200 (mean −400, squares 40 000 · 2, over 2).
 *   1000 to 1500: values 3 to 6: −1000, −3000, −5000, −2000. Seconds 4. Mean −11 000/4 = −2750; squares 1750², 250², 2250², 750²:
 *     3 062 500 + 62 500 + 5 062 500 + 562 500 = 8 750 000; over 3, root: 1707.825.
 *   1500 and above: values 7 to 9: −800, −400, 0. Seconds 3. Mean −400; squares 160 000 · 2 over 2: s = 400.
 */
describe('the table by speed of ten values', () => {
  const [low, middle, high] = bandTable(ROWS, ROWS.speedRpm, SETTINGS.speedBandsRpm);

  it('below 1000 rpm', () => {
    expect(low).toMatchObject({ from: null, to: 1000, values: 3, seconds: 2, worstKPa: -600 });
    expect(low?.meanKPa).toBeCloseTo(-500, 9);
    expect(low?.standardDeviationKPa).toBeCloseTo(200, 9);
  });

  it('from 1000 to below 1500 rpm', () => {
    expect(middle).toMatchObject({ from: 1000, to: 1500, values: 4, seconds: 4, worstKPa: -5000 });
    expect(middle?.meanKPa).toBeCloseTo(-2750, 9);
    expect(middle?.standardDeviationKPa).toBeCloseTo(1707.825, 3);
  });

  it('from 1500 rpm on', () => {
    expect(high).toMatchObject({ from: 1500, to: null, values: 3, seconds: 3, worstKPa: -800 });
    expect(high?.meanKPa).toBeCloseTo(-400, 9);
    expect(high?.standardDeviationKPa).toBeCloseTo(400, 9);
  });

  it('is the same in whatever order, and however often, the ends are given', () => {
    expect(bandTable(ROWS, ROWS.speedRpm, [1500, 1000, 1500])).toEqual([low, middle, high]);
  });

  it('without ends is one band with all values: mean −13 200/9, worst −5000', () => {
    const [all, ...none] = bandTable(ROWS, ROWS.speedRpm, []);
    expect(none).toEqual([]);
    // The first value stands for no time: −400 − 600 − 1000 − 3000 − 5000 − 2000 − 800 − 400 − 0 = −13 200 over 9 s.
    expect(all).toMatchObject({ from: null, to: null, values: 10, seconds: 9, worstKPa: -5000 });
    expect(all?.meanKPa).toBeCloseTo(-13_200 / 9, 9);
  });

  it('of a single value without time is that value, without a spread', () => {
    const [only] = bandTable(
      deviationRows(SETTINGS, SIGNALS, { ...EVERYTHING, chosen: { startMs: 3000, endMs: 3000 } }),
      Float64Array.of(900),
      [],
    );
    expect(only).toMatchObject({ values: 1, seconds: 0, meanKPa: -1000, worstKPa: -1000 });
    expect(only?.standardDeviationKPa).toBeNaN();
  });
});

/* By load: below 50 %: values 0 to 3 and 9: seconds 1 + 1 + 1 + 1 = 4, mean (−400 − 600 − 1000 − 0)/4 = −500. 50 % and above: the other five. */
describe('the table by load of ten values', () => {
  const [light, heavy] = bandTable(ROWS, ROWS.loadPercent, SETTINGS.loadBandsPercent);

  it('below 50 %', () => {
    expect(light).toMatchObject({ values: 5, seconds: 4, worstKPa: -1000 });
    expect(light?.meanKPa).toBeCloseTo(-500, 9);
  });

  it('from 50 % on: (−3000 − 5000 − 2000 − 800 − 400)/5 = −2240', () => {
    expect(heavy).toMatchObject({ values: 5, seconds: 5, worstKPa: -5000 });
    expect(heavy?.meanKPa).toBeCloseTo(-2240, 9);
  });
});

/*
 * Worst two seconds, trapezoids: from 4 s to 6 s (3000 + 5000)/2 + (5000 + 2000)/2 = 7500 over 2 s: 3750. From 3 s to 5 s: 2000 + 4000 = 6000: 3000. From
 * 5 s to 7 s: 3500 + 1400 = 4900: 2450. A stretch begins or ends at a value, so 4 s to 6 s is the worst; then 2 s to 4 s: 800 + 2000 = 2800: 1400.
 */
describe('the worst stretches of ten values', () => {
  it('are 3750 kPa short from 4 s, then 1400 kPa from 2 s', () => {
    const [first, second] = worstStretches(ROWS, 2000);
    expect(first).toMatchObject({ startMs: 4000, endMs: 6000, firstRow: 4, lastRow: 6 });
    expect(first?.meanShortfallKPa).toBeCloseTo(3750, 9);
    expect(second).toMatchObject({ startMs: 2000, endMs: 4000 });
    expect(second?.meanShortfallKPa).toBeCloseTo(1400, 9);
  });

  it('of the whole nine seconds is the mean: 13 300/9', () => {
    // Trapezoids: half of the ends −200 and 0, all others whole: 100 + 400 + 600 + 1000 + 3000 + 5000 + 2000 + 800 + 400 + 0 = 13 300.
    expect(worstStretches(ROWS, 9000)[0]?.meanShortfallKPa).toBeCloseTo(13_300 / 9, 9);
  });

  it('is the value that is graded, with mean −1340 and s 1577.76 of all ten beside it', () => {
    const found = measurePressureDeviation({
      settings: SETTINGS,
      signals: SIGNALS,
      typed: null,
      chosen: null,
    });
    const fact = (name: string) => found.facts.find((each) => each.name === name)?.value;
    expect(found.value).toBeCloseTo(3750, 9);
    expect(fact('mean deviation')).toBeCloseTo(-1340, 9);
    // Squares: 4e4 + 16e4 + 36e4 + 1e6 + 9e6 + 25e6 + 4e6 + 64e4 + 16e4 + 0 = 40.36e6; less 10 · 1340² = 17.956e6: 22.404e6; over 9, root: 1577.76.
    expect(fact('standard deviation')).toBeCloseTo(1577.76, 2);
    expect(fact('lowest deviation')).toBe(-5000);
    expect(fact('time')).toBe(9);
  });
});

describe('signals that come at other times', () => {
  it('speed and load hold from their last word until they are stale', () => {
    const slow = signalsFrom({
      engineSpeed: [
        [0, 900],
        [4000, 1600],
      ],
    });
    const rows = deviationRows(SETTINGS, { ...SIGNALS, ...slow }, EVERYTHING);
    // Two values 4 s apart: stale after 12 s. The last word before each instant: 900 up to 3 s, 1600 from 4 s on.
    expect([...rows.speedRpm]).toEqual([900, 900, 900, 900, 1600, 1600, 1600, 1600, 1600, 1600]);
  });

  it('a stale speed ends the drive, since nobody knows that the engine ran', () => {
    const lost = signalsFrom({ engineSpeed: sampled(3000, 100, () => 1200) });
    const rows = deviationRows(SETTINGS, { ...SIGNALS, ...lost }, EVERYTHING);
    expect([...rows.atMs]).toEqual([0, 1000, 2000, 3000, 4000]); // heard until 3 s, stale 1 s later
  });

  it('the commanded pressure is on the straight line between its values: 100 000 and 104 000 give 101 000 a quarter on', () => {
    const ramp = signalsFrom({
      commandedRailPressure: [
        [0, 100_000],
        [4000, 104_000],
        [8000, 108_000],
      ],
    });
    const rows = deviationRows(SETTINGS, { ...SIGNALS, ...ramp }, EVERYTHING);
    expect([...rows.commandedKPa]).toEqual([0, 1, 2, 3, 4, 5, 6, 7, 8].map((s) => 100_000 + 1000 * s));
    expect([...rows.atMs].at(-1)).toBe(8000); // beyond the last commanded value there is none
  });
});
