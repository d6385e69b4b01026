import { describe, expect, it } from 'vitest';
import { measureCollectedVolume } from '../../src/checks/collected-volume.ts';
import { measureCrankDelivery } from '../../src/checks/crank-delivery.ts';
import { vesselById } from '../../src/checks/vessels.ts';
import { measureVolume } from '../../src/checks/volume.ts';
import { gradeCollectedVolume } from '../../src/grading/grade-window.ts';
import { chooseLimit } from '../../src/limits/choose-limit.ts';
import { DEMONSTRATION_SHEET } from '../../src/limits/demonstration-sheet.ts';
import { averageOf, entryOf } from './example-cranks.ts';

/** Return volume typed from a vessel, timed by the clock, graded by the sheet: the whole path of that check. */
function returned(readingMl: number, spanMs: number, vesselId = 'cylinder-1000') {
  const chosen = chooseLimit(DEMONSTRATION_SHEET, 'pump-return');
  const vessel = vesselById(vesselId);
  const volume = vessel && measureVolume({ vessel, readingsMl: [readingMl] });
  if (!chosen.ok || chosen.value.limit.kind !== 'window' || !volume?.ok) throw new Error('no such check');
  const { limit } = chosen.value;
  const time = { spanMs, standardUncertaintyMs: 200 };
  return gradeCollectedVolume(measureCollectedVolume({ limit, volume: volume.value, time }), limit);
}

// common practice, no source: a pump returns 125 to 525 mL in 30 s at raised rail pressure.
describe('a return of 125 to 525 mL in 30 s (common practice, no source)', () => {
  it.each([
    [90, 'fail low', 'min', -35],
    [110, 'fail low', 'min', -15],
    [160, 'pass', 'min', 35],
    [325, 'pass', 'min', 200],
    [480, 'pass', 'max', -45],
    [560, 'fail high', 'max', 35],
  ])('%i mL: %s, %s by %i mL', (readingMl, word, name, distance) => {
    expect(returned(readingMl, 30_000)).toMatchObject({ word, nearest: { name, distance } });
  });

  it.each([28_000, 32_000])('in %i ms is not graded as it stands: more than 5 %% off 30 s', (spanMs) => {
    expect(returned(300, spanMs).word).toBe('not valid');
  });
});

// common practice, no source: two cranks of 15 s, never 30 s in one go.
describe('two cranks of 15 s (common practice, no source)', () => {
  const chart = DEMONSTRATION_SHEET.limits.find((limit) => limit.kind === 'speed chart');
  const warned = (...seconds: readonly number[]) => {
    if (!chart) throw new Error('no chart');
    const cranks = seconds.map((each) => entryOf(each));
    const conditions = { fuelTemperature: 20 };
    const average = averageOf(180, 30_000);
    const delivery = measureCrankDelivery({ limit: chart, cranks, average, volume: null, conditions });
    return delivery.warnings.map(({ code }) => code);
  };

  it.each<[readonly number[], readonly string[]]>([
    [[15, 15], []],
    [[14, 16], []],
    [[13, 17], ['check.crank-long']],
    [[10, 10, 10], ['check.crank-count']],
    [[30], ['check.crank-count', 'check.crank-long']],
  ])('%j s warns of %j', (seconds, expected) => {
    expect(warned(...seconds)).toEqual(expected);
  });
});
