import type { Page } from 'playwright';
import { encode } from 'jpeg-js';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { acceptCautions, crankTwice, verdictText } from './run-flow.ts';
import { noBrowser, openShop, type Shop } from './harness.ts';

if (noBrowser) console.log(`end to end: skipped, ${noBrowser}`);

const SHOTS = process.env['MENISCUS_SHOTS'];
const [WIDTH, HEIGHT] = [600, 900];
const TRUTH_ML = 317;
const place = (ml: number) => ({ x: 300, y: 850 - (800 * ml) / 500 });

/** A vessel from 0 to 500 mL, a mark each 5 mL, filled to `TRUTH_ML`, as a JPEG. */
function photo(): Buffer {
  const data = Buffer.alloc(4 * WIDTH * HEIGHT, 255);
  const paint = (x: number, y: number, [r, g, b]: readonly number[]) =>
    data.set([r!, g!, b!, 255], 4 * (y * WIDTH + x));
  for (let y = 0; y < HEIGHT; y += 1)
    for (let x = 200; x < 400; x += 1) if (y > place(TRUTH_ML).y && y < 850) paint(x, y, [218, 165, 32]);
  for (let ml = 0; ml <= 500; ml += 5)
    for (let x = 200; x < (ml % 50 === 0 ? 300 : 240); x += 1) paint(x, Math.round(place(ml).y), [0, 0, 0]);
  return encode({ width: WIDTH, height: HEIGHT, data }, 92).data;
}

const jpeg = (buffer: Buffer, name = 'vessel.jpg') => ({ name, mimeType: 'image/jpeg', buffer });
const chooser = (page: Page) => page.locator('photo-take input[type=file]:not([capture])');
const shot = (page: Page, name: string) => (SHOTS ? page.screenshot({ path: `${SHOTS}/${name}.png` }) : null);

async function toVessel(page: Page): Promise<void> {
  await page.getByRole('button', { name: 'Start on the bench' }).click();
  await acceptCautions(page);
  await crankTwice(page);
  await page.getByRole('button', { name: 'Read it off a photograph' }).click();
}

/** Where a place of the photograph is on the page, client pixels. */
const onPage = (page: Page, ml: number) =>
  page
    .locator('m-picture-board')
    .evaluate(
      (board, at) =>
        (
          board as unknown as { clientPlace(at: { x: number; y: number }): { x: number; y: number } }
        ).clientPlace(at),
      place(ml),
    );

async function point(page: Page, ml: number, touch: boolean): Promise<void> {
  const { x, y } = await onPage(page, ml);
  if (touch) await page.touchscreen.tap(x, y);
  else await page.mouse.click(x, y);
}

async function mark(page: Page, volumes: readonly number[], touch = false): Promise<void> {
  await page.locator('m-picture-board').waitFor();
  for (const [index, ml] of volumes.entries()) {
    await page.locator('m-picture-board').scrollIntoViewIfNeeded();
    await point(page, ml, touch);
    await page.locator(`[data-mark="${index}"]`).fill(String(ml));
  }
  await page.getByRole('button', { name: 'Liquid line' }).click();
  await page.locator('m-picture-board').scrollIntoViewIfNeeded();
  await point(page, TRUTH_ML, touch);
}

/** The volume that was entered, and the uncertainty of its photograph, as the evidence says them. */
async function evidence(page: Page): Promise<{ ml: number; uMl: number }> {
  const words = page.getByText(/Read off this photograph/);
  await words.waitFor();
  await page.locator('photo-strip img').waitFor();
  const [ml, uMl] = (await words.innerText()).match(/[\d.]+(?= mL)/g) ?? [];
  return { ml: Number(ml), uMl: Number(uMl) };
}

describe.skipIf(noBrowser !== null)('the vessel off a photograph', () => {
  let shop: Shop;
  beforeAll(async () => {
    shop = await openShop();
  });
  afterAll(() => shop?.close());

  test.each([
    ['with the mouse, light', [1280, 800], 'light', false],
    ['with a finger at 390 px, dark', [390, 844], 'dark', true],
  ] as const)(
    '%s: to a verdict, and all is there after a reload',
    async (name, [width, height], scheme, touch) => {
      const context = await shop.browser.newContext({
        viewport: { width, height },
        colorScheme: scheme,
        hasTouch: touch,
      });
      const { page, trouble } = await shop.visit({ context });
      await toVessel(page);
      await shot(page, `${name} take`);
      await chooser(page).setInputFiles(jpeg(photo()));
      await mark(page, [0, 500], touch);
      await shot(page, `${name} marks`);
      await page.getByRole('button', { name: 'Use this volume' }).click();
      await page.locator('m-verdict').waitFor();
      const read = await evidence(page);
      expect(Math.abs(read.ml - TRUTH_ML)).toBeLessThan(2.5);
      expect(read.uMl).toBeGreaterThan(0);
      expect(read.uMl).toBeLessThan(2.5);
      await shot(page, `${name} verdict`);
      const verdict = await verdictText(page);
      await page.reload();
      expect(await evidence(page)).toEqual(read);
      await expect.poll(() => verdictText(page)).toBe(verdict);
      await page.getByText('Show the arithmetic').click();
      await page
        .getByText(/reading off the photograph/)
        .first()
        .waitFor();
      expect(trouble).toEqual([]);
      await context.close();
    },
  );

  test('by keyboard alone', async () => {
    const { page } = await shop.visit();
    await toVessel(page);
    await chooser(page).setInputFiles(jpeg(photo()));
    const pane = page.locator('m-picture-board [role=application]');
    await pane.waitFor();
    let y = 450;
    const steer = async (ml: number) => {
      await pane.focus();
      const way = Math.round(place(ml).y - y);
      y += way;
      const key = way < 0 ? 'ArrowUp' : 'ArrowDown';
      const whole = Math.abs(way);
      for (let n = 0; n < Math.floor(whole / 50); n += 1) await page.keyboard.press(`Shift+${key}`);
      for (let n = 0; n < Math.floor((whole % 50) / 5); n += 1) await page.keyboard.press(key);
      for (let n = 0; n < whole % 5; n += 1) await page.keyboard.press(`Alt+${key}`);
      await page.keyboard.press('Enter');
    };
    for (const ml of [0, 500]) {
      await steer(ml);
      await page.keyboard.type(`${ml}`);
      await page.keyboard.press('Enter');
      await page.keyboard.press('Escape');
    }
    await page.getByRole('button', { name: 'Liquid line' }).focus();
    await page.keyboard.press('Enter');
    await steer(TRUTH_ML);
    await page.getByRole('button', { name: 'Use this volume' }).focus();
    await page.keyboard.press('Enter');
    await page.locator('m-verdict').waitFor();
    expect(Math.abs((await evidence(page)).ml - TRUTH_ML)).toBeLessThan(2.5);
  });

  test('what cannot be read is told, and nothing has changed', async () => {
    const { page } = await shop.visit();
    await toVessel(page);
    await chooser(page).setInputFiles(jpeg(Buffer.from('just words')));
    await page.getByText(/“vessel.jpg” is not a photograph/).waitFor();
    await chooser(page).setInputFiles(jpeg(Buffer.concat([photo(), Buffer.alloc(20_000_000)]), 'large.jpg'));
    await mark(page, [0, 200]);
    await page.getByText(/outside the marks \(0 to 200 mL\)/).waitFor();
    await page.getByRole('button', { name: 'Use this volume' }).click({ force: true });
    expect(await page.locator('m-verdict').count()).toBe(0);
    const kept = await page.evaluate(
      () =>
        new Promise((resolve, reject) => {
          const opening = indexedDB.open('meniscus');
          opening.onerror = reject;
          opening.onsuccess = () => {
            const counting = opening.result.transaction('photos').objectStore('photos').count();
            counting.onsuccess = () => resolve(counting.result);
          };
        }),
    );
    expect(kept).toBe(0);
  });
});
