import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { vesselSpotId, vesselSpotOf } from '../../src/ui/vessel-photo-scene.ts';
import {
  beginVessel,
  stepVessel,
  vesselReading,
  type VesselAction,
  type VesselSpot,
} from '../../src/ui/vessel-photo-state.ts';

const place = fc.record({ x: fc.integer({ min: 0, max: 600 }), y: fc.integer({ min: 0, max: 900 }) });
const spot: fc.Arbitrary<VesselSpot> = fc.oneof(
  fc.integer({ min: 0, max: 5 }),
  fc.constant('liquid' as const),
);
const action = fc.oneof(
  fc.record({ type: fc.constant('aim' as const), aim: fc.constantFrom('graduation', 'liquid') }),
  fc.record({ type: fc.constant('set' as const), at: place }),
  fc.record({
    type: fc.constant('type' as const),
    index: fc.integer({ min: 0, max: 5 }),
    text: fc.oneof(fc.integer({ min: 0, max: 500 }).map(String), fc.string({ maxLength: 3 })),
  }),
  fc.record({ type: fc.constant('select' as const), spot: fc.option(spot) }),
  fc.record({ type: fc.constant('move' as const), spot, at: place, gesture: fc.constantFrom(null, 'a') }),
  fc.record({ type: fc.constant('remove' as const), spot }),
) as fc.Arbitrary<VesselAction>;
const actions = fc.array(action, { maxLength: 30 });
const run = (...list: VesselAction[]) => list.reduce(stepVessel, beginVessel());
const set = (y: number): VesselAction => ({ type: 'set', at: { x: 0, y } });
const type = (index: number, text: string): VesselAction => ({ type: 'type', index, text });

describe('the marks on the photograph of a vessel', () => {
  test('undone to the beginning nothing is left, and redone all is there again', () => {
    fc.assert(
      fc.property(actions, (list) => {
        const after = run(...list);
        const undo = list.map((): VesselAction => ({ type: 'undo' }));
        const back = undo.reduce(stepVessel, after);
        expect(back.history.now).toMatchObject({ marks: [], liquid: null });
        const again = list.map((): VesselAction => ({ type: 'redo' })).reduce(stepVessel, back);
        const { marks, liquid } = after.history.now;
        expect(again.history.now).toMatchObject({ marks, liquid });
      }),
    );
  });

  test('what is held is there, and the volume lies between the numbers of the marks or is refused', () => {
    fc.assert(
      fc.property(actions, (list) => {
        const { history, selected } = run(...list);
        const { marks, liquid } = history.now;
        if (selected === 'liquid') expect(liquid).not.toBeNull();
        else if (selected !== null) expect(selected).toBeLessThan(marks.length);
        const reading = vesselReading(history.now);
        if (reading.ok) expect(Number.isFinite(reading.value.volumeMl + reading.value.uMl)).toBe(true);
      }),
    );
  });

  test('two marks and the line half way between give the mean of their numbers', () => {
    const { history } = run(
      set(700),
      type(0, '100'),
      set(100),
      type(1, '400,0'),
      { type: 'aim', aim: 'liquid' },
      set(400),
    );
    const reading = vesselReading(history.now);
    expect(reading.ok && reading.value.volumeMl).toBeCloseTo(250, 9);
  });

  test('a number below zero or none at all does not count, and the line is asked for', () => {
    const code = (...list: VesselAction[]) => {
      const reading = vesselReading(run(...list).history.now);
      return reading.ok ? 'ok' : reading.problem.code;
    };
    expect(code(set(700), type(0, '-5'), set(100), type(1, '400'))).toBe('tracing.too-few-marks');
    expect(code(set(700), type(0, '0'), set(100), type(1, '400'))).toBe('tracing.no-liquid-line');
  });
});

test('the name of a spot leads back to it; other names lead nowhere', () => {
  for (const each of [0, 12, 'liquid'] as const) expect(vesselSpotOf(vesselSpotId(each))).toBe(each);
  for (const id of [null, 'vessel:', 'mark:x:0', 'vessel:-1']) expect(vesselSpotOf(id)).toBeNull();
});
