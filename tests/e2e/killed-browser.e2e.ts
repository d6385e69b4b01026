import { execFileSync } from 'node:child_process';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { chromium, type BrowserContext, type Page } from 'playwright';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import type { AppShell } from '../../src/app/shell.ts';
import type { JobEntry } from '../../src/jobs/job-entry.ts';
import { at, conclusion, field, job, note, reopened, run, signed, work } from '../jobs/example-job.ts';
import { examplePhoto, jpegBytes } from '../jobs/example-photo.ts';
import { BROWSER_ARGS, CHROMIUM, noBrowser, servePage, type Served } from './harness.ts';

if (noBrowser) console.log(`end to end: skipped, ${noBrowser}`);

const KILLS = Number(process.env['MENISCUS_KILLS'] ?? 3);
/** More than any browser here does before it dies. */
const DEEDS = 500;
const PHOTO = examplePhoto({ bytes: jpegBytes(60_000) });

/** Seeded, so that a failure can be had again: a linear congruential generator (constants of Numerical Recipes, from memory). */
function* draws(seed: number): Generator<number, never> {
  for (let state = seed; ;) yield (state = (1_664_525 * state + 1_013_904_223) >>> 0) / 2 ** 32;
}

/** One thing that a person does: a run or a photograph, and entries that are kept together or not at all. */
interface Deed {
  readonly run: object | null;
  readonly photoId: string | null;
  readonly entries: readonly JobEntry[];
}

const deed = (entries: readonly JobEntry[], rest: Partial<Deed> = {}): Deed => ({
  run: null,
  photoId: null,
  entries,
  ...rest,
});

/** Of everything that a job takes in turn, each with words of its own. */
function deedOf(jobId: string, n: number): Deed {
  const [word, id] = [`d-${n}`, `${jobId}-${n}`];
  const makers: readonly (() => Deed)[] = [
    () => deed([field('complaint', word)]),
    () => deed([field('customer', word), note(word), field('unitNumber', word)]),
    () => deed([work(1, { workId: word, note: word })]),
    () =>
      deed([{ atIso: at(2), kind: 'run-left-out', runId: id, leftOut: true, reason: word }], {
        run: run(id, 2, null, { jobId, title: word }),
      }),
    () => deed([{ ...note(word), photoIds: [id] } as JobEntry], { photoId: id }),
    () => deed([conclusion(3, { words: word }), signed(4), reopened(5)]),
  ];
  return makers[n % makers.length]!();
}

/** Keeps the job and does the deeds one after the other in the page, and acknowledges each as its store answers ok. Ends with the page. */
const doThem = (page: Page, jobId: string, deeds: readonly Deed[]) =>
  page.evaluate(
    async ({ first, all, photo: { bytes, ...photo } }) => {
      const { services } = document.querySelector('m-app') as AppShell;
      const acknowledged = (globalThis as unknown as { acknowledged(deeds: number): void }).acknowledged;
      const sure = (kept: { readonly ok: boolean }) => {
        if (!kept.ok) throw new Error(JSON.stringify(kept));
      };
      sure(await services.jobs.put(first));
      acknowledged(0);
      for (const [n, { run, photoId, entries }] of all.entries()) {
        if (run) sure(await services.runs.put(run as never));
        if (photoId)
          sure(await services.photos.put({ ...photo, id: photoId, bytes: Uint8Array.from(bytes) }));
        sure(await services.jobs.addEntries(first.id, entries));
        acknowledged(n + 1);
      }
    },
    { first: job([], { id: jobId }), all: deeds, photo: { ...PHOTO, bytes: [...PHOTO.bytes] } },
  );

/** The job as the page reads it, and what is wrong with anything that it names. */
const lying = (page: Page, jobId: string) =>
  page.evaluate(async (id) => {
    const { jobs, photos } = (document.querySelector('m-app') as AppShell).services;
    const [both, listing] = [await jobs.withRuns(id), await jobs.summaries()];
    if (!both.ok) return { entries: null, wrong: [both.problem.code] };
    if (!listing.ok) throw new Error(listing.problem.code);
    const { entries, updatedAt } = both.value.job;
    const runIds = new Set(both.value.runs.items.map((each) => each.id));
    const named = entries.flatMap((entry) => (entry.kind === 'note' ? entry.photoIds : []));
    const found = await photos.listOf(named);
    const lacking = entries.flatMap((entry) =>
      entry.kind === 'run-left-out' && !runIds.has(entry.runId) ? [`no run ${entry.runId}`] : [],
    );
    const row = listing.value.items.find((each) => each.id === id);
    const wrong = [
      ...both.value.runs.damaged.map(({ problem }) => problem.code),
      ...listing.value.damaged.map(({ problem }) => problem.code),
      ...(found.ok ? found.value.missing.map((each) => JSON.stringify(each)) : [found.problem.code]),
      ...lacking,
      ...(row?.updatedAt === updatedAt ? [] : [`row of ${row?.updatedAt}, job of ${updatedAt}`]),
    ];
    return { entries, wrong };
  }, jobId);

/** Ends a browser as a power cut would: SIGKILL to all of its processes at once. Playwright begins each in a process group of its own. */
async function kill(context: BrowserContext, profile: string): Promise<void> {
  const lines = execFileSync('ps', ['-eo', 'pid=,pgid=,args=', '-ww'], { encoding: 'utf8' }).split('\n');
  const group = lines
    .find((line) => line.includes(`--user-data-dir=${profile}`) && !line.includes('--type='))
    ?.trim()
    .split(/\s+/)[1];
  const over = new Promise((resolve) => context.once('close', resolve));
  process.kill(-Number(group), 'SIGKILL');
  await over;
}

describe.skipIf(noBrowser !== null)('a browser that is killed', () => {
  const profile = mkdtempSync(join(tmpdir(), 'meniscus-killed-'));
  let served: Served;
  let context: BrowserContext | null = null;
  beforeAll(async () => {
    served = await servePage();
  });
  afterAll(async () => {
    await context?.close();
    await served?.close();
    rmSync(profile, { recursive: true, force: true, maxRetries: 5 });
  });

  async function openPage(): Promise<Page> {
    context = await chromium.launchPersistentContext(profile, {
      executablePath: CHROMIUM,
      args: [...BROWSER_ARGS],
    });
    const page = context.pages()[0] ?? (await context.newPage());
    await page.goto(`${served.origin}/#/`);
    await page.locator('jobs-page').waitFor();
    return page;
  }

  test(
    `has kept whatever was acknowledged, and nothing by halves, ${KILLS} times over on one profile`,
    { timeout: 60_000 + KILLS * 60_000 },
    async () => {
      const chance = draws(20_261_125);
      const counts: number[] = [];
      let page = await openPage();
      for (let round = 0; round < KILLS; round++) {
        const jobId = `job-${round}`;
        const deeds = Array.from({ length: DEEDS }, (_, n) => deedOf(jobId, n));
        let acknowledged = -1;
        let begin = (): void => undefined;
        const begun = new Promise<void>((resolve) => (begin = resolve));
        await page.exposeFunction('acknowledged', (done: number) => {
          acknowledged = done;
          begin();
        });
        const outcome = doThem(page, jobId, deeds).then(
          () => 'all was done before the kill',
          (error: unknown) => String(error),
        );
        await Promise.race([begun, outcome]);
        await page.waitForTimeout(Math.floor(chance.next().value * 900));
        await kill(context!, profile);
        expect(await outcome).toMatch(/closed|crashed/i);

        page = await openPage();
        const { entries, wrong } = await lying(page, jobId);
        const where = `round ${round}, ${acknowledged} deeds acknowledged`;
        expect(wrong, where).toEqual([]);
        // Whole deeds only: those acknowledged, and as many more as were kept before the page could say so.
        let kept = 0;
        let length = 0;
        while (length < entries!.length) length += deeds[kept++]!.entries.length;
        expect(kept, where).toBeGreaterThanOrEqual(acknowledged);
        expect(entries, where).toEqual(deeds.slice(0, kept).flatMap((each) => each.entries));
        counts.push(acknowledged);
      }
      expect(Math.max(...counts)).toBeGreaterThan(5);
      console.log(
        `killed ${KILLS} times, after ${Math.min(...counts)} to ${Math.max(...counts)} acknowledged deeds`,
      );
    },
  );
});
