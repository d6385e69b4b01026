import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { CheckFinding } from '../../src/procedures/finding.ts';
import { LOW_RAIL_PRESSURE as procedure } from '../../src/procedures/library.ts';
import { whatNext } from '../../src/procedures/what-next.ts';
import { finding, findings } from './findings.ts';

const ORDER = procedure.checks.map(({ id }) => id);
/** All checks up to (not with) this one passed. */
const passedBefore = (id: string) => ORDER.slice(0, ORDER.indexOf(id)).map((each) => finding(each, 'pass'));
const next = (...some: readonly CheckFinding[]) => whatNext(procedure, some);

describe('what next', () => {
  test('begins at the tank, and says why', () => {
    expect(next()).toMatchObject({ step: 'do check', checkId: 'fuel-quality' });
    expect(next().sentence).toMatch(/from the low-pressure side to the high-pressure side/);
  });

  test('goes on in order while nothing fails', () => {
    for (const [place, id] of ORDER.entries()) {
      if (place === 0) continue;
      expect(next(...passedBefore(id))).toMatchObject({ step: 'do check', checkId: id });
    }
  });

  test('a result that does not stand firm is repeated before anything is believed', () => {
    const before = passedBefore('crank-delivery');
    const cases: readonly (readonly [CheckFinding, RegExp])[] = [
      [finding('crank-delivery', 'fail low', { runs: 1 }), /needs 2 runs that agree, and there is one/],
      [finding('crank-delivery', 'too close to call'), /too close to the line/],
      [finding('crank-delivery', 'not valid'), /could not be graded/],
      [finding('crank-delivery', 'disagree'), /do not agree/],
    ];
    for (const [each, why] of cases) {
      expect(next(...before, each)).toMatchObject({ step: 'repeat check', checkId: 'crank-delivery' });
      expect(next(...before, each).sentence).toMatch(why);
    }
  });

  test('work asks for the repeat, in its own words', () => {
    const stale = finding('supply-idle', 'fail low', { repeatBecause: 'the filter was replaced' });
    const step = next(...passedBefore('supply-idle'), stale);
    expect(step).toMatchObject({ step: 'repeat check', checkId: 'supply-idle' });
    expect(step.sentence).toContain('the filter was replaced');
  });

  test('low supply pressure leads back to the suction side while that is open, then to the repair, and not to the pump', () => {
    const skipped = finding('suction-restriction', null, { skipped: 'no gauge' });
    const before = passedBefore('supply-idle').filter(({ checkId }) => checkId !== 'suction-restriction');
    const low = finding('supply-idle', 'fail low');
    expect(next(...before, low)).toMatchObject({ step: 'do check', checkId: 'suction-restriction' });
    expect(next(...before, skipped, low)).toMatchObject({ step: 'repair', checkId: null });
    expect(next(...before, skipped, low).sentence).toMatch(/Supply pressure at idle/);
  });

  test('a high pump return leads to the crank delivery, which tells the causes apart', () => {
    const step = next(...passedBefore('pump-return'), finding('pump-return', 'fail high'));
    expect(step).toMatchObject({ step: 'do check', checkId: 'crank-delivery' });
    expect(step.sentence).toMatch(/failed.*comes next/);
  });

  test('a pump that returns too much and delivers too little is looked at', () => {
    const step = next(
      ...passedBefore('pump-return'),
      finding('pump-return', 'fail high'),
      finding('crank-delivery', 'fail low'),
    );
    expect(step.step).toBe('repair');
    expect(step.causes[0]).toMatchObject({ causeId: 'worn-elements' });
    expect(step.sentence).toMatch(/pumping elements/i);
  });

  test('all in order ends in the conclusion', () => {
    expect(next(...findings({}))).toMatchObject({ step: 'conclude', checkId: null });
  });

  test('what is left and waits for something never done is said, not offered', () => {
    const skippedAll = ORDER.map((id) => finding(id, null, { skipped: 'not here' }));
    expect(next(...skippedAll)).toMatchObject({ step: 'conclude' });
  });

  test('always says something in one sentence, whatever was found', () => {
    const word = fc.constantFrom<CheckFinding['word']>(
      'pass',
      'marginal',
      'fail low',
      'fail high',
      'not valid',
      null,
    );
    fc.assert(
      fc.property(fc.tuple(...ORDER.map((id) => word.map((each) => finding(id, each)))), (some) => {
        const step = whatNext(procedure, some);
        expect(step.sentence).toMatch(/^[A-Z"“].{20,}\.$/);
        expect(step.causes).toHaveLength(procedure.causes.length);
      }),
      { numRuns: 500 },
    );
  });
});
