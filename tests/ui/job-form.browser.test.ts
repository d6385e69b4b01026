import { html } from 'lit';
import { page, userEvent } from 'vitest/browser';
import { afterAll, afterEach, describe, expect, test, vi } from 'vitest';
import '../../src/ui/job-form.ts';
import { TYPING_PAUSE_MS } from '../../src/ui/job-form.ts';
import { FIELDS } from './job-samples.ts';
import { axeFindings, clearPage, every, heard, mount, one, sideways, smallTargets, textOf } from './mount.ts';

afterEach(clearPage);
afterAll(() => page.viewport(414, 896)); // what the other files were started with

type Form = HTMLElementTagNameMap['m-job-form'];
const form = (fixed = false) =>
  mount<Form>(html`<m-job-form .fields=${FIELDS} ?fixed=${fixed}></m-job-form>`);
const box = (element: Form, field: string) => one<HTMLInputElement>(element, `#${field}`);
const saysOf = (element: Form, field: string) => textOf(one(element, `#says-${field}`));

describe('m-job-form', () => {
  test('has a labelled box for each field, and says where a value comes from', async () => {
    const element = await form();
    expect(every(element, 'label').map(textOf)).toEqual([
      'Complaint, in the customer’s words',
      'Unit number',
      'Customer',
      'Engine family',
      'Engine serial number',
      'VIN',
      'Engine hours, h',
      'Distance, km',
      'Technician',
    ]);
    expect(every(element, '.from').map(textOf)).toEqual(['typed', 'typed', 'typed', 'from the bus']);
    expect(saysOf(element, 'vin')).toBe('The check digit does not fit: compare it with the plate.');
  });

  test('says a field once when it is left, without spaces at its ends', async () => {
    const element = await form();
    const said = heard(element, 'field-changed');
    await userEvent.fill(box(element, 'customer'), ' Haulage & Sons ');
    await userEvent.tab();
    await userEvent.tab();
    expect(said).toEqual([{ field: 'customer', value: 'Haulage & Sons', from: 'typed' }]);
  });

  test('says what was typed a second after the last key, so that a killed page loses no more', async () => {
    const element = await form();
    const said = heard(element, 'field-changed');
    vi.useFakeTimers();
    try {
      const complaint = box(element, 'complaint');
      complaint.value = 'Stalls';
      complaint.dispatchEvent(new InputEvent('input'));
      vi.advanceTimersByTime(TYPING_PAUSE_MS - 1);
      expect(said).toEqual([]);
      vi.advanceTimersByTime(1);
      expect(said).toEqual([{ field: 'complaint', value: 'Stalls', from: 'typed' }]);
      complaint.dispatchEvent(new Event('change'));
      expect(said).toHaveLength(1);
    } finally {
      vi.useRealTimers();
    }
  });

  test('an emptied field is said as empty', async () => {
    const element = await form();
    const said = heard(element, 'field-changed');
    await userEvent.clear(box(element, 'unitNumber'));
    await userEvent.tab();
    expect(said).toEqual([{ field: 'unitNumber', value: '', from: 'typed' }]);
  });

  test.each(['-3', '12 h', '1,000.5', '1e9', '200001'])(
    'engine hours of %s are not said, stay in the box, and the field tells why',
    async (typed) => {
      const element = await form();
      const said = heard(element, 'field-changed');
      await userEvent.fill(box(element, 'engineHours'), typed);
      await userEvent.tab();
      await element.updateComplete;
      expect(said).toEqual([]);
      expect(box(element, 'engineHours').value).toBe(typed);
      expect(box(element, 'engineHours').getAttribute('aria-invalid')).toBe('true');
      expect(saysOf(element, 'engineHours')).toContain('It is not kept until then.');
    },
  );

  test('a decimal comma is read and said with a point', async () => {
    const element = await form();
    const said = heard(element, 'field-changed');
    await userEvent.fill(box(element, 'engineHours'), '8123,5');
    await userEvent.tab();
    expect(said).toEqual([{ field: 'engineHours', value: '8123.5', from: 'typed' }]);
  });

  test('what the bus says replaces nothing until it is taken over', async () => {
    const element = await form();
    const said = heard(element, 'field-changed');
    expect(every(element, '.proposal').map(textOf)).toEqual([
      'The bus says P3210 . What you typed is kept. Take what the bus says',
      'The bus says 8123.5 Take what the bus says',
    ]);
    one(element, '[aria-label="Take what the bus says: P3210 as Engine serial number"]').focus();
    await userEvent.keyboard('{Enter}');
    expect(said).toEqual([{ field: 'serialNumber', value: 'P3210', from: 'bus' }]);
  });

  test('a change from outside does not take away what is being typed', async () => {
    const element = await form();
    await userEvent.type(box(element, 'technician'), 'A. Read');
    element.fields = { ...FIELDS, unitNumber: { ...FIELDS['unitNumber']!, value: 'T-115' } };
    await element.updateComplete;
    expect([box(element, 'technician').value, box(element, 'unitNumber').value]).toEqual([
      'A. Read',
      'T-115',
    ]);
  });

  test('shows what the app found at the field it belongs to', async () => {
    const element = await form();
    element.problems = [{ field: 'vin', words: 'A VIN has 17 signs.' }];
    await element.updateComplete;
    expect(saysOf(element, 'vin')).toBe('A VIN has 17 signs.');
    expect(every(element, '[aria-invalid=true]').map(({ id }) => id)).toEqual(['vin']);
  });

  test('a signed job has no boxes', async () => {
    const element = await form(true);
    expect(every(element, 'input, textarea, button')).toEqual([]);
    expect(textOf(element)).toContain('Unit number T-114');
  });
});

test.each([1280, 390])(
  'at %d wide nothing scrolls sideways, all is for gloves, axe finds nothing',
  async (width) => {
    await page.viewport(width, 844);
    const element = await form();
    if (width === 390) expect(await sideways(element)).toEqual([]);
    expect(smallTargets(element, 'button, input, textarea')).toEqual([]);
    expect(await axeFindings(element)).toEqual([]);
  },
);
