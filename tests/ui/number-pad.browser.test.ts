import { html } from 'lit';
import { userEvent } from 'vitest/browser';
import { afterEach, describe, expect, test } from 'vitest';
import '../../src/ui/number-pad.ts';
import { axeFindings, clearPage, every, heard, mount, one, textOf } from './mount.ts';

afterEach(clearPage);

const pad = (text = '') =>
  mount<HTMLElementTagNameMap['m-number-pad']>(
    html`<m-number-pad label="Collected volume" unit="mL" text=${text} min="0" max="500"></m-number-pad>`,
  );
const press = async (element: HTMLElementTagNameMap['m-number-pad'], ...names: string[]) => {
  for (const name of names) {
    every<HTMLButtonElement>(element, '.keys button')
      .find((button) => (button.getAttribute('aria-label') ?? '') === name)
      ?.click();
    await element.updateComplete;
    await element.updateComplete;
  }
};

describe('m-number-pad', () => {
  test('keys and field are the same thing', async () => {
    const element = await pad();
    await press(element, '3', '1', '7', 'point', '5');
    expect(one<HTMLInputElement>(element, 'input').value).toBe('317.5');
    await press(element, 'Delete the last digit');
    expect(element.text).toBe('317.');
  });

  test('is typed on the keyboard, Enter hands over number and text', async () => {
    const element = await pad();
    const entries = heard(element, 'number-entered');
    one(element, 'input').focus();
    await userEvent.keyboard('317,5{Enter}');
    expect(entries).toEqual([{ value: 317.5, text: '317,5' }]);
  });

  test('the button hands over as Enter does', async () => {
    const element = await pad('90');
    const entries = heard(element, 'number-entered');
    one(element, '.primary').click();
    expect(entries).toEqual([{ value: 90, text: '90' }]);
  });

  test.each([
    ['', 'Type a number first.'],
    ['12a', '“12a” is not a plain number.'],
    ['501', 'The most that can be entered is 500 mL.'],
    ['-1', 'The least that can be entered is 0 mL.'],
  ])('refuses %j with a reason and says nothing', async (text, reason) => {
    const element = await pad(text);
    const entries = heard(element, 'number-entered');
    one(element, '.primary').click();
    await element.updateComplete;
    expect(entries).toEqual([]);
    expect(textOf(one(element, '[role=alert]'))).toBe(reason);
    expect(one(element, 'input').getAttribute('aria-invalid')).toBe('true');
    expect(await axeFindings(element)).toEqual([]);
  });

  test('a key replaces what is selected', async () => {
    const element = await pad('999');
    one<HTMLInputElement>(element, 'input').setSelectionRange(0, 3);
    await press(element, '4');
    expect(element.text).toBe('4');
  });

  test('Escape clears the field', async () => {
    const element = await pad('12');
    one(element, 'input').focus();
    await userEvent.keyboard('{Escape}');
    expect(element.text).toBe('');
  });

  test('has keys for gloves and fits a phone', async () => {
    const element = await pad('1');
    element.style.setProperty('width', '340px');
    for (const key of every(element, 'button')) {
      const { width, height, right } = key.getBoundingClientRect();
      expect(Math.min(width, height)).toBeGreaterThanOrEqual(48);
      expect(right).toBeLessThanOrEqual(element.getBoundingClientRect().right);
    }
    expect(await axeFindings(element)).toEqual([]);
  });

  test('can be reached and worked by keyboard alone', async () => {
    const element = await pad();
    const entries = heard(element, 'number-entered');
    await userEvent.tab();
    await userEvent.tab();
    await userEvent.keyboard('{Enter}');
    await element.updateComplete;
    expect(element.text).toBe('7');
    for (let turn = 0; turn < 12; turn += 1) await userEvent.tab();
    await userEvent.keyboard('{Enter}');
    expect(entries).toEqual([{ value: 7, text: '7' }]);
  });
});
