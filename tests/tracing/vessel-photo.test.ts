import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { applyMap, type Homography } from '../../src/tracing/homography.ts';
import type { Pixel } from '../../src/tracing/pixel.ts';
import { readVesselPhoto, type VesselMark } from '../../src/tracing/vessel-photo.ts';
import { askew, draws, normal } from './draw-chart.ts';

/** A vessel drawn upright by the test: 0 mL at the bottom, 500 mL at the top, graduated every 5 mL. */
const GRADUATION_ML = 5;
const placeOf = (volumeMl: number): Pixel => ({ x: 400, y: 1100 - (1000 * volumeMl) / 500 });

const read = (marks: readonly VesselMark[], liquid: Pixel) => {
  const result = readVesselPhoto(marks, liquid);
  if (!result.ok) throw new Error(result.problem.code);
  return result.value;
};
const code = (marks: readonly VesselMark[], liquid: Pixel) => {
  const result = readVesselPhoto(marks, liquid);
  return result.ok ? 'ok' : result.problem.code;
};

const photo =
  (map: Homography | null, draw: () => number, clickPx = 1) =>
  (volumeMl: number): Pixel => {
    const at = map ? applyMap(map, placeOf(volumeMl)) : placeOf(volumeMl);
    return { x: at.x + clickPx * normal(draw), y: at.y + clickPx * normal(draw) };
  };

describe('a vessel on a photograph', () => {
  test.each([
    ['from the front, two marks', null, [0, 500]],
    ['from the front, three marks', null, [0, 250, 500]],
    ['askew, three marks', askew(800, 1200, 0.15), [100, 300, 500]],
    ['askew, five marks', askew(800, 1200, 0.15), [0, 100, 200, 350, 500]],
    ['far askew, five marks', askew(800, 1200, 0.2), [0, 100, 200, 350, 500]],
  ] as const)('%s is read within half a graduation, a hundred times over', (_, map, volumes) => {
    const draw = draws(volumes.length);
    const at = photo(map, draw);
    for (let turn = 0; turn < 100; turn++) {
      const truth = volumes[0] + (0.05 + 0.9 * draw()) * (volumes.at(-1)! - volumes[0]);
      const marks = volumes.map((volumeMl) => ({ at: at(volumeMl), volumeMl }));
      expect(Math.abs(read(marks, at(truth)).volumeMl - truth)).toBeLessThan(GRADUATION_ML / 2);
    }
  });

  test('without click errors is exact, however the camera was held', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0, max: 0.35, noNaN: true }),
        fc.double({ min: 20, max: 480, noNaN: true }),
        (amount, truth) => {
          const at = photo(askew(800, 1200, amount), () => 0.5, 0);
          const marks = [0, 180, 400, 500].map((volumeMl) => ({ at: at(volumeMl), volumeMl }));
          expect(read(marks, at(truth)).volumeMl).toBeCloseTo(truth, 5);
        },
      ),
    );
  });

  test('an even scale taken from two marks of an askew photograph would be wrong: three are worth it', () => {
    const at = photo(askew(800, 1200, 0.3), () => 0.5, 0);
    const two = [0, 500].map((volumeMl) => ({ at: at(volumeMl), volumeMl }));
    expect(Math.abs(read(two, at(250)).volumeMl - 250)).toBeGreaterThan(GRADUATION_ML);
  });

  test.each([
    ['two marks', [0, 500]],
    ['three marks', [0, 250, 500]],
    ['five marks', [0, 100, 250, 400, 500]],
  ] as const)('the stated uncertainty covers what repeated clicking scatters: %s', (_, volumes) => {
    const draw = draws(77);
    const at = photo(null, draw, 1);
    const truth = 310;
    const offs: number[] = [];
    let stated = 0;
    for (let turn = 0; turn < 3000; turn++) {
      const reading = read(
        volumes.map((volumeMl) => ({ at: at(volumeMl), volumeMl })),
        at(truth),
      );
      offs.push(reading.volumeMl - truth);
      stated += reading.uMl / 3000;
    }
    const scatter = Math.sqrt(offs.reduce((sum, off) => sum + off * off, 0) / offs.length);
    // Monte Carlo against first order; five marks state more, since a chance misfit only ever widens them.
    expect(stated / scatter).toBeGreaterThan(0.93);
    expect(stated / scatter).toBeLessThan(1.25);
  });

  test('a mark on the wrong graduation shows in the residual and in the uncertainty', () => {
    const at = photo(null, () => 0.5, 0);
    const marks = [0, 100, 200, 300, 400, 500].map((volumeMl) => ({ at: at(volumeMl), volumeMl }));
    const wrong = marks.map((mark) => (mark.volumeMl === 200 ? { ...mark, at: at(220) } : mark));
    expect(read(marks, at(250)).residualPx).toBeLessThan(1e-6);
    expect(read(wrong, at(250)).residualPx).toBeGreaterThan(10);
    expect(read(wrong, at(250)).uMl).toBeGreaterThan(5 * read(marks, at(250)).uMl);
  });

  test('a vessel lying on its side is read all the same', () => {
    const marks = [0, 200, 400].map((volumeMl) => ({ at: { x: 100 + volumeMl, y: 300 }, volumeMl }));
    expect(read(marks, { x: 350, y: 280 }).volumeMl).toBeCloseTo(250, 9);
  });

  test('a vessel held obliquely is read along itself, not along the picture', () => {
    const marks = [0, 200, 400].map((volumeMl) => ({
      at: { x: 100 + volumeMl, y: 900 - volumeMl },
      volumeMl,
    }));
    // Square to the vessel the place does not matter.
    expect(read(marks, { x: 100 + 250 + 30, y: 900 - 250 + 30 }).volumeMl).toBeCloseTo(250, 6);
  });
});

describe('nothing is read', () => {
  const marks = [
    { at: placeOf(100), volumeMl: 100 },
    { at: placeOf(400), volumeMl: 400 },
  ];
  test('outside the marks', () => {
    expect(code(marks, placeOf(95))).toBe('tracing.outside-the-marks');
    expect(code(marks, placeOf(405))).toBe('tracing.outside-the-marks');
    expect(code(marks, placeOf(100))).toBe('ok');
  });
  test('from one mark, or from marks too near each other', () => {
    expect(code(marks.slice(1), placeOf(200))).toBe('tracing.too-few-marks');
    expect(
      code(
        [
          { at: placeOf(100), volumeMl: 100 },
          { at: placeOf(110), volumeMl: 110 },
        ],
        placeOf(105),
      ),
    ).toBe('tracing.marks-together');
  });
  test('from marks that carry one number, or that do not rise', () => {
    expect(
      code(
        marks.map(({ at }) => ({ at, volumeMl: 100 })),
        placeOf(200),
      ),
    ).toBe('tracing.marks-same-value');
    const mixed = [...marks, { at: placeOf(250), volumeMl: 450 }];
    expect(code(mixed, placeOf(200))).toBe('tracing.marks-out-of-order');
  });
});
