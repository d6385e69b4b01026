import { html } from 'lit';
import { afterEach, describe, expect, test } from 'vitest';
import { confidenceText, distanceText, type VerdictView } from '../../src/ui/verdict-panel.ts';
import { axeFindings, clearPage, every, mount, one, textOf } from './mount.ts';
import { verdict } from './samples.ts';

afterEach(clearPage);

const shown = (change: Partial<VerdictView>) =>
  mount<HTMLElementTagNameMap['m-verdict']>(
    html`<m-verdict .verdict=${verdict(change)} sheet-line="Sheet A"></m-verdict>`,
  );
const reason = { message: 'Cranking too slow.', remedy: 'Charge the batteries and repeat.' };

describe('m-verdict', () => {
  test.each([
    ['pass', 'pass'],
    ['marginal', 'marginal'],
    ['fail low', 'fail'],
    ['fail high', 'fail'],
    ['too close to call', 'unsure'],
    ['not valid', 'invalid'],
  ] as const)('says %s by word, shape and colour', async (word, shape) => {
    const element = await shown({ word, leaning: word === 'not valid' ? null : 'pass' });
    expect(textOf(one(element, '.word'))).toBe(word);
    expect(one(element, '.word m-icon').getAttribute('shape')).toBe(shape);
    expect(one(element, '.verdict').classList).toContain(shape);
    expect(await axeFindings(element)).toEqual([]);
  });

  test('states the distance to the nearest boundary in mL and per cent', () => {
    // A window of 125 to 525 mL makes 90 mL a fail low by 35 mL: common practice, no source; 35 / 125 = 28 %.
    const nearest = { name: 'min', atValue: 125, distance: -35, distancePercent: -28 } as const;
    expect(distanceText(nearest, 'mL')).toBe('35\u00a0mL below the minimum (28\u00a0%)');
    expect(distanceText({ ...nearest, atValue: 0, distancePercent: NaN }, 'mL')).toBe(
      '35\u00a0mL below the minimum',
    );
  });

  test('never rounds a probability up to certainty or over the 95 % line', () => {
    expect(confidenceText(0.99999)).toBe('more than 99.9\u00a0%');
    expect(confidenceText(1)).toBe('more than 99.9\u00a0%');
    expect(confidenceText(0.94999)).toBe('94.9\u00a0%');
  });

  test('too close to call names the leaning and its probability', async () => {
    const text = textOf(await shown({ word: 'too close to call', leaning: 'marginal', confidence: 0.71 }));
    expect(text).toMatch(/Leaning to marginal ?, 71\.0.% sure/);
  });

  test('shows each reason and warning with its remedy', async () => {
    const element = await shown({
      word: 'not valid',
      leaning: null,
      confidence: null,
      reasons: [reason],
      warnings: [reason],
    });
    const notes = every<HTMLElementTagNameMap['m-problem']>(element, 'm-problem');
    expect(notes.map((note) => note.tone)).toEqual(['error', 'warn']);
    expect(textOf(element)).toContain(reason.remedy);
    expect(await axeFindings(element)).toEqual([]);
  });

  test('says beside the word that it is not final, and why', async () => {
    const element = await shown({ notFinal: 'Not final until the sheet is confirmed' });
    expect(textOf(one(element, '.verdict .open'))).toBe('Not final until the sheet is confirmed');
    expect(await axeFindings(element)).toEqual([]);
    const settled = await shown({ notFinal: null });
    expect(every(settled, '.open')).toEqual([]);
  });

  test('shows nothing before there is a verdict', async () => {
    const element = await mount(html`<m-verdict></m-verdict>`);
    expect(textOf(element)).toBe('');
  });

  test('keeps its longest word inside a phone', async () => {
    const element = await shown({ word: 'too close to call', leaning: 'marginal' });
    element.style.setProperty('width', '340px');
    const word = one(element, '.word span').getBoundingClientRect();
    expect(word.right).toBeLessThanOrEqual(element.getBoundingClientRect().right);
  });
});
