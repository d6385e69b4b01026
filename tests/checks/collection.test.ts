import { describe, expect, it } from 'vitest';
import type { CollectedVolumeSettings } from '../../src/checks/check-settings.ts';
import { collectionOf, type CollectionInput, type Stopwatch } from '../../src/checks/collection.ts';
import { entryOf, crankOf } from './example-cranks.ts';
import { codesOf, sampled, signalsFrom, type Point } from './example-signals.ts';

const SETTINGS: CollectedVolumeSettings = {
  kind: 'collected volume',
  seconds: 60,
  startedBy: 'hand',
  trigger: null,
  speed: null,
  holds: null,
};
const collect = (change: Partial<Omit<CollectionInput, 'settings'>> = {}, settings = {}) =>
  collectionOf({
    settings: { ...SETTINGS, ...settings },
    signals: {},
    cranks: [],
    typedMs: null,
    stopwatch: null,
    lastMs: null,
    chosen: null,
    ...change,
  });
const watch = (startMs: number, endMs: number | null, change: Partial<Stopwatch> = {}): Stopwatch => ({
  clock: 'source',
  startMs,
  endMs,
  by: 'hand',
  ...change,
});
const MINUTE = 60_000;

describe('the time of a collection', () => {
  it('is not known before anything was timed', () => {
    expect(collect()).toEqual({
      from: null,
      time: null,
      runningSinceMs: null,
      stretches: [],
      reasons: [],
      warnings: [],
    });
  });

  it('by hand carries two presses of 0.3 s either way: 0.3/√3·√2 = 0.2449 s', () => {
    const found = collect({ stopwatch: watch(5000, 65_000) });
    expect(found).toMatchObject({ from: 'hand', time: { spanMs: MINUTE }, reasons: [] });
    expect(found.time?.standardUncertaintyMs).toBeCloseTo(244.9, 1);
    expect(found.stretches).toEqual([{ startMs: 5000, endMs: 65_000 }]);
  });

  it('on the wall clock lies nowhere in the data', () => {
    const found = collect({ stopwatch: watch(5000, 65_000, { clock: 'wall' }) });
    expect(found).toMatchObject({ time: { spanMs: MINUTE }, stretches: [] });
  });

  it('typed wins over the clock', () => {
    const found = collect({ typedMs: 45_000, stopwatch: watch(5000, 65_000) });
    expect(found).toMatchObject({ from: 'typed', time: { spanMs: 45_000 }, stretches: [] });
  });

  it('runs since it was started', () => {
    const found = collect({ stopwatch: watch(5000, null), lastMs: 20_000 });
    expect(found).toMatchObject({ from: 'hand', time: null, runningSinceMs: 5000 });
    expect(codesOf(found.reasons)).toEqual(['check.clock-running']);
    expect(collect({ stopwatch: watch(5000, null, { clock: 'wall' }) }).runningSinceMs).toBeNull();
  });

  it.each([
    ['left running for more than 30 min', watch(0, null), 31 * MINUTE, 'check.clock-too-long'],
    ['running for 30 min sharp', watch(0, null), 30 * MINUTE, 'check.clock-running'],
    ['stopped after 31 min', watch(0, 31 * MINUTE), null, 'check.clock-too-long'],
    ['stopped before it was started', watch(9000, 8000), null, 'check.clock-reversed'],
    ['stopped as it was started', watch(9000, 9000), null, 'check.clock-reversed'],
    ['stopped at no number', watch(9000, NaN), null, 'check.clock-reversed'],
  ])('is a problem where the clock was %s', (_, stopwatch, lastMs, code) => {
    expect(codesOf(collect({ stopwatch, lastMs }).reasons)).toEqual([code]);
  });

  it('is a problem where more than 30 min were typed, and none at 30 min', () => {
    const typed = (minutes: number) => collect({ typedMs: minutes * MINUTE }).reasons;
    expect(typed(45)).toEqual([{ code: 'check.clock-too-long', context: { minutes: 45 } }]);
    expect(typed(30)).toEqual([]);
  });
});

describe('a collection timed by a signal', () => {
  const settings = {
    startedBy: 'signal' as const,
    trigger: { signal: 'railPressure' as const, above: 50_000 },
  };
  const rail = (of: (s: number) => number, toMs = 120_000) =>
    signalsFrom({ railPressure: sampled(toMs, 100, of) });
  /** Raised from 10 s to 72 s: up and down within a second each. */
  const raised = (s: number) => (s < 10 || s > 72 ? 30_000 : 90_000);

  it('counts from the rise through the trigger to the fall through it', () => {
    const found = collect({ signals: rail(raised) }, settings);
    // 30 000 at 9.9 s, 90 000 at 10.0 s: 50 000 a third of the way, 9.9333 s. 90 000 at 72 s, 30 000 at 72.1: two thirds, 72.0667 s.
    expect(found.time?.spanMs).toBeCloseTo(62_133.33, 1);
    expect(found.time?.standardUncertaintyMs).toBeCloseTo(Math.hypot(28.868, 28.868), 2); // 100/√12 at either end
    expect(found.from).toBe('signal');
  });

  it('runs until the fall, without a time', () => {
    const found = collect({ signals: rail(raised, 40_000) }, settings);
    expect(found.time).toBeNull();
    expect(found.runningSinceMs).toBeCloseTo(9933.33, 1);
    expect(codesOf(found.reasons)).toEqual(['check.clock-running']);
  });

  it('takes the longest of several, and says that another goes on', () => {
    const several = (s: number) => ((s > 5 && s < 8) || (s > 20 && s < 50) || s > 100 ? 90_000 : 0);
    const found = collect({ signals: rail(several) }, settings);
    expect(found.time?.spanMs).toBeCloseTo(30_000, -3);
    expect(found.runningSinceMs).toBeGreaterThan(99_000);
    expect(found.reasons).toEqual([]);
  });

  it('passes over a single spike and a single dropout', () => {
    const spiked = (s: number) => (s === 2 ? 90_000 : s === 30 ? 0 : raised(s));
    expect(collect({ signals: rail(spiked) }, settings).time?.spanMs).toBeCloseTo(62_133.33, 1);
  });

  it('looks only at the stretch that a person chose', () => {
    const several = (s: number) => ((s > 5 && s < 8) || (s > 20 && s < 50) ? 90_000 : 0);
    const chosen = { startMs: 0, endMs: 10_000, reason: 'the vessel was there then' };
    expect(collect({ signals: rail(several), chosen }, settings).time?.spanMs).toBeCloseTo(3000, -3);
  });

  it('is not known without the signal, without a trigger, or where it never rose', () => {
    expect(collect({}, settings).from).toBeNull();
    expect(collect({ signals: rail(raised) }, { ...settings, trigger: null }).from).toBeNull();
    expect(collect({ signals: rail(() => 0) }, settings).from).toBeNull();
  });

  it('gives way to a clock that was pressed by hand, and before the noted one', () => {
    const byHand = collect({ signals: rail(raised), stopwatch: watch(0, 50_000) }, settings);
    expect(byHand).toMatchObject({ from: 'hand', time: { spanMs: 50_000 } });
    const noted = watch(0, 50_000, { by: 'signal' });
    expect(collect({ signals: rail(raised), stopwatch: noted }, settings).time?.spanMs).toBeCloseTo(
      62_133,
      0,
    );
    expect(collect({ stopwatch: noted }, settings)).toMatchObject({
      from: 'signal',
      time: { spanMs: 50_000 },
    });
  });
});

describe('a collection timed by cranks', () => {
  const settings = { startedBy: 'cranks' as const };

  it('is the sum of the cranks that count, with their doubts', () => {
    const cranks = [entryOf(10), entryOf(6), entryOf(9, { leftOut: { reason: 'hose off' } })];
    const found = collect({ cranks }, settings);
    expect(found).toMatchObject({ from: 'cranks', time: { spanMs: 16_000 } });
    // Each 40 ms, all within its edges (30 and 30 ms, 42 together): in quadrature 56.57.
    expect(found.time?.standardUncertaintyMs).toBeCloseTo(Math.hypot(40, 40), 6);
    expect(found.stretches).toHaveLength(2);
  });

  it('lies where the person set the edges', () => {
    const setEdges = { startMs: 100, endMs: 9000, reason: 'heard' };
    const found = collect({ cranks: [entryOf(10, { setEdges })] }, settings);
    expect(found.stretches).toEqual([{ startMs: 100, endMs: 9000 }]);
  });

  it('is not known before a crank counts', () => {
    expect(collect({ cranks: [] }, settings).time).toBeNull();
    expect(collect({ cranks: [entryOf(9, { leftOut: { reason: 'air' } })] }, settings).time).toBeNull();
  });

  it('reaches from starter on', () => {
    const starterOn = { ...crankOf(-400, 1).start, standardUncertaintyMs: 5 };
    const found = collect({ cranks: [entryOf(10, { found: { starterOn } })] }, settings);
    expect(found.stretches).toEqual([{ startMs: -400, endMs: 10_000 }]);
  });
});

describe('what must hold during a collection', () => {
  const holds = { signal: 'railPressure' as const, min: 80_000, max: null };
  const stopwatch = watch(0, 60_000);
  const held = (of: (s: number) => number | null, change = {}) =>
    collect(
      { stopwatch, signals: signalsFrom({ railPressure: sampled(60_000, 100, of) }) },
      { holds, ...change },
    ).warnings;

  it('did hold: nothing warns, both ends of the range included', () => {
    expect(held(() => 85_000)).toEqual([]);
    expect(held(() => 80_000)).toEqual([]);
  });

  it('did not for a quarter of the time: share and worst value are told', () => {
    const [warning] = held((s) => (s < 15 ? 60_000 : 90_000));
    expect(warning).toEqual({
      code: 'check.not-held',
      context: { signal: 'rail pressure', allowed: 'at least 80000 kPa', percent: 25, worst: '60000 kPa' },
    });
  });

  it('is told from one per cent on, however short it was', () => {
    expect(held((s) => (s >= 30 && s <= 30.2 ? 70_000 : 90_000))[0]?.context).toMatchObject({ percent: 1 });
  });

  it('counts no single spike, no missing value and nothing outside the collection', () => {
    expect(held((s) => (s === 20 ? 0 : 90_000))).toEqual([]);
    expect(held((s) => (s > 20 && s < 20.5 ? null : 90_000))).toEqual([]);
    const later = sampled(90_000, 100, (s) => (s > 61 ? 0 : 90_000));
    const signals = signalsFrom({ railPressure: later });
    expect(collect({ stopwatch, signals }, { holds }).warnings).toEqual([]);
  });

  it('is not known without the signal, with a typed time, or on the wall clock', () => {
    const signals = signalsFrom({ railPressure: sampled(60_000, 100, () => 90_000) });
    const unknown = [
      collect({ stopwatch }, { holds }),
      collect({ typedMs: 60_000, signals }, { holds }),
      collect({ stopwatch: { ...stopwatch, clock: 'wall' }, signals }, { holds }),
    ];
    for (const { warnings } of unknown) expect(codesOf(warnings)).toEqual(['check.hold-unknown']);
  });

  it('is not asked while the clock runs', () => {
    expect(collect({ stopwatch: watch(0, null) }, { holds }).warnings).toEqual([]);
  });

  it('may have an upper end, and both', () => {
    expect(held(() => 90_000, { holds: { ...holds, max: 85_000 } })[0]?.context).toMatchObject({
      allowed: '80000 to 85000 kPa',
      percent: 100,
    });
    const cold = { signal: 'fuelTemperature' as const, min: null, max: 60 };
    const warm: readonly Point[] = sampled(60_000, 1000, () => 72);
    const found = collect({ stopwatch, signals: signalsFrom({ fuelTemperature: warm }) }, { holds: cold });
    expect(found.warnings[0]?.context).toMatchObject({ allowed: 'at most 60 °C', worst: '72 °C' });
  });

  it('includes the speed window, where a tenth of the time may be ramps', () => {
    const speed = { minRpm: 500, maxRpm: 1200 };
    const at = (of: (s: number) => number) =>
      collect({ stopwatch, signals: signalsFrom({ engineSpeed: sampled(60_000, 100, of) }) }, { speed })
        .warnings;
    expect(at((s) => (s < 5 ? 300 : 700))).toEqual([]); // 8 %
    expect(at((s) => (s < 12 ? 300 : 700))[0]).toMatchObject({
      code: 'check.not-held',
      context: { allowed: '500 to 1200 rpm', percent: 20 },
    });
  });
});
