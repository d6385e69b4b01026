import { html } from 'lit';
import { userEvent } from 'vitest/browser';
import { afterEach, describe, expect, test } from 'vitest';
import '../../src/ui/characteristic-picker.ts';
import type { ServiceView } from '../../src/ui/characteristic-picker.ts';
import { axeFindings, clearPage, every, heard, mount, one, sideways, smallTargets, textOf } from './mount.ts';
import { SERVICES, UART } from './source-samples.ts';

afterEach(clearPage);

type Picker = HTMLElementTagNameMap['m-characteristic-picker'];
const picker = (services: readonly ServiceView[] = SERVICES) =>
  mount<Picker>(html`<m-characteristic-picker .services=${services}></m-characteristic-picker>`);
const radios = (element: Picker, name: string) => every<HTMLInputElement>(element, `input[name=${name}]`);
const FFE0 = '0000ffe0-0000-1000-8000-00805f9b34fb';
const FFE1 = '0000ffe1-0000-1000-8000-00805f9b34fb';

describe('m-characteristic-picker', () => {
  test('offers what can notify, short where the number is an assigned one, and only then what can be written', async () => {
    const element = await picker();
    const offered = () =>
      every(element, 'fieldset').map((group) => [...group.querySelectorAll('.uuid')].map(textOf));
    expect(offered()).toEqual([['6e400003-b5a3-f393-e0a9-e50e24dcca9e', 'FFE1']]);
    expect(one(element, '.primary').getAttribute('aria-disabled')).toBe('true');
    radios(element, 'notify')[1]?.click();
    await element.updateComplete;
    expect(offered()[1]).toEqual(['FFE1', 'Nowhere']);
  });

  test('picks the partner within the same service, and no other is offered', async () => {
    const element = await picker();
    const picked = heard(element, 'characteristics-picked');
    radios(element, 'notify')[0]?.click();
    await element.updateComplete;
    expect(radios(element, 'write').map((radio) => radio.checked)).toEqual([true, false]);
    one(element, '.primary').click();
    expect(picked).toEqual([
      {
        service: UART,
        notify: '6e400003-b5a3-f393-e0a9-e50e24dcca9e',
        write: '6e400002-b5a3-f393-e0a9-e50e24dcca9e',
      },
    ]);
    radios(element, 'notify')[1]?.click();
    await element.updateComplete;
    one(element, '.primary').click();
    expect(picked[1]).toEqual({ service: FFE0, notify: FFE1, write: FFE1 });
  });

  test('can only listen: a bridge that sends by itself needs no commands', async () => {
    const element = await picker();
    const picked = heard(element, 'characteristics-picked');
    radios(element, 'notify')[1]?.click();
    await element.updateComplete;
    radios(element, 'write').at(-1)?.click();
    await element.updateComplete;
    one(element, '.primary').click();
    expect(picked).toEqual([{ service: FFE0, notify: FFE1, write: null }]);
  });

  test('has nothing to ask where only one thing can be meant', async () => {
    const element = await picker(SERVICES.slice(1));
    const picked = heard(element, 'characteristics-picked');
    one(element, '.primary').click();
    expect(picked).toEqual([{ service: FFE0, notify: FFE1, write: FFE1 }]);
  });

  test('says nothing while nothing is chosen', async () => {
    const element = await picker();
    const picked = heard(element, 'characteristics-picked');
    one(element, '.primary').click();
    expect(picked).toEqual([]);
    expect(textOf(element)).toContain('Choose where data comes from.');
  });

  test('takes a typed service by keyboard, made whole', async () => {
    const element = await picker();
    const typed = heard(element, 'service-typed');
    one(element, 'form input').focus();
    await userEvent.keyboard('fff0{Enter}');
    expect(typed).toEqual([{ uuid: '0000fff0-0000-1000-8000-00805f9b34fb' }]);
  });

  test('refuses what is no UUID beside the field', async () => {
    const element = await picker([]);
    const typed = heard(element, 'service-typed');
    expect(textOf(element)).toContain('No characteristic that notifies was found');
    one(element, 'form input').focus();
    await userEvent.keyboard('fff{Enter}');
    await element.updateComplete;
    expect(textOf(one(element, '[role=alert]'))).toBe('A UUID has 4, 8 or 32 digits; this has 3.');
    expect(one(element, 'form input').getAttribute('aria-invalid')).toBe('true');
    expect(typed).toEqual([]);
    expect(await axeFindings(element)).toEqual([]);
  });

  test('is worked by keyboard alone', async () => {
    const element = await picker();
    const picked = heard(element, 'characteristics-picked');
    await userEvent.tab();
    await userEvent.keyboard(' ');
    await userEvent.keyboard('{ArrowDown}');
    await element.updateComplete;
    one(element, '.primary').focus();
    await userEvent.keyboard('{Enter}');
    expect(picked).toEqual([{ service: FFE0, notify: FFE1, write: FFE1 }]);
  });

  test('fits a phone, has targets for gloves, and axe finds nothing', async () => {
    const element = await picker();
    expect(await axeFindings(element)).toEqual([]);
    expect(await sideways(element)).toEqual([]);
    expect(smallTargets(element, 'label.option, button, form input')).toEqual([]);
  });
});
