import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, test } from 'vitest';
import type { Page } from 'playwright';
import { openBridgeServer, type BridgeServer } from './bridge-server.ts';
import { noBrowser, openShop, type Shop, type Visit } from './harness.ts';
import { acceptCautions, typeVolume, verdictText } from './run-flow.ts';

if (noBrowser) console.log(`Live sources end to end are skipped: ${noBrowser}.`);

/** What a large numeral shows now, NaN while it shows none. */
const numeral = (page: Page, label: string) =>
  page.evaluate((wanted) => {
    const find = (root: ParentNode): Element[] => [
      ...root.querySelectorAll('m-value-tile'),
      ...[...root.querySelectorAll('*')].flatMap(({ shadowRoot }) => (shadowRoot ? find(shadowRoot) : [])),
    ];
    const tile = find(document).find((each) => each.getAttribute('label') === wanted);
    return Number(tile?.getAttribute('value') || NaN);
  }, label);

async function numeralOver(page: Page, label: string, least: number): Promise<void> {
  const startMs = Date.now();
  while (!((await numeral(page, label)) > least)) {
    if (Date.now() - startMs > 20_000) throw new Error(`${label} never rose over ${least}`);
    await page.waitForTimeout(50);
  }
}

describe.skipIf(noBrowser !== null)('a bridge on the network', () => {
  let shop: Shop;
  let bridge: BridgeServer;
  beforeAll(async () => void (shop = await openShop()));
  afterAll(() => shop?.close());
  beforeEach(async () => void (bridge = await openBridgeServer()));
  afterEach(() => bridge.close());

  /** From the first page to a run that listens to the bridge. @returns ms from the last click to the first engine speed. */
  async function connect({ page }: Visit): Promise<number> {
    await page.getByText('Other ways to connect').click();
    await page
      .getByRole('button', { name: /network/i })
      .first()
      .click();
    await page.getByLabel('Address').fill(bridge.address);
    await page.getByRole('button', { name: 'Connect', exact: true }).click();
    await page.locator('m-cautions').waitFor();
    for (const box of await page.locator('m-cautions').getByRole('checkbox').all())
      await box.check({ force: true });
    bridge.turn({ keyOn: true, starterOn: true });
    await page.waitForTimeout(1500); // the engine turns and its controller has found its place
    const startMs = Date.now();
    await page.getByRole('button', { name: /Start listening/ }).click();
    await numeralOver(page, 'Engine speed', 50);
    return Date.now() - startMs;
  }

  test('is found, opened listen-only, and shows engine speed', async () => {
    const visit = await shop.visit();
    const tookMs = await connect(visit);
    console.log(`click to first engine speed: ${tookMs} ms`);
    expect(bridge.heard).toContain('L');
    expect(bridge.heard).not.toContain('O');
    expect(visit.trouble.filter((line) => !line.includes(bridge.address))).toEqual([]);
  });

  test('that goes away in the run is waited for; the run goes on and says so, in one recording', async () => {
    const visit = await shop.visit();
    await connect(visit);
    bridge.goAway();
    await visit.page
      .getByText(/opening again/)
      .first()
      .waitFor();
    bridge.comeBack();
    await visit.page.getByText(/Live/).first().waitFor({ timeout: 15_000 });
    await numeralOver(visit.page, 'Engine speed', 50);
    await visit.page
      .getByText(/Nothing was received for/)
      .first()
      .waitFor();
    await visit.page.waitForTimeout(1200); // what was received is on disk within a second
    await visit.page.reload();
    await visit.page
      .getByText(/Nothing was received for/)
      .first()
      .waitFor({ timeout: 15_000 });
  });

  test('is remembered: the second visit is one click', async () => {
    const visit = await shop.visit();
    await connect(visit);
    await visit.page.getByRole('link', { name: 'Runs' }).click();
    const { page } = visit;
    await page
      .getByRole('button', { name: /Connect/ })
      .first()
      .click();
    await acceptCautionsTimed(page);
  });

  async function acceptCautionsTimed(page: Page): Promise<void> {
    await acceptCautions(page);
    const startMs = Date.now();
    await numeralOver(page, 'Engine speed', 50);
    console.log(`known bridge, from the click to the first engine speed: ${Date.now() - startMs} ms`);
  }

  test('tells vehicle and trouble on the source page, without a run', async () => {
    const visit = await shop.visit();
    const { page } = visit;
    await page.getByRole('link', { name: 'Source' }).click();
    await page
      .getByRole('button', { name: /network/i })
      .first()
      .click();
    await page.getByLabel('Address').fill(bridge.address);
    await page.getByRole('button', { name: 'Connect', exact: true }).click();
    await page
      .getByText(/No trouble code is active/)
      .first()
      .waitFor({ timeout: 15_000 });
    await page.getByRole('button', { name: 'Disconnect' }).click();
    await expect.poll(() => bridge.heard.at(-1)).toBe('C');
  });

  test('asks the controllers only after it was allowed, and listens only again', async () => {
    const visit = await shop.visit();
    const { page } = visit;
    await page.getByRole('link', { name: 'Source' }).click();
    await page
      .getByRole('button', { name: /network/i })
      .first()
      .click();
    await page.getByLabel('Address').fill(bridge.address);
    await page.getByRole('button', { name: 'Connect', exact: true }).click();
    await page
      .getByText(/No trouble code is active/)
      .first()
      .waitFor({ timeout: 15_000 });
    await page.getByRole('button', { name: /Ask the controllers/ }).click();
    const dialog = page.getByRole('dialog');
    await dialog.getByRole('checkbox', { name: /Vehicle identification/ }).check();
    expect(bridge.heard).not.toContain('O');
    await dialog.getByRole('button', { name: 'Allow once' }).click();
    await page
      .getByText(/listens only again/)
      .first()
      .waitFor({ timeout: 15_000 });
    // The request for the VIN as j1939.md gives it: 18EAFFF9#ECFE00.
    const sent = bridge.heard.filter((command) => /^[tT]/.test(command));
    expect(sent).toEqual(['T18EAFFF93ECFE00']);
    expect(bridge.heard.filter((command) => /^[OL]$/.test(command))).toEqual(['L', 'O', 'L']);
  });

  test('typed cranks are graded like measured ones', async () => {
    const visit = await shop.visit();
    const { page } = visit;
    await page.getByText('Or type the cranks').click();
    await page.getByRole('textbox', { name: /Time/ }).first().fill('15');
    await page.getByRole('textbox', { name: /speed/ }).first().fill('180');
    await page.getByRole('button', { name: /One more crank/ }).click();
    await page.getByRole('textbox', { name: /Time/ }).nth(1).fill('15,0');
    await page.getByRole('textbox', { name: /speed/ }).nth(1).fill('178');
    await page.getByRole('button', { name: /Use these cranks/ }).click();
    await acceptCautions(page);
    await page.locator('m-number-pad').waitFor({ timeout: 15_000 });
    await typeVolume(page, '330');
    expect(await verdictText(page)).toMatch(/pass/i);
    expect(visit.trouble).toEqual([]);
  });
});
