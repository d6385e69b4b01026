import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { CheckFinding } from '../../src/procedures/finding.ts';
import { LOW_RAIL_PRESSURE as procedure } from '../../src/procedures/library.ts';
import { checkOrder, checkState, standsFirm } from '../../src/procedures/order.ts';
import { whatNext } from '../../src/procedures/what-next.ts';
import { finding } from './findings.ts';

const WORDS: readonly CheckFinding['word'][] = [
  null,
  'pass',
  'marginal',
  'fail low',
  'fail high',
  'too close to call',
  'not valid',
  'disagree',
];

const anyFindings = fc.tuple(
  ...procedure.checks.map(({ id }) =>
    fc
      .record({
        word: fc.constantFrom(...WORDS),
        runs: fc.integer({ min: 0, max: 3 }),
        skipped: fc.option(fc.constant('no gauge here')),
        repeatBecause: fc.option(fc.constant('the filter was replaced')),
      })
      .map(({ word, ...change }) => finding(id, word, change)),
  ),
);

describe('the order of checks', () => {
  test('at the beginning only what needs nothing may start', () => {
    const free = checkOrder(procedure, []).filter(({ waitsFor }) => waitsFor.length === 0);
    expect(free.map(({ checkId }) => checkId)).toEqual(['fuel-quality', 'batteries', 'rail-at-rest']);
  });

  test('a check asks for those before it until they are done or left out', () => {
    const waits = (some: readonly CheckFinding[]) =>
      checkOrder(procedure, some).find(({ checkId }) => checkId === 'crank-delivery')!.waitsFor;
    expect(waits([])).toEqual(['supply-cranking', 'pump-return']);
    expect(waits([finding('pump-return', 'pass')])).toEqual(['supply-cranking']);
    const left = finding('supply-cranking', null, { skipped: 'no gauge here' });
    expect(waits([finding('pump-return', 'pass'), left])).toEqual([]);
  });

  test.each([
    ['no run', null, {}, 'open'],
    ['no run, left out', null, { skipped: 'no gauge' }, 'left out'],
    ['a pass', 'pass', {}, 'done'],
    ['one run of two', 'pass', { runs: 1, runsNeeded: 2 }, 'repeat'],
    ['too close', 'too close to call', {}, 'repeat'],
    ['not valid', 'not valid', {}, 'repeat'],
    ['runs that disagree', 'disagree', {}, 'repeat'],
    ['work since', 'fail low', { repeatBecause: 'the pump was replaced' }, 'repeat'],
    ['a fail', 'fail low', {}, 'done'],
    ['tried without result, then left out', 'not valid', { skipped: 'no gauge' }, 'left out'],
    ['a verdict that stands, though left out earlier', 'pass', { skipped: 'no gauge' }, 'done'],
    ['work since, then left out', 'pass', { repeatBecause: 'new filter', skipped: 'no road' }, 'left out'],
  ] as const)('%s makes it %s %s → %s', (_name, word, change, state) => {
    expect(checkState(finding('supply-idle', word, change))).toBe(state);
  });

  test('a need that is not settled is still asked for', () => {
    const waits = (...some: readonly CheckFinding[]) =>
      checkOrder(procedure, some).find(({ checkId }) => checkId === 'filters')!.waitsFor;
    expect(waits(finding('fuel-quality', 'not valid'))).toEqual(['fuel-quality']);
    expect(waits(finding('fuel-quality', 'pass', { repeatBecause: 'the tank was drained' }))).toEqual([
      'fuel-quality',
    ]);
    expect(waits(finding('fuel-quality', 'fail low'))).toEqual([]);
    expect(waits(finding('fuel-quality', 'not valid', { skipped: 'sealed tank' }))).toEqual([]);
  });

  test('a need that the procedure does not have, and findings of unknown checks, do not stand in the way', () => {
    const [first, ...rest] = procedure.checks;
    const odd = { ...procedure, checks: [{ ...first!, needs: ['gone'] }, ...rest] };
    expect(checkOrder(odd, [finding('nobody', 'fail low')])[0]).toEqual({
      checkId: 'fuel-quality',
      state: 'open',
      waitsFor: [],
    });
  });

  test('a check waits for a need exactly while it is neither decided nor left out', () => {
    fc.assert(
      fc.property(anyFindings, (some) => {
        const decided = ({ word, runs, runsNeeded, repeatBecause }: CheckFinding) =>
          ['pass', 'marginal', 'fail low', 'fail high'].includes(word ?? '') &&
          runs >= runsNeeded &&
          repeatBecause === null;
        const free = (id: string) =>
          some.some((each) => each.checkId === id && (decided(each) || each.skipped !== null));
        for (const { checkId, waitsFor } of checkOrder(procedure, some)) {
          const { needs } = procedure.checks.find(({ id }) => id === checkId)!;
          expect(waitsFor).toEqual(needs.filter((need) => !free(need)));
        }
      }),
      { numRuns: 300 },
    );
  });

  test('never offers a check whose needs are open, whatever was found', () => {
    fc.assert(
      fc.property(anyFindings, (some) => {
        const { checkId, step } = whatNext(procedure, some);
        if (step !== 'do check') return;
        const place = checkOrder(procedure, some).find((each) => each.checkId === checkId)!;
        expect(place.state).toBe('open');
        expect(place.waitsFor).toEqual([]);
      }),
      { numRuns: 500 },
    );
  });

  test('what stands firm is never asked to be repeated', () => {
    fc.assert(
      fc.property(anyFindings, (some) => {
        const { checkId, step } = whatNext(procedure, some);
        if (step !== 'repeat check') return;
        expect(standsFirm(some.find((each) => each.checkId === checkId)!)).toBe(false);
      }),
      { numRuns: 500 },
    );
  });
});
