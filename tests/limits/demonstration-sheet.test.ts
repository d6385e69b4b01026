import { describe, expect, it } from 'vitest';
import { boundaryAt } from '../../src/limits/boundary-curve.ts';
import { DEMONSTRATION_SHEET } from '../../src/limits/demonstration-sheet.ts';
import { sheetMistakes } from '../../src/limits/sheet-mistakes.ts';

const [chart] = DEMONSTRATION_SHEET.limits;

describe('the demonstration sheet', () => {
  it('says everywhere that its numbers are invented', () => {
    expect(DEMONSTRATION_SHEET.invented).toBe(true);
    expect(DEMONSTRATION_SHEET.title).toContain('invented');
    expect(DEMONSTRATION_SHEET.readFrom).toContain('Not for any real engine');
    expect(DEMONSTRATION_SHEET.confirmedOn).toBeNull();
  });

  it('contradicts itself nowhere', () => {
    expect(sheetMistakes(DEMONSTRATION_SHEET)).toEqual([]);
  });

  it('asks for two cranks of 15 s and passes a quarter above where it fails, at every speed', () => {
    if (chart?.kind !== 'speed chart') throw new Error('the chart comes first');
    expect([chart.cranks, chart.crankSeconds]).toEqual([2, 15]);
    for (let speed = 100; speed <= 260; speed += 5) {
      const fail = boundaryAt(chart.failBelow, chart.join, speed)?.volumeMl ?? NaN;
      const pass = boundaryAt(chart.passAbove, chart.join, speed)?.volumeMl ?? NaN;
      expect(pass / fail).toBeGreaterThan(1.24);
      expect(pass / fail).toBeLessThan(1.26);
    }
  });
});
