import { describe, expect, test } from 'vitest';
import { CheckGuide } from '../../src/procedures/check-guide.ts';
import { CRANK_DELIVERY_GUIDE } from '../../src/procedures/guides.ts';

const text = (ids: readonly string[]) =>
  CRANK_DELIVERY_GUIDE.cautions
    .filter((caution) => ids.includes(caution.id))
    .map((caution) => caution.text)
    .join(' ');

describe('the crank delivery guide', () => {
  test('names every danger that must be said before the check can run', () => {
    expect(text(['injection'])).toMatch(/skin/);
    expect(text(['injection'])).toMatch(/hospital at once/);
    expect(text(['fire'])).toMatch(/burns and scalds/);
    expect(text(['start'])).toMatch(/can start/);
    expect(text(['rotating'])).toMatch(/turn/);
    expect(text(['starter'])).toMatch(/overheat/);
  });

  test('defers to the engine maker, local rules and qualified people', () => {
    expect(CRANK_DELIVERY_GUIDE.defersTo).toMatch(/maker's current procedure.*local rules.*qualified people/);
  });

  test('keeps single cranks and rests inside the published starter rules', () => {
    // 40 CFR 1065.520: stop after 15 s of cranking and find out why; TM 5-3805-255-14: 30 s or less at a time.
    // Operator manuals, common practice: 30 s at most, then 2 min of cooling. See check-values.md E.
    expect(CRANK_DELIVERY_GUIDE.target.longestCrankSeconds).toBeLessThanOrEqual(30);
    expect(CRANK_DELIVERY_GUIDE.target.leastRestSeconds).toBeGreaterThanOrEqual(120);
  });

  test('has advice for every word a verdict can be, each with something to do', () => {
    for (const advice of Object.values(CRANK_DELIVERY_GUIDE.advice)) {
      expect(advice.headline.length).toBeGreaterThan(10);
      expect(advice.next.length).toBeGreaterThan(0);
    }
  });

  test('asks for the low-pressure side before parts of the pump when delivery is low', () => {
    const steps = CRANK_DELIVERY_GUIDE.advice['fail low'].next;
    const supply = steps.findIndex((step) => /supply side/.test(step));
    const pump = steps.findIndex((step) => /pumping elements/.test(step));
    expect(supply).toBeGreaterThanOrEqual(0);
    expect(pump).toBeGreaterThan(supply);
  });

  test('a guide without cautions is refused', () => {
    expect(CheckGuide.safeParse({ ...CRANK_DELIVERY_GUIDE, cautions: [] }).success).toBe(false);
  });
});
