import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { CHECK_KINDS } from '../../src/checks/check-kind.ts';
import { suggestConclusion } from '../../src/procedures/conclusion.ts';
import type { CheckFinding } from '../../src/procedures/finding.ts';
import { LOW_RAIL_PRESSURE as procedure } from '../../src/procedures/library.ts';
import { MARGINAL_MEANING } from '../../src/procedures/marginal-meaning.ts';
import { finding, findings } from './findings.ts';

const suggest = (some: Parameters<typeof suggestConclusion>[1]) => suggestConclusion(procedure, some);

describe('the suggested conclusion', () => {
  test('suggests nothing while nothing stands', () => {
    expect(suggest([])).toMatchObject({ decision: 'not yet', cause: '' });
    expect(suggest([finding('crank-delivery', 'fail low', { runs: 1 })]).decision).toBe('not yet');
  });

  test('a failing pump is to be repaired now, with the cause that most speaks for', () => {
    const said = suggest(
      findings({ 'pump-return': 'fail high', 'crank-delivery': 'fail low', 'rail-build': 'fail high' }),
    );
    expect(said).toMatchObject({ decision: 'repair now', causeId: 'worn-elements' });
    expect(said.sentences.join(' ')).toMatch(/Pump return.*fail high/);
  });

  test('a marginal pump says what that means under full load, and what it does not', () => {
    const said = suggest(findings({ 'crank-delivery': 'marginal' }));
    expect(said.decision).toBe('run on and watch');
    expect(said.sentences.join(' ')).toMatch(/Under full load.*may not hold the commanded rail pressure/);
    expect(said.sentences.join(' ')).toMatch(/does not prove that a particular part is worn/);
    expect(said.watchFor.length).toBeGreaterThan(1);
  });

  test('all in order sends the search elsewhere', () => {
    expect(suggest(findings({}))).toMatchObject({ decision: 'look elsewhere', cause: '', watchFor: [] });
  });

  test('what was left out and what is not settled is said beside it', () => {
    const some = [
      finding('supply-idle', 'pass'),
      finding('supply-load', null, { skipped: 'no road here' }),
      finding('relief-valve-leak', 'fail high'),
      finding('rail-decay', 'disagree'),
    ];
    const text = suggest(some).sentences.join(' ');
    expect(text).toContain('no road here');
    expect(text).toMatch(/is not settled: disagree/);
  });

  test('does not send the search elsewhere while checks are open, and names them', () => {
    const said = suggest([finding('fuel-quality', 'pass'), finding('filters', 'pass')]);
    expect(said.decision).toBe('not yet');
    expect(said.sentences.join(' ')).toMatch(/Not done and not left out: .*"Crank delivery"/);
    expect(said.sentences.join(' ')).not.toContain('"Filters and water separator"');
  });

  test('a final drive that passed verifies, whatever was not done before it', () => {
    const said = suggest([finding('supply-idle', 'pass'), finding('final-drive', 'pass')]);
    expect(said.decision).toBe('look elsewhere');
    const unsure = suggest([finding('supply-idle', 'pass'), finding('final-drive', 'too close to call')]);
    expect(unsure.decision).toBe('not yet');
  });

  test('everything left out or passed can be concluded, with the reasons', () => {
    const some = findings({}).map((each) =>
      each.checkId === 'final-drive' ? finding(each.checkId, null, { skipped: 'no plates' }) : each,
    );
    const said = suggest(some);
    expect(said.decision).toBe('look elsewhere');
    expect(said.sentences.join(' ')).toContain('was left out: no plates');
  });

  test('a check that was tried without result and then left out counts as left out', () => {
    const some = findings({}).map((each) =>
      each.checkId === 'rail-decay'
        ? finding(each.checkId, 'not valid', { skipped: 'the bus goes silent' })
        : each,
    );
    const said = suggest(some);
    expect(said.decision).toBe('look elsewhere');
    expect(said.sentences.join(' ')).toMatch(/Rail pressure decay.*was left out: the bus goes silent/);
    expect(said.sentences.join(' ')).not.toMatch(/not settled/);
  });

  test('after a repair with everything in order the cause is what was put right', () => {
    const said = suggestConclusion(procedure, findings({}), ['worn-elements']);
    expect(said).toMatchObject({ decision: 'repair now', causeId: 'worn-elements', watchFor: [] });
    expect(said.sentences[0]).toBe('Put right in this job: Worn pumping elements.');
    expect(said.sentences[1]).toMatch(/Nothing fails any more in the 18 checks that stand/);
  });

  test('a repair does not cover up what still fails, is marginal or is to be repeated', () => {
    const after = (some: Parameters<typeof suggestConclusion>[1]) =>
      suggestConclusion(procedure, some, ['worn-elements']);
    expect(after(findings({ 'relief-valve-leak': 'fail high' })).causeId).toBe('leaking-relief-valve');
    expect(after(findings({ 'crank-delivery': 'marginal' })).decision).toBe('run on and watch');
    const stale = findings({}).map((each) =>
      each.checkId === 'crank-delivery' ? { ...each, repeatBecause: 'the pump was replaced' } : each,
    );
    expect(after(stale).decision).toBe('not yet');
    expect(after(stale).sentences.join(' ')).toContain('the pump was replaced');
  });

  test('a cause that the procedure does not have is passed over', () => {
    expect(suggestConclusion(procedure, findings({}), ['no-such']).decision).toBe('look elsewhere');
    expect(suggestConclusion(procedure, findings({}), ['no-such', 'air-leak']).causeId).toBe('air-leak');
  });

  test('a fail stands above a marginal result, and a marginal one above what is open', () => {
    const both = findings({ 'relief-valve-leak': 'fail high', 'crank-delivery': 'marginal' });
    expect(suggest(both).decision).toBe('repair now');
    const one = suggest([finding('crank-delivery', 'marginal')]);
    expect(one.decision).toBe('run on and watch');
    expect(one.sentences.join(' ')).toMatch(/Not done and not left out/);
  });
});

describe('what marginal means', () => {
  const marginalOf: Readonly<Record<(typeof CHECK_KINDS)[number], string>> = {
    'crank delivery': 'crank-delivery',
    'collected volume': 'injector-return-idle',
    'steady pressure': 'supply-idle',
    'pressure build': 'rail-build',
    'pressure decay': 'rail-decay',
    'pressure deviation': 'final-drive',
    inspection: 'filters',
  };

  test.each(CHECK_KINDS)('%s: what it means, what it does not and what to look for', (kind) => {
    const { means, meansNot, watchFor } = MARGINAL_MEANING[kind];
    const said = suggest(findings({ [marginalOf[kind]]: 'marginal' }));
    expect(said.decision).toBe('run on and watch');
    expect(said.sentences).toEqual(expect.arrayContaining([means, meansNot]));
    expect(said.watchFor).toContain(watchFor);
  });

  test.each(CHECK_KINDS)('%s: in whole sentences that speak of load and claim no proof', (kind) => {
    const { means, meansNot, watchFor } = MARGINAL_MEANING[kind];
    for (const text of [means, meansNot, watchFor]) expect(text).toMatch(/^[A-Z].*\.$/);
    expect(means).toMatch(/load/);
    expect(meansNot).toMatch(/does not/);
  });

  test('speaks of each kind once, however many checks of it are marginal', () => {
    const said = suggest(findings({ 'supply-idle': 'marginal', 'supply-load': 'marginal' }));
    const { means } = MARGINAL_MEANING['steady pressure'];
    expect(said.sentences.filter((each) => each === means)).toHaveLength(1);
    expect(said.sentences.filter((each) => /is marginal\.$/.test(each))).toHaveLength(2);
  });

  test('does not speak of cranking where only the supply pressure is marginal', () => {
    expect(suggest(findings({ 'supply-idle': 'marginal' })).sentences.join(' ')).not.toMatch(
      /while cranking/,
    );
  });
});

test('every sentence is whole, and watching goes only with running on, whatever was found', () => {
  const any = fc.tuple(
    ...procedure.checks.map(({ id }) =>
      fc
        .record({
          word: fc.constantFrom<CheckFinding['word']>(
            'pass',
            'marginal',
            'fail low',
            'fail high',
            'too close to call',
            'not valid',
            'disagree',
            null,
          ),
          skipped: fc.option(fc.constant('no gauge')),
          repeatBecause: fc.option(fc.constant('the filter was replaced')),
        })
        .map(({ word, ...change }) => finding(id, word, change)),
    ),
  );
  fc.assert(
    fc.property(any, fc.subarray(procedure.causes.map(({ id }) => id)), (some, putRight) => {
      const { decision, sentences, watchFor, cause, causeId } = suggestConclusion(procedure, some, putRight);
      expect(sentences.length).toBeGreaterThan(0);
      for (const sentence of sentences) expect(sentence).toMatch(/^\S.{5,}\.$/);
      expect(watchFor.length > 0).toBe(decision === 'run on and watch');
      expect(cause === '').toBe(causeId === null);
      expect(decision === 'repair now' && causeId === null).toBe(false);
    }),
    { numRuns: 300 },
  );
});
