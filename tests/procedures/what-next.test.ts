import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { CheckFinding } from '../../src/procedures/finding.ts';
import { LOW_RAIL_PRESSURE as procedure } from '../../src/procedures/library.ts';
import { fuelPath, stretchWords } from '../../src/procedures/fuel-path.ts';
import { suggestConclusion } from '../../src/procedures/conclusion.ts';
import { checkOrder } from '../../src/procedures/order.ts';
import { procedureMistakes } from '../../src/procedures/procedure-mistakes.ts';
import { Procedure } from '../../src/procedures/procedure.ts';
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

  test('low supply pressure leads back to the suction side while that is open, then stays on the low side until the repair', () => {
    const skipped = finding('suction-restriction', null, { skipped: 'no gauge' });
    const before = passedBefore('supply-idle').filter(({ checkId }) => checkId !== 'suction-restriction');
    const low = finding('supply-idle', 'fail low');
    expect(next(...before, low)).toMatchObject({ step: 'do check', checkId: 'suction-restriction' });
    // Only the supply pressures tell a weak pump from what lies before it; nothing behind them can be judged yet.
    const some = [...before, skipped, low];
    const more: (string | null)[] = [];
    let step = next(...some);
    for (; step.step === 'do check'; step = next(...some)) {
      more.push(step.checkId);
      some.push(finding(step.checkId!, 'fail low'));
    }
    expect(more.filter((id) => !id?.startsWith('supply-'))).toEqual([]);
    expect(step).toMatchObject({ step: 'repair', checkId: null });
    expect(step.causes[0]?.causeId).toBe('weak-supply-pump');
    expect(step.sentence).toMatch(/Supply pressure at idle/);
  });

  test('a high pump return leads to the decay after shut-off, which needs no fitting, and then to the crank delivery', () => {
    const step = next(...passedBefore('pump-return'), finding('pump-return', 'fail high'));
    expect(step).toMatchObject({ step: 'do check', checkId: 'rail-decay' });
    expect(step.sentence).toMatch(/failed.*comes next/);
    const held = next(
      ...passedBefore('pump-return'),
      finding('pump-return', 'fail high'),
      finding('rail-decay', 'pass'),
    );
    expect(held).toMatchObject({ step: 'do check', checkId: 'crank-delivery' });
  });

  test('a pump that returns too much and delivers too little is looked at', () => {
    const step = next(
      ...passedBefore('pump-return'),
      finding('pump-return', 'fail high'),
      finding('rail-decay', 'pass'),
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

  test('says what a pass cleared, and what the next check shows', () => {
    expect(next(...passedBefore('rail-build')).sentence).toBe(
      '"Rail pressure sensor at rest" passed, so from the tank and fuel to the pressure filter the path is cleared; ' +
        '"Rail pressure build while cranking" comes next, which shows how soon the rail pressure rises, once the starter turns, to where injection is released.',
    );
  });

  test('does not call a marginal check or one left out a pass', () => {
    const marginal = [...passedBefore('supply-high-idle').slice(0, -1), finding('supply-idle', 'marginal')];
    expect(next(...marginal).sentence).toMatch(
      /^"Supply pressure at idle" was marginal, which clears nothing;/,
    );
    const left = passedBefore('supply-idle');
    const before = next(...left, finding('supply-idle', 'not valid', { skipped: 'no port' }));
    expect(before.sentence).toMatch(/^"Supply pressure at idle" was left out;/);
  });

  test('bad fuel is put right before the filters are looked at', () => {
    const bad = finding('fuel-quality', 'fail low', { causes: ['bad-fuel'] });
    expect(next(bad).step).toBe('repair');
    expect(next(bad).causes[0]?.causeId).toBe('bad-fuel');
    expect(next(bad).sentence).toMatch(/cannot be judged before that is put right/);
  });

  test('does not send to the pump for a weak battery', () => {
    const some = findings({ 'rail-build': 'fail high' }).map((each) =>
      each.checkId === 'crank-delivery' || each.checkId === 'injector-return-cranking'
        ? finding(each.checkId, 'not valid', { skipped: 'turns too slowly' })
        : each,
    );
    const step = next(...some);
    expect(['weak-battery', 'cranking-drag']).toContain(step.causes[0]?.causeId);
    expect(step.sentence).not.toMatch(/pumping elements/i);
  });

  test('each step followed as it says ends the job, whatever comes out, with nothing done twice', () => {
    const word = fc.constantFrom<CheckFinding['word']>(
      'pass',
      'pass',
      'pass',
      'marginal',
      'fail low',
      'fail high',
    );
    fc.assert(
      fc.property(fc.tuple(...ORDER.map(() => word)), (words) => {
        const done: CheckFinding[] = [];
        for (let step = next(); step.step === 'do check'; step = next(...done)) {
          expect(done.map(({ checkId }) => checkId)).not.toContain(step.checkId);
          done.push(finding(step.checkId!, words[ORDER.indexOf(step.checkId!)]!));
        }
        const failed = done.some((each) => each.word === 'fail low' || each.word === 'fail high');
        expect(next(...done).step).toBe(failed ? 'repair' : 'conclude');
      }),
      { numRuns: 200 },
    );
  });

  test('any procedure that parses gets an answer from every function, and none throws', () => {
    const edited = fc
      .tuple(
        fc.shuffledSubarray([...procedure.checks], { minLength: 1 }),
        fc.subarray([...procedure.causes]),
        fc.array(fc.constantFrom(...ORDER, 'gone'), { maxLength: 4 }),
      )
      .map(([checks, causes, needs]) => ({
        ...procedure,
        checks: checks.map((check, place) =>
          place % 2 ? { ...check, needs } : { ...check, purpose: 'Look.' },
        ),
        causes,
      }));
    const some = fc.subarray(
      findings({ 'rail-build': 'fail high', 'supply-idle': 'not valid', filters: 'disagree' }),
    );
    fc.assert(
      fc.property(edited, some, (raw, found) => {
        const parsed = Procedure.parse(raw);
        expect(whatNext(parsed, found).sentence).toMatch(/^\S.{15,}\.$/);
        expect(stretchWords(fuelPath(parsed, found))).toMatch(/\.$/);
        expect(suggestConclusion(parsed, found).sentences.length).toBeGreaterThan(0);
        expect(checkOrder(parsed, found)).toHaveLength(parsed.checks.length);
        expect(Array.isArray(procedureMistakes(parsed))).toBe(true);
      }),
      { numRuns: 60 },
    );
  });
});
