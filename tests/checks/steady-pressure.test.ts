import { describe, expect, it } from 'vitest';
import type { SteadyPressureSettings } from '../../src/checks/check-settings.ts';
import { measureSteadyPressure, type SteadyPressureInput } from '../../src/checks/steady-pressure.ts';
import { codesOf, noiseFrom, sampled, signalsFrom, type Point } from './example-signals.ts';

const SETTINGS: SteadyPressureSettings = {
  kind: 'steady pressure',
  signal: 'supplyPressure',
  speed: { minRpm: 500, maxRpm: 1000 },
  leastSeconds: 10,
  steadyWithinKPa: 80,
  vacuum: false,
};
const measure = (change: Partial<SteadyPressureInput> = {}) =>
  measureSteadyPressure({ settings: SETTINGS, signals: {}, typed: null, chosen: null, ...change });

const fact = (found: ReturnType<typeof measure>, name: string) =>
  found.facts.find((each) => each.name === name)?.value;

/** Idles at 700 rpm with 500 kPa from 10 to 30 s, before and after at 1500 rpm with 800 kPa. */
const speed = sampled(40_000, 100, (s) => (s >= 10 && s <= 30 ? 700 : 1500));
const pressure = sampled(40_000, 100, (s) => (s >= 10 && s <= 30 ? 500 : 800));
const idling = signalsFrom({ engineSpeed: speed, supplyPressure: pressure });

describe('a steady pressure', () => {
  it('is the mean of the longest steady stretch within the speed window', () => {
    const found = measure({ signals: idling });
    expect(found).toMatchObject({ quantity: 'pressure', value: 500, atLeast: false, typed: false });
    expect(found.stretch).toEqual({ startMs: 10_000, endMs: 30_000 });
    expect(found.reasons).toEqual([]);
    expect(fact(found, 'mean engine speed')).toBe(700);
    expect(fact(found, 'time')).toBe(20);
    expect(fact(found, 'values')).toBe(201);
  });

  it('from the bus is known to one step of 4 kPa, rectangular: 4/√12 = 1.1547 kPa (GUM 4.3.7)', () => {
    const found = measure({ signals: signalsFrom({ engineSpeed: speed, supplyPressure: pressure }, 0) });
    expect(found.parts).toEqual([{ cause: 'resolution', standardUncertainty: expect.closeTo(1.1547, 4) }]);
    expect(found.step).toBeCloseTo(4, 9);
  });

  it('counts the spread with neighbours that lean on each other, not as if all were independent', () => {
    // A wave of 1 s period and 10 kPa either way: sd 10/√2 = 7.07.
    const wave = sampled(30_000, 50, (s) => 500 + 10 * Math.sin(2 * Math.PI * s));
    const found = measure({
      signals: signalsFrom({ supplyPressure: wave }),
      settings: { ...SETTINGS, speed: null },
    });
    expect(found.value).toBeCloseTo(500, 1);
    expect(fact(found, 'standard deviation')).toBeCloseTo(7.0711, 1);
    expect(fact(found, 'lowest')).toBeCloseTo(490, 6);
    expect(fact(found, 'highest')).toBeCloseTo(510, 6);
  });

  it('of white noise is known about as well as sd/√n says', () => {
    const noise = noiseFrom(7);
    const settings = { ...SETTINGS, speed: null };
    const white = sampled(60_000, 100, () => 500 + 40 * noise()); // sd 40/√12 = 11.547; /√601 = 0.471
    const found = measure({ signals: signalsFrom({ supplyPressure: white }), settings });
    const spread = found.parts.find(({ cause }) => cause === 'spread')?.standardUncertainty ?? NaN;
    expect(spread).toBeGreaterThan(0.471 / 2);
    expect(spread).toBeLessThan(0.471 * 2);
    expect(Math.abs((found.value ?? NaN) - 500)).toBeLessThan(4 * 0.471);
  });

  it('passes over a single spike of pressure and of speed', () => {
    const spiked = (points: readonly Point[], at: number, value: number): readonly Point[] =>
      points.map(([ms, old]) => [ms, ms === at ? value : old]);
    const signals = signalsFrom({
      engineSpeed: spiked(speed, 15_000, 4000),
      supplyPressure: spiked(pressure, 20_000, 0),
    });
    const found = measure({ signals });
    expect(found).toMatchObject({ value: 500, stretch: { startMs: 10_000, endMs: 30_000 } });
    expect(fact(found, 'single spikes left out')).toBe(1);
  });

  it('holds through single missing values, but not through a hole', () => {
    const missing = pressure.map(([ms, value]): Point => [ms, ms % 1000 === 0 ? null : value]);
    const found = measure({ signals: signalsFrom({ engineSpeed: speed, supplyPressure: missing }) });
    expect(found).toMatchObject({ value: 500, stretch: { startMs: 10_100, endMs: 29_900 } });
    const holed = pressure.filter(([ms]) => ms < 15_000 || ms > 17_000);
    const after = measure({ signals: signalsFrom({ engineSpeed: speed, supplyPressure: holed }) });
    expect(after.stretch).toEqual({ startMs: 17_100, endMs: 30_000 });
  });

  it('works with irregular stamps: the mean is over time, not over values', () => {
    // 5 s of 100 a second at 480, then 15 s of one a second at 520: over time about 510, over values about 481.
    const dense = sampled(5000, 10, () => 480);
    const sparse = sampled(20_000, 1000, () => 520, 6000);
    const settings = { ...SETTINGS, speed: null };
    const found = measure({ signals: signalsFrom({ supplyPressure: [...dense, ...sparse] }), settings });
    // (5 s · 480 + 1 s · 500 + 14 s · 520) / 20 s = 509
    expect(found.value).toBeCloseTo(509, 6);
  });

  it('at two values a second is found as well', () => {
    const slow = signalsFrom({
      engineSpeed: sampled(40_000, 500, () => 700),
      supplyPressure: sampled(40_000, 500, (s) => 500 + (s % 2)),
    });
    expect(measure({ signals: slow }).stretch).toEqual({ startMs: 0, endMs: 40_000 });
  });
});

describe('a steady pressure says what is missing', () => {
  const of = (change: Partial<SteadyPressureInput>) => {
    const found = measure(change);
    expect(found.value).toBeNull();
    return found.reasons[0];
  };

  it('no such signal', () => {
    const problem = of({});
    expect(problem).toMatchObject({ code: 'check.no-signal', context: { signal: 'supply pressure' } });
    const silent = signalsFrom({ supplyPressure: [[0, null]] });
    expect(of({ signals: silent })?.code).toBe('check.no-signal');
  });

  it('engine speed below or above its window, with both', () => {
    const at = (rpm: number) =>
      of({
        signals: signalsFrom({
          engineSpeed: sampled(5000, 100, () => rpm),
          supplyPressure: sampled(5000, 100, () => 500),
        }),
      });
    expect(at(300)).toEqual({
      code: 'check.speed-below-window',
      context: { speed: 300, window: '500 to 1000 rpm' },
    });
    expect(at(1400)).toMatchObject({ code: 'check.speed-above-window', context: { speed: 1400 } });
  });

  it('engine speed not known', () => {
    const signals = signalsFrom({ supplyPressure: sampled(20_000, 100, () => 500) });
    expect(of({ signals })?.code).toBe('check.speed-not-known');
  });

  it('not steady yet, with how long it was', () => {
    const signals = signalsFrom({
      engineSpeed: sampled(6000, 100, () => 700),
      supplyPressure: sampled(6000, 100, () => 500),
    });
    expect(of({ signals })).toEqual({
      code: 'check.not-steady',
      context: { seconds: 6, least: 10, within: 80 },
    });
  });

  it('never steady: a pressure that saws by more than its window', () => {
    const signals = signalsFrom({
      engineSpeed: sampled(30_000, 100, () => 700),
      supplyPressure: sampled(30_000, 100, (s) => 400 + 200 * (s % 2)),
    });
    expect(of({ signals })?.code).toBe('check.not-steady');
  });

  it('a stale speed is no speed: the stretch ends where speed was last heard', () => {
    const signals = signalsFrom({
      engineSpeed: sampled(12_000, 100, () => 700),
      supplyPressure: sampled(40_000, 100, () => 500),
    });
    const found = measure({ signals });
    expect(found.stretch).toEqual({ startMs: 0, endMs: 13_000 }); // one second later it is stale
  });
});

describe('a stretch that a person chose', () => {
  const chosen = (startMs: number, endMs: number) =>
    measure({ signals: idling, chosen: { startMs, endMs, reason: 'gauge settled' } });

  it('wins over the found one, and says so', () => {
    const found = chosen(12_000, 24_000);
    expect(found).toMatchObject({ value: 500, stretch: { startMs: 12_000, endMs: 24_000 }, reasons: [] });
    expect(codesOf(found.warnings)).toEqual(['check.stretch-chosen']);
  });

  it('is warned of where it is short, not steady or at another speed, but holds', () => {
    expect(codesOf(chosen(12_000, 15_000).warnings)).toContain('check.stretch-not-steady');
    const across = chosen(25_000, 35_000);
    expect(codesOf(across.warnings)).toEqual([
      'check.stretch-chosen',
      'check.stretch-not-steady',
      'check.stretch-off-speed',
    ]);
    // (5 s · 500 + 0.1 s · 650 + 4.9 s · 800) / 10 s = 648.5
    expect(across.value).toBeCloseTo(648.5, 6);
  });

  it('without two values in it gives none', () => {
    expect(codesOf(chosen(50_000, 60_000).reasons)).toEqual(['check.stretch-empty']);
    expect(codesOf(chosen(12_010, 12_090).reasons)).toEqual(['check.stretch-empty']);
    expect(codesOf(chosen(15_000, 12_000).reasons)).toEqual(['check.stretch-empty']);
  });
});

describe('a typed pressure', () => {
  it('holds instead of the data, with tolerance and half a step each rectangular', () => {
    const found = measure({ signals: idling, typed: { value: 450, tolerance: 10, halfStep: 5 } });
    // 10/√3 = 5.7735, 5/√3 = 2.8868, together 6.4550 (GUM 4.3.7, 5.1.2)
    expect(found).toMatchObject({ value: 450, typed: true, stretch: null, step: 10 });
    expect(found.parts).toEqual([
      { cause: 'instrument', standardUncertainty: expect.closeTo(5.7735, 4) },
      { cause: 'instrumentStep', standardUncertainty: expect.closeTo(2.8868, 4) },
    ]);
    expect(found.standardUncertainty).toBeCloseTo(6.455, 3);
  });

  it('of an instrument of which nothing is known is taken, and warned of', () => {
    const found = measure({ typed: { value: 450, tolerance: 0, halfStep: 0 } });
    expect(found).toMatchObject({ value: 450, standardUncertainty: 0 });
    expect(codesOf(found.warnings)).toEqual(['check.instrument-unknown']);
  });

  it.each([
    [NaN, 0, 0],
    [Infinity, 0, 0],
    [450, -1, 0],
    [450, NaN, 0],
    [450, 0, -2],
  ])('of %f ± %f, step %f is no value', (value, tolerance, halfStep) => {
    const found = measure({ typed: { value, tolerance, halfStep } });
    expect(found.value).toBeNull();
    expect(codesOf(found.reasons)).toEqual(['check.no-value']);
  });

  it('below the atmosphere is possible where the check does not ask for a restriction', () => {
    expect(measure({ typed: { value: -12, tolerance: 1, halfStep: 1 } }).value).toBe(-12);
  });
});

/* SPN 94: 4 kPa a bit, raw 0 to 250, so 0 to 1000 kPa (../shared/reference/j1939.md); supply pressures of 1200 kPa and more exist (issue 6, common practice). */
describe('a pressure at the top of what the bus can say', () => {
  const at = (kPa: number, origin = 0) =>
    measure({
      settings: { ...SETTINGS, speed: null },
      signals: signalsFrom({ supplyPressure: sampled(20_000, 100, () => kPa) }, origin),
    });

  it('is only known to be at least so high', () => {
    expect(at(1000)).toMatchObject({ value: 1000, atLeast: true });
    expect(codesOf(at(1000).reasons)).toEqual(['check.at-top-of-range']);
  });

  it('is known one step below it, and in a log, which knows no such top', () => {
    expect(at(996)).toMatchObject({ atLeast: false, reasons: [] });
    expect(at(1000, -1)).toMatchObject({ atLeast: false, reasons: [] });
  });

  it('holds for a stretch that a person chose, too', () => {
    const found = measure({
      settings: { ...SETTINGS, speed: null },
      signals: signalsFrom({ supplyPressure: sampled(20_000, 100, () => 1000) }, 0),
      chosen: { startMs: 0, endMs: 15_000, reason: 'steady' },
    });
    expect(found.atLeast).toBe(true);
  });
});
