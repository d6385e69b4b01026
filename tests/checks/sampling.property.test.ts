import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { append, columns, createTrace } from '../../src/signals/growing-trace.ts';
import { cleanRows } from '../../src/signals/clean-rows.ts';
import { fallThrough, riseThrough } from '../../src/signals/crossing.ts';
import { codesOf, sampled, traceFromPoints, type Point } from './example-signals.ts';
import { isTime, WORLDS, type World } from './pressure-worlds.ts';

const RUNS = { numRuns: 25 };
const decay = WORLDS.find(({ kind }) => kind === 'pressure decay')!;
const build = WORLDS.find(({ kind }) => kind === 'pressure build')!;
const steady = WORLDS.find(({ kind }) => kind === 'steady pressure')!;

/** Edges are rectangular: the true value is never further off than √3 of their standard uncertainty each; 3 u holds for two of them and a mean. */
const FAR = 3;
const off = (world: World, found: ReturnType<World['measure']>) => Math.abs(found.value! - world.truth);

describe.each(WORLDS.map((world) => [world.kind, world] as const))('a %s', (_, world) => {
  const plain = world.measure();

  it('is what was worked out by hand, with nothing to say against it', () => {
    expect(off(world, plain)).toBeLessThanOrEqual(FAR * plain.standardUncertainty);
    expect(plain).toMatchObject({ atLeast: false, reasons: [], warnings: [] });
    expect(plain.standardUncertainty).toBeGreaterThan(0);
  });

  it('is the same at any time of the day: only its stretch moves', () => {
    fc.assert(
      fc.property(fc.integer({ min: 0, max: 86_400_000 }), (shiftMs) => {
        const later = world.measure({ shiftMs });
        expect(later.value).toBeCloseTo(plain.value!, 3);
        expect(later.standardUncertainty).toBeCloseTo(plain.standardUncertainty, 3);
        expect(later.stretch!.startMs).toBeCloseTo(plain.stretch!.startMs + shiftMs, 3);
        expect(later.stretch!.endMs).toBeCloseTo(plain.stretch!.endMs + shiftMs, 3);
      }),
      RUNS,
    );
  });

  it('with all pressures so many times as high is so many times as high, or takes the same time', () => {
    fc.assert(
      fc.property(fc.double({ min: 0.5, max: 8, noNaN: true }), (factor) => {
        const scaled = world.measure({ factor });
        const by = isTime(world) ? 1 : factor;
        expect(scaled.value! / (by * plain.value!)).toBeCloseTo(1, 6);
        expect(scaled.standardUncertainty / (by * plain.standardUncertainty)).toBeCloseTo(1, 4);
        for (const { name, unit, value } of plain.facts) {
          const found = scaled.facts.find((fact) => fact.name === name)!.value;
          const grows = unit === 'kPa' || unit === 'kPa/s';
          expect(found).toBeCloseTo(grows ? factor * value : value, 2);
        }
      }),
      RUNS,
    );
  });

  it('logged 2 to 100 times a second is the same within its own uncertainty', () => {
    fc.assert(
      fc.property(fc.integer({ min: 10, max: 500 }), (stepMs) => {
        const found = world.measure({ stepMs });
        expect(found.reasons).toEqual([]);
        expect(off(world, found)).toBeLessThanOrEqual(FAR * found.standardUncertainty + 1e-6);
      }),
      RUNS,
    );
  });

  it('logged in coarse steps, as often as may be, is still the same within its own uncertainty', () => {
    const size = isTime(world) ? fc.constantFrom(4, 50, 400, 1000) : fc.constantFrom(1, 2, 4);
    fc.assert(
      fc.property(fc.integer({ min: 10, max: 500 }), size, (stepMs, step) => {
        const arrives = (points: readonly Point[]) =>
          points.map(([ms, value]): Point => [ms, step * Math.round(value! / step)]);
        const found = world.measure({ stepMs, arrives });
        expect(found.reasons).toEqual([]);
        expect(off(world, found)).toBeLessThanOrEqual(FAR * found.standardUncertainty + 1e-6);
      }),
      RUNS,
    );
  });

  it('without a value here and there stays within its uncertainty', () => {
    fc.assert(
      fc.property(fc.uniqueArray(fc.integer({ min: 1, max: 399 }), { maxLength: 40 }), (missing) => {
        const arrives = (points: readonly Point[]) =>
          points.map(([ms, value], row): Point => [ms, missing.includes(row) ? null : value]);
        const found = world.measure({ arrives });
        expect(found.reasons).toEqual([]);
        expect(off(world, found)).toBeLessThanOrEqual(FAR * found.standardUncertainty + 1e-6);
      }),
      RUNS,
    );
  });

  it('passes over a single spike, wherever it lies and however far it goes', () => {
    const place = fc.integer({ min: 2, max: 397 });
    fc.assert(
      fc.property(place, fc.constantFrom(-0.9, 3, 20), (row, times) => {
        const arrives = (points: readonly Point[]) =>
          points.map(([ms, value], at): Point => [
            ms,
            at === row ? value! + times * (value! + 20_000) : value,
          ]);
        const found = world.measure({ arrives });
        expect(found.reasons).toEqual([]);
        expect(off(world, found)).toBeLessThanOrEqual(FAR * found.standardUncertainty + 1e-6);
      }),
      RUNS,
    );
  });

  it('never gives a number across a break without a word, unless the break leaves the number alone', () => {
    const start = fc.integer({ min: 1000, max: 30_000 });
    fc.assert(
      fc.property(start, fc.integer({ min: 1500, max: 25_000 }), (fromMs, spanMs) => {
        const arrives = (points: readonly Point[]) =>
          points.filter(([ms]) => ms <= fromMs || ms >= fromMs + spanMs);
        const found = world.measure({ arrives });
        if (found.value === null || found.atLeast) {
          expect(found.reasons).not.toEqual([]);
          return;
        }
        const told = [...found.reasons, ...found.warnings].length > 0;
        const { startMs, endMs } = found.stretch!;
        const outside = endMs <= fromMs + 1 || startMs >= fromMs + spanMs - 1;
        expect(told || outside || off(world, found) <= FAR * found.standardUncertainty).toBe(true);
        // A break within the stretch is always told, however well it came out.
        if (!outside && isTime(world)) expect(codesOf(found.warnings)).toContain('check.signal-hole');
      }),
      RUNS,
    );
  });

  it('is none where the pressure fell silent before it began, and says why', () => {
    const arrives = (points: readonly Point[]) => points.filter(([ms]) => ms < 1000);
    const found = world.measure({ arrives });
    expect(found.reasons.length).toBeGreaterThan(0);
    expect(found.value === null || found.atLeast).toBe(true);
  });

  it('is none where every value is one that the source does not have', () => {
    const silent = world.measure({ arrives: (points) => points.map(([ms]): Point => [ms, null]) });
    expect(silent.value).toBeNull();
    expect(silent.reasons).not.toEqual([]);
  });
});

describe('a trace is the same however it arrived', () => {
  it('in one piece or in many: the same rows, crossings and spikes', () => {
    const points = sampled(12_000, 60, (s) => (s === 6 ? 90_000 : 30_000 - 2000 * s));
    const rowOf = ([atMs, value]: Point) => ({ atMs, value: value!, quality: 0 });
    const whole = cleanRows(traceFromPoints(points), { floor: 1500, share: 0.5 });
    fc.assert(
      fc.property(fc.array(fc.integer({ min: 1, max: 60 }), { minLength: 1, maxLength: 20 }), (sizes) => {
        let trace = createTrace();
        let at = 0;
        for (const size of [...sizes, points.length]) {
          trace = append(trace, points.slice(at, at + size).map(rowOf));
          at += size;
        }
        const rows = cleanRows(columns(trace), { floor: 1500, share: 0.5 });
        expect(rows.count).toBe(whole.count);
        expect(rows.spikes).toBe(whole.spikes);
        expect(fallThrough(rows, 20_000)).toEqual(fallThrough(whole, 20_000));
        expect(riseThrough(rows, 20_000)).toEqual(riseThrough(whole, 20_000));
      }),
      RUNS,
    );
  });
});

describe('the uncertainty of a value', () => {
  const rounded = (step: number) => (points: readonly Point[]) =>
    points.map(([ms, value]): Point => [ms, step * Math.round(value! / step)]);

  it.each([
    [decay, [0.001, 100, 1000, 2500]],
    [build, [0.001, 100, 1000, 2500]],
    [steady, [0.001, 1, 2, 4]],
  ] as const)('never shrinks when the steps of the log get coarser (%#)', (world, steps) => {
    const doubts = steps.map(
      (step) => world.measure({ stepMs: 20, arrives: rounded(step) }).standardUncertainty,
    );
    for (let at = 1; at < doubts.length; at++)
      expect(doubts[at]!).toBeGreaterThanOrEqual(0.99 * doubts[at - 1]!);
    expect(doubts.at(-1)!).toBeGreaterThan(1.2 * doubts[0]!);
  });

  it('never shrinks when the log is taken less often', () => {
    for (const world of [decay, build]) {
      const doubts = [10, 50, 100, 250, 500].map((stepMs) => world.measure({ stepMs }).standardUncertainty);
      expect([...doubts].sort((a, b) => a - b)).toEqual(doubts);
    }
  });

  it('of a mean gets smaller the longer the pressure was held: four times as long, about half', () => {
    const noise = sampled(40_000, 100, (s) => 500 + 8 * Math.sin(997 * s) + 8 * Math.sin(1409 * s));
    const held = (untilMs: number) =>
      steady.measure({
        arrives: (points) => points.map(([ms], row): Point => [ms, ms < untilMs ? noise[row]![1] : null]),
      }).standardUncertainty;
    // From 5 s on: 7 s would be too short, 10 s and 30 s are not. √(30/10) = 1.73.
    const ratio = held(15_200) / held(36_000);
    expect(ratio).toBeGreaterThan(1.3);
    expect(ratio).toBeLessThan(2.3);
  });
});

/*
 * A fall of 1 000 kPa/s logged every 20 ms in steps of 1 000 kPa stands for 1 s on each: the true instant of a level may lie anywhere in the second around
 * the step, whether the log rounds or cuts off. (20 + 980 + …)/√12 ≈ 289 ms, not 20/√12 = 5.8 ms (GUM 4.3.7).
 */
describe('an instant found on a staircase', () => {
  const fall = (step: number, of: (x: number) => number) =>
    cleanRows(traceFromPoints(sampled(20_000, 20, (s) => step * of((30_000 - 1000 * s) / step))), {
      floor: 5000,
      share: 0.5,
    });

  it.each([
    ['rounded', Math.round],
    ['cut off', Math.floor],
    ['rounded up', Math.ceil],
  ])('that is %s is doubtful by the length of a step, which holds the true instant', (_, of) => {
    const found = fallThrough(fall(1000, of), 20_000)!;
    expect(found.standardUncertaintyMs).toBeCloseTo(1000 / Math.sqrt(12), -1);
    expect(Math.abs(found.atMs - 10_000)).toBeLessThanOrEqual(4 * found.standardUncertaintyMs);
  });

  it('that is finer than the rows is doubtful by the rows alone', () => {
    expect(fallThrough(fall(1, Math.round), 20_000)?.standardUncertaintyMs).toBeCloseTo(
      20 / Math.sqrt(12),
      6,
    );
  });

  it('is none where a pressure rests, jumps once and rests: it was at the level when it jumped', () => {
    const jump = traceFromPoints(sampled(20_000, 20, (s) => (s < 10 ? 30_000 : 5000)));
    const found = fallThrough(cleanRows(jump, { floor: 5000, share: 0.5 }), 20_000);
    expect(found?.standardUncertaintyMs).toBeCloseTo(20 / Math.sqrt(12), 6);
  });

  it('is none at the top of a pulse either: it comes back down', () => {
    const pulse = traceFromPoints(
      sampled(20_000, 20, (s) => (s < 5 ? 1000 : s < 10 ? 30_000 : s < 15 ? 60_000 : 1000)),
    );
    const rows = cleanRows(pulse, { floor: 5000, share: 0.5 });
    // Rises from 1 000 (5 s long, nothing before it) to 30 000: the first step has no step before it.
    expect(riseThrough(rows, 20_000)?.standardUncertaintyMs).toBeCloseTo(20 / Math.sqrt(12), 6);
    // Falls from 60 000 to 1 000, where it stays.
    expect(fallThrough(rows, 20_000)?.standardUncertaintyMs).toBeCloseTo(20 / Math.sqrt(12), 6);
  });
});
