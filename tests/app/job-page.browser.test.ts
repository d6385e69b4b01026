import { html } from 'lit';
import { userEvent } from 'vitest/browser';
import { afterEach, describe, expect, test } from 'vitest';
import { newJob } from '../../src/app/new-job.ts';
import '../../src/app/pages/job-page.ts';
import type { JobEntry } from '../../src/jobs/job-entry.ts';
import { axeFindings, clearPage, mount, textOf } from '../ui/mount.ts';
import { deep, press, until } from './page.ts';
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

  test('is signed, opened again with a reason, and begins with the words of before', async () => {
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
  });

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
