import { describe, expect, it } from 'vitest';
import type { PressureBuildSettings, PressureDecaySettings } from '../../src/checks/check-settings.ts';
import { collectionOf, type CollectionInput } from '../../src/checks/collection.ts';
import { holeWarnings } from '../../src/checks/hole-warnings.ts';
import { measurePressureBuild } from '../../src/checks/pressure-build.ts';
import { measurePressureDecay } from '../../src/checks/pressure-decay.ts';
import { measureSteadyPressure } from '../../src/checks/steady-pressure.ts';
import { cleanRows } from '../../src/signals/clean-rows.ts';
import { entryOf, crankOf } from './example-cranks.ts';
import { codesOf, sampled, signalsFrom, traceFromPoints, type Point } from './example-signals.ts';

/** The points without those between two instants, ms: the link was down. */
const without = (points: readonly Point[], fromMs: number, toMs: number): readonly Point[] =>
  points.filter(([ms]) => ms <= fromMs || ms >= toMs);
/** The same, but the source went on sending and said that it has no value. */
const silent = (points: readonly Point[], fromMs: number, toMs: number): readonly Point[] =>
  points.map(([ms, value]): Point => [ms, ms > fromMs && ms < toMs ? null : value]);

describe('holeWarnings', () => {
  const rows = (points: readonly Point[]) => cleanRows(traceFromPoints(points), { floor: 0, share: 0.5 });
  const every100 = sampled(20_000, 100, () => 500);
  const holed = rows(without(every100, 8000, 11_000));
  const over = (startMs: number, endMs: number) => holeWarnings(holed, 'railPressure', { startMs, endMs });

  it('names the signal and how long it was missing', () => {
    expect(over(0, 20_000)).toEqual([
      { code: 'check.signal-hole', context: { signal: 'rail pressure', seconds: 3 } },
    ]);
  });

  it.each([
    ['begins in the hole', 9000, 15_000, 1],
    ['ends in the hole', 2000, 9000, 1],
    ['lies within the hole', 9000, 10_000, 1],
    ['ends where the hole begins', 2000, 8000, 0],
    ['begins where the hole ends', 11_000, 15_000, 0],
    ['begins at the last value before it', 8000, 15_000, 1],
    ['lies before it', 0, 5000, 0],
    ['lies behind all data', 30_000, 40_000, 0],
  ])('of a stretch that %s: %i to %i ms', (_, startMs, endMs, count) => {
    expect(over(startMs, endMs)).toHaveLength(count);
  });

  it('tells the longest of several', () => {
    const twice = rows(without(without(every100, 2000, 3500), 8000, 12_500));
    expect(holeWarnings(twice, 'railPressure', { startMs: 0, endMs: 20_000 })[0]?.context.seconds).toBe(4.5);
  });

  // measurement.md 1: a hole is longer than three usual intervals, and than 1 s.
  it('is none up to 1 s at ten a second, and up to three intervals at one a second', () => {
    const at = (stepMs: number, gapMs: number) => {
      const steps = sampled(20_000, stepMs, () => 500);
      const cut = without(steps, 8000, 8000 + gapMs);
      return holeWarnings(rows(cut), 'railPressure', { startMs: 0, endMs: 20_000 }).length;
    };
    expect([at(100, 1000), at(100, 1100)]).toEqual([0, 1]);
    expect([at(1000, 3000), at(1000, 4000)]).toEqual([0, 1]);
  });

  it('says nothing of an empty trace', () => {
    expect(holeWarnings(rows([]), 'railPressure', { startMs: 0, endMs: 1000 })).toEqual([]);
  });
});

describe('a pressure that was not heard all the time is warned of', () => {
  const DECAY: PressureDecaySettings = {
    kind: 'pressure decay',
    signal: 'railPressure',
    fromKPa: 25_000,
    toKPa: 10_000,
  };
  const BUILD: PressureBuildSettings = {
    kind: 'pressure build',
    signal: 'railPressure',
    fromKPa: 0,
    toKPa: 20_000,
    from: 'crank start',
  };
  // 1 000 kPa a second from 30 000: through 25 000 at 5 s, through 10 000 at 20 s.
  const falling = sampled(40_000, 100, (s) => Math.max(0, 30_000 - 1000 * s));
  const stands = sampled(40_000, 100, () => 0);
  const decay = (points: readonly Point[]) =>
    measurePressureDecay({
      settings: DECAY,
      signals: signalsFrom({ railPressure: points, engineSpeed: stands }),
      typed: null,
      chosen: null,
    });
  // 2 500 kPa a second: 20 000 after 8 s.
  const rising = sampled(12_000, 100, (s) => 2500 * s);
  const build = (points: readonly Point[]) =>
    measurePressureBuild({
      settings: BUILD,
      signals: signalsFrom({ railPressure: points }),
      cranks: [{ crank: crankOf(0, 10_000) }],
      underWay: null,
      typed: null,
      chosen: null,
    });
  const holes = (found: { readonly warnings: readonly { readonly code: string }[] }) =>
    codesOf(found.warnings).filter((code) => code === 'check.signal-hole').length;

  it.each([
    ['the link was down', without],
    ['the sender had no value', silent],
  ])('in a decay, where %s for 4 s', (_, hole) => {
    const found = decay(hole(falling, 9000, 13_000));
    expect(found.value).toBeCloseTo(15_000, 6);
    expect(holes(found)).toBe(1);
    expect(holes(decay(hole(falling, 24_000, 28_000)))).toBe(0); // after the end
    expect(holes(decay(hole(falling, 9000, 9500)))).toBe(0); // too short to matter
  });

  it('in a decay whose two edges lie in one hole: the edges are as doubtful as the hole is long', () => {
    const found = decay(without(falling, 4000, 22_000));
    // 18 s between two values: 18 000/√12 = 5 196 ms at either edge, 7 348 ms together (GUM 4.3.7, 5.1.2).
    expect(found.standardUncertainty).toBeCloseTo(7348, 0);
    expect(Math.abs(found.value! - 15_000)).toBeLessThan(2 * found.standardUncertainty);
    expect(holes(found)).toBe(1);
  });

  it('in a decay that has not ended', () => {
    const cut = falling.filter(([ms]) => ms < 15_000);
    expect(holes(decay(without(cut, 9000, 13_000)))).toBe(1);
    expect(holes(decay(cut))).toBe(0);
  });

  it('in a build', () => {
    const found = build(without(rising, 3000, 6000));
    expect(found.value).toBeCloseTo(8000, 6);
    expect(holes(found)).toBe(1);
    expect(holes(build(rising))).toBe(0);
    expect(holes(build(without(rising, 9000, 11_500)))).toBe(0);
  });

  it('in a build that was not reached', () => {
    expect(
      holes(
        build(
          without(
            sampled(12_000, 100, () => 300),
            3000,
            6000,
          ),
        ),
      ),
    ).toBe(1);
  });

  it('in a steady stretch chosen by hand: a found one never holds a hole', () => {
    const steady = sampled(30_000, 100, (s) => 500 + (s % 2));
    const measure = (chosen: { startMs: number; endMs: number; reason: string } | null) =>
      measureSteadyPressure({
        settings: {
          kind: 'steady pressure',
          signal: 'supplyPressure',
          speed: null,
          leastSeconds: 5,
          steadyWithinKPa: 40,
          vacuum: false,
        },
        signals: signalsFrom({ supplyPressure: without(steady, 10_000, 14_000) }),
        typed: null,
        chosen,
      });
    expect(holes(measure({ startMs: 5000, endMs: 20_000, reason: 'all of it' }))).toBe(1);
    expect(holes(measure({ startMs: 15_000, endMs: 29_000, reason: 'the end' }))).toBe(0);
    expect(measure(null)).toMatchObject({ stretch: { startMs: 14_000, endMs: 30_000 }, warnings: [] });
  });
});

describe('a collection', () => {
  const collect = (
    change: Partial<Omit<CollectionInput, 'settings'>>,
    settings: Partial<CollectionInput['settings']>,
  ) =>
    collectionOf({
      settings: {
        kind: 'collected volume',
        seconds: 30,
        startedBy: 'hand',
        trigger: null,
        speed: null,
        holds: null,
        ...settings,
      },
      signals: {},
      cranks: [],
      typedMs: null,
      stopwatch: null,
      lastMs: null,
      chosen: null,
      ...change,
    });
  const raised = sampled(60_000, 100, (s) => (s >= 10 && s < 40 ? 90_000 : 30_000));

  it('timed by a signal that was lost meanwhile is warned of: it may have fallen', () => {
    const settings = {
      startedBy: 'signal',
      trigger: { signal: 'railPressure', above: 60_000 },
    } as const;
    const of = (points: readonly Point[]) =>
      collect({ signals: signalsFrom({ railPressure: points }) }, settings);
    expect(codesOf(of(without(raised, 20_000, 25_000)).warnings)).toEqual(['check.signal-hole']);
    expect(of(raised).warnings).toEqual([]);
    expect(of(without(raised, 45_000, 50_000)).warnings).toEqual([]);
  });

  const held = (points: readonly Point[]) =>
    collect(
      {
        signals: signalsFrom({ railPressure: points }),
        stopwatch: { clock: 'source', startMs: 10_000, endMs: 40_000, by: 'hand' },
      },
      { holds: { signal: 'railPressure', min: 80_000, max: null } },
    ).warnings;

  it('of which the rail pressure is known in part says how much', () => {
    const steady = sampled(60_000, 100, () => 90_000);
    expect(held(steady)).toEqual([]);
    // Missing from 20 s to 32 s: 18 s of 30 s are known, 60 %.
    expect(held(without(steady, 20_000, 32_000))).toEqual([
      {
        code: 'check.hold-partly-known',
        context: { signal: 'rail pressure', allowed: 'at least 80000 kPa', percent: 60 },
      },
    ]);
    // 2.9 s of 30 s are missing: 90.3 % are known, 3.1 s: 89.7 %.
    expect(held(without(steady, 20_000, 22_900))).toEqual([]);
    expect(codesOf(held(without(steady, 20_000, 23_100)))).toEqual(['check.hold-partly-known']);
  });

  it('which did not hold where it was heard, and was not heard else, says both', () => {
    const fell = sampled(60_000, 100, (s) => (s < 15 ? 50_000 : 90_000));
    expect(codesOf(held(without(fell, 20_000, 32_000)))).toEqual([
      'check.not-held',
      'check.hold-partly-known',
    ]);
  });

  describe('timed by cranks', () => {
    const cranked = (...cranks: readonly ReturnType<typeof entryOf>[]) =>
      collect({ cranks }, { startedBy: 'cranks' });

    it.each([
      ['released', false, []],
      ['cut', false, ['check.crank-cut']],
      ['released', true, ['check.crank-cut']],
      ['data lost', false, ['check.crank-data-lost']],
      ['engine started', false, ['check.engine-started']],
    ] as const)('one of which ended by "%s", cut at its start: %s', (endedBy, cutAtStart, codes) => {
      const found = cranked(entryOf(15), entryOf(15, { found: { endedBy, cutAtStart } }));
      expect(found.time?.spanMs).toBe(30_000);
      expect(codesOf(found.reasons)).toEqual(codes);
      for (const { context } of found.reasons) expect(context.number).toBe(2);
    });

    it('is not held up by one that was left out, which is told, as its fuel may be in the vessel', () => {
      const leftOut = { reason: 'air' };
      const found = cranked(entryOf(15), entryOf(4, { found: { endedBy: 'data lost' }, leftOut }));
      expect(found.reasons).toEqual([]);
      expect(codesOf(found.warnings)).toEqual(['check.crank-left-out']);
    });

    it('takes edges that were set in place of those that were lost', () => {
      const setEdges = { startMs: 0, endMs: 14_500, reason: 'heard it' };
      const found = cranked(entryOf(14.5, { found: { endedBy: 'data lost' }, setEdges }));
      expect(found.reasons).toEqual([]);
      expect(codesOf(found.warnings)).toEqual(['check.edges-set']);
    });

    it('does not ask for the speed: a volume over time needs none', () => {
      const found = cranked(entryOf(15, { speed: { samples: 0, coverage: 0 } }));
      expect(found).toMatchObject({ reasons: [], warnings: [] });
    });
  });
});
