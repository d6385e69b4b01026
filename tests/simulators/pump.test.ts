import { describe, expect, test } from 'vitest';
import { SOUND_ENGINE } from '../../simulators/engine/engine-parameters.ts';
import { pressedRad, pumpVolumes, pushedStrokes, type PumpInputs } from '../../simulators/engine/pump.ts';

const inputs = (more: Partial<PumpInputs>): PumpInputs => ({
  fromRad: 0,
  toRad: 0.04,
  galleryPa: 200_000,
  air: 0,
  opening: 1,
  railPa: 4e7,
  viscosityPaS: 0.003,
  dtSeconds: 0.002,
  ...more,
});
/** A turn in so many steps. */
const turn = (steps: number, more: Partial<PumpInputs> = {}) => {
  let drawn = 0;
  let leaked = 0;
  for (let step = 0; step < steps; step += 1) {
    const fromRad = (2 * Math.PI * step) / steps;
    const toRad = (2 * Math.PI * (step + 1)) / steps;
    const found = pumpVolumes(SOUND_ENGINE, inputs({ fromRad, toRad, dtSeconds: 0.3 / steps, ...more }));
    drawn += found.drawnM3;
    leaked += found.gapLeakM3;
  }
  return { drawn, leaked };
};

describe('the stroke of an element', () => {
  // lift (1 - cos) / 2 over half a turn of the cam: by hand
  test.each([
    [Math.PI / 3, 1, 0.25],
    [Math.PI / 2, 1, 0.5],
    [Math.PI, 1, 1],
    [1.9 * Math.PI, 1, 1],
    [2.5 * Math.PI, 1, 1.5],
    [Math.PI / 2, 0.4, 0],
    [(2 * Math.PI) / 3, 0.4, 0.15],
    [Math.PI, 0.4, 0.4],
    [4 * Math.PI, 0.4, 0.8],
  ])('at cam angle %d filled to %d it has pushed %d strokes', (camRad, fill, strokes) => {
    expect(pushedStrokes(camRad, fill)).toBeCloseTo(strokes, 12);
  });

  test('it is under pressure from where it begins to deliver to the top', () => {
    expect(pressedRad(1, 2)).toBe(0);
    expect(pressedRad(3, 2)).toBeCloseTo(1, 12);
    expect(pressedRad(6, 2)).toBeCloseTo(Math.PI - 2, 12);
    expect(pressedRad(2 * Math.PI + 3, 2)).toBeCloseTo(Math.PI - 2 + 1, 12);
  });
});

describe('the two elements', () => {
  test('give the same in a turn, in however many steps it is cut', () => {
    const coarse = turn(6);
    for (const steps of [60, 3000]) {
      expect(turn(steps).drawn / coarse.drawn).toBeCloseTo(1, 9);
      expect(turn(steps).leaked / coarse.leaked).toBeCloseTo(1, 2); // the least of leak and push is taken step by step
    }
  });

  test('deliver in turns: each half turn of the cam has its element', () => {
    const half = Math.PI / SOUND_ENGINE.pump.strokesPerTurn;
    const first = pumpVolumes(SOUND_ENGINE, inputs({ toRad: half, dtSeconds: 0.05 }));
    const second = pumpVolumes(SOUND_ENGINE, inputs({ fromRad: half, toRad: 2 * half, dtSeconds: 0.05 }));
    expect(second.drawnM3 / first.drawnM3).toBeCloseTo(1, 9);
    const lame = { ...SOUND_ENGINE, pump: { ...SOUND_ENGINE.pump, elements: [1, 0] as const } };
    expect(pumpVolumes(lame, inputs({ fromRad: half, toRad: 2 * half, dtSeconds: 0.05 })).drawnM3).toBe(0);
  });

  test.each([
    ['standing', { toRad: 0 }],
    ['turned backwards', { fromRad: 0.1, toRad: 0 }],
    ['with the metering valve shut', { opening: 0 }],
    ['without supply pressure', { galleryPa: 0 }],
    ['with nothing but air', { air: 1 }],
  ])('give nothing %s', (_name, more) => {
    expect(pumpVolumes(SOUND_ENGINE, inputs(more))).toEqual({ drawnM3: 0, deliveredM3: 0, gapLeakM3: 0 });
  });
});
