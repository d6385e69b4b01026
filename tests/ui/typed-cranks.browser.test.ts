import { html } from 'lit';
import { userEvent } from 'vitest/browser';
import { afterEach, describe, expect, test } from 'vitest';
import '../../src/ui/typed-cranks.ts';
import type { TypedCrankText } from '../../src/ui/typed-cranks.ts';
import {
  axeFindings,
  clearPage,
  drawn,
  every,
  heard,
  mount,
  one,
  sideways,
  smallTargets,
  textOf,
} from './mount.ts';

afterEach(clearPage);

type Cranks = HTMLElementTagNameMap['m-typed-cranks'];
const cranks = (rows: readonly TypedCrankText[] = [{ seconds: '', rpm: '' }]) =>
  mount<Cranks>(html`<m-typed-cranks .rows=${rows}></m-typed-cranks>`);
const errors = (element: Cranks) => every(element, '[role=alert]').map(textOf);

describe('m-typed-cranks', () => {
  test('is typed by keyboard, comma or point, and hands over numbers with what was written', async () => {
    const element = await cranks();
    const typed = heard(element, 'cranks-typed');
    await userEvent.tab();
    await userEvent.keyboard('14,9');
    await userEvent.tab();
    await userEvent.keyboard('151.8{Enter}');
    expect(typed).toEqual([{ rows: [{ seconds: 14.9, rpm: 151.8, secondsText: '14,9', rpmText: '151.8' }] }]);
  });

  test('grows by a crank, goes to its first field, and shrinks again', async () => {
    const element = await cranks([{ seconds: '15', rpm: '150' }]);
    expect(element.shadowRoot?.querySelector('.remove')).toBeNull();
    const [, grow] = every(element, '.actions button');
    grow?.click();
    await expect.poll(() => element.shadowRoot?.activeElement?.id).toBe('seconds-1');
    await userEvent.keyboard('14');
    await userEvent.tab();
    await userEvent.keyboard('148');
    expect(element.rows).toEqual([
      { seconds: '15', rpm: '150' },
      { seconds: '14', rpm: '148' },
    ]);
    every(element, '.remove')[0]?.click();
    await expect.poll(() => element.shadowRoot?.activeElement?.id).toBe('seconds-0');
    expect(element.rows).toEqual([{ seconds: '14', rpm: '148' }]);
    expect(one<HTMLInputElement>(element, '#seconds-0').value).toBe('14');
  });

  test('keeps errors to itself until the person is done', async () => {
    const element = await cranks([{ seconds: 'x', rpm: '' }]);
    expect(errors(element)).toEqual(['', '']);
  });

  test.each([
    [{ seconds: '', rpm: '150' }, ['Type a number first.', '']],
    [{ seconds: '15 s', rpm: '150' }, ['“15 s” is not a plain number.', '']],
    [{ seconds: '121', rpm: '150' }, ['The most that can be entered is 120 s.', '']],
    [{ seconds: '15', rpm: '0' }, ['', 'The least that can be entered is 1 rpm.']],
    [
      { seconds: '0', rpm: '401' },
      ['The least that can be entered is 0.1 s.', 'The most that can be entered is 400 rpm.'],
    ],
  ] as const)('refuses %o beside the field and goes there', async (row, reasons) => {
    const element = await cranks([row]);
    const typed = heard(element, 'cranks-typed');
    one(element, '.primary').click();
    await element.updateComplete;
    expect(errors(element)).toEqual(reasons);
    const wrong = reasons[0] ? 'seconds-0' : 'rpm-0';
    await expect.poll(() => element.shadowRoot?.activeElement?.id).toBe(wrong);
    expect(one(element, `#${wrong}`).getAttribute('aria-invalid')).toBe('true');
    expect(typed).toEqual([]);
    expect(await axeFindings(element)).toEqual([]);
  });

  test('a corrected field loses its error as it is typed', async () => {
    const element = await cranks([{ seconds: '', rpm: '150' }]);
    const typed = heard(element, 'cranks-typed');
    one(element, '.primary').click();
    await expect.poll(() => element.shadowRoot?.activeElement?.id).toBe('seconds-0');
    await userEvent.keyboard('15');
    await element.updateComplete;
    expect(errors(element)).toEqual(['', '']);
    await userEvent.keyboard('{Enter}');
    expect(typed).toHaveLength(1);
  });

  test('adds the times up while they can be read', async () => {
    const element = await cranks([
      { seconds: '14,9', rpm: '' },
      { seconds: '15.1', rpm: '' },
    ]);
    expect(textOf(one(element, '.sum'))).toBe('30.0 s in all'); // 14.9 + 15.1
    element.rows = [
      { seconds: '14,9', rpm: '' },
      { seconds: '', rpm: '' },
    ];
    await element.updateComplete;
    expect(element.shadowRoot?.querySelector('.sum')).toBeNull();
  });

  test('fits a phone with the whole number in sight, for gloves, and axe finds nothing', async () => {
    const element = await cranks([
      { seconds: '119.9', rpm: '399.9' },
      { seconds: '15', rpm: '150' },
    ]);
    expect(await sideways(element)).toEqual([]);
    await drawn();
    for (const input of every<HTMLInputElement>(element, 'input')) {
      expect(input.scrollWidth, input.value).toBeLessThanOrEqual(input.clientWidth);
    }
    expect(smallTargets(element, 'button, input')).toEqual([]);
    expect(textOf(one(element, 'label'))).toContain('Time , s');
    expect(await axeFindings(element)).toEqual([]);
  });
});
