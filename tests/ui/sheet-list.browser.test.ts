import { html } from 'lit';
import { page, userEvent } from 'vitest/browser';
import { afterAll, afterEach, describe, expect, test } from 'vitest';
import '../../src/ui/sheet-import-preview.ts';
import '../../src/ui/sheet-list.ts';
import '../../src/ui/sheet-serial-check.ts';
import type { SerialAnswer } from '../../src/ui/sheet-serial-check.ts';
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
import { ANSWER, FAMILIES, IMPORT, NO_ANSWER } from './sheet-samples.ts';

afterEach(clearPage);
afterAll(() => page.viewport(414, 896)); // what the other files were started with

type List = HTMLElementTagNameMap['m-sheet-list'];
type Preview = HTMLElementTagNameMap['m-import-preview'];
type Check = HTMLElementTagNameMap['m-serial-check'];
const list = (families = FAMILIES) => mount<List>(html`<m-sheet-list .families=${families}></m-sheet-list>`);
const preview = (sheets = IMPORT) =>
  mount<Preview>(html`<m-import-preview .sheets=${sheets} file-name="limits.json"></m-import-preview>`);
const check = (...answers: readonly SerialAnswer[]) =>
  mount<Check>(
    html`<m-serial-check serial="P321" on-date="2026-11-25" .answers=${answers}></m-serial-check>`,
  );

describe('m-sheet-list', () => {
  test('shows the newest revision first, with what holds today and why', async () => {
    const element = await list();
    const [family] = every(element, '.sheets');
    expect([...family!.querySelectorAll('.name .label')].map(textOf)).toEqual([
      'Revision 4 · valid from 2027-01-01',
      'Revision 3 · valid from 2026-03-01',
      'Revision 1 · valid from 2024-01-01',
    ]);
    const holds = one(element, '.holds');
    expect(textOf(holds)).toContain('The newest revision that is valid today.');
  });

  test('says the confirmation by word and shape, and marks what is invented', async () => {
    const element = await list();
    const states = every(element, '.state').map(
      (state) => `${state.querySelector('m-icon')?.getAttribute('shape')}: ${textOf(state)}`,
    );
    expect(states).toEqual([
      'waiting: not valid yet',
      'marginal: never confirmed: check against current service information',
      'pass: in force today',
      'pass: confirmed 12 days ago by A. Reader',
      'ended: replaced',
      'marginal: check against current service information (confirmed 341 days ago)',
      'unsure: invented numbers, for practice only',
    ]);
  });

  test('draws the serial numbers as a bar, and says gaps and overlaps in words', async () => {
    const element = await list();
    expect(every(element, '.piece').map((piece) => [piece.className, textOf(piece)])).toEqual([
      ['piece held', 'revision 3 100 – 449'],
      ['piece overlap', 'revision 3 and revision 2b 450 – 500'],
      ['piece held', 'revision 2b 501 – 599'],
      ['piece gap', 'no sheet 600 – 699'],
      ['piece held', 'revision 3 700 – …'],
    ]);
    expect(every(element, '.odd').map(textOf)).toEqual([
      'revision 3 and revision 2b hold at once from P450 to P500.',
      'No sheet holds from P600 to P699.',
    ]);
  });

  test.each(['open', 'revise', 'confirm', 'export', 'withdraw'] as const)(
    'says sheet-%s with the id',
    async (act) => {
      const element = await list();
      const said = heard(element, `sheet-${act}`);
      const words = {
        open: 'Open',
        revise: 'New revision',
        confirm: 'Confirm today',
        export: 'Export',
        withdraw: 'Withdraw',
      }[act];
      one(element, `.holds [aria-label="${words}: Pump limits, revision 3"]`).focus();
      await userEvent.keyboard('{Enter}');
      expect(said).toEqual([{ id: 'p3' }]);
    },
  );

  test('a fixed sheet can only be opened and exported', async () => {
    const element = await list([FAMILIES[1]!]);
    expect(every(element, '.actions button').map(textOf)).toEqual(['Open', 'Export']);
  });

  test.each(['type', 'paste', 'trace'])('without own sheets it teaches: %s', async (way) => {
    const element = await list([FAMILIES[1]!]);
    const said = heard(element, 'sheet-wanted');
    every(element, '.way')[['type', 'paste', 'trace'].indexOf(way)]?.click();
    expect(said).toEqual([{ way }]);
    expect(textOf(element)).toContain('Meniscus brings no maker’s numbers.');
  });
});

describe('m-import-preview', () => {
  test('shows each sheet with what it is and what differs, old beside new', async () => {
    const element = await preview();
    expect(every(element, '.state').map(textOf)).toEqual([
      'differs from the one here',
      'new here',
      'the same as here',
      'cannot be taken',
    ]);
    expect(every(element, 'tbody tr').map(textOf)).toEqual([
      'valid from 2026-03-01 2027-01-01',
      'Pump return volume, highest allowed 525 mL 510 mL',
      'Pump return volume, where it holds not there Idle, raised rail pressure',
    ]);
    expect(textOf(element)).toContain('Two curves cross near 150 rpm.');
  });

  test('new and changed sheets are ticked; the others cannot be', async () => {
    const boxes = every<HTMLInputElement>(await preview(), 'input');
    expect(boxes.map(({ checked, disabled }) => [checked, disabled])).toEqual([[true, false], [true, false], [false, true], [false, true]]); // prettier-ignore
  });

  test('takes what is ticked, by keyboard', async () => {
    const element = await preview();
    const said = heard(element, 'import-accepted');
    await userEvent.tab();
    await userEvent.keyboard(' ');
    await userEvent.tab();
    await userEvent.tab();
    expect(textOf(element.shadowRoot!.activeElement!)).toBe('Take 1 sheet');
    await userEvent.keyboard('{Enter}');
    expect(said).toEqual([{ ids: ['n1'] }]);
  });

  test('takes nothing where nothing is ticked, and all can be left', async () => {
    const element = await preview(IMPORT.slice(2));
    const [said, left] = [heard(element, 'import-accepted'), heard(element, 'import-cancelled')];
    const [take, leave] = every(element, '.actions button');
    take?.click();
    leave?.click();
    expect([said.length, left.length]).toEqual([0, 1]);
    expect(take?.getAttribute('aria-disabled')).toBe('true');
  });

  test('a file without a sheet says so', async () => {
    expect(textOf(await preview([]))).toContain('There is no limit sheet in it.');
  });
});

describe('m-serial-check', () => {
  test('asks at every change, spaces at the ends left out', async () => {
    const element = await check();
    const said = heard(element, 'serial-asked');
    await userEvent.fill(one(element, '#serial'), ' P322 ');
    await userEvent.fill(one(element, '#day'), '2026-01-02');
    expect(said.at(-1)).toEqual({ serial: 'P322', onDate: '2026-01-02' });
    expect(textOf(element)).toContain('Type the serial number from the engine’s plate.');
  });

  test('says which sheet holds, why, and how fresh it is', async () => {
    const element = await check(ANSWER);
    const opened = heard(element, 'answer-opened');
    const text = textOf(one(element, '.answer'));
    expect(text).toContain(`One sheet holds For Crank delivery, Pump return volume ${ANSWER.why}`);
    expect(text).toContain('check against current service information (confirmed 104 days ago)');
    one(element, '.sheet button').click();
    expect(opened).toEqual([{ id: 'p3' }]);
    expect(one<HTMLDetailsElement>(element, 'details').open).toBe(false);
  });

  test('where none holds, says why none and why each other does not', async () => {
    const element = await check(NO_ANSWER);
    expect(textOf(one(element, '.answer'))).toContain(
      `No sheet holds For Supply pressure at idle ${NO_ANSWER.why}`,
    );
    expect(one<HTMLDetailsElement>(element, 'details').open).toBe(true);
    expect(textOf(one(element, 'details'))).toContain('P650 lies between its ranges');
  });

  test('gives each answer apart where the checks differ in it', async () => {
    const element = await check(ANSWER, NO_ANSWER);
    expect(every(element, '.head').map(textOf)).toEqual(['One sheet holds', 'No sheet holds']);
  });

  test('where several may hold, all are shown with the warnings', async () => {
    const warnings = [
      { message: 'The sheet names no serial numbers.', remedy: 'Compare it with the plate.' },
    ];
    const sheets = [...ANSWER.sheets, { ...ANSWER.sheets[0]!, id: 'q', title: 'Other limits' }];
    const element = await check({ ...ANSWER, kind: 'several', sheets, warnings, passedOver: [] });
    expect(textOf(element)).toContain('More than one may hold');
    expect(every(element, '.sheet')).toHaveLength(2);
    expect(textOf(one(element, 'm-problem'))).toContain('Compare it with the plate.');
    expect(element.shadowRoot?.querySelector('details')).toBeNull();
  });
});

describe.each([1280, 390])('at %d wide', (width) => {
  test.each<[string, () => Promise<HTMLElement>]>([
    ['the list', () => list()],
    ['the empty list', () => list([])],
    ['the import', () => preview()],
    ['the serial check', () => check(ANSWER, NO_ANSWER)],
    ['the serial check without an answer', () => check(NO_ANSWER)],
  ])('%s scrolls nothing sideways, is for gloves, and axe finds nothing', async (_, make) => {
    await page.viewport(width, 844);
    const element = await make();
    await drawn();
    await settled(element);
    expect(document.documentElement.scrollWidth).toBeLessThanOrEqual(width);
    if (width === 390) expect(await sideways(element)).toEqual([]);
    expect(smallTargets(element, 'button, label:has(input), summary')).toEqual([]);
    expect(await axeFindings(element)).toEqual([]);
  });
});
