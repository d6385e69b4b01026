import { readFileSync } from 'node:fs';
import type { Locator, Page } from 'playwright';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { DEMONSTRATION_SHEET } from '../../src/limits/demonstration-sheet.ts';
import { readExchange, writeExchange } from '../../src/limits/exchange.ts';
import type { LimitSheet } from '../../src/limits/limit-sheet.ts';
import type { Pixel } from '../../src/tracing/pixel.ts';
import { CHART } from '../tracing/draw-chart.ts';
import { chartPhoto, onBoard, steer, type ChartPhoto } from './trace-flow.ts';
import { acceptCautions, typeVolume, verdictText } from './run-flow.ts';
import { noBrowser, openShop, type Shop } from './harness.ts';

if (noBrowser) console.log(`end to end: skipped, ${noBrowser}`);

const TITLE = 'Delivery of pump MX';
const FULL_SCALE_ML = 600;
const [FAIL, PASS] = CHART.curves;

/** A sheet as another shop would hand it over; its numbers are made up by the test. */
const OWN: LimitSheet = {
  ...DEMONSTRATION_SHEET,
  id: 'own',
  sheetId: 'own',
  title: TITLE,
  invented: false,
  confirmedBy: '',
  confirmedOn: null,
};
const bring = (page: Page, name: string, text: string) =>
  page
    .locator('sheets-page input[type=file]')
    .setInputFiles({ name, mimeType: 'application/json', buffer: Buffer.from(text) });
const fill = (page: Page, label: string, text: string) => page.getByLabel(label, { exact: true }).fill(text);

/** What the sheet is: its name, its engines with a gap between two ranges, and where it was read. */
async function typeOrigin(page: Page): Promise<void> {
  await fill(page, 'Name of the sheet', TITLE);
  await fill(page, 'Engine family', 'MX pump');
  await fill(page, 'Revision', '1');
  await fill(page, 'Where the numbers were read', 'Drawn by a test, page 1');
  await fill(page, 'Read or last compared by', 'A. Reader');
  const range = (at: number) => page.getByRole('listitem', { name: `Serial range ${at}` });
  await range(1).getByLabel('Begins with').fill('MX');
  await range(1).getByLabel('From').fill('1000');
  await range(1).getByLabel('To').fill('1499');
  await page.getByRole('button', { name: 'One more range' }).click();
  await range(2).getByLabel('Begins with').fill('MX');
  await range(2).getByLabel('From').fill('1600');
  await page.getByText('MX1000 to MX1499, both included; and MX1600 and every later one').waitFor();
}

async function typeWindow(page: Page, min: string, max: string): Promise<Locator> {
  await page.getByRole('button', { name: 'A lowest and highest value' }).click();
  const limit = page.locator('m-sheet-limit').last();
  await limit.getByLabel('Check', { exact: true }).selectOption({ label: 'Supply pressure while cranking' });
  await limit.getByLabel('Unit as printed').selectOption({ label: 'psi' });
  await limit.getByLabel('Lowest allowed').fill(min);
  await limit.getByLabel('Highest allowed').fill(max);
  return limit;
}

/** The lower boundary with the mouse: corners, two marks a scale, five clicks. */
async function traceByMouse(page: Page, photo: ChartPhoto): Promise<void> {
  await page.locator('trace-part input[type=file]').setInputFiles(photo.file);
  const click = async (at: Pixel) => {
    const { x, y } = await onBoard(page, at);
    await page.mouse.click(x, y);
  };
  await page.locator('m-picture-board').waitFor();
  await page.locator('m-picture-board').scrollIntoViewIfNeeded();
  for (const corner of photo.corners) await click(corner);
  await page.getByRole('button', { name: 'Square it up' }).click();
  await page.locator('[data-axis=x]').waitFor();
  await page.locator('m-chart-trace m-progress').waitFor({ state: 'detached' });
  for (const [index, speed] of [100, 260].entries()) {
    await click(photo.squared(speed, 110));
    await page.locator(`[data-mark="${index}"]`).fill(`${speed}`);
  }
  await page.locator('[data-axis=y]').click();
  for (const [index, volume] of [100, 700].entries()) {
    await click(photo.squared(105, volume));
    await page.locator(`[data-mark="${index}"]`).fill(`${volume}`);
  }
  await page.getByRole('button', { name: 'Trace the curves' }).click();
  for (const speed of [104, 140, 180, 220, 256]) await click(photo.squared(speed, FAIL!.volumeAt(speed)));
}

/** The upper boundary with keys alone: the cross hair is steered, Enter sets. */
async function traceByKeys(page: Page, photo: ChartPhoto): Promise<void> {
  await page.locator('[data-curve=passAbove]').focus();
  await page.keyboard.press('Enter');
  // The mouse goes away, so that it points at nothing.
  await page.mouse.move(0, 0);
  await page.locator('m-picture-board [role=application]').focus();
  let at = photo.middle;
  for (const speed of [104, 140, 180, 220, 256]) {
    at = await steer(page, at, photo.squared(speed, PASS!.volumeAt(speed)));
    await page.keyboard.press('Enter');
  }
  await page.getByRole('button', { name: 'Use these boundaries' }).focus();
  await page.keyboard.press('Enter');
}

/** The rows of the boundary that is open in the editor. */
async function tablePoints(page: Page): Promise<readonly (readonly [number, number])[]> {
  const cells = await page.locator('m-curve-table input').all();
  const values = await Promise.all(cells.map(async (cell) => Number(await cell.inputValue())));
  return values.flatMap((value, index) => (index % 2 === 0 ? [[value, values[index + 1]!] as const] : []));
}

/** Cranks from a stopwatch and a tachometer, at 180 rpm, graded on the sheet that is offered with these words. */
async function gradeTyped(page: Page, sheet: string, volume: string): Promise<string> {
  await page.getByRole('link', { name: 'Runs', exact: true }).click();
  await page.getByLabel('Limit sheet for the next run').selectOption({ label: sheet });
  await page.getByText('Or type the cranks').click();
  const cranks = page.locator('m-typed-cranks');
  await cranks.getByRole('button', { name: 'One more crank' }).click();
  for (const at of [0, 1]) {
    await cranks.locator(`#seconds-${at}`).fill('15');
    await cranks.locator(`#rpm-${at}`).fill('180');
  }
  await cranks.getByRole('button', { name: 'Use these cranks' }).click();
  await acceptCautions(page);
  await typeVolume(page, volume);
  return page.url();
}

const subtitle = (page: Page) =>
  page
    .locator('run-page')
    .getByText(new RegExp(`${TITLE}, revision`))
    .first();

describe.skipIf(noBrowser !== null)('a limit sheet of one’s own', () => {
  let shop: Shop;
  beforeAll(async () => {
    shop = await openShop();
  });
  afterAll(() => shop?.close());

  test('typed and traced by mouse and keys, it grades a run; its revision grades the next, and the old run keeps its own', async () => {
    const { page, trouble } = await shop.visit({ at: '#/sheets' });
    await page.getByRole('button', { name: /Type the numbers/ }).click();
    await typeOrigin(page);
    const window = await typeWindow(page, '40', '');
    // 40 psi × 6.894757 kPa/psi = 275.79 kPa: NIST SP 811 (2008), table B.8.
    await window.getByText('40 psi = 275.8 kPa').waitFor();
    const photo = chartPhoto();
    await page.getByRole('button', { name: 'Trace a picture of the chart' }).click();
    await traceByMouse(page, photo);
    await traceByKeys(page, photo);
    for (const [tab, curve] of [
      [/^Fail below/, FAIL!],
      [/^Pass above/, PASS!],
    ] as const) {
      await page.getByRole('tab', { name: tab }).click();
      const points = await tablePoints(page);
      expect(points).toHaveLength(5);
      for (const [speed, volume] of points)
        expect(Math.abs(volume - curve.volumeAt(speed))).toBeLessThan(0.01 * FULL_SCALE_ML);
    }
    await page.getByRole('button', { name: 'Keep this sheet' }).click();
    await page.getByRole('heading', { name: TITLE }).waitFor();
    // At 180 rpm the curves were drawn at 306.5 mL and 414.3 mL: 360 mL lies between them.
    const first = await gradeTyped(page, `${TITLE}, revision 1`, '360');
    expect(await verdictText(page)).toMatch(/marginal/i);

    await page.getByRole('link', { name: 'Limit sheets' }).click();
    await page.getByRole('button', { name: `New revision: ${TITLE}, revision 1` }).click();
    await page.getByRole('tab', { name: /^Pass above/ }).click();
    for (const [index, [, volume]] of (await tablePoints(page)).entries())
      await page.locator(`#volume-${index}`).fill((volume - 75).toFixed(1));
    await page.getByRole('button', { name: 'Keep this sheet' }).click();
    await page.getByText(/Revision 2 ·/).waitFor();
    const second = await gradeTyped(page, `${TITLE}, revision 2`, '360');
    expect(await verdictText(page)).toMatch(/^pass/i);
    expect(await subtitle(page).innerText()).toContain('revision 2');
    expect(second).not.toBe(first);
    await page.goto(first);
    await page.locator('m-verdict').waitFor();
    expect(await subtitle(page).innerText()).toContain('revision 1');
    expect(await verdictText(page)).toMatch(/marginal/i);
    expect(trouble).toEqual([]);
  });

  test('is confirmed by name, handed on as a file, and a changed file is looked through before anything changes', async () => {
    const { page, trouble } = await shop.visit({ at: '#/sheets' });
    await bring(page, 'own.json', writeExchange([OWN]));
    await page.getByRole('button', { name: 'Take 1 sheet' }).click();
    await page.getByRole('button', { name: `I checked it today: ${TITLE}, revision 1` }).click();
    await page.getByLabel('Who compared them today?').fill('B. Second');
    await page.getByRole('button', { name: 'They still hold' }).click();
    await page.getByText(/confirmed today by B\. Second/).waitFor();
    const downloading = page.waitForEvent('download');
    await page.getByRole('button', { name: `Export: ${TITLE}, revision 2` }).click();
    const [confirmed] = readExchange(readFileSync(await (await downloading).path(), 'utf8')).sheets;
    expect(confirmed).toMatchObject({ confirmedBy: 'B. Second', replaces: OWN.id, limits: OWN.limits });

    const changed = { ...confirmed!, id: 'next', revision: '3', replaces: confirmed!.id, readFrom: 'Page 2' };
    await bring(page, 'changed.json', writeExchange([changed]));
    const preview = page.locator('m-import-preview');
    await preview.getByRole('row', { name: /Page 2/ }).waitFor();
    await preview.getByRole('button', { name: 'Leave all' }).click();
    await page.getByText(/Revision 2 ·/).waitFor();
    expect(await page.getByText(/Revision 3 ·/).count()).toBe(0);
    await bring(page, 'changed.json', writeExchange([changed]));
    await preview.getByRole('button', { name: 'Take 1 sheet' }).click();
    await page.getByText(/Revision 3 ·/).waitFor();

    await bring(page, 'letter.json', 'Dear shop,');
    await page.getByText(/This is not a limit sheet/).waitFor();
    await preview.getByRole('button', { name: 'Leave all' }).click();
    await bring(page, 'same-id.json', writeExchange([{ ...OWN, readFrom: 'elsewhere' }]));
    await page.getByText(/A revision of this id is kept here with other content, and it stays/).waitFor();
    expect(trouble).toEqual([]);
  });

  test('is not kept while curves cross or the highest value lies below the lowest, and each place is named', async () => {
    const { page, trouble } = await shop.visit({ at: '#/sheets' });
    await page.getByRole('button', { name: /Paste columns/ }).click();
    await typeOrigin(page);
    await page.locator('m-curve-paste textarea').fill('100\t200\t150\n200\t300\t400');
    await page
      .locator('m-curve-paste')
      .getByRole('button', { name: /^Take \d/ })
      .click();
    const window = await typeWindow(page, '50', '40');
    await window.getByText('The highest value is below the lowest.').waitFor();
    await page.getByRole('button', { name: 'Keep this sheet' }).click();
    await page.getByText(/fields? needs? a look/).waitFor();
    await page.getByRole('tab', { name: /^Pass above/ }).click();
    await page.getByText(/Pass above lies 50 mL below fail below near 100 rpm/).waitFor();
    await page.getByRole('button', { name: 'Leave without keeping it' }).click();
    await page.getByText('No limit sheets of your own yet').waitFor();
    expect(trouble).toEqual([]);
  });
});
