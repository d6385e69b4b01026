import { html } from 'lit';
import { afterEach, describe, expect, test } from 'vitest';
import '../../src/ui/crank-clock.ts';
import { clockFill, type ClockView } from '../../src/ui/crank-clock-words.ts';
import { axeFindings, clearPage, mount, one, textOf } from './mount.ts';
import { clock } from './samples.ts';

afterEach(clearPage);

const shown = (view: Partial<ClockView>) =>
  mount<HTMLElementTagNameMap['m-crank-clock']>(html`<m-crank-clock .view=${clock(view)}></m-crank-clock>`);

const cranking = (warn: ClockView['warn']): Partial<ClockView> => ({
  state: 'cranking',
  thisCrankSeconds: 12.4,
  totalSeconds: 12.4,
  warn,
});

describe('m-crank-clock', () => {
  test('says which crank, how long, of how long, and the total', async () => {
    const text = textOf(await shown(cranking(null)));
    expect(text).toContain('Crank 1 of 2');
    expect(text).toContain('12.4 of 15 s');
    expect(text).toContain('Cranked in all 12.4 of 30 s');
    expect(text).toContain('cranking');
  });

  test.each([
    [null, 'Keep cranking.'],
    [3, 'Release in 3.'],
    [2, 'Release in 2.'],
    [1, 'Release in 1.'],
    ['now', 'Release the starter now.'],
    ['over', 'Release the starter. Over the target time.'],
  ] as const)('warns %s in words and announces them', async (warn, words) => {
    const element = await shown(cranking(warn));
    expect(textOf(one(element, '[role=status]'))).toBe(words);
    expect(await axeFindings(element)).toEqual([]);
  });

  test('counts the rest down in whole seconds, never showing 0 before it is over', async () => {
    const element = await shown({ state: 'resting', restLeftSeconds: 0.2 });
    expect(textOf(one(element, '.time'))).toBe('1 s of rest left');
    element.view = clock({ state: 'resting', restLeftSeconds: 0 });
    await element.updateComplete;
    expect(textOf(one(element, '[role=status]'))).toBe('Ready for crank 2.');
  });

  test.each(['waiting', 'resting', 'done', 'over time'] as const)(
    'draws %s without a fault for axe',
    async (state) => {
      const element = await shown({ state, thisCrankSeconds: 15, totalSeconds: 30, restLeftSeconds: 20 });
      expect(textOf(one(element, '.state')).length).toBeGreaterThan(3);
      expect(await axeFindings(element)).toEqual([]);
    },
  );

  test('fills its bar in proportion and no further than full', async () => {
    const element = await shown({ state: 'cranking', thisCrankSeconds: 7.5 });
    expect(one(element, '.fill').getAttribute('width')).toBe('500');
    expect(clockFill(clock({ state: 'over time', thisCrankSeconds: 99 })).part).toBe(1);
    expect(clockFill(clock({ targetSeconds: 0 })).part).toBe(0);
  });
});
