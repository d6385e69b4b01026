import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { enlargedStretch, heldMl, meniscusPath, vesselMarks } from '../../src/ui/vessel-marks.ts';

const VESSELS = [
  [500, 5],
  [1000, 10],
  [250, 2],
  [100, 1],
  [50, 0.5],
  [600, 50],
  [2000, 20],
  [10, 5],
] as const;

describe('the marks of a vessel', () => {
  test('a 500 mL cylinder in 5 mL has 101 marks, a number every 50 mL and a longer mark every 25 mL', () => {
    const marks = vesselMarks(500, 5);
    const ofRank = (rank: string) => marks.filter((mark) => mark.rank === rank).map((mark) => mark.ml);
    expect(marks).toHaveLength(101);
    expect(ofRank('major')).toEqual([0, 50, 100, 150, 200, 250, 300, 350, 400, 450, 500]);
    expect(ofRank('mid')).toEqual([25, 75, 125, 175, 225, 275, 325, 375, 425, 475]);
  });

  test('fractions of a millilitre stay exact', () => {
    expect(vesselMarks(1, 0.1).map((mark) => mark.ml)).toEqual([
      0, 0.1, 0.2, 0.3, 0.4, 0.5, 0.6, 0.7, 0.8, 0.9, 1,
    ]);
  });

  test('a vessel without capacity or graduation has none', () => {
    expect([vesselMarks(0, 5), vesselMarks(500, 0), vesselMarks(NaN, 5), vesselMarks(500, -1)]).toEqual([
      [],
      [],
      [],
      [],
    ]);
  });
});

describe('the enlarged stretch', () => {
  test.each(VESSELS)(
    'of a %d mL vessel in %d mL always holds the level and at least one number',
    (capacity, graduation) => {
      const numbers = vesselMarks(capacity, graduation).filter((mark) => mark.rank === 'major');
      fc.assert(
        fc.property(fc.double({ min: 0, max: capacity, noNaN: true }), (level) => {
          const { fromMl, toMl } = enlargedStretch(level, capacity, graduation);
          expect(level).toBeGreaterThanOrEqual(fromMl);
          expect(level).toBeLessThanOrEqual(toMl);
          expect(numbers.some(({ ml }) => ml >= fromMl && ml <= toMl)).toBe(true);
        }),
      );
    },
  );

  test.each(VESSELS)(
    'of a %d mL vessel in %d mL gives half a division at least 12 px on a 390 px screen',
    (capacity, graduation) => {
      const { fromMl, toMl } = enlargedStretch(capacity / 2, capacity, graduation);
      // The lens is 440 of 340 drawing units across; a 390 px screen leaves 358 px.
      const pxPerMl = (440 * (358 / 340)) / (toMl - fromMl);
      expect((pxPerMl * graduation) / 2).toBeGreaterThanOrEqual(12);
    },
  );
});

describe('the meniscus', () => {
  test('is lowest at the level in the middle and climbs both walls', () => {
    const numbers =
      meniscusPath({ left: 0, right: 100, levelY: 200, climb: 20 })
        .match(/-?\d+(\.\d+)?/g)
        ?.map(Number) ?? [];
    const ys = numbers.filter((_, index) => index % 2 === 1);
    expect(ys[0]).toBe(180);
    expect(ys.at(-1)).toBe(180);
    expect(Math.max(...ys)).toBe(200);
    expect(numbers.slice(6, 8)).toEqual([50, 200]);
  });
});

describe('what a vessel holds', () => {
  test('is never below empty nor above full', () => {
    expect([heldMl(-5, 500), heldMl(250, 500), heldMl(900, 500), heldMl(NaN, 500)]).toEqual([0, 250, 500, 0]);
  });
});
