import { describe, expect, it } from 'vitest';
import type { PressureDeviationSettings } from '../../src/checks/check-settings.ts';
import type { ChosenSignals } from '../../src/checks/chosen-signal.ts';
import {
  measurePressureDeviation,
  type PressureDeviationInput,
} from '../../src/checks/pressure-deviation.ts';
import { codesOf, sampled, signalsFrom, type Point } from './example-signals.ts';

const SETTINGS: PressureDeviationSettings = {
  kind: 'pressure deviation',
  actual: 'railPressure',
  commanded: 'commandedRailPressure',
  stretchSeconds: 5,
  speedBandsRpm: [900, 1500],
  loadBandsPercent: [25, 75],
  leastCommandedKPa: 80_000,
  leastSeconds: 60,
};
const measure = (signals: ChosenSignals, change: Partial<PressureDeviationInput> = {}) =>
  measurePressureDeviation({ settings: SETTINGS, signals, typed: null, chosen: null, ...change });

/** 120 s at 1200 rpm and 50 % with 100 000 kPa commanded, and the actual pressure less by what is given. */
const drive = (
  shortfall: (s: number) => number,
  change: Partial<Record<'speed' | 'load' | 'commanded', (s: number) => number>> = {},
  stepMs = 100,
) => {
  const commanded = change.commanded ?? (() => 100_000);
  return signalsFrom({
    railPressure: sampled(120_000, stepMs, (s) => commanded(s) - shortfall(s)),
    commandedRailPressure: sampled(120_000, stepMs, commanded),
    engineSpeed: sampled(120_000, 100, change.speed ?? (() => 1200)),
    actualTorque: sampled(120_000, 100, change.load ?? (() => 50)),
  });
};
const fact = (found: ReturnType<typeof measure>, name: string) =>
  found.facts.find((each) => each.name === name)?.value;

describe('the deviation over a drive', () => {
  it('is the worst mean shortfall over five seconds', () => {
    // 8 000 kPa short from 40 s to 50 s, 1 000 kPa else.
    const found = measure(drive((s) => (s >= 40 && s <= 50 ? 8000 : 1000)));
    expect(found).toMatchObject({ quantity: 'pressure', value: 8000, reasons: [], warnings: [] });
    expect(found.stretch).toEqual({ startMs: 40_000, endMs: 45_000 });
    expect(found.worst[0]).toMatchObject({ startMs: 40_000, endMs: 45_000, meanShortfallKPa: 8000 });
  });

  it('of a shortfall shorter than the stretch is its share: 3 s of 10 000 in 5 s are 6 000', () => {
    const found = measure(drive((s) => (s >= 40 && s < 43 ? 10_000 : 0)));
    // Straight lines of 0.1 s at either edge: 2.9 s full, two halves of 0.1 s: 3.0 s in all.
    expect(found.value).toBeCloseTo(6000, 6);
  });

  it('of a pressure that is never below is nothing', () => {
    expect(measure(drive(() => -2000))).toMatchObject({ value: 0 });
    expect(measure(drive(() => 0)).value).toBe(0);
  });

  it('tells mean, spread and the worst of all values', () => {
    const found = measure(drive((s) => (s < 60 ? 1000 : 3000)));
    expect(fact(found, 'mean deviation')).toBeCloseTo(-2000, -1);
    expect(fact(found, 'standard deviation')).toBeCloseTo(1000, -1);
    expect(fact(found, 'lowest deviation')).toBe(-3000);
    expect(fact(found, 'highest commanded pressure')).toBe(100_000);
    expect(fact(found, 'time')).toBeCloseTo(120, 6);
  });

  it('lists the worst stretches, none overlapping another', () => {
    const found = measure(drive((s) => (s >= 20 && s < 26 ? 9000 : s >= 80 && s < 86 ? 7000 : 0)));
    const [first, second] = found.worst;
    expect(first?.meanShortfallKPa).toBe(9000);
    expect(second?.meanShortfallKPa).toBe(7000);
    for (const a of found.worst)
      for (const b of found.worst)
        if (a !== b) expect(a.endMs <= b.startMs || b.endMs <= a.startMs).toBe(true);
    expect(found.worst.length).toBeLessThanOrEqual(5);
  });

  it('on common time: a commanded pressure sent at other instants lies on the straight line between', () => {
    const ramp = (s: number) => 50_000 + 1000 * s;
    const signals = signalsFrom({
      railPressure: sampled(120_000, 100, (s) => ramp(s) - 4000),
      commandedRailPressure: sampled(120_000, 330, ramp),
      engineSpeed: sampled(120_000, 100, () => 1200),
      actualTorque: sampled(120_000, 100, () => 50),
    });
    expect(measure(signals).value).toBeCloseTo(4000, 6);
  });

  it('is known to one step of either signal: on the bus 1000/256 kPa each (SPN 157, 5313)', () => {
    const bus = Object.fromEntries(
      Object.entries(drive(() => 3000)).map(([signal, { trace }]) => [signal, { trace, origin: 0 }]),
    );
    const found = measure(bus);
    expect(found.parts).toEqual([
      {
        cause: 'resolution',
        standardUncertainty: expect.closeTo((Math.SQRT2 * 1000) / 256 / Math.sqrt(12), 6),
      },
    ]);
  });

  it('passes over a single dropout of the actual pressure', () => {
    const found = measure(drive((s) => (s === 50 ? 100_000 : 1000)));
    expect(found.value).toBeCloseTo(1000, 6);
    expect(fact(found, 'lowest deviation')).toBe(-1000);
  });
});

describe('what belongs to a drive', () => {
  it('begins with the running engine: while cranking the rail still fills', () => {
    const found = measure(drive((s) => (s < 10 ? 90_000 : 500), { speed: (s) => (s < 10 ? 180 : 1200) }));
    expect(found.value).toBeCloseTo(500, 6);
    expect(fact(found, 'time')).toBeCloseTo(110, 0);
  });

  it('counts all where speed is not known, and warns', () => {
    const { railPressure, commandedRailPressure, actualTorque } = drive(() => 1000);
    const without = { railPressure, commandedRailPressure, actualTorque } as ChosenSignals;
    const found = measure(without);
    expect(found.value).toBeCloseTo(1000, 6);
    expect(codesOf(found.warnings)).toEqual(['check.drive-without-speed']);
    expect(found.speedBands.every(({ values }) => values === 0)).toBe(true);
  });

  it('says that nothing can be said by load where load is not known', () => {
    const { railPressure, commandedRailPressure, engineSpeed } = drive(() => 1000);
    const without = { railPressure, commandedRailPressure, engineSpeed } as ChosenSignals;
    expect(codesOf(measure(without).warnings)).toEqual(['check.drive-without-load']);
  });

  it('never counts a stretch across a hole', () => {
    const holed = (points: readonly Point[]) => points.filter(([ms]) => ms < 60_000 || ms > 90_000);
    const commanded = sampled(120_000, 100, () => 100_000);
    const actual = sampled(120_000, 100, (s) => (s > 57 && s < 93 ? 92_000 : 100_000));
    const signals = {
      ...drive(() => 0),
      ...signalsFrom({ railPressure: holed(actual), commandedRailPressure: commanded }),
    };
    const found = measure(signals);
    for (const { startMs, endMs } of found.worst) expect(endMs < 60_000 || startMs > 90_000).toBe(true);
    // 2.9 s of 8 000 and the edge of 0.1 s up to 57.1 s at most: (2.85 · 8 000)/5 = 4 560 before the hole, the same after it.
    expect(found.value).toBeCloseTo(4560, -2);
  });

  it('is only the stretch that a person chose', () => {
    const chosen = { startMs: 0, endMs: 70_000, reason: 'clutch slipped later' };
    const found = measure(
      drive((s) => (s > 80 ? 9000 : 1000)),
      { chosen },
    );
    expect(found.value).toBeCloseTo(1000, 6);
    expect(codesOf(found.warnings)).toEqual(['check.stretch-chosen']);
  });
});

describe('a drive that says nothing', () => {
  it('is too short', () => {
    const signals = drive(() => 1000);
    const chosen = { startMs: 0, endMs: 30_000, reason: 'test' };
    const found = measure(signals, { chosen });
    expect(found.reasons).toEqual([{ code: 'check.drive-too-short', context: { seconds: 30, least: 60 } }]);
    expect(found.value).toBeCloseTo(1000, 6);
  });

  it('was never under enough load', () => {
    const found = measure(drive(() => 1000, { commanded: () => 60_000 }));
    expect(found.reasons).toEqual([
      { code: 'check.commanded-too-low', context: { highest: 60_000, least: 80_000 } },
    ]);
  });

  it('has none of the two signals, one, or no stretch long enough', () => {
    expect(codesOf(measure({}).reasons)).toEqual(['check.no-signal']);
    const { railPressure } = drive(() => 0);
    const one = { railPressure } as ChosenSignals;
    expect(measure(one).reasons[0]?.context).toEqual({ signal: 'commanded rail pressure' });
    const short = measure(
      drive(() => 0),
      { chosen: { startMs: 0, endMs: 3000, reason: 'x' } },
    );
    expect(short).toMatchObject({ value: null, worst: [] });
    expect(codesOf(short.reasons)).toEqual(['check.drive-too-short']);
  });
});

describe('the tables of a drive', () => {
  const found = measure(
    drive((s) => (s < 30 ? 1000 : s < 90 ? 2000 : 4000), {
      speed: (s) => (s < 30 ? 700 : s < 90 ? 1200 : 1700),
      load: (s) => (s < 60 ? 10 : 90),
    }),
  );

  it('by speed has a band for each end and one above', () => {
    expect(found.speedBands.map(({ from, to }) => [from, to])).toEqual([
      [null, 900],
      [900, 1500],
      [1500, null],
    ]);
    expect(found.speedBands.map(({ meanKPa }) => Math.round(meanKPa / 100))).toEqual([-10, -20, -40]);
    const seconds = found.speedBands.map((band) => band.seconds);
    expect(seconds[0]).toBeCloseTo(30, 0);
    expect(seconds[1]).toBeCloseTo(60, 0);
    expect(seconds.reduce((a, b) => a + b, 0)).toBeCloseTo(120, 6);
  });

  it('by load leaves a band without values empty', () => {
    const [low, middle, high] = found.loadBands;
    expect(middle).toMatchObject({ values: 0, seconds: 0, meanKPa: NaN, worstKPa: NaN });
    expect(low?.worstKPa).toBe(-2000);
    expect(high?.worstKPa).toBe(-4000);
  });

  it('of a typed shortfall are empty', () => {
    const typed = measure({}, { typed: { value: 4000, tolerance: 500, halfStep: 50 } });
    expect(typed).toMatchObject({ value: 4000, typed: true, speedBands: [], loadBands: [], worst: [] });
  });
});
