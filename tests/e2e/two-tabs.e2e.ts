import type { Page } from 'playwright';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import type { AppShell } from '../../src/app/shell.ts';
import { note } from '../jobs/example-job.ts';
import { noBrowser, openShop, type Shop, type Visit } from './harness.ts';

if (noBrowser) console.log(`end to end: skipped, ${noBrowser}`);

const EACH = 20;

const typeNote = (page: Page, text: string): Promise<void> =>
  page.locator('job-notes').getByLabel('Note', { exact: true }).fill(text);
const keepNote = (page: Page): Promise<void> =>
  page.locator('job-notes').getByRole('button', { name: 'Keep the note' }).click();
const shows = (page: Page, text: string): Promise<void> =>
  page.locator('job-notes li').getByText(text, { exact: true }).waitFor();

/** Adds notes of these words as fast as the store takes them. */
const addAll = (page: Page, jobId: string, words: readonly string[]) =>
  page.evaluate(
    async ({ id, notes }) => {
      const { jobs } = (document.querySelector('m-app') as AppShell).services;
      const kept = await Promise.all(notes.map((each) => jobs.addEntries(id, [each])));
      return kept.filter(({ ok }) => !ok);
    },
    { id: jobId, notes: words.map((word) => note(word)) },
  );

const notesKept = (page: Page, jobId: string) =>
  page.evaluate(async (id) => {
    const read = await (document.querySelector('m-app') as AppShell).services.jobs.get(id);
    if (!read.ok) throw new Error(read.problem.code);
    return read.value.entries.flatMap((entry) => (entry.kind === 'note' ? [entry.text] : []));
  }, jobId);

describe.skipIf(noBrowser !== null)('one job in two tabs', () => {
  let shop: Shop;
  let one: Visit;
  let two: Visit;
  let jobId = '';
  beforeAll(async () => {
    shop = await openShop();
    one = await shop.visit({ at: '#/' });
    await one.page.getByRole('button', { name: 'New job' }).first().click();
    await one.page.locator('job-notes').waitFor();
    jobId = new URL(one.page.url()).hash.split('/').at(-1)!;
    two = await shop.visit({ at: `#/job/${jobId}`, context: one.context });
    await two.page.locator('job-notes').waitFor();
  });
  afterAll(() => shop?.close());

  test('shows in each what is entered in the other, without a reload', async () => {
    await one.page.getByLabel('Unit number').fill('T-114');
    await one.page.keyboard.press('Tab');
    await two.page.getByRole('heading', { name: 'T-114' }).waitFor();
    await typeNote(two.page, 'Smells of fuel');
    await keepNote(two.page);
    await shows(one.page, 'Smells of fuel');
  });

  test('loses nothing when both add at once, and leaves alone what is being typed', async () => {
    await Promise.all([typeNote(one.page, 'from one'), typeNote(two.page, 'from two')]);
    await Promise.all([keepNote(one.page), keepNote(two.page)]);
    for (const { page } of [one, two]) for (const text of ['from one', 'from two']) await shows(page, text);

    await typeNote(one.page, 'half typed');
    const words = (tab: string) => Array.from({ length: EACH }, (_, n) => `${tab} ${n}`);
    const refused = await Promise.all([
      addAll(one.page, jobId, words('one')),
      addAll(two.page, jobId, words('two')),
    ]);
    expect(refused).toEqual([[], []]);
    const kept = await notesKept(two.page, jobId);
    expect(kept.toSorted()).toEqual(
      ['Smells of fuel', 'from one', 'from two', ...words('one'), ...words('two')].toSorted(),
    );
    // Each tab's own stand in the order in which it added them.
    expect(kept.filter((text) => text.startsWith('one '))).toEqual(words('one'));
    await typeNote(two.page, 'last');
    await keepNote(two.page);
    await shows(one.page, 'last');
    await shows(one.page, `two ${EACH - 1}`);
    expect(await one.page.locator('job-notes').getByLabel('Note', { exact: true }).inputValue()).toBe(
      'half typed',
    );
  });

  test('is read only in both once it is signed in one; a tab that did not hear of it says so plainly', async () => {
    const deaf = await one.context.newPage();
    await deaf.addInitScript(() => Reflect.deleteProperty(globalThis, 'BroadcastChannel'));
    await deaf.goto(`${shop.origin}/#/job/${jobId}`);
    await typeNote(deaf, 'too late');

    const ending = one.page.locator('job-conclusion');
    await ending.getByRole('radio', { name: /Look elsewhere/ }).check({ force: true });
    await ending.getByLabel('In your words').fill('The fuel side is in order.');
    await ending.getByRole('button', { name: 'Conclude' }).click();
    await ending.getByLabel('Signed by').fill('A. Technician');
    await ending.getByRole('button', { name: 'Sign', exact: true }).click();

    await two.page.locator('job-conclusion').getByText('A. Technician').waitFor();
    await two.page.locator('job-page .head').getByText('signed, revision 1').waitFor();
    for (const { page } of [one, two]) {
      expect(await page.locator('job-identity input, job-identity textarea').count()).toBe(0);
      expect(await page.getByRole('button', { name: 'Keep the note' }).count()).toBe(0);
    }

    await keepNote(deaf);
    await deaf.getByText(/is signed and read only\. Nothing was changed\./).waitFor();
    expect(await notesKept(two.page, jobId)).not.toContain('too late');
    expect([...one.trouble, ...two.trouble]).toEqual([]);
  });
});
