import { html } from 'lit';
import { userEvent } from 'vitest/browser';
import { afterEach, describe, expect, test } from 'vitest';
import { newJob } from '../../src/app/new-job.ts';
import '../../src/app/pages/jobs-page.ts';
import type { JobEntry } from '../../src/jobs/job-entry.ts';
import { problem } from '../../src/problems/problem.ts';
import { failed, ok } from '../../src/problems/result.ts';
import { axeFindings, clearPage, mount, textOf } from '../ui/mount.ts';
import { deep, deepAll, press, until } from './page.ts';
import { fakeServices, NOW_ISO, type FakeServices } from './services.ts';

afterEach(clearPage);

const field = (
  name: 'unitNumber' | 'complaint' | 'engineHours',
  value: string,
  atIso = NOW_ISO,
): JobEntry => ({
  kind: 'field',
  atIso,
  field: name,
  value,
  from: 'typed',
});

const keep = (services: FakeServices, id: string, entries: readonly JobEntry[]) =>
  services.jobs.put({ ...newJob({ id, createdAt: NOW_ISO }), entries: [...entries] });

async function jobsPage(services: FakeServices) {
  const page = await mount(html`<jobs-page .services=${services}></jobs-page>`);
  await until(() => deep(page, 'm-job-list')?.getAttribute('state') === 'ready');
  return page;
}

const lines = (page: Element) => deepAll<HTMLAnchorElement>(page, 'a.job');

describe('the jobs', () => {
  test('without one teaches, and the bench begins a job with its complaint', async () => {
    const services = fakeServices();
    const page = await jobsPage(services);
    expect(textOf(page)).toContain('No jobs yet');
    press(page, 'Try it on the bench');
    await until(() => services.went.length > 0);
    expect(services.went).toEqual(['job']);
    const kept = await services.jobs.summaries();
    expect(kept.ok && kept.value.items[0]?.complaint).toMatch(/rail pressure/);
  });

  test('are found by what is typed, and lead to their page', async () => {
    const services = fakeServices();
    await keep(services, 'job-1', [field('unitNumber', 'T-114'), field('complaint', 'loses power')]);
    await keep(services, 'job-2', [field('unitNumber', 'T-7')]);
    const page = await jobsPage(services);
    expect(await axeFindings(page)).toEqual([]);
    expect(lines(page)).toHaveLength(2);
    deep(page, '#search')!.focus();
    await userEvent.keyboard('power');
    await until(() => lines(page).length === 1);
    expect(lines(page)[0]!.hash).toBe('#/job/job-1');
    await userEvent.keyboard('less');
    await until(() => textOf(page).includes('Nothing found for “ powerless ” in 2 jobs'));
  });

  test('that cannot be read are told with what to do', async () => {
    const services = fakeServices();
    const jobs = {
      ...services.jobs,
      summaries: () => Promise.resolve(failed(problem('storage.terminated'))),
    };
    const page = await mount(html`<jobs-page .services=${{ ...services, jobs }}></jobs-page>`);
    await until(() => deep(page, 'm-problem') !== null);
    expect(lines(page)).toEqual([]);
    expect(textOf(page)).not.toContain('No jobs yet');
  });

  test.each([
    ['all of them are damaged', null],
    ['what is kept here could not be opened', problem('storage.newer-version')],
  ])('are not said to be none where %s; one can be begun', async (_, trouble) => {
    const services = fakeServices();
    services.trouble$.next(trouble);
    const damaged = {
      id: 'job-1',
      problem: problem('storage.damaged', { what: 'Job', id: 'job-1', detail: 'x' }),
    };
    const jobs = {
      ...services.jobs,
      summaries: () => Promise.resolve(ok({ items: [], damaged: trouble ? [] : [damaged] })),
    };
    const page = await jobsPage({ ...services, jobs });
    expect(textOf(page)).not.toContain('No jobs yet');
    expect(textOf(page).includes('kept as job-1')).toBe(trouble === null);
    press(page, 'New job');
    await until(() => services.went.length > 0);
    expect(services.went).toEqual(['job']);
  });
});

describe('job files', () => {
  test('say what is in them and what is wrong with it before anything is brought in, one after the other', async () => {
    const [there, here] = [fakeServices(), fakeServices()];
    // The hours are more than an engine runs in 22 years; the entry is dated a day after the fake clock.
    await keep(there, 'job-9', [
      field('unitNumber', 'T-900'),
      field('engineHours', '999999999', '2026-11-26T08:00:00.000Z'),
    ]);
    const packed = await there.jobFiles.pack('job-9');
    if (!packed.ok) throw new Error(packed.problem.code);
    const page = await jobsPage(here);
    await userEvent.upload(deep<HTMLInputElement>(page, '#file')!, [
      new File(['no job'], 'other.gz'),
      new File([packed.value.blob], 'T-900.meniscus.gz'),
    ]);
    await until(() => textOf(page).includes('This is no job file of Meniscus.'));
    press(page, 'Leave it');
    await until(() => textOf(page).includes('This job is not here yet.'));
    expect(textOf(page)).toContain('T-900');
    expect(textOf(page)).toContain('which is still to come');
    expect(textOf(page)).toContain('cannot be 999999999 h');
    expect(lines(page)).toEqual([]);
    press(page, 'Bring it in');
    await until(() => lines(page).length === 1);
    const opened = deepAll<HTMLAnchorElement>(deep(page, 'job-file-part')!, 'a');
    expect(opened.map(({ hash }) => hash)).toEqual(['#/job/job-9']);
  });
});
