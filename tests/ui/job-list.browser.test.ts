import { html, type TemplateResult } from 'lit';
import { page, userEvent } from 'vitest/browser';
import { afterAll, afterEach, describe, expect, test } from 'vitest';
import '../../src/ui/job-list.ts';
import { JOBS_A_STEP } from '../../src/ui/job-list.ts';
import { job, JOBS } from './job-samples.ts';
import { axeFindings, clearPage, every, heard, mount, one, sideways, smallTargets, textOf } from './mount.ts';

afterEach(clearPage);
afterAll(() => page.viewport(414, 896)); // what the other files were started with

type List = HTMLElementTagNameMap['m-job-list'];
const list = (jobs = JOBS, total = jobs.length, search = '') =>
  mount<List>(
    html`<m-job-list
      .jobs=${jobs}
      .total=${total}
      search=${search}
      .hrefOf=${(id: string) => `#/job/${id}`}
    ></m-job-list>`,
  );
const MANY = Array.from({ length: 10_000 }, (_, at) => job({ id: `j${at}`, unitNumber: `U-${at}` }));

describe('m-job-list', () => {
  test('shows unit, engine, complaint, state by word and shape, decision and date', async () => {
    const element = await list();
    const lines = every(element, '.job').map(textOf);
    // In which time zone the browser stands does not matter here.
    expect(lines[0]).toMatch(
      /^T-114 Demo family, P321 Loses power on hills, starts badly when hot. open 2\d Nov 2026, \d\d:\d4$/,
    );
    expect(lines[1]).toContain('concluded Run on and watch');
    const shapes = every(element, '.job').map((row) => row.querySelector('m-icon')?.getAttribute('shape'));
    expect(shapes).toEqual(['edit', 'steady', 'shield', 'edit']);
    expect(lines[3]).toMatch(/^no unit number on the bench no complaint typed/);
  });

  test('a job without a unit number goes by its VIN, else by its customer', async () => {
    const element = await list([
      job({ unitNumber: '', vin: '1M8GDM9AXKP042788' }),
      job({ unitNumber: '', customer: 'Invented Haulage' }),
    ]);
    expect(every(element, 'strong').map(textOf)).toEqual(['1M8GDM9AXKP042788', 'Invented Haulage']);
  });

  test('each line leads to its job; arrows go from line to line', async () => {
    const element = await list();
    const focused = () => (element.shadowRoot!.activeElement as HTMLAnchorElement).hash;
    one(element, '.job').focus();
    await userEvent.keyboard('{ArrowDown}{ArrowDown}{ArrowUp}');
    expect(focused()).toBe('#/job/j2');
    await userEvent.keyboard('{End}{ArrowDown}');
    expect(focused()).toBe('#/job/j4');
    await userEvent.keyboard('{Home}{ArrowUp}');
    expect(focused()).toBe('#/job/j1');
  });

  test('draws a hundred of ten thousand, and the next hundred on demand with the focus on the first', async () => {
    const element = await list(MANY);
    expect(every(element, '.job')).toHaveLength(JOBS_A_STEP);
    expect(textOf(one(element, '[role=status]'))).toBe('10000 jobs , 100 shown');
    one(element, '.more').focus();
    await userEvent.keyboard('{Enter}');
    await element.updateComplete;
    expect(every(element, '.job')).toHaveLength(2 * JOBS_A_STEP);
    expect(textOf(element.shadowRoot!.activeElement!)).toContain('U-100');
    element.search = 'U';
    await element.updateComplete;
    expect(every(element, '.job')).toHaveLength(JOBS_A_STEP);
  });

  test('says what is searched at each key, and how many were found', async () => {
    const element = await list(JOBS.slice(0, 1), 4, 'T-11');
    const said = heard(element, 'search-changed');
    await userEvent.type(one(element, '#search'), '4');
    expect(said).toEqual([{ text: 'T-114' }]);
    expect(textOf(one(element, '[role=status]'))).toContain('1 of 4 jobs');
  });

  test('nothing found says for what, and what to try', async () => {
    expect(textOf(one(await list([], 4, '<b>Q9</b>'), '.nothing'))).toContain('“ <b>Q9</b> ” in 4');
  });

  test('an empty list teaches, and begins a job or the bench', async () => {
    const element = await list([]);
    const [fresh, bench] = [heard(element, 'job-new'), heard(element, 'job-bench')];
    expect(textOf(element)).toContain('A job is one vehicle’s visit');
    expect(every(element, '#search')).toEqual([]);
    for (const button of every(element, '.ways button').slice(0, 2)) button.click();
    expect([fresh.length, bench.length]).toEqual([1, 1]);
  });

  test('hands over the files that were chosen, once each time', async () => {
    const element = await list();
    const said = heard(element, 'file-import') as { files: File[] }[];
    await userEvent.upload(one(element, '#file'), new File(['{}'], 'T-114.meniscus.gz'));
    expect(said.map(({ files }) => files.map(({ name }) => name))).toEqual([['T-114.meniscus.gz']]);
    expect(one<HTMLInputElement>(element, '#file').files).toHaveLength(0);
  });

  test('names what cannot be read, beside the jobs that can', async () => {
    const element = await list();
    element.damaged = [
      { name: 'job 7c1f', problem: { message: 'It is damaged.', remedy: 'Import it again.' } },
    ];
    await element.updateComplete;
    expect(textOf(one(element, 'section'))).toContain('job 7c1f');
    expect(textOf(one(element, 'm-problem'))).toContain('Import it again.');
    expect(every(element, '.job')).toHaveLength(4);
  });

  test('says that it reads, and why it could not', async () => {
    const element = await list();
    element.state = 'loading';
    await element.updateComplete;
    expect(textOf(element)).toContain('Reading the jobs');
    element.state = 'error';
    element.problem = { message: 'Storage is closed.', remedy: 'Load the page again.' };
    await element.updateComplete;
    expect(textOf(element)).toContain('Load the page again.');
    expect(every(element, '.job')).toEqual([]);
  });
});

const STATES: Readonly<Record<string, () => TemplateResult>> = {
  full: () => html`<m-job-list .jobs=${JOBS} total="4"></m-job-list>`,
  empty: () => html`<m-job-list></m-job-list>`,
  nothing: () => html`<m-job-list total="4" search="Q9"></m-job-list>`,
};
describe.each([1280, 390])('at %d wide', (width) => {
  test.each(Object.keys(STATES))(
    '%s scrolls nothing sideways, is for gloves, axe finds nothing',
    async (name) => {
      await page.viewport(width, 844);
      const element = await mount<List>(STATES[name]!());
      if (width === 390) expect(await sideways(element)).toEqual([]);
      expect(smallTargets(element, 'button, a, #search')).toEqual([]);
      expect(await axeFindings(element)).toEqual([]);
    },
  );
});
