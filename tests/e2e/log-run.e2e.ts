import { gunzipSync } from 'node:zlib';
import { existsSync, readFileSync } from 'node:fs';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { typeVolume, verdictText } from './run-flow.ts';
import { noBrowser, openShop, type Shop } from './harness.ts';

const RECORDING = new URL('../../../shared/data/j1939/truck-a-key-on-start-idle.log.gz', import.meta.url);
const hasRecording = existsSync(RECORDING);
if (!hasRecording) console.log('truck A on the page: skipped, the recordings are not here');

/** A logger's file as people have it: semicolons, decimal commas, a unit row, two cranks of 15 s at two lines a second. */
function germanLog(): string {
  const lines = ['Messung 12;;', 'Zeit;Motordrehzahl;Raildruck', 's;1/min;bar'];
  for (let half = 0; half <= 140; half++) {
    const seconds = half / 2;
    const cranking = (seconds >= 5 && seconds < 20) || (seconds >= 40 && seconds < 55);
    lines.push(
      `${seconds.toFixed(1).replace('.', ',')};${cranking ? `${176 + (half % 5)},5` : '0,0'};${cranking ? 790 : 20}`,
    );
  }
  return [...lines, 'Mittelwert;77,3;350'].join('\r\n');
}

const file = (name: string, content: string | Uint8Array) => ({
  name,
  mimeType: 'text/plain',
  buffer: Buffer.from(content),
});

describe.skipIf(noBrowser !== null)('a run from a dropped log', () => {
  let shop: Shop;
  beforeAll(async () => {
    shop = await openShop();
  });
  afterAll(() => shop?.close());

  test('a CSV is read, confirmed, its cranks found and graded, without a console error', async () => {
    const { page, trouble } = await shop.visit();
    await page.locator('drop-field input[type=file]').setInputFiles(file('lauf.csv', germanLog()));
    await page.getByText(/semicolons, decimal comma/).waitFor();
    await page.getByRole('button', { name: 'Use it like this' }).click();
    await page.getByText('2 cranks found in the log').waitFor();
    await typeVolume(page, '240');
    expect(await verdictText(page)).toMatch(/Marginal/i);
    expect(trouble).toEqual([]);
  });

  test('a file dropped on the page with the mouse is taken too', async () => {
    const { page } = await shop.visit();
    await page.locator('runs-page').waitFor();
    const transfer = await page.evaluateHandle((text) => {
      const data = new DataTransfer();
      data.items.add(new File([text], 'lauf.csv', { type: 'text/csv' }));
      return data;
    }, germanLog());
    await page.locator('drop-field .column').first().dispatchEvent('drop', { dataTransfer: transfer });
    await page.getByRole('button', { name: 'Use it like this' }).waitFor();
  });

  test('a file without engine speed says what was found and what is missing', async () => {
    const { page } = await shop.visit();
    const text = 'time;oil;wheel speed\n0;3;12\n1;3;13\n2;3;14\n3;3;15\n';
    await page.locator('drop-field input[type=file]').setInputFiles(file('no-speed.csv', text));
    await page
      .getByText(/choose the column that holds engine speed/i)
      .first()
      .waitFor();
    await page.getByRole('button', { name: 'Use it like this' }).click({ force: true });
    expect(page.url()).toContain('#/import');
  });

  test('a picture is refused with a remedy, and the runs are as they were', async () => {
    const { page, trouble } = await shop.visit();
    const png = Uint8Array.from([0x89, 0x50, 0x4e, 0x47, 13, 10, 26, 10, 0, 0, 0, 13, 1, 2, 3, 0, 255, 254]);
    await page.locator('drop-field input[type=file]').setInputFiles(file('photo.csv', png));
    await page.getByText('photo.csv cannot be used').waitFor();
    await page.getByRole('link', { name: 'Runs' }).click();
    await page.getByText('No run yet').waitFor();
    expect(trouble).toEqual([]);
  });

  test.skipIf(!hasRecording)(
    'a candump log of a real engine shows its one crank and that the engine started',
    async () => {
      const { page, trouble } = await shop.visit();
      const log = gunzipSync(readFileSync(RECORDING));
      await page.locator('drop-field input[type=file]').setInputFiles(file('truck-a.log', log));
      await page.getByText('1 crank found in the log').waitFor();
      const row = await page
        .locator('m-crank-table')
        .evaluate((table) => table.shadowRoot?.textContent ?? '');
      expect(row).toContain('engine started');
      expect(row).toMatch(/41\.5/);
      expect(trouble).toEqual([]);
    },
  );

  test('imported text is never markup', async () => {
    const { page, trouble } = await shop.visit();
    const text =
      'time,<img src=x onerror=alert(1)>,engine speed rpm\n0,1,0\n0.5,1,150\n1,1,151\n1.5,1,150\n2,1,0\n2.5,1,0\n';
    await page.locator('drop-field input[type=file]').setInputFiles(file('markup.csv', text));
    await page.getByRole('button', { name: 'Use it like this' }).waitFor();
    expect(await page.locator('import-page img').count()).toBe(0);
    expect(trouble).toEqual([]);
  });
});
