import { describe, expect, it } from 'vitest';
import { measureCollectedVolume } from '../../src/checks/collected-volume.ts';
import { judgeConditions } from '../../src/checks/conditions.ts';
import { measureCrankDelivery } from '../../src/checks/crank-delivery.ts';
import type { CrankEntry } from '../../src/checks/crank-entry.ts';
import { crankProblems } from '../../src/checks/crank-problems.ts';
import { applyOverrides } from '../../src/checks/overrides.ts';
import { rounded } from '../../src/checks/rounded.ts';
import { scaledToTarget, timeOutside } from '../../src/checks/time-on-target.ts';
import type { LimitCondition } from '../../src/limits/limit-sheet.ts';
import type { ProblemCode } from '../../src/problems/catalogue.ts';
import { describeProblem, problem } from '../../src/problems/problem.ts';
import { millis } from '../../src/quantities/time.ts';
import { averageOf, entryOf } from './example-cranks.ts';

const LIMIT = { cranks: 2, crankSeconds: 15, timeTolerancePercent: 5, conditions: [] };
const deliver = (cranks: readonly CrankEntry[]) =>
  measureCrankDelivery({ limit: LIMIT, cranks, average: averageOf(180, 30_000), volume: null });
const codes = (problems: readonly { readonly code: string }[]) => problems.map(({ code }) => code);

describe('a crank whose starter engaged before the speed was reported', () => {
  const starterOn = { atMs: millis(-400), standardUncertaintyMs: 5 };
  const found = { starterOn, startSign: 'battery' } as const;
  // By hand: edges 5 and 30 ms make 30.41 ms; the rest of 50 ms is √(50² − 30.41²) = 39.69 ms, late.
  const entry = entryOf(15.4, { found, time: { spanMs: 15_400, standardUncertaintyMs: 50 } });

  it('counts from the starter, not from the first speed', () => {
    expect(deliver([entry, entry]).cranks[0]).toMatchObject({ startMs: -400, endMs: 15_000 + 400 });
  });

  it('takes the sharper edge of the starter into the part that falls at chance', () => {
    const chance = Math.sqrt(2) * Math.sqrt(5 ** 2 + 30 ** 2);
    const late = 2 * Math.sqrt(50 ** 2 - 5 ** 2 - 30 ** 2);
    expect(deliver([entry, entry]).crankSecondsUncertainty).toBeCloseTo(Math.hypot(chance, late) / 1000, 12);
    expect(deliver([entry]).crankSecondsUncertainty).toBeCloseTo(0.05, 12);
  });
});

describe('the reason shown with a crank', () => {
  const setEdges = { startMs: 0, endMs: 14_000, reason: 'edge moved' };

  it('is why it was left out, even where its edges were moved as well', () => {
    const both = entryOf(15, { setEdges, leftOut: { reason: 'air in the line' } });
    expect(deliver([both, entryOf(15)]).cranks[0]).toMatchObject({
      reason: 'air in the line',
      counts: false,
    });
  });

  it('is why its edges were moved where it counts, and nothing for a plain one', () => {
    const delivery = deliver([entryOf(15, { setEdges }), entryOf(15)]);
    expect(delivery.cranks.map(({ reason }) => reason)).toEqual(['edge moved', null]);
  });
});

describe('a single crank that is too long', () => {
  // Twice the tolerance is let through: 10 % of 15 s.
  it.each([
    [16.5, false],
    [16.51, true],
    [16, false],
  ])('%f s of 15 s asked: warned of is %s', (seconds, warned) => {
    const delivery = deliver([entryOf(seconds), entryOf(31.2 - seconds)]);
    expect(codes(delivery.warnings).includes('check.crank-long')).toBe(warned);
  });
});

describe('corners of one crank', () => {
  it.each<[string, Partial<CrankEntry>, readonly ProblemCode[]]>([
    ['of no length', { time: { spanMs: 0, standardUncertaintyMs: 1 } }, ['check.edges-wrong']],
    ['of negative length', { time: { spanMs: -1, standardUncertaintyMs: 1 } }, ['check.edges-wrong']],
    ['of unknown doubt', { time: { spanMs: 9, standardUncertaintyMs: NaN } }, ['check.edges-wrong']],
    ['of negative doubt', { time: { spanMs: 9, standardUncertaintyMs: -1 } }, ['check.edges-wrong']],
    [
      'with both edges in one place',
      { setEdges: { startMs: 9, endMs: 9, reason: 'x' } },
      ['check.edges-wrong'],
    ],
    ['of certain edges', { time: { spanMs: 9, standardUncertaintyMs: 0 } }, []],
  ])('%s', (_, change, expected) => {
    expect(codes(crankProblems(entryOf(15, change), 1).reasons)).toEqual(expected);
  });

  it('without any speed is said once: not as low coverage too', () => {
    const entry = entryOf(15, { speed: { samples: 0, coverage: 0.7 } });
    expect(codes(crankProblems(entry, 1).reasons)).toEqual(['check.no-speed-in-crank']);
    expect(crankProblems(entry, 1).warnings).toEqual([]);
  });

  it('set edges do not make an engine that started a crank', () => {
    const setEdges = { startMs: 0, endMs: 12_000, reason: 'before it fired' };
    const entry = entryOf(12, { setEdges, found: { endedBy: 'engine started' } });
    expect(codes(crankProblems(entry, 1).reasons)).toEqual(['check.engine-started']);
  });

  it('cut at its start and at its end is cut once', () => {
    const entry = entryOf(12, { found: { cutAtStart: true, endedBy: 'cut' } });
    expect(codes(crankProblems(entry, 3).reasons)).toEqual(['check.crank-cut']);
  });
});

describe('which reasons may be set aside', () => {
  const ALL: readonly (readonly [ProblemCode, boolean])[] = [
    ['check.time-outside', true],
    ['check.crank-cut', true],
    ['check.crank-data-lost', true],
    ['check.engine-started', false],
    ['check.no-speed-in-crank', false],
    ['check.coverage-too-low', false],
    ['check.condition-outside', false],
    ['check.condition-unknown', false],
    ['check.edges-wrong', false],
    ['check.edges-without-reason', false],
    ['check.left-out-without-reason', false],
    ['check.no-cranks', false],
    ['check.all-cranks-left-out', false],
    ['check.no-time', false],
  ];

  it.each(ALL)('%s: %s', (code, may) => {
    const judged = { reasons: [problem(code)], warnings: [] };
    const { reasons, warnings } = applyOverrides(judged, [{ code, reason: 'I saw it' }]);
    expect(codes(reasons)).toEqual(may ? [] : [code]);
    expect(codes(warnings)).toEqual(may ? [code, 'check.overridden'] : []);
  });

  it('one word covers every crank with that reason, and earlier warnings stay in front', () => {
    const judged = {
      reasons: [problem('check.crank-cut', { number: 1 }), problem('check.crank-cut', { number: 2 })],
      warnings: [problem('check.crank-count', { found: 2, asked: 1 })],
    };
    const { reasons, warnings } = applyOverrides(judged, [{ code: 'check.crank-cut', reason: ' timed ' }]);
    expect(reasons).toEqual([]);
    expect(codes(warnings)).toEqual([
      'check.crank-count',
      'check.crank-cut',
      'check.overridden',
      'check.crank-cut',
      'check.overridden',
    ]);
    expect(warnings[2]?.context['why']).toBe('timed');
    expect(describeProblem(warnings[4] ?? problem('check.no-cranks')).message).toContain('crank 2');
  });
});

describe('conditions in words', () => {
  const condition = (change: Partial<LimitCondition>): LimitCondition => ({
    signal: 'coolantTemperature',
    min: null,
    max: null,
    outside: 'warn',
    ...change,
  });

  it.each<[Partial<LimitCondition>, number, string]>([
    [{ max: 40 }, 41.26, 'The coolant temperature was 41.3 °C; the limit holds for at most 40 °C.'],
    [{ min: 20 }, 19.94, 'The coolant temperature was 19.9 °C; the limit holds for at least 20 °C.'],
    [
      { signal: 'railPressure', min: 30_000, max: 40_000 },
      29_999.9,
      'The rail pressure was 29999.9 kPa; the limit holds for 30000 to 40000 kPa.',
    ],
    [{ min: 0 }, -0.04, 'The coolant temperature was 0 °C; the limit holds for at least 0 °C.'],
  ])('%j at %f', (change, value, words) => {
    const given = condition(change);
    const { warnings } = judgeConditions([given], { [given.signal]: value });
    expect(warnings.map((each) => describeProblem(each).message)).toEqual([words]);
  });
});

describe('time on target', () => {
  it.each([
    [28.5, true],
    [28.499, false],
    [31.5, true],
    [31.501, false],
    [30, true],
    [NaN, false],
  ])('%f s of 30 s ±5 %% is within: %s', (seconds, within) => {
    expect(timeOutside(seconds, { seconds: 30, tolerancePercent: 5 }) === null).toBe(within);
  });

  it('tells hundredths of a second, so that 28.49 s does not read as the allowed 28.5', () => {
    const found = timeOutside(28.494, { seconds: 30, tolerancePercent: 5 });
    expect(found?.context).toEqual({ seconds: 28.49, target: 30, from: 28.5, to: 31.5 });
  });

  it('a window without its own tolerance allows ±5 % (measurement.md 4), edges included', () => {
    const collect = (spanMs: number) =>
      measureCollectedVolume({
        limit: { durationSeconds: 30, conditions: [] },
        volume: null,
        time: { spanMs, standardUncertaintyMs: 0 },
      });
    expect(codes(collect(31_500).reasons)).toEqual([]);
    expect(codes(collect(31_600).reasons)).toEqual(['check.time-outside']);
    expect(collect(31_600).volumeAtTargetMl).toBeNull(); // nothing typed, nothing to scale
  });

  it('scales with the rate: twice the time, half the volume; no time, no estimate', () => {
    expect(scaledToTarget(240, 24, 30)).toBe(300);
    expect(scaledToTarget(240, 48, 30)).toBe(150);
    expect(scaledToTarget(240, 0, 30)).toBeNull();
    expect(scaledToTarget(240, NaN, 30)).toBeNull();
  });
});

describe('numbers in messages', () => {
  it('are rounded and never read as minus zero', () => {
    expect(Object.is(rounded(-0.2), 0)).toBe(true);
    expect([rounded(2.345, 1), rounded(-7.26, 1), rounded(99.5)]).toEqual([2.3, -7.3, 100]);
  });
});
