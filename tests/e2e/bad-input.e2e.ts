import { createHash } from 'node:crypto';
import { readFileSync } from 'node:fs';
import { gunzipSync, gzipSync } from 'node:zlib';
import type { Page } from 'playwright';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import type { AppShell } from '../../src/app/shell.ts';
import type { JobEntry } from '../../src/jobs/job-entry.ts';
import { noBrowser, openShop, type Shop, type Visit } from './harness.ts';

if (noBrowser) console.log(`end to end: skipped, ${noBrowser}`);

/** Everything in the database, as text. */
const everythingKept = (page: Page) =>
  page.evaluate(async () => {
    const answer = <T>(request: IDBRequest<T>) =>
      new Promise<T>((resolve, reject) => {
        request.onsuccess = () => resolve(request.result);
        request.onerror = () => reject(request.error!);
      });
    const database = await answer(indexedDB.open('meniscus'));
    const names = [...database.objectStoreNames];
    const tx = database.transaction(names);
    const all = await Promise.all(names.map((name) => answer(tx.objectStore(name).getAll())));
    database.close();
    return JSON.stringify(names.map((name, at) => [name, all[at]]));
  });

const jobIdOf = (page: Page): string => new URL(page.url()).hash.split('/').at(-1)!;

const fieldsKept = (page: Page, jobId: string) =>
  page.evaluate(async (id) => {
    const read = await (document.querySelector('m-app') as AppShell).services.jobs.get(id);
    if (!read.ok) throw new Error(read.problem.code);
    return read.value.entries.flatMap((entry) =>
      entry.kind === 'field' ? [`${entry.field} ${entry.value}`] : [],
    );
  }, jobId);

const flipped = (bytes: Buffer, at: number): Buffer => {
  const copy = Buffer.from(bytes);
  copy[at]! ^= 1;
  return copy;
};

/** The file with other lines and a check sum that fits them: as another program would have written it. */
function rewritten(file: Buffer, change: (lines: string[]) => void): Buffer {
  const lines = gunzipSync(file).toString().trimEnd().split('\n').slice(0, -1);
  change(lines);
  const body = lines.map((line) => `${line}\n`).join('');
  const sha256 = createHash('sha256').update(body).digest('hex');
  return gzipSync(`${body}${JSON.stringify({ kind: 'end', sha256 })}\n`);
}

/** What is done to a good file, and what must be said to it. */
const DAMAGES: readonly (readonly [name: string, make: (good: Buffer) => Buffer, says: RegExp])[] = [
  ['empty', () => Buffer.alloc(0), /This is no job file of Meniscus/],
  ['other', () => Buffer.from('time,speed\n0,180\n'), /This is no job file of Meniscus/],
  ['cut', (good) => good.subarray(0, good.length / 2), /no job file of Meniscus|is damaged: .* unpacked/],
  ['without its last bytes', (good) => good.subarray(0, -4), /This job file is damaged: .* unpacked/],
  [
    'with a bit flipped',
    (good) => flipped(good, Math.floor(good.length / 2)),
    /no job file of Meniscus|is damaged/,
  ],
  [
    'with a bit flipped before it was packed',
    (good) => gzipSync(gunzipSync(good).toString().replace('T-114', 'T-115')),
    /This job file is damaged: its check sum does not fit\. Nothing was changed/,
  ],
  [
    'without a line',
    (good) => rewritten(good, (lines) => lines.pop()),
    /This job file is damaged: it holds 0 of 1 \(job\)\. Nothing was changed/,
  ],
  [
    'in a newer form',
    (good) => rewritten(good, (lines) => (lines[0] = lines[0]!.replace('"version":1', '"version":99'))),
    /written by a newer Meniscus \(form 99\)\. Nothing was changed/,
  ],
  [
    'with a newer job',
    (good) =>
      rewritten(good, (lines) => (lines[1] = lines[1]!.replace('"formatVersion":1', '"formatVersion":99'))),
    /was written by a newer Meniscus/,
  ],
];

describe.skipIf(noBrowser !== null)('bad input', () => {
  let shop: Shop;
  let visit: Visit;
  beforeAll(async () => {
    shop = await openShop();
    visit = await shop.visit({ at: '#/' });
    await visit.page.getByRole('button', { name: 'New job' }).first().click();
    await visit.page.locator('job-identity').waitFor();
  });
  afterAll(() => shop?.close());

  test('as numbers that cannot be is told beside the field and not kept', async () => {
    const { page } = visit;
    const jobId = jobIdOf(page);
    const identity = page.locator('job-identity');
    const type = async (field: string, text: string) => {
      await identity.locator(`#${field}`).fill(text);
      await page.keyboard.press('Tab');
    };
    const says = (field: string, words: RegExp) =>
      identity.locator(`#says-${field}`).getByText(words).waitFor();
    await type('unitNumber', 'T-114');
    await page.getByRole('heading', { name: 'T-114' }).waitFor();
    const before = await fieldsKept(page, jobId);
    expect(before).toEqual(['unitNumber T-114']);
    // More hours than there are in a hundred years, a distance below nothing.
    await type('engineHours', '999999999');
    await says('engineHours', /Type it in h, without the unit\. It is not kept until then/);
    await type('distanceKm', '-5');
    await says('distanceKm', /Type it in km, without the unit\. It is not kept until then/);
    expect(await fieldsKept(page, jobId)).toEqual(before);
    await type('engineHours', '12345.6');
    await expect.poll(() => fieldsKept(page, jobId)).toEqual([...before, 'engineHours 12345.6']);
    expect((await identity.locator('#says-engineHours').innerText()).trim()).toBe('');
    // A VIN of another length may be right on an old vehicle: it is kept, and doubted.
    await type('vin', '123');
    await says('vin', /The VIN "123" has 3 characters, not 17/);
    expect(await fieldsKept(page, jobId)).toContain('vin 123');
  });

  test('dated in the future is told at the top of the job, and nothing is taken away', async () => {
    const { page } = visit;
    const jobId = jobIdOf(page);
    const entry: JobEntry = { atIso: '2099-01-01T00:00:00.000Z', kind: 'note', text: 'ahead', photoIds: [] };
    await page.evaluate(
      ([id, one]) => (document.querySelector('m-app') as AppShell).services.jobs.addEntries(id, [one]),
      [jobId, entry] as const,
    );
    await page.reload();
    await page.getByText(/dated 2099.*which is still to come/).waitFor();
    await page.locator('job-notes').getByText('ahead').waitFor();
  });

  test('as a damaged or newer job file is told in plain words, and nothing is changed', async () => {
    const { page, trouble } = visit;
    const downloading = page.waitForEvent('download');
    await page.getByRole('button', { name: 'Save as a file' }).click();
    const good = readFileSync(await (await downloading).path());
    await page.goto(`${shop.origin}/#/`);
    const list = page.locator('m-job-list');
    await list.getByText('T-114').waitFor();
    const before = await everythingKept(page);
    expect(before).toContain('T-114');

    const mimeType = 'application/gzip';
    await list
      .locator('#file')
      .setInputFiles([
        ...DAMAGES.map(([name, make]) => ({ name: `${name}.gz`, mimeType, buffer: make(good) })),
        { name: 'good.gz', mimeType, buffer: good },
      ]);
    const part = page.locator('job-file-part');
    for (const [name, , says] of DAMAGES) {
      await part.getByRole('heading', { name: `${name}.gz` }).waitFor();
      const told = part.getByRole('alert');
      await told.waitFor();
      expect((await told.innerText()).replace(/\s+/g, ' '), name).toMatch(says);
      expect(await part.getByRole('button').allInnerTexts(), name).toEqual(['Leave it']);
      await part.getByRole('button', { name: 'Leave it' }).click();
    }
    // The file itself was good, and bringing it in again changes nothing either.
    await part.getByText('This job lies here already, exactly the same.').waitFor();
    expect(await everythingKept(page)).toBe(before);
    expect(trouble).toEqual([]);
  });
});
