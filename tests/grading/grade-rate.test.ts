import { describe, expect, it } from 'vitest';
import { inspect } from '../../src/checks/inspection.ts';
import type { CollectedVolume } from '../../src/checks/measurement.ts';
import { VESSELS } from '../../src/checks/vessels.ts';
import { collectedArithmetic } from '../../src/grading/arithmetic.ts';
import { inspectionArithmetic } from '../../src/grading/arithmetic-inspection.ts';
import { gradeInspection } from '../../src/grading/grade-inspection.ts';
import { collectedRate, gradeCollectedRate } from '../../src/grading/grade-rate.ts';
import { GRADING_REVISION } from '../../src/grading/verdict.ts';
import type { Window } from '../../src/limits/limit-sheet.ts';
import { problem } from '../../src/problems/problem.ts';
import { codesOf } from '../checks/example-signals.ts';

const vessel = VESSELS[2]!;
const collected = (change: Partial<CollectedVolume> = {}): CollectedVolume => ({
  volume: { valueMl: 90, standardUncertaintyMl: 1.2, vessel },
  seconds: 45,
  secondsUncertainty: 0.25,
  targetSeconds: null,
  volumeAtTargetMl: null,
  reasons: [],
  warnings: [],
  ...change,
});
const window = (max: number, quantity: Window['quantity'] = 'rate'): Window => ({
  kind: 'window',
  check: 'example',
  title: 'Leak',
  quantity,
  min: null,
  max,
  durationSeconds: null,
  conditions: [],
});

describe('a collected volume as a flow', () => {
  /*
   * Worked by hand: 90 mL in 45 s are 120 mL/min. u: 60/45 · 1.2 = 1.6 from the volume; 120/45 · 0.25 = 0.6667 from the time; together 1.7333.
   */
  it('is 60 s over the time as often, with its uncertainty (GUM 5.1.2)', () => {
    const rate = collectedRate(collected());
    if (!rate.ok) throw new Error(rate.problem.code);
    expect(rate.value).toMatchObject({ quantity: 'rate', value: 120 });
    expect(rate.value.budget.combined).toBeCloseTo(1.7333, 4);
  });

  // 120 + 1.645 · 1.7333 = 122.85: from there on 95 % are below the limit.
  it.each([
    [130, 'pass'],
    [123, 'pass'],
    [122, 'too close to call'],
    [118, 'too close to call'],
    [110, 'fail high'],
  ])('against at most %i mL/min is: %s', (max, word) => {
    expect(gradeCollectedRate(collected(), window(max)).word).toBe(word);
  });

  it('does not ask for a time of its own: another time is scaled as the flow is', () => {
    const longer = collected({ volume: { valueMl: 180, standardUncertaintyMl: 1.2, vessel }, seconds: 90 });
    expect(gradeCollectedRate(longer, window(130)).nearest?.distance).toBeCloseTo(-10, 9);
  });

  it('without volume or time says which is missing', () => {
    expect(codesOf(gradeCollectedRate(collected({ volume: null }), window(130)).reasons)).toEqual([
      'check.no-volume',
    ]);
    expect(codesOf(gradeCollectedRate(collected({ seconds: null }), window(130)).reasons)).toEqual([
      'check.no-time',
    ]);
  });

  it('is not valid for the reasons of the collection', () => {
    const reasons = [problem('check.clock-too-long', { minutes: 45 })];
    expect(gradeCollectedRate(collected({ reasons }), window(130))).toMatchObject({
      word: 'not valid',
      reasons,
    });
  });

  it('shows the flow in its arithmetic, in mL/min', () => {
    const verdict = gradeCollectedRate(collected(), window(130));
    const flow = collectedArithmetic(collected(), window(130), verdict).find(({ label }) => label === 'Flow');
    expect(flow?.result).toEqual({ name: 'flow', value: 120, unit: 'mL/min' });
  });

  it('read on a beaker is warned of', () => {
    const beaker = VESSELS.find(({ measures }) => !measures)!;
    const volume = { valueMl: 90, standardUncertaintyMl: 3, vessel: beaker };
    expect(codesOf(gradeCollectedRate(collected({ volume }), window(200)).warnings)).toEqual([
      'check.beaker',
    ]);
  });
});

describe('the verdict on an inspection', () => {
  const points = [
    { id: 'water', ask: 'Is it dry?', look: 'Look.', whenNot: 'fail low' as const, cause: 'water' },
    { id: 'age', ask: 'Is it new?', look: 'Look.', whenNot: 'marginal' as const, cause: null },
  ];
  const see = (water: 'in order' | 'not in order', age: 'in order' | 'not in order' | 'not looked at') =>
    inspect(
      { kind: 'inspection', points },
      new Map([
        ['water', { seen: water, note: '', photoIds: [] }],
        ['age', { seen: age, note: '', photoIds: [] }],
      ]),
    );

  it.each([
    ['in order', 'in order', 'pass'],
    ['in order', 'not in order', 'marginal'],
    ['not in order', 'in order', 'fail low'],
    ['not in order', 'not in order', 'fail low'],
    ['in order', 'not looked at', 'not valid'],
    ['not in order', 'not looked at', 'not valid'],
  ] as const)('of water %s and age %s is: %s', (water, age, word) => {
    const verdict = gradeInspection(see(water, age));
    expect(verdict).toMatchObject({ word, confidence: null, probabilities: null, nearest: null });
    expect(verdict.leaning).toBe(word === 'not valid' ? null : word);
    expect(verdict.gradingRevision).toBe(GRADING_REVISION);
  });

  it('shows each point and the rule', () => {
    const inspection = see('not in order', 'in order');
    const steps = inspectionArithmetic(inspection, gradeInspection(inspection));
    expect(steps.map(({ label }) => label)).toEqual(['Is it dry?', 'Is it new?', 'Verdict']);
    expect(steps.map(({ result }) => 'text' in result && result.text)).toEqual([
      'not in order',
      'in order',
      'fail low',
    ]);
  });
});
