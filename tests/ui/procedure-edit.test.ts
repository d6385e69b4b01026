import { describe, expect, test } from 'vitest';
import { LOW_RAIL_PRESSURE as whole } from '../../src/procedures/library.ts';
import { procedureMistakes } from '../../src/procedures/procedure-mistakes.ts';
import { Procedure } from '../../src/procedures/procedure.ts';
import {
  linesOf,
  moved,
  settingNumbers,
  withAdvice,
  withCheck,
  without,
  withSetting,
} from '../../src/ui/procedure-edit.ts';

const ids = ({ checks }: Procedure) => checks.map(({ id }) => id);

describe('editing a copy of a procedure', () => {
  test('lists are typed one item a line; empty lines say nothing', () => {
    expect(linesOf(' one \n\n two\n')).toEqual(['one', 'two']);
    expect(linesOf('  \n')).toEqual([]);
  });

  test('a check moves within the list and no further', () => {
    expect(ids(moved(whole, 'filters', -1)).slice(0, 2)).toEqual(['filters', 'fuel-quality']);
    expect(moved(whole, 'fuel-quality', -1)).toBe(whole);
    expect(moved(whole, 'final-drive', 3)).toBe(whole);
    expect(moved(whole, 'no-such', 1)).toBe(whole);
  });

  test('a check that is taken out is no longer named anywhere', () => {
    const left = without(whole, 'pump-return');
    expect(ids(left)).not.toContain('pump-return');
    expect(procedureMistakes(left).filter(({ code }) => code === 'procedure.unknown-check')).toEqual([]);
    const one = { ...whole, checks: whole.checks.slice(0, 1) };
    expect(without(one, 'fuel-quality')).toBe(one);
  });

  test('every number of the settings can be changed, and stays a procedure', () => {
    for (const check of whole.checks)
      for (const { path, words, value } of settingNumbers(check.settings)) {
        expect(words).toMatch(/^[A-Z]/);
        const changed = withCheck(whole, check.id, (each) => withSetting(each, path, value + 1));
        expect(Procedure.safeParse(changed).success, `${check.id} ${path.join('.')}`).toBe(true);
        const after = settingNumbers(changed.checks.find(({ id }) => id === check.id)!.settings);
        expect(after.find((each) => each.words === words)?.value).toBe(value + 1);
      }
  });

  test('the words of one verdict change and the others stay', () => {
    const [first] = whole.checks;
    const changed = withAdvice(first!, 'pass', { headline: 'Good.' });
    expect(changed.advice.pass.headline).toBe('Good.');
    expect(changed.advice.marginal).toBe(first!.advice.marginal);
  });
});
