import { describe, expect, test } from 'vitest';
import { suggestConclusion } from '../../src/procedures/conclusion.ts';
import { LOW_RAIL_PRESSURE as procedure } from '../../src/procedures/library.ts';
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
});
