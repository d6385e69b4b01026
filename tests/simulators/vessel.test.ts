import { describe, expect, test } from 'vitest';
import { chanceFrom, nearlyNormal, nextChance, uniform } from '../../simulators/chance.ts';
import { BENCH_CYLINDER, hurriedReadingMl, vesselView } from '../../simulators/vessel.ts';

describe('the drawn vessel', () => {
  test('is a cylinder of 500 mL in divisions of 5 mL, a pattern of ASTM E1272 (check-values.md F)', () => {
    expect(BENCH_CYLINDER).toMatchObject({ capacityMl: 500, graduationMl: 5 });
  });

  test.each([
    [0, 0],
    [1.2, 0],
    [1.3, 2.5],
    [311.1, 310],
    [311.3, 312.5],
    [313.8, 315],
    [499.9, 500],
  ])('%d mL is read as %d mL: to half a division', (volumeMl, readingMl) => {
    expect(vesselView(volumeMl)).toMatchObject({ levelMl: volumeMl, readingMl });
  });

  test('full to the rim it gives no reading, since more may have run over', () => {
    expect(vesselView(500)).toMatchObject({ levelMl: 500, readingMl: null });
    expect(vesselView(900)).toMatchObject({ levelMl: 500, readingMl: null });
    expect(hurriedReadingMl(vesselView(900), chanceFrom(1))).toBeNull();
  });

  test('a hurried eye is off by up to a division and the meniscus, the same for the same chance, and not always', () => {
    let chance = chanceFrom(7);
    const readings: number[] = [];
    for (let person = 0; person < 400; person += 1) {
      readings.push(hurriedReadingMl(vesselView(251), chance)!);
      expect(hurriedReadingMl(vesselView(251), chance)).toBe(readings.at(-1));
      chance = nextChance(nextChance(chance));
    }
    expect(Math.min(...readings)).toBeGreaterThanOrEqual(251 - 5);
    expect(Math.max(...readings)).toBeLessThanOrEqual(251 + 5 + BENCH_CYLINDER.meniscusMl);
    expect(new Set(readings).size).toBeGreaterThan(2);
    expect(readings.every((reading) => reading % 2.5 === 0)).toBe(true);
  });
});

describe('chance', () => {
  test('is the same for the same seed and other for another', () => {
    const draw = (seed: number) => [1, 2, 3, 4].map((n) => uniform(chanceFrom(seed + 1000 * n)));
    expect(draw(1)).toEqual(draw(1));
    expect(draw(1)).not.toEqual(draw(2));
  });

  test('is uniform: mean 1/2 and variance 1/12 over many draws', () => {
    let chance = chanceFrom(3);
    const draws: number[] = [];
    for (let n = 0; n < 20_000; n += 1) {
      chance = nextChance(chance);
      draws.push(uniform(chance));
    }
    const mean = draws.reduce((a, b) => a + b) / draws.length;
    const variance = draws.reduce((a, b) => a + (b - mean) ** 2, 0) / draws.length;
    expect(mean).toBeCloseTo(0.5, 2);
    expect(variance).toBeCloseTo(1 / 12, 2);
    expect(Math.min(...draws)).toBeGreaterThanOrEqual(0);
    expect(Math.max(...draws)).toBeLessThan(1);
  });

  test('nearly normal numbers have mean 0 and variance 1', () => {
    let chance = chanceFrom(5);
    let sum = 0;
    let squares = 0;
    for (let n = 0; n < 20_000; n += 1) {
      const drawn = nearlyNormal(chance);
      chance = drawn.chance;
      sum += drawn.value;
      squares += drawn.value ** 2;
    }
    expect(Math.abs(sum / 20_000)).toBeLessThan(0.03);
    expect(squares / 20_000).toBeCloseTo(1, 1);
  });
});
