import { html } from 'lit';
import { userEvent } from 'vitest/browser';
import { afterEach, describe, expect, test } from 'vitest';
import '../../src/ui/identity-card.ts';
import type { IdentityEntry } from '../../src/ui/identity-card.ts';
import { axeFindings, clearPage, every, heard, mount, one, sideways, smallTargets, textOf } from './mount.ts';
import { IDENTITY } from './source-samples.ts';

afterEach(clearPage);

type Card = HTMLElementTagNameMap['m-identity'];
const card = (entries: readonly IdentityEntry[] = IDENTITY) =>
  mount<Card>(html`<m-identity .entries=${entries}></m-identity>`);
const press = async (element: Card, selector: string) => {
  one(element, selector).click();
  await element.updateComplete;
  await element.updateComplete;
};

describe('m-identity', () => {
  test('says of each field what it is and where it comes from', async () => {
    const element = await card();
    expect(every(element, '.field .told').map(textOf)).toEqual([
      'ZZZTRKAA2RT000001 from the bus, Engine (00) The check digit fits.',
      'ZZZZZ from the bus, Engine (00)',
      'not known yet',
      'not decided',
      '4711 typed',
      'A.10.2 from the bus, Engine (00) Told twice, differently.',
    ]);
    expect(every(element, '.field > .label').map(textOf)).toEqual([
      'VIN',
      'Make',
      'Model',
      'Engine serial number',
      'Unit number',
      'Software',
    ]);
  });

  test('tells a good note from a doubt by shape', async () => {
    const element = await card();
    expect(every(element, '.note m-icon').map((icon) => icon.getAttribute('shape'))).toEqual([
      'pass',
      'marginal',
    ]);
  });

  test('takes nothing where controllers disagree until one is chosen', async () => {
    const element = await card();
    const changes = heard(element, 'identity-changed');
    const choices = every<HTMLButtonElement>(element, '.engineSerial .choose button');
    expect(choices.map(textOf)).toEqual(['00012345 Engine (00)', '00099999 Retarder (0F)']);
    choices[1]?.click();
    expect(changes).toEqual([{ field: 'engineSerial', value: '00099999', origin: 'bus' }]);
  });

  test('lets a choice be made again', async () => {
    const chosen = IDENTITY.map((entry) =>
      entry.field === 'engineSerial'
        ? { ...entry, value: '00012345', origin: 'bus' as const, from: 'Engine (00)' }
        : entry,
    );
    const element = await card(chosen);
    expect(textOf(one(element, '.engineSerial .told'))).toContain('2 controllers differ');
    expect(element.shadowRoot?.querySelector('.choose')).toBeNull();
    await press(element, '.engineSerial .change');
    expect(every(element, '.engineSerial .choose button')).toHaveLength(2);
  });

  test('is typed by keyboard: Enter keeps it, and focus returns to its button', async () => {
    const element = await card();
    const changes = heard(element, 'identity-changed');
    one(element, '.model .change').focus();
    await userEvent.keyboard('{Enter}');
    await expect.poll(() => element.shadowRoot?.activeElement?.localName).toBe('input');
    await userEvent.keyboard('  X 15 {Enter}');
    expect(changes).toEqual([{ field: 'model', value: 'X 15', origin: 'typed' }]);
    await expect.poll(() => element.shadowRoot?.activeElement?.className).toContain('change');
  });

  test('Escape and Cancel keep what was', async () => {
    const element = await card();
    const changes = heard(element, 'identity-changed');
    await press(element, '.vin .change');
    expect(one<HTMLInputElement>(element, 'input').value).toBe('ZZZTRKAA2RT000001');
    await expect.poll(() => element.shadowRoot?.activeElement?.localName).toBe('input');
    await userEvent.keyboard('WRONG{Escape}');
    await expect.poll(() => element.shadowRoot?.querySelector('form')).toBeNull();
    await press(element, '.vin .change');
    await press(element, 'form button[type=button]');
    expect(element.shadowRoot?.querySelector('form')).toBeNull();
    expect(changes).toEqual([]);
  });

  test('writes a VIN in capitals without spaces, as it stands on the plate', async () => {
    const element = await card();
    const changes = heard(element, 'identity-changed');
    await press(element, '.vin .change');
    one<HTMLInputElement>(element, 'input').value = ' zzztrkaa 2rt 000001 ';
    await press(element, 'form .primary');
    expect(changes).toEqual([{ field: 'vin', value: 'ZZZTRKAA2RT000001', origin: 'typed' }]);
  });

  test('fits a phone with a form and a choice open, for gloves, and axe finds nothing', async () => {
    const element = await card();
    await press(element, '.vin .change');
    expect(await axeFindings(element)).toEqual([]);
    expect(await sideways(element)).toEqual([]);
    expect(smallTargets(element, 'button, input')).toEqual([]);
    expect(await axeFindings(element)).toEqual([]);
  });
});
