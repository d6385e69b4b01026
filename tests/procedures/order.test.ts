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
    expect(free.map(({ checkId }) => checkId)).toEqual(['fuel-quality']);
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
  ] as const)('%s makes it %s %s → %s', (_name, word, change, state) => {
    expect(checkState(finding('supply-idle', word, change))).toBe(state);
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
