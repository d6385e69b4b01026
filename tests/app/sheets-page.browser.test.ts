import { html } from 'lit';
import { userEvent } from 'vitest/browser';
import { afterEach, describe, expect, test } from 'vitest';
import '../../src/app/pages/sheets-page.ts';
import { DEMONSTRATION_SHEET } from '../../src/limits/demonstration-sheet.ts';
import type { TracedChart } from '../../src/ui/trace-result.ts';
import { axeFindings, clearPage, mount, textOf } from '../ui/mount.ts';
import { deep, deepAll, press, until } from './page.ts';
import { fakeServices, run } from './services.ts';

afterEach(() => {
  clearPage();
  location.hash = '';
});

describe('sheets-page', () => {
  test('shows the demonstration sheet as invented, and takes another away only after asking, with what is lost', async () => {
    const services = fakeServices();
    await services.sheets.bring(
      JSON.stringify({ ...DEMONSTRATION_SHEET, id: 'own', sheetId: 'own', title: 'Own sheet' }),
    );
    const page = await mount(html`<sheets-page .services=${services}></sheets-page>`);
    await until(() => textOf(page).includes('Own sheet'));
    expect(textOf(page)).toContain('invented numbers, for practice only');
    expect(await axeFindings(page)).toEqual([]);
    const withdraw = () =>
      deepAll<HTMLButtonElement>(page, 'button').find((each) => /withdraw/i.test(each.textContent ?? ''));
    const ask = async () => {
      withdraw()!.focus();
      await userEvent.keyboard('{Enter}');
      await until(() => deep(page, 'sheet-withdraw') !== null);
    };
    await ask();
    expect(textOf(page)).toContain(DEMONSTRATION_SHEET.readFrom);
    expect(textOf(page)).toContain('would be gone from this browser');
    expect(await axeFindings(page)).toEqual([]);
    // Enter once more, unread, keeps it.
    await userEvent.keyboard('{Enter}');
    await until(() => deep(page, 'm-sheet-list') !== null);
    expect((await services.sheets.list()).sheets.map(({ id }) => id)).toContain('own');
    await ask();
    press(page, 'Delete it');
    await until(() => !textOf(page).includes('Own sheet'));
    expect((await services.sheets.list()).sheets.map(({ id }) => id)).not.toContain('own');
  });

  test('a sheet opens with its chart and leads back', async () => {
    const page = await mount(html`<sheets-page .services=${fakeServices()}></sheets-page>`);
    await until(() => textOf(page).includes('Demonstration sheet'));
    press(page, 'Open');
    await until(() => deep(page, 'm-limit-chart') !== null);
    expect(textOf(page)).toContain('They belong to no real engine.');
    press(page, 'Back to the sheets');
    await until(() => textOf(page).includes('No limit sheets of your own yet'));
  });

  test('without a sheet of one’s own offers each way to a first one once, and nothing that needs one', async () => {
    const page = await mount(html`<sheets-page .services=${fakeServices()}></sheets-page>`);
    await until(() => textOf(page).includes('No limit sheets of your own yet'));
    const words = deepAll(page, 'button').map((each) => textOf(each));
    expect(words.filter((each) => /type|new sheet/i.test(each))).toHaveLength(1);
    expect(words.filter((each) => /trace/i.test(each))).toHaveLength(1);
    expect(words.filter((each) => /export all/i.test(each))).toEqual([]);
    expect(deep(page, 'm-serial-check')).toBeNull();
    expect(await axeFindings(page)).toEqual([]);
  });

  test('opens the place for columns, in focus, when columns are to be pasted', async () => {
    const page = await mount(html`<sheets-page .services=${fakeServices()}></sheets-page>`);
    await until(() => textOf(page).includes('Paste columns'));
    press(page, 'Paste columns');
    await until(() => deep(page, 'm-curve-paste') !== null);
    const field = deep<HTMLTextAreaElement>(page, 'textarea')!;
    await until(() => field.getRootNode() instanceof ShadowRoot && field.matches(':focus'));
    await userEvent.fill(field, '100\t90\n260\t330');
    await until(() => deepAll(deep(page, 'm-curve-paste')!, 'tbody tr').length === 2);
  });

  test('a chart printed in litres is traced in litres, and its points stand in litres in the form', async () => {
    const page = await mount(html`<sheets-page .services=${fakeServices()}></sheets-page>`);
    await until(() => textOf(page).includes('Trace a picture'));
    press(page, 'Trace a picture');
    await until(() => deep(page, 'trace-part') !== null);
    const unit = deepAll<HTMLSelectElement>(page, 'select').find((each) => each.value === 'mL')!;
    await userEvent.selectOptions(unit, 'L');
    const part = deep(page, 'trace-part')!;
    await until(() => part.getAttribute('volume-unit') === 'L');
    expect(await axeFindings(page)).toEqual([]);
    const detail: TracedChart = {
      // 1 L = 1000 mL: SI Brochure, 9th edition, table 8 (1 L = 1 dm³).
      curves: { failBelow: [[100, 250], [260, 1250]] }, // prettier-ignore
      uVolumeMl: { failBelow: 2 },
      notes: [],
    };
    part.dispatchEvent(new CustomEvent('chart-traced', { detail, bubbles: true, composed: true }));
    const cells = () => {
      const table = deep(page, 'm-curve-table');
      return table ? deepAll<HTMLInputElement>(table, 'input') : [];
    };
    await until(() => cells().length === 4);
    expect(cells().map(({ value }) => Number(value))).toEqual([100, 0.25, 260, 1.25]);
  });

  test('a withdrawn revision that a run stands on stays listed, and is brought back', async () => {
    const services = fakeServices();
    const own = { ...DEMONSTRATION_SHEET, id: 'own', sheetId: 'own', title: 'Own sheet', invented: false };
    await services.sheets.add([own]);
    await services.runs.put({ ...run(), sheet: own });
    const page = await mount(html`<sheets-page .services=${services}></sheets-page>`);
    await until(() => textOf(page).includes('Own sheet'));
    press(page, 'Withdraw: Own sheet');
    await until(() => textOf(page).includes('Taken out of choice'));
    expect((await services.sheets.list()).sheets.map(({ id }) => id)).not.toContain('own');
    expect(await axeFindings(page)).toEqual([]);
    press(page, 'Bring back: Own sheet');
    await until(() => !textOf(page).includes('Taken out of choice'));
    expect((await services.sheets.list()).sheets.map(({ id }) => id)).toContain('own');
  });

  test('confirming asks who compared the numbers, takes no empty name, and offers the last one the next time', async () => {
    const services = fakeServices();
    const own = { ...DEMONSTRATION_SHEET, id: 'own', sheetId: 'own', title: 'Own sheet', invented: false };
    await services.sheets.add([own]);
    const page = await mount(html`<sheets-page .services=${services}></sheets-page>`);
    await until(() => textOf(page).includes('Own sheet'));
    press(page, 'I checked it today: Own sheet');
    await until(() => deep(page, 'sheet-confirm') !== null);
    expect(textOf(page)).toContain(`They were read from: ${own.readFrom}`);
    expect(await axeFindings(page)).toEqual([]);
    press(page, 'They still hold');
    await until(() => textOf(page).includes('Say who compared them'));
    expect((await services.sheets.list()).sheets).toHaveLength(2);
    const name = () => deep(page, 'sheet-confirm')?.shadowRoot?.querySelector('input');
    await userEvent.fill(name()!, ' B. Second ');
    await userEvent.keyboard('{Enter}');
    await until(() => deep(page, 'sheet-confirm') === null);
    const kept = (await services.sheets.list()).sheets.find(({ replaces }) => replaces === 'own');
    expect(kept).toMatchObject({ confirmedBy: 'B. Second', confirmedOn: '2026-11-25', limits: own.limits });
    expect(services.settings.value.readerName).toBe('B. Second');
    await until(() => textOf(page).includes('replaced'));
    press(page, 'Confirm today: Own sheet');
    await until(() => name()?.value === 'B. Second');
    press(page, 'Not now');
    await until(() => deep(page, 'm-sheet-list') !== null);
  });

  test('a file is looked through before it is kept, and says which sheet holds then', async () => {
    const services = fakeServices();
    const page = await mount(html`<sheets-page .services=${services}></sheets-page>`);
    await until(() => textOf(page).includes('Demonstration sheet'));
    const own = {
      ...DEMONSTRATION_SHEET,
      id: 'own',
      sheetId: 'own',
      title: 'Own sheet',
      invented: false,
      engineFamily: 'Yard engine',
      serialRanges: [{ from: '100', to: '200' }],
    };
    const files = new DataTransfer();
    files.items.add(new File([JSON.stringify(own)], 'own.json'));
    const input = deep<HTMLInputElement>(page, 'input[type=file]')!;
    input.files = files.files;
    input.dispatchEvent(new Event('change'));
    await until(() => deep(page, 'm-import-preview') !== null);
    expect((await services.sheets.list()).sheets).toHaveLength(1);
    deep(page, 'm-import-preview')!.dispatchEvent(
      new CustomEvent('import-accepted', { detail: { ids: ['own'] }, bubbles: true, composed: true }),
    );
    await until(() => deep(page, 'm-serial-check') !== null && textOf(page).includes('Yard engine'));
    deep(page, 'm-serial-check')!.dispatchEvent(
      new CustomEvent('serial-asked', {
        detail: { serial: '150', onDate: '2026-11-25' },
        bubbles: true,
        composed: true,
      }),
    );
    await until(() => /holds for serial number 150/.test(textOf(page)));
  });

  test('says what is wrong with a file that is no sheet', async () => {
    const page = await mount(html`<sheets-page .services=${fakeServices()}></sheets-page>`);
    await until(() => textOf(page).includes('Demonstration sheet'));
    const files = new DataTransfer();
    files.items.add(new File(['{'], 'x.json'));
    const input = deep<HTMLInputElement>(page, 'input[type=file]')!;
    input.files = files.files;
    input.dispatchEvent(new Event('change'));
    await until(() => textOf(page).includes('This is not a limit sheet'));
    expect(await axeFindings(page)).toEqual([]);
  });
});
