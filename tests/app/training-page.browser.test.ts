import { html } from 'lit';
import { afterEach, describe, expect, test } from 'vitest';
import '../../src/app/pages/job-page.ts';
import '../../src/app/pages/training-page.ts';
import { caseJob } from '../../src/app/training-desk.ts';
import { SHIPPED_CASE_SETS } from '../../src/training/library.ts';
import { CaseSet } from '../../src/training/case-set.ts';
import { DEFECT_KINDS } from '../../simulators/engine/defects.ts';
import { writeCaseSet } from '../../src/training/case-set-exchange.ts';
import { writeResults } from '../../src/training/result-exchange.ts';
import { DEFECT_FACTS } from '../../src/training/defect-facts.ts';
import { setOf } from '../training/example-sets.ts';
import { axeFindings, clearPage, mount, textOf } from '../ui/mount.ts';
import { deep, deepAll, press, until } from './page.ts';
import { fakeServices, NOW_ISO, type FakeServices } from './services.ts';

afterEach(() => {
  clearPage();
  location.hash = '';
});

const training = (services: FakeServices, jobId = '') =>
  mount(html`<training-page .services=${services} .jobId=${jobId}></training-page>`);

async function begun(services = fakeServices()) {
  const page = await training(services);
  await until(() => textOf(page).includes('No case yet'));
  deep<HTMLInputElement>(page, '#trainee')!.value = 'A. Trainee';
  deep<HTMLInputElement>(page, '#seed')!.value = '4711';
  press(page, 'Begin a case');
  await until(() => services.went.length > 0);
  const listed = await services.jobs.summaries();
  const id = listed.ok ? listed.value.items[0]!.id : '';
  clearPage();
  return { services, id };
}

test('teaches where nothing was begun, without a fault for axe', async () => {
  const page = await training(fakeServices());
  await until(() => textOf(page).includes('No case yet'));
  for (const { title } of SHIPPED_CASE_SETS) expect(textOf(page)).toContain(title);
  expect(await axeFindings(page)).toEqual([]);
});

test('from the beginning to giving up to the truth, which stays', async () => {
  const { services, id } = await begun();
  const job = await mount(html`<job-page .services=${services} .jobId=${id}></job-page>`);
  await until(() => textOf(job).includes('Give up and show'));
  expect(textOf(job)).toContain('Practice case 4711');
  expect(textOf(job)).toContain('It is no customer’s vehicle');
  press(job, 'Give up and show');
  await until(() => textOf(job).includes('Go on working'));
  press(job, 'Give up');
  await until(() => services.went.includes('trainingCase'));
  clearPage();
  const page = await training(services, id);
  await until(() => textOf(page).includes('The shortest way'));
  const result = await services.training.resultOf(id);
  const [truth] = result.ok && result.value ? result.value.truth : [];
  expect(textOf(page).toLowerCase()).toContain(DEFECT_FACTS[truth!.kind].name);
  expect(textOf(page)).toContain('What was wrong was not named.');
  expect(await axeFindings(page)).toEqual([]);
  clearPage();
  const list = await training(services);
  await until(() => textOf(list).includes('given up'));
  expect(deep(list, `a[href="#/training/${id}"]`)).not.toBeNull();
  expect(textOf(list)).toContain('Save as CSV');
  expect(await axeFindings(list)).toEqual([]);
});

test('the end of a case that is not over is not told: the address leads to the job', async () => {
  const { services, id } = await begun();
  await training(services, id);
  await until(() => services.went.length > 1);
  expect(services.went.at(-1)).toBe('job');
});

describe('before the end', () => {
  const textWith = async (kind: (typeof DEFECT_KINDS)[number], severity: number) => {
    const set = setOf({
      defects: [{ kind, least: severity, most: severity }],
      complaints: [{ text: 'A code came up.' }],
    });
    const services = fakeServices();
    await services.training.addSet(set);
    await services.jobs.put(caseJob({ set, seed: 1, trainee: '' }, 'case', NOW_ISO));
    const page = await mount(html`<job-page .services=${services} .jobId=${'case'}></job-page>`);
    await until(() => textOf(page).includes('Give up and show'));
    const text = textOf(page).replace(/P\d+|\d+ h\b|Digger|Roller|\d+/g, '#');
    clearPage();
    return text;
  };

  test('the job page is the same to the letter, whatever is wrong and how badly', async () => {
    const texts = new Set<string>();
    for (const [place, kind] of DEFECT_KINDS.entries())
      texts.add(await textWith(kind, place % 2 ? 0.3 : 0.9));
    expect(texts.size).toBe(1);
  });

  test('nothing on it but the procedure’s own list of causes speaks of a defect', async () => {
    const text = (await textWith('worn pump elements', 0.9)).toLowerCase();
    expect(text).not.toContain('worn pump elements');
    expect(text).not.toContain('as bad as it gets');
  });
});

test('says that the set of a case is missing', async () => {
  const services = fakeServices();
  const set = CaseSet.parse(setOf());
  await services.jobs.put(caseJob({ set, seed: 1, trainee: '' }, 'case', NOW_ISO));
  const page = await mount(html`<job-page .services=${services} .jobId=${'case'}></job-page>`);
  await until(() => textOf(page).includes('which is not in this browser'));
});

test('refuses what is no number of a case, and says so', async () => {
  const page = await training(fakeServices());
  await until(() => textOf(page).includes('No case yet'));
  deep<HTMLInputElement>(page, '#seed')!.value = '12a';
  press(page, 'Begin a case');
  await until(() => textOf(page).includes('is no number of a case'));
});

test('takes a set in from a file once, and never another under its id', async () => {
  const services = fakeServices();
  const page = await training(services);
  await until(() => textOf(page).includes('No case yet'));
  const sets = deep<HTMLElement & { bring(text: string): Promise<void> }>(page, 'training-sets')!;
  await sets.bring(writeCaseSet(setOf()));
  await until(() => textOf(page).includes('Small set'));
  await sets.bring(writeCaseSet(setOf({ about: 'Other.' })));
  await until(() => textOf(page).includes('it is another one'));
  await sets.bring('{}');
  await until(() => textOf(page).includes('This file is no case set'));
});

test('adds the results of another machine to the table', async () => {
  const { services, id } = await begun();
  const { endCase } = await import('../../src/app/training-desk.ts');
  const ended = await endCase(services, id);
  const page = await training(services);
  await until(() => textOf(page).includes('Save as JSON'));
  const part = deep<HTMLElement & { bring(text: string): Promise<void> }>(page, 'training-class')!;
  const other = { ...(ended.ok ? ended.value : null)!, id: 'elsewhere', trainee: 'B. Trainee' };
  await part.bring(writeResults([other]));
  await until(() => deepAll(page, 'tbody tr').length === 2);
  expect(textOf(page)).toContain('B. Trainee');
  await part.bring('trainee,set');
  await until(() => textOf(page).includes('This file holds no training results'));
});
