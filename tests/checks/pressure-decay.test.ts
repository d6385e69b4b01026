import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { PressureDecaySettings } from '../../src/checks/check-settings.ts';
import { measurePressureDecay, type PressureDecayInput } from '../../src/checks/pressure-decay.ts';
import { exponential, rootLeak } from './closed-forms.ts';
import { codesOf, noiseFrom, sampled, signalsFrom, type Point } from './example-signals.ts';

const SETTINGS: PressureDecaySettings = {
  kind: 'pressure decay',
  signal: 'railPressure',
  fromKPa: 25_000,
  toKPa: 10_000,
};
const stands = sampled(60_000, 100, () => 0);
const of = (points: readonly Point[], change: Partial<PressureDecayInput> = {}) =>
  measurePressureDecay({
    settings: SETTINGS,
    signals: signalsFrom({ railPressure: points, engineSpeed: stands }),
    typed: null,
    chosen: null,
    ...change,
  });
const fact = (found: ReturnType<typeof of>, name: string) =>
  found.facts.find((each) => each.name === name)?.value;

/** Shut off at 2 s from 30 000 kPa, falling 1 000 kPa a second. */
const falling = sampled(40_000, 100, (s) => (s < 2 ? 30_000 : Math.max(0, 30_000 - 1000 * (s - 2))));

/* check-values.md section D: linear leak, τ = V/(KG) = 1.071429 s. From 25 to 10 MPa: τ ln 2.5 = 0.981741 s. */
describe('a decay by closed form', () => {
  const found = of(sampled(5000, 5, (s) => exponential(40_000, s)));

  it('takes τ ln(25/10) = 0.981741 s', () => expect(found.value! / 1000).toBeCloseTo(0.981741, 4));

  it('is fitted with τ 1.071429 s, and nothing warns', () => {
    expect(fact(found, 'time constant')).toBeCloseTo(1.071429, 5);
    expect(fact(found, 'its standard uncertainty')).toBeLessThan(1e-6);
    expect(found.warnings).toEqual([]);
  });

  it('falls at (25 000 − 10 000)/0.981741 = 15 279 kPa/s in the mean', () => {
    expect(fact(found, 'mean rate of the fall')).toBeCloseTo(15_279, -1);
  });

  it('carries an edge of 5/√12 = 1.4434 ms at either end', () => {
    expect(found.parts.map((part) => part.standardUncertainty)).toEqual([
      expect.closeTo(1.4434, 4),
      expect.closeTo(1.4434, 4),
    ]);
  });

  it('of a square-root leak takes 0.2 s from 908.844 to 739.600 bar', () => {
    const settings = { ...SETTINGS, fromKPa: 90_884.4, toKPa: 73_960 };
    expect(of(sampled(3000, 5, rootLeak), { settings }).value).toBeCloseTo(200, 0);
  });

  it('of a square-root leak is no exponential, and says so', () => {
    const settings = { ...SETTINGS, fromKPa: 90_000, toKPa: 20_000 };
    expect(codesOf(of(sampled(3000, 5, rootLeak), { settings }).warnings)).toEqual([
      'check.decay-not-exponential',
    ]);
  });

  it('in the noise of a sensor the fitted τ holds the true one within its uncertainty, mostly', () => {
    const inside = Array.from({ length: 60 }, (_, seed) => {
      const noise = noiseFrom(seed + 1);
      const noisy = of(sampled(5000, 10, (s) => exponential(40_000, s) * (1 + 0.04 * noise())));
      const [tau, u] = [fact(noisy, 'time constant')!, fact(noisy, 'its standard uncertainty')!];
      return Math.abs(tau - 1.071429) <= 2 * u;
    }).filter(Boolean).length;
    expect(inside).toBeGreaterThanOrEqual(51); // 95 % of 60 is 57; fewer than 51 has a chance below 1 in 100
  });

  it('in noise alone is not called bent', () => {
    const noise = noiseFrom(99);
    const noisy = of(sampled(5000, 10, (s) => exponential(40_000, s) * (1 + 0.04 * noise())));
    expect(codesOf(noisy.warnings)).not.toContain('check.decay-not-exponential');
  });
});

describe('the time of a decay', () => {
  it('counts between the two falls: 7 s to 22 s', () => {
    const found = of(falling);
    expect(found).toMatchObject({ quantity: 'time', value: 15_000, atLeast: false, reasons: [] });
    expect(found.stretch).toEqual({ startMs: 7000, endMs: 22_000 });
  });

  it('is that of any exponential: τ ln(from/to), however it is sampled', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 500, max: 20_000 }),
        fc.integer({ min: 20, max: 200 }),
        (tauMs, stepMs) => {
          const points = sampled(3 * tauMs, stepMs, (s) => 40_000 * Math.exp((-1000 * s) / tauMs));
          const found = of(points);
          if (found.atLeast || found.value === null) return;
          // On the straight line between two values an exponential lies a little early or late: by less than the square of the step over 8 τ each.
          const allowed = (2 * stepMs ** 2) / (8 * tauMs) + 1e-6;
          expect(Math.abs(found.value - tauMs * Math.log(2.5))).toBeLessThanOrEqual(allowed);
        },
      ),
    );
  });

  it('takes the last fall that went all the way', () => {
    const twice = [
      ...sampled(9900, 100, (s) => 30_000 - 3000 * s), // 1.67 s to 6.67 s
      ...sampled(40_000, 100, (s) => Math.max(0, 30_000 - 1000 * (s - 10)), 10_000), // 15 s to 30 s
    ];
    expect(of(twice)).toMatchObject({ value: 15_000, stretch: { startMs: 15_000, endMs: 30_000 } });
    const cut = twice.filter(([ms]) => ms < 20_000);
    expect(of(cut).value).toBeCloseTo(5000, 6);
  });

  it('does not count over a rise in between', () => {
    const bump = sampled(40_000, 100, (s) => (s < 10 ? 30_000 - 1000 * s : Math.max(0, 40_000 - 1000 * s)));
    // Falls through 25 000 at 5 s, back up at 10 s to 30 000, falls again at 15 s; 10 000 at 30 s.
    expect(of(bump).stretch).toEqual({ startMs: 15_000, endMs: 30_000 });
  });

  it('passes over a single dropout', () => {
    const dropped = falling.map(([ms, value]): Point => [ms, ms === 10_000 ? 0 : value]);
    expect(of(dropped).value).toBe(15_000);
  });

  it('looks only at the stretch that a person chose', () => {
    const chosen = { startMs: 8000, endMs: 40_000, reason: 'engine at rest by then' };
    const found = of(falling, { chosen, settings: { ...SETTINGS, fromKPa: 20_000 } });
    expect(found).toMatchObject({ value: 10_000 });
    expect(codesOf(found.warnings)).toEqual(['check.stretch-chosen', 'check.decay-not-exponential']);
    expect(codesOf(of(falling, { chosen }).reasons)).toEqual(['check.decay-not-begun']);
  });

  it('typed by hand needs no data', () => {
    expect(of([], { typed: { value: 12_000, tolerance: 500, halfStep: 50 } })).toMatchObject({
      value: 12_000,
      typed: true,
    });
  });
});

describe('a decay that is not over', () => {
  it('has not begun: the pressure stands, or was never so high', () => {
    expect(codesOf(of(sampled(5000, 100, () => 30_000)).reasons)).toEqual(['check.decay-not-begun']);
    expect(codesOf(of(sampled(5000, 100, () => 5000)).reasons)).toEqual(['check.decay-not-begun']);
    expect(codesOf(of([]).reasons)).toEqual(['check.no-signal']);
  });

  it('is known to take at least as long as was seen', () => {
    const found = of(falling.filter(([ms]) => ms <= 17_000)); // down to 15 000 kPa
    expect(found).toMatchObject({ value: 10_000, atLeast: true });
    expect(found.reasons).toEqual([
      { code: 'check.decay-not-ended', context: { seconds: 10, lowest: 15_000, to: 10_000 } },
    ]);
    expect(fact(found, 'lowest pressure')).toBe(15_000);
  });
});

describe('the engine during a decay', () => {
  const warned = (speed: readonly Point[]) =>
    codesOf(
      of([], {
        signals: signalsFrom({
          railPressure: sampled(5000, 5, (s) => exponential(40_000, s)),
          engineSpeed: speed,
        }),
      }).warnings,
    );

  it('still turning is warned of, with its speed', () => {
    const found = of(falling, {
      signals: signalsFrom({
        railPressure: falling,
        engineSpeed: sampled(40_000, 100, (s) => (s < 9 ? 600 : 0)),
      }),
    });
    expect(found.warnings[1] ?? found.warnings[0]).toMatchObject({
      code: 'check.engine-still-turns',
      context: { speed: 600 },
    });
  });

  it('at rest before it is in order, also where the controller fell silent afterwards', () => {
    expect(warned(sampled(5000, 100, () => 0))).toEqual([]);
    expect(warned([[0, 0]])).toEqual([]);
  });

  it('whose last word was that it turned is warned of', () => {
    expect(warned([[0, 600]])).toEqual(['check.engine-still-turns']);
  });

  it('of which nothing is known is warned of', () => {
    expect(warned([])).toEqual(['check.engine-stop-unknown']);
    expect(warned([[9000, 0]])).toEqual(['check.engine-stop-unknown']);
  });
});
