import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { acceptCautions, crankTwice, readVessel, typeVolume, verdictText } from './run-flow.ts';
import { noBrowser, openShop, type Shop } from './harness.ts';

if (noBrowser) console.log(`end to end: skipped, ${noBrowser}`);

describe.skipIf(noBrowser !== null)('a run on the bench', () => {
  let shop: Shop;
  beforeAll(async () => {
    shop = await openShop();
  });
  afterAll(() => shop?.close());

  test('first visit, two cranks, the drawn vessel read and typed, a verdict: in under a minute, without a console error', async () => {
    const started = performance.now();
    const { page, trouble } = await shop.visit();
    await page.getByRole('button', { name: 'Start on the bench' }).click();
    await acceptCautions(page);
    await crankTwice(page);
    const volume = await readVessel(page);
    await typeVolume(page, String(volume));
    expect(await verdictText(page)).toMatch(/Pass/i);
    expect((performance.now() - started) / 1000).toBeLessThan(60);
    expect(trouble).toEqual([]);
  });

  test('a kept run opens again with the same verdict, and replays to it', async () => {
    const { page, trouble } = await shop.visit();
    await page.getByLabel('Engine on the bench').selectOption('worn');
    await page.getByRole('button', { name: 'Start on the bench' }).click();
    await acceptCautions(page);
    await crankTwice(page);
    await typeVolume(page, String(await readVessel(page)));
    const first = await verdictText(page);
    expect(first).toMatch(/Marginal/i);

    await page.getByText('What was entered, in order').waitFor();
    await page.getByRole('link', { name: 'Runs' }).click();
    const kept = page.locator('run-list a');
    await kept.first().waitFor();
    expect(await kept.first().textContent()).toContain('marginal');
    await page.reload();
    await kept.first().click();
    await page.getByText(/Read again from the recording: the same verdict/).waitFor({ timeout: 20_000 });
    expect(await verdictText(page)).toBe(first);

    await page.getByText('Replay the recording').click();
    await page.getByRole('button', { name: '32×' }).click();
    await page.getByText('Replaying the recording').waitFor();
    await page.getByText(/Read again from the recording: the same verdict/).waitFor({ timeout: 60_000 });
    expect(await verdictText(page)).toBe(first);
    expect(trouble).toEqual([]);
  });

  test('a corrected volume keeps what was typed before', async () => {
    const { page, trouble } = await shop.visit();
    await page.getByLabel('Engine on the bench').selectOption('leaking');
    await page.getByRole('button', { name: 'Start on the bench' }).click();
    await acceptCautions(page);
    await crankTwice(page);
    await typeVolume(page, '400');
    expect(await verdictText(page)).toMatch(/Pass/i);
    await page.getByRole('button', { name: 'Correct the volume' }).click();
    await typeVolume(page, '137,5');
    await expect.poll(() => verdictText(page)).toMatch(/Fail low/i);
    await page.getByText('What was entered, in order').click();
    const entries = await page
      .locator('evidence-panel')
      .evaluate((panel) => panel.shadowRoot?.textContent ?? '');
    expect(entries).toContain('volume 400 mL');
    expect(entries).toContain('volume 137.5 mL');
    expect(trouble).toEqual([]);
  });

  test('a volume that the vessel cannot hold is refused with a reason and loses nothing', async () => {
    const { page } = await shop.visit();
    await page.getByRole('button', { name: 'Start on the bench' }).click();
    await acceptCautions(page);
    await crankTwice(page);
    await page.locator('m-number-pad').getByRole('textbox').fill('900');
    await page.keyboard.press('Enter');
    const pad = page.locator('m-number-pad');
    await expect.poll(() => pad.evaluate((element) => element.shadowRoot?.textContent)).toMatch(/500/);
    expect(await page.locator('m-verdict').count()).toBe(0);
    await typeVolume(page, '312.5');
    expect(await verdictText(page)).toMatch(/Pass/i);
  });

  test('an engine that fires is not graded, and says so', async () => {
    const { page } = await shop.visit();
    await page.getByLabel('Engine on the bench').selectOption('engine-fires');
    await page.getByRole('button', { name: 'Start on the bench' }).click();
    await acceptCautions(page);
    await page.getByRole('button', { name: '8×' }).click();
    await page.getByRole('button', { name: /Turn the starter/ }).click();
    await page.getByText('The engine is running').waitFor({ timeout: 20_000 });
    await page.getByRole('button', { name: /Release the starter/ }).click();
    await page.getByRole('button', { name: /Done cranking/ }).click();
    await typeVolume(page, '300');
    expect(await verdictText(page)).toMatch(/Not valid/i);
    await page
      .locator('m-verdict')
      .getByText(/engine started/i)
      .first()
      .waitFor();
  });
});
