import type { Page } from 'playwright';

/** Ticks every caution and starts listening. */
export async function acceptCautions(page: Page): Promise<void> {
  const cautions = page.locator('m-cautions');
  await cautions.waitFor();
  for (const box of await cautions.getByRole('checkbox').all()) await box.check({ force: true });
  await page.getByRole('button', { name: /Start listening/ }).click();
}

/** On the bench at 8×: both cranks, each let go by the bench after its time. */
export async function crankTwice(page: Page): Promise<void> {
  await page.getByRole('button', { name: '8×' }).click();
  for (const crank of ['first', 'second']) {
    const crankForMe = page.getByRole('button', { name: /for me/ });
    await crankForMe.waitFor();
    await page.waitForFunction(
      (which) => {
        const clock = document
          .querySelector('m-app')
          ?.shadowRoot?.querySelector('run-page')
          ?.shadowRoot?.querySelector('task-panel')
          ?.shadowRoot?.querySelector('m-crank-clock');
        return which === 'first' || clock?.view.state === 'resting';
      },
      crank,
      { timeout: 30_000 },
    );
    await crankForMe.click();
  }
  await page.locator('m-number-pad').waitFor({ timeout: 30_000 });
}

/** Waits until the fuel no longer rises (the drain line empties for some seconds), then reads the drawn vessel as an eye would, to half a mark. */
export async function readVessel(page: Page): Promise<number> {
  const vessel = page.locator('m-vessel');
  await vessel.waitFor();
  const level = () => vessel.evaluate((element) => (element as HTMLElement & { levelMl: number }).levelMl);
  let before = -1;
  let now = await level();
  while (Math.abs(now - before) > 0.05) {
    before = now;
    await page.waitForTimeout(300);
    now = await level();
  }
  return Math.round(now / 2.5) * 2.5;
}

export async function typeVolume(page: Page, volume: string): Promise<void> {
  await page.locator('m-number-pad').getByRole('textbox').fill(volume);
  await page.keyboard.press('Enter');
  await page.locator('m-verdict').waitFor();
}

/** The words of the verdict, as they stand on the screen. */
export const verdictText = (page: Page): Promise<string> =>
  page
    .locator('m-verdict')
    .evaluate((element) => element.shadowRoot?.textContent?.replace(/\s+/g, ' ').trim() ?? '');
