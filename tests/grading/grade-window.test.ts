import { describe, expect, it } from 'vitest';
import { gradeCollectedVolume, gradeWindow, placeInWindow } from '../../src/grading/grade-window.ts';
import { combine } from '../../src/grading/uncertainty.ts';
import { problem } from '../../src/problems/problem.ts';
import { collectedOf, RETURN_WINDOW, volumeOf } from './example-delivery.ts';

const codes = (problems: readonly { readonly code: string }[]) => problems.map(({ code }) => code);
const NOTHING = { reasons: [], warnings: [] };

describe('a pump return window of 125 to 525 mL in 30 s (common practice, no source)', () => {
  it('makes 90 mL a fail low by 35 mL', () => {
    const verdict = gradeCollectedVolume(collectedOf(volumeOf(90)), RETURN_WINDOW);
    expect(verdict.word).toBe('fail low');
    expect(verdict.nearest).toEqual({ name: 'min', atValue: 125, distance: -35, distancePercent: -28 });
    expect(verdict.confidence).toBeGreaterThan(0.999);
  });

  it('makes 480 mL a pass, 45 mL under its upper end', () => {
    const verdict = gradeCollectedVolume(collectedOf(volumeOf(480)), RETURN_WINDOW);
    expect(verdict.word).toBe('pass');
    expect(verdict.nearest).toMatchObject({ name: 'max', distance: -45 });
  });

  it('makes 560 mL in a 1000 mL cylinder a fail high', () => {
    expect(gradeCollectedVolume(collectedOf(volumeOf(560, 3)), RETURN_WINDOW).word).toBe('fail high');
  });

  it.each([
    [125, 'pass'],
    [525, 'pass'],
    [124.9, 'fail low'],
    [525.1, 'fail high'],
  ])('%f mL leans to %s but is too close to call', (valueMl, leaning) => {
    const verdict = gradeCollectedVolume(collectedOf(volumeOf(valueMl, 3)), RETURN_WINDOW);
    expect(verdict.word).toBe('too close to call');
    expect(verdict.leaning).toBe(leaning);
  });

  it('takes a doubtful time into account: the same 120 mL fails by a clock and is too close by feel', () => {
    const byClock = gradeCollectedVolume(
      collectedOf(volumeOf(118), { secondsUncertainty: 0.1 }),
      RETURN_WINDOW,
    );
    const byFeel = gradeCollectedVolume(collectedOf(volumeOf(118), { secondsUncertainty: 2 }), RETURN_WINDOW);
    expect(byClock.word).toBe('fail low');
    expect(byFeel.word).toBe('too close to call');
    expect(byFeel.leaning).toBe('fail low');
  });

  it('grades the estimate where the time was overridden, and says so', () => {
    const collected = collectedOf(volumeOf(120), { seconds: 20, volumeAtTargetMl: 180 });
    const verdict = gradeCollectedVolume(collected, RETURN_WINDOW);
    expect(verdict.word).toBe('pass');
    expect(codes(verdict.warnings)).toEqual(['check.scaled-estimate']);
  });

  it('warns of a beaker, and has no verdict without a volume or with a reason against it', () => {
    expect(codes(gradeCollectedVolume(collectedOf(volumeOf(300, 4)), RETURN_WINDOW).warnings)).toEqual([
      'check.beaker',
    ]);
    expect(codes(gradeCollectedVolume(collectedOf(null), RETURN_WINDOW).reasons)).toEqual([
      'check.no-volume',
    ]);
    const reasons = [problem('check.no-time', { target: 30 })];
    const verdict = gradeCollectedVolume(collectedOf(volumeOf(300), { reasons }), RETURN_WINDOW);
    expect(verdict).toMatchObject({ word: 'not valid', reasons, confidence: null, leaning: null });
  });
});

describe('windows with one side', () => {
  const exact = combine([{ cause: 'value', contribution: 1 }]);
  const pressure = (value: number) => ({ quantity: 'pressure', value, budget: exact }) as const;
  const window = { ...RETURN_WINDOW, quantity: 'pressure' } as const;

  it('only a lower end: anything high passes', () => {
    const atLeast = { ...window, min: 500, max: null };
    expect(gradeWindow(pressure(5000), atLeast, NOTHING)).toMatchObject({
      word: 'pass',
      nearest: { name: 'min' },
    });
    expect(gradeWindow(pressure(490), atLeast, NOTHING).word).toBe('fail low');
  });

  it('only an upper end: anything low passes, also suction below zero', () => {
    const atMost = { ...window, min: null, max: 0 };
    const verdict = gradeWindow(pressure(-20), atMost, NOTHING);
    expect(verdict).toMatchObject({ word: 'pass', nearest: { name: 'max', distance: -20 } });
    expect(verdict.nearest?.distancePercent).toBeNaN(); // no per cent of zero
    expect(gradeWindow(pressure(20), atMost, NOTHING).word).toBe('fail high');
  });

  it('without uncertainty the ends themselves pass for certain', () => {
    const sharp = { quantity: 'pressure', budget: combine([]) } as const;
    const both = { ...window, min: 500, max: 600 };
    for (const value of [500, 600]) {
      expect(gradeWindow({ ...sharp, value }, both, NOTHING)).toMatchObject({ word: 'pass', confidence: 1 });
    }
    expect(gradeWindow({ ...sharp, value: 499.9 }, both, NOTHING)).toMatchObject({
      word: 'fail low',
      confidence: 1,
    });
  });

  it('a window of another quantity refuses the value', () => {
    const verdict = gradeWindow(pressure(300), RETURN_WINDOW, NOTHING);
    expect(codes(verdict.reasons)).toEqual(['check.other-quantity']);
  });

  it('a value that is no number has no verdict', () => {
    expect(codes(gradeWindow(pressure(NaN), window, NOTHING).reasons)).toEqual(['check.no-value']);
  });
});

describe('a window on a time or a flow', () => {
  it.each([
    ['time', 'ms'],
    ['rate', 'mL/min'],
    ['pressure', 'kPa'],
    ['volume', 'mL'],
  ] as const)('of a %s is placed in %s', (quantity, unit) => {
    const window = { ...RETURN_WINDOW, quantity };
    const placed = placeInWindow({ quantity, value: 200, budget: combine([]) }, window);
    expect(placed).toMatchObject({
      ok: true,
      value: { unit, boundaries: [{ atValue: 125 }, { atValue: 525 }] },
    });
  });
});
