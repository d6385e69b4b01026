import { html } from 'lit';
import { page, userEvent } from 'vitest/browser';
import { afterAll, afterEach, describe, expect, test } from 'vitest';
import { EMPTY_SHEET, type SheetDraft } from '../../src/ui/sheet-draft.ts';
import '../../src/ui/sheet-form.ts';
import type { SheetChanged } from '../../src/ui/sheet-form.ts';
import {
  axeFindings,
  clearPage,
  drawn,
  every,
  heard,
  mount,
  one,
  settled,
  sideways,
  smallTargets,
  textOf,
} from './mount.ts';
import { CHECKS, SHEET } from './sheet-samples.ts';

afterEach(clearPage);
afterAll(() => page.viewport(414, 896)); // what the other files were started with

type Form = HTMLElementTagNameMap['m-sheet-form'];
async function form(draft: SheetDraft = SHEET): Promise<Form> {
  const element = await mount<Form>(html`<m-sheet-form .draft=${draft} .checks=${CHECKS}></m-sheet-form>`);
  await drawn();
  await settled(element);
  return element;
}
const changes = (element: Form) => heard(element, 'sheet-changed') as SheetChanged[];
const button = (element: Element, name: string) =>
  every(element, 'button').find((each) => textOf(each).includes(name))!;
const field = (element: Form, id: string) => one<HTMLInputElement>(element, `[id="${id}"]`);
const limits = (element: Form) => every(element, 'm-sheet-limit');

describe('m-sheet-form', () => {
  test('is typed by keyboard and says the whole draft at each change', async () => {
    const element = await form(EMPTY_SHEET);
    const said = changes(element);
    await userEvent.tab();
    await userEvent.keyboard('Pump limits');
    await userEvent.tab();
    await userEvent.keyboard('Practice engine');
    await userEvent.tab();
    await userEvent.keyboard('3');
    expect(said.at(-1)?.draft).toEqual({
      ...EMPTY_SHEET,
      title: 'Pump limits',
      engineFamily: 'Practice engine',
      revision: '3',
    });
    expect(said.at(-1)?.problems.map((each) => each.field)).toEqual([
      'validFrom',
      'readFrom',
      'readBy',
      'limits',
    ]);
  });

  test('says what is missing at a field once it was left, not before', async () => {
    const element = await form(EMPTY_SHEET);
    expect(every(element, '.mistake')).toEqual([]);
    field(element, 'engineFamily').focus();
    await userEvent.tab();
    await settled(element);
    expect(every(element, '.mistake').map(textOf)).toEqual(['Say which engines it is for.']);
  });

  test('is not kept while something is wrong: every field says it, and the first is gone to', async () => {
    const element = await form(EMPTY_SHEET);
    const saved = heard(element, 'sheet-saved');
    button(element, 'Keep').click();
    await expect.poll(() => element.shadowRoot?.activeElement?.id).toBe('title');
    expect(saved).toEqual([]);
    expect(textOf(element)).toContain('7 fields need a look.');
    expect(textOf(one(element, '#says-limits'))).toBe('A sheet needs at least one limit.');
    expect(await axeFindings(element)).toEqual([]);
  });

  test('hands over a sheet without problems', async () => {
    const element = await form();
    const saved = heard(element, 'sheet-saved');
    button(element, 'Keep').click();
    await expect.poll(() => saved.length).toBe(1);
    expect(saved[0]).toEqual({ draft: SHEET, problems: [] });
  });

  test('shows what the app found besides, and is not kept with it', async () => {
    const element = await form();
    const saved = heard(element, 'sheet-saved');
    element.problems = [{ field: 'revision', words: 'There is a revision 3 already.' }];
    button(element, 'Keep').click();
    await expect.poll(() => element.shadowRoot?.activeElement?.id).toBe('revision');
    expect(textOf(one(element, '#says-revision'))).toBe('There is a revision 3 already.');
    expect(saved).toEqual([]);
  });
});

describe('m-sheet-form and serial ranges', () => {
  test('ranges are said in words, each and all together', async () => {
    const element = await form();
    expect(every(element, '.covers').map(textOf)).toEqual([
      'P100 to P500, both included',
      'Q2000 and every later one that begins with Q',
    ]);
    expect(textOf(one(element, '.all'))).toBe(
      'Holds for P100 to P500, both included; and Q2000 and every later one that begins with Q.',
    );
  });

  test('a range is added, changed and removed', async () => {
    const element = await form();
    const said = changes(element);
    button(element, 'One more range').click();
    await settled(element);
    await userEvent.fill(field(element, 'ranges.2.from'), '7');
    expect(said.at(-1)?.draft.ranges[2]).toEqual({ prefix: '', from: '7', to: '' });
    every(element, '[aria-label="Remove serial range 1"]')[0]?.click();
    expect(said.at(-1)?.draft.ranges.map(({ from }) => from)).toEqual(['2000', '7']);
  });

  test('a range that ends before it begins says so at its end', async () => {
    const element = await form();
    await userEvent.fill(field(element, 'ranges.0.to'), '9');
    field(element, 'revision').focus();
    await settled(element);
    expect(textOf(one(element, '[id="says-ranges.0.to"]'))).toContain('ends before it begins');
  });
});

describe('m-sheet-form and limits', () => {
  test('a window in ounces is shown in mL too', async () => {
    const [window] = limits(await form());
    // 4 and 18 times 29.5735295625 mL (NIST SP 811).
    expect(textOf(window!)).toContain('4 US fl oz = 118.3 mL');
    expect(textOf(window!)).toContain('18 US fl oz = 532.3 mL');
  });

  test('another printed unit converts what was typed', async () => {
    const element = await form();
    const said = changes(element);
    await userEvent.selectOptions(one(limits(element)[0]!, '#unit'), 'mL');
    expect(said.at(-1)?.draft.limits[0]).toMatchObject({ unit: 'mL', min: '118.294', max: '532.324' }); // 118.2941…, 532.3235…
    await userEvent.selectOptions(one(limits(element)[1]!, '#unit'), 'L');
    expect(said.at(-1)?.draft.limits[1]).toMatchObject({
      unit: 'L',
      curves: { failBelow: [{ speed: '100', volume: '0.18' }, {}, {}] },
    });
  });

  test('a chart opens the curve editor, and its changes are the draft’s', async () => {
    const element = await form();
    const said = changes(element);
    const editor = one(limits(element)[1]!, 'm-curve-editor');
    await userEvent.fill(one<HTMLInputElement>(one(editor, 'm-curve-table'), '#volume-0'), '181');
    expect(said.at(-1)?.draft.limits[1]).toMatchObject({
      curves: { failBelow: [{ speed: '100', volume: '181' }, {}, {}] },
    });
    await settled(element);
    button(editor, 'Undo').click();
    expect(said.at(-1)?.draft.limits[1]).toEqual(SHEET.limits[1]);
  });

  test('limits of both kinds are added for a check of the procedure, and removed', async () => {
    const element = await form({ ...SHEET, limits: [] });
    const said = changes(element);
    button(element, 'A lowest and highest value').click();
    button(element, 'A chart of volume over speed').click();
    await settled(element);
    await userEvent.selectOptions(one(limits(element)[0]!, '#check'), 'pump-return');
    expect(said.at(-1)?.draft.limits.map(({ kind, check, title }) => [kind, check, title])).toEqual([
      ['window', 'pump-return', 'Pump return volume'],
      ['speed chart', '', ''],
    ]);
    button(limits(element)[0]!, 'Remove').click();
    expect(said.at(-1)?.draft.limits.map(({ kind }) => kind)).toEqual(['speed chart']);
  });

  test('a highest value below the lowest is said at once', async () => {
    const element = await form();
    await userEvent.fill(one<HTMLInputElement>(limits(element)[0]!, '#max'), '3');
    await settled(element);
    expect(textOf(one(limits(element)[0]!, '#says-max'))).toBe('The highest value is below the lowest.');
    expect(one(limits(element)[0]!, '#max').getAttribute('aria-invalid')).toBe('true');
  });
});

describe('m-sheet-form, how it looks', () => {
  test.each([1280, 390])(
    'at %d wide nothing scrolls sideways, targets are for gloves, axe finds nothing',
    async (width) => {
      await page.viewport(width, 844);
      const element = await form();
      expect(document.documentElement.scrollWidth).toBeLessThanOrEqual(width);
      expect(smallTargets(element, 'button, input')).toEqual([]);
      expect(smallTargets(limits(element)[0]!, 'button, input, select')).toEqual([]);
      if (width === 390) {
        expect(await sideways(element)).toEqual([]);
        for (const limit of limits(element)) expect(await sideways(limit, 334)).toEqual([]);
      }
      expect(await axeFindings(element)).toEqual([]);
    },
  );
});
