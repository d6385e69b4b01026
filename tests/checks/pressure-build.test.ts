import { describe, expect, it } from 'vitest';
import type { PressureBuildSettings } from '../../src/checks/check-settings.ts';
import { measurePressureBuild, type PressureBuildInput } from '../../src/checks/pressure-build.ts';
import { millis } from '../../src/quantities/time.ts';
import { levellingOff, stiffening, straight } from './closed-forms.ts';
import { crankOf } from './example-cranks.ts';
import { codesOf, sampled, signalsFrom, type Point } from './example-signals.ts';

const SETTINGS: PressureBuildSettings = {
  kind: 'pressure build',
  signal: 'railPressure',
  fromKPa: 0,
  toKPa: 20_000,
  from: 'crank start',
};
const rail = (points: readonly Point[]) => signalsFrom({ railPressure: points });
const measure = (change: Partial<PressureBuildInput> = {}) =>
  measurePressureBuild({
    settings: SETTINGS,
    signals: {},
    cranks: [],
    underWay: null,
    typed: null,
    chosen: null,
    ...change,
  });
const fact = (found: ReturnType<typeof measure>, name: string) =>
  found.facts.find((each) => each.name === name)?.value;

/** Cranked from 2 s to 7 s; the pressure comes up 5 000 kPa a second from 3 s on. */
const cranked = { crank: crankOf(2000, 5000) };
const rising = rail(sampled(10_000, 100, (s) => (s < 3 ? 0 : Math.min(25_000, 5000 * (s - 3)))));

describe('the time of a pressure build', () => {
  it('counts from starter on to the rise through the pressure: 2 s to 7 s', () => {
    // 20 000 kPa stands at 3 s + 4 s = 7 s; from 2 s that is 5 s.
    const found = measure({ signals: rising, cranks: [cranked] });
    expect(found).toMatchObject({ quantity: 'time', value: 5000, atLeast: false, reasons: [], warnings: [] });
    expect(found.stretch).toEqual({ startMs: 2000, endMs: 7000 });
    expect(fact(found, 'crank')).toBe(1);
    expect(fact(found, 'pressure at the start')).toBe(0);
  });

  it('carries the doubt of both edges and of a late first report', () => {
    const found = measure({ signals: rising, cranks: [cranked] });
    // Edge of the crank 30 ms as given; 600 ms late at most: 600/√3 = 346.41 (crank-time.ts); end between two values 100/√12 = 28.868.
    expect(found.parts).toEqual([
      { cause: 'startEdge', standardUncertainty: 30 },
      { cause: 'lateReport', standardUncertainty: expect.closeTo(346.41, 2) },
      { cause: 'endEdge', standardUncertainty: expect.closeTo(28.868, 3) },
    ]);
    expect(found.standardUncertainty).toBeCloseTo(Math.hypot(30, 346.41, 28.868), 2);
  });

  it('has no late report where battery or starter showed the start', () => {
    const starterOn = { atMs: millis(1700), standardUncertaintyMs: 15 };
    const seen = { crank: crankOf(2000, 5000, { starterOn, startSign: 'battery' as const }) };
    const found = measure({ signals: rising, cranks: [seen] });
    expect(found.value).toBe(5300);
    expect(found.parts.map(({ cause }) => cause)).toEqual(['startEdge', 'endEdge']);
  });

  it('counts from the edge that a person set', () => {
    const setEdges = { startMs: 2500, endMs: 7000, reason: 'heard it' };
    const found = measure({ signals: rising, cranks: [{ ...cranked, setEdges }] });
    expect(found.value).toBe(4500);
    expect(found.parts.map(({ cause }) => cause)).toEqual(['endEdge']);
  });

  it('of a crank still going on is there as soon as the pressure is', () => {
    const underWay = crankOf(2000, 8000, { endedBy: 'cut' });
    expect(measure({ signals: rising, underWay })).toMatchObject({ value: 5000, atLeast: false });
  });

  it('leaves a single spike out', () => {
    const spiked = sampled(10_000, 100, (s) => (s === 4 ? 30_000 : s < 3 ? 0 : 5000 * (s - 3)));
    expect(measure({ signals: rail(spiked), cranks: [cranked] }).value).toBeCloseTo(5000, 6);
  });

  it('typed by hand needs no data', () => {
    const found = measure({ typed: { value: 2400, tolerance: 300, halfStep: 50 } });
    expect(found).toMatchObject({ value: 2400, typed: true, step: 100 });
    expect(codesOf(measure({ typed: { value: -1, tolerance: 1, halfStep: 1 } }).reasons)).toEqual([
      'check.value-negative',
    ]);
  });
});

describe('a pressure that rose before speed was first reported', () => {
  /** There 0.3 s before the first report of speed, at 2 s. */
  const early = rail(sampled(10_000, 100, (s) => (s < 1.5 ? 0 : 25_000)));

  it('took no time that can be told from none, with the doubt of the late report', () => {
    const found = measure({ signals: early, cranks: [cranked] });
    expect(found).toMatchObject({ value: 0, reasons: [], stretch: { startMs: 2000, endMs: 2000 } });
    expect(found.parts.map(({ cause }) => cause)).toContain('lateReport');
    expect(fact(found, 'pressure at the start')).toBe(0); // 0.6 s before the report
  });

  it('was there before the crank where a starter signal showed its start', () => {
    const seen = { crank: crankOf(2000, 5000, { startSign: 'starter' as const }) };
    expect(codesOf(measure({ signals: early, cranks: [seen] }).reasons)).toEqual([
      'check.build-starts-above',
    ]);
  });
});

describe('a pressure build that does not come up', () => {
  const low = rail(sampled(10_000, 100, (s) => (s < 3 ? 0 : Math.min(12_000, 5000 * (s - 3)))));

  it('is known to take at least as long as was cranked, and says how far it came', () => {
    const found = measure({ signals: low, cranks: [cranked] });
    expect(found).toMatchObject({ value: 5000, atLeast: true, stretch: { startMs: 2000, endMs: 7000 } });
    expect(found.reasons).toEqual([
      { code: 'check.build-not-reached', context: { seconds: 5, highest: 12_000, to: 20_000 } },
    ]);
    expect(fact(found, 'highest pressure')).toBe(12_000);
  });

  it('grows with the crank going on', () => {
    const until = (endMs: number) =>
      measure({
        signals: rail(sampled(endMs, 100, () => 0)),
        underWay: crankOf(2000, endMs - 2000, { endedBy: 'cut' }),
      }).value;
    expect([3000, 5000, 9000].map(until)).toEqual([1000, 3000, 7000]);
  });

  it('takes the longest of several tries', () => {
    const tries = [{ crank: crankOf(1000, 1500) }, { crank: crankOf(4000, 4000) }];
    expect(measure({ signals: rail(sampled(9000, 100, () => 500)), cranks: tries })).toMatchObject({
      value: 4000,
      atLeast: true,
    });
  });

  it('goes on after the engine started: then the pump turns on', () => {
    const started = { crank: crankOf(2000, 3000, { endedBy: 'engine started' as const }) };
    expect(measure({ signals: rising, cranks: [started] }).value).toBe(5000);
    expect(measure({ signals: low, cranks: [started] })).toMatchObject({ value: 8000, atLeast: true });
  });
});

describe('a pressure that fell silent while cranking', () => {
  // 500 kPa a second from 2 s; last heard at 5 s of a crank that went on until 22 s.
  const heardUntil = (endMs: number) => rail(sampled(endMs, 100, (s) => 500 * s));
  const long = { crank: crankOf(2000, 20_000) };

  it('is known not to have been there only as long as it was heard', () => {
    expect(measure({ signals: heardUntil(5000), cranks: [long] })).toMatchObject({
      value: 3000,
      atLeast: true,
      stretch: { startMs: 2000, endMs: 5000 },
    });
    expect(measure({ signals: heardUntil(30_000), cranks: [long] })).toMatchObject({ value: 20_000 });
  });

  it('counts up to the hole where the crank ended within one', () => {
    const holed = rail([...sampled(5000, 100, (s) => 500 * s), ...sampled(40_000, 100, () => 900, 30_000)]);
    expect(measure({ signals: holed, cranks: [long] })).toMatchObject({ value: 3000, atLeast: true });
  });

  it('before the crank began says nothing at all', () => {
    expect(measure({ signals: heardUntil(1000), cranks: [long] })).toMatchObject({ value: 0, atLeast: true });
  });
});

describe('several cranks', () => {
  const second = rail(sampled(14_000, 100, (s) => (s < 9 ? 0 : Math.min(25_000, 10_000 * (s - 9)))));
  const two = [{ crank: crankOf(2000, 3000) }, { crank: crankOf(8000, 4000) }];

  it('where only a later one reached it, count it and warn', () => {
    // 20 000 kPa at 11 s; the second crank began at 8 s.
    const found = measure({ signals: second, cranks: two });
    expect(found).toMatchObject({ value: 3000, atLeast: false });
    expect(found.warnings).toEqual([{ code: 'check.build-later-try', context: { which: 'crank 2' } }]);
  });

  it('leave out one that the person left out, or whose beginning was not seen', () => {
    const leftOut = { reason: 'air' };
    const found = measure({ signals: second, cranks: [{ ...two[0]!, leftOut }, two[1]!] });
    expect(found).toMatchObject({ value: 3000, warnings: [] });
    const cut = { crank: crankOf(0, 5000, { cutAtStart: true }) };
    expect(codesOf(measure({ signals: rising, cranks: [cut] }).reasons)).toEqual(['check.no-cranks']);
  });

  it('say so where the pressure stood above before each of them', () => {
    const high = rail(sampled(14_000, 100, () => 21_000));
    expect(codesOf(measure({ signals: high, cranks: two }).reasons)).toEqual(['check.build-starts-above']);
  });

  it('without any there is none, nor without the signal', () => {
    expect(codesOf(measure({ signals: rising }).reasons)).toEqual(['check.no-cranks']);
    expect(codesOf(measure({ cranks: two }).reasons)).toEqual(['check.no-signal']);
  });
});

describe('a build from one pressure to another', () => {
  const settings = { ...SETTINGS, from: 'pressure' as const, fromKPa: 5000 };
  const build = (points: readonly Point[], change: Partial<PressureBuildSettings> = {}) =>
    measure({ settings: { ...settings, ...change }, signals: rail(points) });

  it('counts between the two rises', () => {
    const found = build(sampled(10_000, 100, (s) => 5000 * s)); // 1 s and 4 s
    expect(found.value).toBeCloseTo(3000, 6);
    expect(found.parts.map(({ cause }) => cause)).toEqual(['startEdge', 'endEdge']);
  });

  it('counts from the last rise before it where the pressure fell back', () => {
    const twice = sampled(20_000, 100, (s) => (s < 2 ? 5000 * s : s < 4 ? 0 : 5000 * (s - 4)));
    const found = build(twice); // 5 s to 8 s
    expect(found.value).toBeCloseTo(3000, 6);
    expect(codesOf(found.warnings)).toEqual(['check.build-later-try']);
  });

  it('never begun, or never reached, says so', () => {
    expect(codesOf(build(sampled(5000, 100, () => 300)).reasons)).toEqual(['check.build-not-begun']);
    const stuck = build(sampled(5000, 100, (s) => Math.min(9000, 9000 * s)));
    expect(stuck).toMatchObject({ atLeast: true });
    expect(codesOf(stuck.reasons)).toEqual(['check.build-not-reached']);
  });

  it('looks only at the stretch that a person chose', () => {
    const chosen = { startMs: 4500, endMs: 20_000, reason: 'second try' };
    const twice = sampled(20_000, 100, (s) => (s < 4.6 ? 6000 * s : s < 6 ? 0 : 5000 * (s - 6)));
    const found = measure({ settings, signals: rail(twice), chosen });
    expect(found.value).toBeCloseTo(3000, 6);
    expect(codesOf(found.warnings)).toContain('check.stretch-chosen');
    expect(found.stretch!.startMs).toBeGreaterThan(6000);
  });
});

/* check-values.md section D, "Rail ODE closed forms"; 1 bar = 100 kPa. */
describe('a build by closed form', () => {
  const settings = { ...SETTINGS, from: 'pressure' as const };
  const build = (of: (s: number) => number, fromKPa: number, toKPa: number, toMs = 5000) =>
    measure({ settings: { ...settings, fromKPa, toKPa }, signals: rail(sampled(toMs, 10, of)) });

  it('without a leak is a straight line of 2333.33 bar/s', () => {
    const found = build(straight, 23_333, 116_666.5, 600);
    expect(found.value).toBeCloseTo(400, 1); // 0.1 s to 0.5 s
    expect(fact(found, 'mean rate of the rise')).toBeCloseTo(233_333, 0);
    expect(fact(found, 'time constant of the rise')).toBeUndefined();
  });

  it('with a linear leak is at 932.277 bar after 0.5 s and at 2113.404 bar after 2 s', () => {
    expect(build(levellingOff, 93_227.7, 211_340.4).value).toBeCloseTo(1500, 0);
    expect(build(levellingOff, 93_227.7, 151_689.8).value).toBeCloseTo(500, 0);
  });

  it('with a linear leak is fitted with τ 1.071429 s and an end of 2500 bar', () => {
    const found = build(levellingOff, 10_000, 211_340.4);
    expect(fact(found, 'time constant of the rise')).toBeCloseTo(1.071429, 3);
    expect(fact(found, 'would level off at')).toBeCloseTo(250_000, -2);
  });

  it('with a linear leak in the noise of a sensor is fitted as well', () => {
    let turn = 0;
    const noisy = (s: number) => levellingOff(s) + ((turn = (turn * 37 + 11) % 101) - 50) * 20; // ±1000 kPa
    const found = build(noisy, 10_000, 211_340.4);
    expect(fact(found, 'time constant of the rise')! / 1.071429).toBeCloseTo(1, 1);
    expect(fact(found, 'would level off at')! / 250_000).toBeCloseTo(1, 1);
  });

  it('of fuel that stiffens is at 221.403 bar after 0.1 s, at 1718.282 bar after 0.5 s, and never levels off', () => {
    const found = build(stiffening, 22_140.3, 171_828.2, 700);
    expect(found.value).toBeCloseTo(400, 0);
    expect(fact(found, 'would level off at')).toBeUndefined();
  });
});
