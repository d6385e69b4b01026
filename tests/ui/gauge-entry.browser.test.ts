import { html } from 'lit';
import { userEvent } from 'vitest/browser';
import { afterEach, describe, expect, test } from 'vitest';
import '../../src/ui/gauge-entry.ts';
import { pointSlot } from '../../src/ui/inspection.ts';
import { GAUGES, POINTS } from './check-samples.ts';
import { axeFindings, clearPage, every, heard, mount, one, sideways, smallTargets, textOf } from './mount.ts';

afterEach(clearPage);

type Entry = HTMLElementTagNameMap['m-gauge-entry'];
const entry = (instruments: Entry['instruments'] = GAUGES) =>
  mount<Entry>(
    html`<m-gauge-entry
      label="Supply pressure"
      unit="bar"
      .likely=${{ min: 0, max: 2000 }}
      .instruments=${instruments}
    ></m-gauge-entry>`,
  );

describe('m-gauge-entry', () => {
  test('hands over the canonical value with what was typed and what the instrument is worth', async () => {
    const element = await entry();
    const entered = heard(element, 'value-entered');
    await userEvent.tab();
    await userEvent.keyboard('4,1');
    await element.updateComplete;
    expect(textOf(one(element, '#worth')).replace(/\u00a0/g, ' ')).toContain('4.1 bar = 410 kPa');
    await userEvent.keyboard('{Enter}');
    expect(entered).toEqual([
      {
        value: expect.closeTo(410) as number,
        typed: '4,1 bar',
        tolerance: expect.closeTo(16) as number, // 1.6 % of 10 bar
        halfStep: expect.closeTo(10) as number,
        instrument: 'Gauge 0 to 10 bar',
      },
    ]);
    expect(await axeFindings(element)).toEqual([]);
  });

  test('asks about an unlikely value before it counts, and takes it in the unit that was meant', async () => {
    const element = await entry();
    const entered = heard(element, 'value-entered');
    await userEvent.fill(one(element, '#value'), '395');
    one(element, '.primary').click();
    await expect.poll(() => textOf(element)).toContain('is more than is usual here');
    expect(entered).toEqual([]);
    expect(await axeFindings(element)).toEqual([]);
    expect(element.shadowRoot?.activeElement?.textContent?.trim()).toBe('It was 395 kPa');
    await userEvent.keyboard('{Enter}');
    expect(entered).toMatchObject([{ value: 395, typed: '395 kPa' }]);
  });

  test('takes an unlikely value that is said to be so, and asks anew when it changes', async () => {
    const element = await entry([{ ...GAUGES[0]!, fullScale: 400 }]);
    const entered = heard(element, 'value-entered');
    await userEvent.fill(one(element, '#value'), '39');
    one(element, '.primary').click();
    await expect.poll(() => every(element, '.ask button').length).toBe(5);
    await userEvent.fill(one(element, '#value'), '38');
    await element.updateComplete;
    expect(every(element, '.ask')).toEqual([]);
    one(element, '.primary').click();
    await element.updateComplete;
    every(element, '.ask button')
      .find((each) => textOf(each) === 'It is 38 bar')!
      .click();
    expect(entered).toMatchObject([{ value: 3800, typed: '38 bar' }]);
  });

  test('lets another instrument be typed, and goes to what is wrong with it', async () => {
    const element = await entry([]);
    const [entered, typed] = [heard(element, 'value-entered'), heard(element, 'instrument-typed')];
    await userEvent.fill(one(element, '#value'), '4');
    one(element, '.primary').click();
    await expect.poll(() => element.shadowRoot?.activeElement?.id).toBe('name');
    for (const [id, text] of [
      ['name', 'Old gauge'],
      ['fullScale', '16'],
      ['percent', '2.5'],
      ['step', '0.5'],
    ] as const)
      await userEvent.fill(one(element, `#${id}`), text);
    await userEvent.keyboard('{Enter}');
    // by hand: 2.5 % of 16 bar = 40 kPa; half of 0.5 bar = 25 kPa
    expect(entered).toMatchObject([{ value: 400, tolerance: 40, halfStep: 25, instrument: 'Old gauge' }]);
    expect(typed).toMatchObject([{ name: 'Old gauge', unit: 'bar', fullScale: 16, percent: 2.5, step: 0.5 }]);
    expect(await axeFindings(element)).toEqual([]);
  });

  test('fits a phone, for gloves', async () => {
    const element = await entry([]);
    expect(await sideways(element)).toEqual([]);
    expect(smallTargets(element, 'button, .choices label, input:not([type=radio]), select')).toEqual([]);
  });
});

type Inspect = HTMLElementTagNameMap['m-inspection'];
const inspect = (readOnly = false) =>
  mount<Inspect>(html`<m-inspection .points=${POINTS} .readOnly=${readOnly}></m-inspection>`);

describe('m-inspection', () => {
  test('takes a choice by hand or by digit, with the note that stands there', async () => {
    const element = await inspect();
    const observed = heard(element, 'observed');
    every(element, '.three .pass')[0]?.click();
    await userEvent.fill(one(element, '#note-1'), ' bubbles in the clear hose ');
    every(element, '.three button')[3]?.focus();
    await userEvent.keyboard('2');
    expect(observed).toEqual([
      { point: 'water', seen: 'in order', note: '' },
      { point: 'air', seen: 'not in order', note: 'bubbles in the clear hose' },
    ]);
  });

  test('hands over a note that is changed after the choice, and leaves digits to the note', async () => {
    const element = await inspect();
    const observed = heard(element, 'observed');
    one(element, '#note-2').focus();
    await userEvent.keyboard('123');
    one(element, '#note-2').blur();
    expect(observed).toEqual([{ point: 'filter', seen: 'not in order', note: 'black dirt123' }]);
  });

  test('says how far it is and what is not in order, by word and shape', async () => {
    const element = await inspect();
    expect(textOf(one(element, '[role=status]'))).toBe('1 of 3 said, 1 not in order.');
    const pressed = every(element, '[aria-pressed=true]');
    expect(pressed.map((each) => textOf(each))).toEqual(['Not in order 2']);
    expect(every(element, '.point.fail h2').map(textOf)).toEqual(['3 . Is the filter clean?']);
    expect(pressed[0]?.querySelector('m-icon')?.getAttribute('shape')).toBe('fail');
    expect(await axeFindings(element)).toEqual([]);
  });

  test('hands over a photograph, and has a place for those that are kept at each point', async () => {
    const element = await inspect();
    const added = heard(element, 'photo-added');
    const file = new File([new Uint8Array([1])], 'hose.jpg', { type: 'image/jpeg' });
    const files = new DataTransfer();
    files.items.add(file);
    const input = one<HTMLInputElement>(element, 'input[type=file]');
    input.files = files.files;
    input.dispatchEvent(new Event('change'));
    expect(added).toEqual([{ point: 'water', file }]);
    const kept = Object.assign(document.createElement('p'), {
      slot: pointSlot('filter'),
      textContent: 'kept',
    });
    element.append(kept);
    expect(kept.assignedSlot?.closest('li')).toBe(every(element, 'li')[2]);
    one(element, '.three .pass').focus();
    const observed = heard(element, 'observed');
    kept.append(document.createElement('dialog'));
    kept
      .querySelector('dialog')!
      .dispatchEvent(new KeyboardEvent('keydown', { key: '1', bubbles: true, composed: true }));
    expect(observed).toEqual([]);
    expect([input.accept, input.getAttribute('capture')]).toEqual(['image/*', 'environment']);
  });

  test('of a signed job can only be read', async () => {
    const element = await inspect(true);
    const observed = heard(element, 'observed');
    every(element, '.three button')[0]?.click();
    expect(observed).toEqual([]);
    expect(element.shadowRoot?.querySelector('input[type=file]')).toBeNull();
    expect(await axeFindings(element)).toEqual([]);
  });

  test('fits a phone, for gloves', async () => {
    const element = await inspect();
    expect(await sideways(element)).toEqual([]);
    expect(smallTargets(element, 'button, .add, textarea')).toEqual([]);
    expect(one(element, '.add input').getBoundingClientRect().width).toBeLessThanOrEqual(1);
  });
});
