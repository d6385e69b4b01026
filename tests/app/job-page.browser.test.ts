import { html } from 'lit';
import { userEvent } from 'vitest/browser';
import { afterEach, describe, expect, test } from 'vitest';
import { newJob } from '../../src/app/new-job.ts';
import '../../src/app/pages/job-page.ts';
import type { JobEntry } from '../../src/jobs/job-entry.ts';
import { newRun } from '../../src/app/new-run.ts';
import '../../src/app/shell.ts';
import { vesselById } from '../../src/checks/vessels.ts';
import { checkOf, LOW_RAIL_PRESSURE } from '../../src/procedures/library.ts';
import { axeFindings, clearPage, mount, textOf } from '../ui/mount.ts';
import { deep, deepAll, press, until } from './page.ts';
import { fakeServices, NOW_ISO, type FakeServices } from './services.ts';

afterEach(clearPage);

/** A job on the bench, and what else was entered in it. */
async function keep(services: FakeServices, id: string, entries: readonly JobEntry[] = []): Promise<void> {
  const job = newJob({ id, createdAt: NOW_ISO, scenarioId: 'leaking-pump' });
  const kept = await services.jobs.put({ ...job, entries: [...job.entries, ...entries] });
  if (!kept.ok) throw new Error(kept.problem.code);
}

async function jobPage(services: FakeServices, jobId = 'job-1') {
  const page = await mount(html`<job-page .services=${services} .jobId=${jobId}></job-page>`);
  await until(() => deep(page, 'm-conclusion') !== null);
  return page;
}

async function entriesOf(services: FakeServices, jobId = 'job-1'): Promise<readonly JobEntry[]> {
  const job = await services.jobs.get(jobId);
  if (!job.ok) throw new Error(job.problem.code);
  return job.value.entries;
}

const CONCLUSION: JobEntry = {
  kind: 'conclusion',
  atIso: NOW_ISO,
  decision: 'look elsewhere',
  words: 'Nothing found.',
  cause: '',
  watchFor: '',
  suggested: '',
};

describe('the conclusion', () => {
  test('that was begun survives leaving the page, is entered once it is whole, and then is no draft any more', async () => {
    const services = fakeServices();
    await keep(services, 'job-1');
    const before = await jobPage(services);
    deep(deep(before, 'm-conclusion')!, '#words')!.focus();
    await userEvent.keyboard('The pump loses fuel.');
    clearPage();

    const page = await jobPage(services);
    const form = deep(page, 'm-conclusion')!;
    expect(deep<HTMLTextAreaElement>(form, '#words')!.value).toBe('The pump loses fuel.');
    press(form, 'Conclude');
    await until(() => textOf(form).includes('Choose one of the three.'));
    deep<HTMLInputElement>(form, 'input[type=radio]')!.click();
    press(form, 'Conclude');
    await until(() => textOf(form).includes('Type your name') || textOf(form).includes('Signed by'));
    expect((await entriesOf(services)).at(-1)).toMatchObject({
      kind: 'conclusion',
      decision: 'repair now',
      words: 'The pump loses fuel.',
    });
    await expect.poll(async () => (await services.drafts.read('job-1')).conclusion.words).toBe('');
  });

  // A whole page through axe twice: slow on a busy machine.
  test(
    'is signed, opened again with a reason, and begins with the words of before',
    { timeout: 60_000 },
    async () => {
      const services = fakeServices();
      await keep(services, 'job-1', [CONCLUSION]);
      const page = await jobPage(services);
      const form = deep(page, 'm-conclusion')!;
      deep(form, '#by')!.focus();
      await userEvent.keyboard('A. Technician{Enter}');
      await until(() => textOf(form).includes('Signed by A. Technician'));
      expect(await axeFindings(page)).toEqual([]);
      press(form, 'Reopen');
      await until(() => deep(form, 'm-reason') !== null);
      await userEvent.keyboard('it came back{Enter}');
      await until(() => deep(form, '#words') !== null);
      expect(deep<HTMLTextAreaElement>(form, '#words')!.value).toBe('Nothing found.');
      expect(textOf(form)).toMatch(/Revision 1 Look elsewhere .*it came back/);
      expect((await entriesOf(services)).slice(-2).map(({ kind }) => kind)).toEqual(['signed', 'reopened']);
    },
  );

  test('that cannot be kept stays where it was typed', async () => {
    const services = fakeServices();
    await keep(services, 'job-1');
    const page = await jobPage(services);
    // Another tab signs the job meanwhile; no news comes here.
    await services.jobs.addEntries('job-1', [CONCLUSION, { kind: 'signed', atIso: NOW_ISO, by: 'B' }]);
    const form = deep(page, 'm-conclusion')!;
    deep<HTMLInputElement>(form, 'input[type=radio]')!.click();
    deep(form, '#words')!.focus();
    await userEvent.keyboard('Mine.');
    press(form, 'Conclude');
    await until(() => textOf(page).includes('signed'));
    expect(deep<HTMLTextAreaElement>(form, '#words')!.value).toBe('Mine.');
    expect((await services.drafts.read('job-1')).conclusion.words).toBe('Mine.');
  });
});

describe('work', () => {
  test('is noted, and withdrawn with a reason: it stays, struck out, and nothing is taken away', async () => {
    const services = fakeServices();
    await keep(services, 'job-1');
    const page = await jobPage(services);
    const works = deep(page, 'm-work-list')!;
    press(works, 'Work done');
    await until(() => deep(works, '#part') !== null);
    await userEvent.selectOptions(deep<HTMLSelectElement>(works, '#station')!, 'rail');
    await userEvent.fill(deep(works, '#part')!, 'rail sensor');
    press(works, 'Add the work');
    await until(() => textOf(works).includes('rail sensor replaced'));
    expect(textOf(works)).toContain('Prime before anything is run again');
    press(works, 'Withdraw');
    await until(() => deep(works, 'm-reason') !== null);
    await userEvent.keyboard('it was another vehicle{Enter}');
    await until(() => textOf(works).includes('Withdrawn: it was another vehicle'));
    expect(textOf(works)).not.toContain('Prime before anything is run again');
    const entries = await entriesOf(services);
    expect(entries.slice(-2)).toMatchObject([
      { kind: 'work', station: 'rail', what: 'replaced', part: 'rail sensor' },
      { kind: 'work-withdrawn', reason: 'it was another vehicle' },
    ]);
  });
});

/** A photograph of 200 by 160 pixels, painted here. */
async function paintedPhoto(): Promise<File> {
  const canvas = new OffscreenCanvas(200, 160);
  const pen = canvas.getContext('2d')!;
  pen.fillRect(0, 0, 100, 160);
  return new File([await canvas.convertToBlob({ type: 'image/png' })], 'leak.png', { type: 'image/png' });
}

describe('notes', () => {
  test('with a photograph survive leaving the page, are kept, printed, and travel in the job file', async () => {
    const services = fakeServices();
    await keep(services, 'job-1');
    const before = deep(await jobPage(services), 'job-notes')!;
    await until(() => deep(before, '#text') !== null);
    press(before, 'Add a photograph');
    await until(() => deep(before, 'photo-take') !== null);
    await userEvent.upload(deepAll<HTMLInputElement>(before, 'input[type=file]')[0]!, await paintedPhoto());
    await until(() => deep(before, 'photo-strip') !== null);
    deep(before, '#text')!.focus();
    await userEvent.keyboard('Drips at the banjo.');
    await services.drafts.read('job-1');
    clearPage();

    const page = await jobPage(services);
    const notes = deep(page, 'job-notes')!;
    await until(() => deep(notes, 'photo-view') !== null);
    expect(deep<HTMLTextAreaElement>(notes, '#text')!.value).toBe('Drips at the banjo.');
    press(notes, 'Keep the note');
    await until(() => deep(notes, 'ol') !== null);
    await until(() => deep<HTMLTextAreaElement>(notes, '#text')?.value === '');
    const note = (await entriesOf(services)).at(-1);
    expect(note).toMatchObject({ kind: 'note', text: 'Drips at the banjo.' });
    const ids = note?.kind === 'note' ? note.photoIds : [];
    expect(ids).toHaveLength(1);
    expect(textOf(deep(page, 'm-job-sheet')!)).toContain('Drips at the banjo.');
    expect(deep(deep(page, 'm-job-sheet')!, 'photo-strip')!.slot).toBe('note-0');

    const packed = await services.jobFiles.pack('job-1');
    if (!packed.ok) throw new Error(packed.problem.code);
    const read = await fakeServices().jobFiles.read(packed.value.blob);
    expect(read.ok && read.value.contents.photos.map(({ id }) => id)).toEqual(ids);
  });

  test('without words are not kept, and say so', async () => {
    const services = fakeServices();
    await keep(services, 'job-1');
    const notes = deep(await jobPage(services), 'job-notes')!;
    await until(() => deep(notes, '#text') !== null);
    const before = await entriesOf(services);
    press(notes, 'Keep the note');
    await until(() => textOf(notes).includes('Write what there is to see'));
    expect(await entriesOf(services)).toEqual(before);
  });
});

describe('the history of the engine', () => {
  test('names the other jobs by complaint and decision, and leads to them', async () => {
    const services = fakeServices();
    await keep(services, 'job-1');
    await keep(services, 'job-0', [CONCLUSION]);
    const history = deep(await jobPage(services), 'job-history')!;
    await until(() => deepAll(history, 'a').length === 1);
    expect(deep<HTMLAnchorElement>(history, 'a')!.hash).toBe('#/job/job-0');
    expect(textOf(history)).toMatch(/rail pressure.* Look elsewhere/);
  });

  test('is nothing for the first job on it, and asks for the serial number where none is noted', async () => {
    const services = fakeServices();
    await keep(services, 'job-1');
    expect(textOf(deep(await jobPage(services), 'job-history')!)).toBe('');
    clearPage();
    await services.jobs.put(newJob({ id: 'job-2', createdAt: NOW_ISO }));
    expect(textOf(deep(await jobPage(services, 'job-2'), 'job-history')!)).toMatch(/serial number/);
  });
});

test.each([
  ['job-1', 'Jobs'],
  [null, 'Runs'],
])('while a run of job %s is open the frame marks %s', async (jobId, word) => {
  const services = fakeServices();
  const guide = checkOf(LOW_RAIL_PRESSURE, 'supply-idle')!;
  const made = newRun({
    id: 'run-1',
    createdAt: NOW_ISO,
    source: { adapter: 'typed', device: 'typed by hand' },
    sheet: null,
    vessel: vesselById('cylinder-500')!,
    ...(jobId === null ? {} : { within: { jobId, guide } }),
  });
  await services.runs.put(made);
  location.hash = '#/run/run-1';
  const app = await mount(html`<m-app .services=${services}></m-app>`);
  await until(() => deep(app, 'nav a[aria-current]')?.textContent === word);
  location.hash = '';
});

test('what is mistyped is told beside its field, a date to come at the top, and all that was entered stays', async () => {
  const services = fakeServices();
  const field = (name: 'vin' | 'unitNumber', value: string, atIso = NOW_ISO): JobEntry => ({
    kind: 'field',
    atIso,
    field: name,
    value,
    from: 'typed',
  });
  // One character of a VIN whose check digit fits changed (49 CFR 565.15(c)), and an entry a day ahead of the clock.
  await keep(services, 'job-1', [
    field('vin', '1M8GDM9AXKP042789'),
    field('unitNumber', 'T-114', '2026-11-26T08:00:00.000Z'),
  ]);
  const before = await entriesOf(services);
  const page = await jobPage(services);
  await until(() => deep(page, '#says-vin') !== null);
  expect(textOf(deep(page, '#says-vin')!)).toMatch(/check digit .* does not fit.*Compare it with the plate/);
  expect(textOf(deep(page, '.screen m-problem')!)).toMatch(/still to come.*clock/);
  expect(await entriesOf(services)).toEqual(before);
});
