import { html } from 'lit';
import { userEvent } from 'vitest/browser';
import { afterEach, describe, expect, test } from 'vitest';
import '../../src/ui/source-offers.ts';
import { axeFindings, clearPage, every, heard, mount, one, sideways, smallTargets, textOf } from './mount.ts';
import { LAST, OFFERS } from './source-samples.ts';

afterEach(clearPage);

const offers = (last: typeof LAST | null = LAST) =>
  mount<HTMLElementTagNameMap['m-source-offers']>(
    html`<m-source-offers .offers=${OFFERS} .last=${last}></m-source-offers>`,
  );
const focused = (element: Element) => textOf(element.shadowRoot?.activeElement ?? document.body);

describe('m-source-offers', () => {
  test('puts what worked last time first, with all that is known of it', async () => {
    const element = await offers();
    expect(textOf(one(element, '.last'))).toBe(
      'Last time USB serial 1A86:7523 115,200 baud · 250 kbit/s · listen-only Connect',
    );
    const wanted = heard(element, 'source-wanted');
    one(element, '.last button').click();
    expect(wanted).toEqual([{ id: 'last' }]);
  });

  test('has no last card before there was a first time', async () => {
    const element = await offers(null);
    expect(element.shadowRoot?.querySelector('.last')).toBeNull();
    expect(every(element, 'button')).toHaveLength(OFFERS.length);
  });

  test('says which source is wanted', async () => {
    const element = await offers();
    const wanted = heard(element, 'source-wanted');
    for (const card of every(element, '.offer')) card.click();
    const usable = OFFERS.filter(({ problem }) => problem === null).map(({ id }) => ({ id }));
    expect(wanted).toEqual(usable);
  });

  test('keeps what cannot be used, last, with reason and cure, and says nothing of it', async () => {
    const element = await offers();
    const off = every(element, '.offer').at(-1);
    expect(off?.getAttribute('aria-disabled')).toBe('true');
    expect(textOf(off ?? element)).toBe(
      'Bluetooth LE A bridge that is paired in the browser, without a serial port. ' +
        'This browser cannot do Bluetooth LE. Use Chrome or Edge on a computer or on Android.',
    );
  });

  test('does not connect to a last device that this browser cannot reach any more', async () => {
    const problem = { message: 'Web Serial is off.', remedy: 'Switch it on.' };
    const element = await offers({ ...LAST, problem });
    const wanted = heard(element, 'source-wanted');
    one(element, '.last button').click();
    expect(wanted).toEqual([]);
    expect(textOf(one(element, '.last .cure'))).toBe('Web Serial is off. Switch it on.');
  });

  test('is walked by Tab and the arrow keys, and taken with Enter', async () => {
    const element = await offers();
    const wanted = heard(element, 'source-wanted');
    await userEvent.tab();
    expect(focused(element)).toBe('Connect');
    await userEvent.keyboard('{ArrowDown}{ArrowRight}{ArrowRight}{ArrowUp}');
    expect(focused(element)).toContain('USB without a driver');
    await userEvent.keyboard('{Enter}');
    await userEvent.tab();
    await userEvent.keyboard('{Enter}');
    expect(wanted).toEqual([{ id: 'web-usb' }, { id: 'web-socket' }]);
    await userEvent.keyboard('{End}{ArrowDown}');
    expect(focused(element)).toBe('Connect');
    await userEvent.keyboard('{ArrowUp}');
    expect(focused(element)).toContain('Bluetooth LE');
    await userEvent.keyboard('{Enter}{Home}');
    expect(focused(element)).toBe('Connect');
    expect(wanted).toHaveLength(2);
  });

  test('fits a phone, has targets for gloves, and axe finds nothing', async () => {
    const element = await offers();
    expect(await sideways(element)).toEqual([]);
    expect(smallTargets(element, 'button')).toEqual([]);
    expect(await axeFindings(element)).toEqual([]);
  });
});
