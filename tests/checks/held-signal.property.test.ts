import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { boundsText, heldOver, outsideBy } from '../../src/checks/held-signal.ts';
import { sampled, signalsFrom } from './example-signals.ts';

const BOUNDS = { signal: 'batteryVoltage' as const, min: 22, max: 29 };
const levels = fc.array(fc.constantFrom(20, 23, 24, 28, 31), { minLength: 4, maxLength: 40 });
/** Each level for two seconds, so that none is a single spike. */
const voltage = (values: readonly number[]) =>
  signalsFrom({
    batteryVoltage: sampled(values.length * 2000 - 100, 100, (s) => values[Math.floor(s / 2)]!),
  });

describe('heldOver', () => {
  it('finds a share between nothing and all, and a worst value only where some time was outside', () => {
    fc.assert(
      fc.property(levels, (values) => {
        const held = heldOver(voltage(values), BOUNDS, [{ startMs: 0, endMs: values.length * 2000 }]);
        expect(held.shareOutside).toBeGreaterThanOrEqual(0);
        expect(held.shareOutside).toBeLessThanOrEqual(1);
        expect(held.worst === null).toBe(held.shareOutside === 0);
      }),
    );
  });

  it('finds about the share that the levels have', () => {
    fc.assert(
      fc.property(levels, (values) => {
        const held = heldOver(voltage(values), BOUNDS, [{ startMs: 0, endMs: values.length * 2000 }]);
        const share = values.filter((value) => outsideBy(value, BOUNDS) > 0).length / values.length;
        // At each change of level the interval of 0.1 s between may fall on either side.
        expect(Math.abs((held.shareOutside ?? NaN) - share)).toBeLessThan(0.06);
      }),
    );
  });

  it('knows as much time in two halves as in the whole', () => {
    fc.assert(
      fc.property(levels, fc.integer({ min: 100, max: 7000 }), (values, cut) => {
        const endMs = values.length * 2000 - 100;
        const over = (...ends: readonly (readonly [number, number])[]) =>
          heldOver(
            voltage(values),
            BOUNDS,
            ends.map(([startMs, end]) => ({ startMs, endMs: end })),
          ).knownMs;
        expect(over([0, cut], [cut, endMs])).toBeCloseTo(over([0, endMs]), 6);
      }),
    );
  });

  it('knows nothing where nothing was heard, or within a hole', () => {
    const stretch = [{ startMs: 0, endMs: 1000 }];
    expect(heldOver({}, BOUNDS, stretch)).toEqual({ shareOutside: null, worst: null, knownMs: 0 });
    expect(heldOver(voltage([24, 24, 24, 24]), BOUNDS, []).shareOutside).toBeNull();
    const holed = signalsFrom({
      batteryVoltage: [
        [0, 24],
        [100, 24],
        [200, 24],
        [9000, 24],
      ],
    });
    expect(heldOver(holed, BOUNDS, [{ startMs: 1000, endMs: 8000 }]).shareOutside).toBeNull();
  });
});

describe('bounds', () => {
  it.each([
    [21, 1],
    [22, 0],
    [25, 0],
    [29, 0],
    [31.5, 2.5],
  ])('put %f outside by %f', (value, by) => expect(outsideBy(value, BOUNDS)).toBe(by));

  it('in words', () => {
    expect(boundsText(BOUNDS, 'V')).toBe('22 to 29 V');
    expect(boundsText({ ...BOUNDS, max: null }, 'V')).toBe('at least 22 V');
    expect(boundsText({ ...BOUNDS, min: null }, 'V')).toBe('at most 29 V');
    expect(boundsText({ ...BOUNDS, min: null, max: null }, 'V')).toBe('any battery voltage');
  });
});
