import { html } from 'lit';
import { page, userEvent } from 'vitest/browser';
import { afterAll, afterEach, describe, expect, test } from 'vitest';
import '../../src/ui/work-list.ts';
import { CAUSES, work, WORKS } from './job-page-samples.ts';
import { axeFindings, clearPage, every, heard, mount, one, settled, sideways, smallTargets, textOf } from './mount.ts'; // prettier-ignore

afterEach(clearPage);
afterAll(() => page.viewport(414, 896)); // what the other files were started with

type Works = HTMLElementTagNameMap['m-work-list'];
type Form = HTMLElementTagNameMap['m-work-form'];
const works = (items = WORKS, fixed = false) =>
  mount<Works>(
    html`<m-work-list
      .items=${items}
      .priming=${['Fill the filter.', 'Work the hand pump.']}
      .causes=${CAUSES}
      ?fixed=${fixed}
    ></m-work-list>`,
  );
const form = (station = '') =>
  mount<Form>(html`<m-work-form station=${station} .causes=${CAUSES}></m-work-form>`);

describe('m-work-list', () => {
  test('that is asked to begin opens the form with the focus in its first field, and again where it is open; signed, it does nothing', async () => {
    const list = await works();
    const focused = () => one<Form>(list, 'm-work-form').shadowRoot?.activeElement;
    await list.begin();
    expect(focused()).toBe(one(one<Form>(list, 'm-work-form'), 'input'));
    one<HTMLInputElement>(one<Form>(list, 'm-work-form'), '#part').focus();
    await list.begin();
    expect(focused()?.id).not.toBe('part');
    const signed = await works(WORKS, true);
    await signed.begin();
    await settled(signed);
    expect(every(signed, 'm-work-form')).toEqual([]);
  });

  test('shows works and runs in the order of time', async () => {
    const lines = every(await works(), '.time-line > li').map((line) => line.className.trim());
    expect(lines).toEqual(['run', 'work', 'work out', 'work', 'run']);
    expect(textOf(every(await works(), '.run')[0]!)).toBe(
      '2026-11-25 10:20 Pump return volume 612 mL ± 14 fail high',
    );
  });

  test('says where, what it was to put right, what is to be repeated, and reminds of priming', async () => {
    const text = textOf(one(await works(), '.work'));
    expect(text).toContain('Metering valve 12-34 replaced');
    expect(text).toContain('to put right: Metering valve sticks');
    expect(text).toContain('To be repeated: Pump return volume at raised rail pressure');
    expect(text).toContain('Prime before anything is run again Fill the filter. Work the hand pump.');
  });

  test('is told that it was primed, by keyboard', async () => {
    const element = await works();
    const said = heard(element, 'work-primed');
    one(element, '.prime button').focus();
    await userEvent.keyboard('{Enter}');
    expect(said).toEqual([{ workId: 'w1' }]);
    expect(every(element, '.prime')).toHaveLength(1);
    expect(textOf(one(element, '.primed'))).toBe('Primed 2026-11-25 11:00');
  });

  test('what is withdrawn stays, struck out, with its reason', async () => {
    const out = one(await works(), '.work.out');
    expect(textOf(out)).toContain('Withdrawn: Entered twice.');
    expect(out.querySelectorAll('button')).toHaveLength(0);
  });

  test('withdraws only with a reason', async () => {
    const element = await works([work({})]);
    const said = heard(element, 'work-withdrawn');
    one(element, '.withdraw').click();
    await element.updateComplete;
    await userEvent.keyboard('{Enter}');
    expect(said).toEqual([]);
    await userEvent.keyboard('Other job.{Enter}');
    expect(said).toEqual([{ workId: 'w1', reason: 'Other job.' }]);
  });

  test('adds work in a form that opens and gives the focus back', async () => {
    const element = await works([]);
    const said = heard(element, 'work-added');
    expect(textOf(element)).toContain('Replace one thing, note it here, prime');
    one(element, '.add').click();
    await settled(element);
    const opened = one<Form>(element, 'm-work-form');
    await userEvent.selectOptions(one<HTMLSelectElement>(opened, '#station'), 'rail');
    await userEvent.fill(one(opened, '#part'), 'Rail sensor');
    one(opened, '.primary').click();
    await settled(element);
    await element.updateComplete;
    expect(said).toEqual([{ station: 'rail', what: 'replaced', part: 'Rail sensor', cause: null, note: '' }]);
    expect(every(element, 'm-work-form')).toEqual([]);
    expect(textOf(element.shadowRoot!.activeElement!)).toBe('Work done');
  });

  test('a signed job shows all and changes nothing', async () => {
    expect(every(await works(WORKS, true), 'button')).toEqual([]);
  });
});

describe('m-work-form', () => {
  test('is filled by keyboard alone, with the causes of the chosen station', async () => {
    const element = await form('high-pressure pump');
    const said = heard(element, 'work-added');
    await userEvent.keyboard('{ArrowRight}{Tab}{Tab}Pump{Tab}{ArrowDown}{Tab}Swarf.{Tab}{Enter}');
    expect(every(element, '#cause option').map(textOf)).toEqual(['Not named', 'Worn pumping elements']);
    expect(said).toEqual([
      { station: 'high-pressure pump', what: 'repaired', part: 'Pump', cause: 'elements', note: 'Swarf.' },
    ]);
  });

  test('says what is missing and keeps nothing until then', async () => {
    const element = await form();
    const said = heard(element, 'work-added');
    one(element, '.primary').click();
    await element.updateComplete;
    expect(said).toEqual([]);
    expect(every(element, '.mistake').map(textOf)).toEqual([
      'Choose where it was done: it decides what is repeated.',
      'Type what it was, e.g. the part and its number.',
    ]);
    expect(element.shadowRoot!.activeElement!.id).toBe('station');
  });

  test('Escape leaves it', async () => {
    const element = await form();
    const dropped = heard(element, 'work-dropped');
    await userEvent.keyboard('{Escape}');
    expect(dropped).toHaveLength(1);
  });
});

test.each([1280, 390])(
  'at %d wide nothing scrolls sideways, all is for gloves, axe finds nothing',
  async (width) => {
    await page.viewport(width, 844);
    for (const element of [await works(), await form('metering valve')]) {
      if (width === 390) expect(await sideways(element)).toEqual([]);
      expect(smallTargets(element, 'button, .choices label, select, input#part')).toEqual([]);
      expect(await axeFindings(element)).toEqual([]);
    }
  },
);
