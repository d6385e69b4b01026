import { html } from 'lit';
import { userEvent } from 'vitest/browser';
import { afterEach, describe, expect, test } from 'vitest';
import { newRun } from '../../src/app/new-run.ts';
import '../../src/app/pages/run-page.ts';
import { vesselById } from '../../src/checks/vessels.ts';
import { MOST_PHOTO_BYTES } from '../../src/jobs/photo.ts';
import type { RunEntry } from '../../src/jobs/run-entry.ts';
import type { StoredRun } from '../../src/jobs/run.ts';
import { DEMONSTRATION_JOB_SHEET } from '../../src/limits/demonstration-job-sheet.ts';
import { checkOf, LOW_RAIL_PRESSURE } from '../../src/procedures/library.ts';
import { axeFindings, clearPage, mount, textOf } from '../ui/mount.ts';
import { deep, deepAll, until } from './page.ts';
import { fakeServices, NOW_ISO } from './services.ts';

afterEach(clearPage);

/** A run of that check in a job on a real engine, its cautions read, nothing connected. */
async function check(id: string) {
  const guide = checkOf(LOW_RAIL_PRESSURE, id)!;
  const services = fakeServices();
  const run = newRun({
    id: 'run-1',
    createdAt: NOW_ISO,
    source: { adapter: 'typed', device: 'typed by hand' },
    sheet: null,
    vessel: vesselById('cylinder-500')!,
    within: { jobId: 'job-1', guide },
  });
  const entries = guide.cautions.map(({ id: caution }): RunEntry => ({
    kind: 'caution-ticked',
    atIso: NOW_ISO,
    reason: '',
    caution,
  }));
  await services.runs.put({ ...run, entries });
  const page = await mount(html`<run-page .services=${services} .runId=${'run-1'}></run-page>`);
  const kept = async () => {
    const loaded = await services.runs.get('run-1');
    if (!loaded.ok) throw new Error(loaded.problem.code);
    return loaded.value;
  };
  return { services, page, kept };
}

const buttonSaying = (page: Element, words: string) =>
  deepAll<HTMLButtonElement>(page, 'button').find((each) => each.textContent?.includes(words))!;

async function typeInto(page: Element, selector: string, text: string): Promise<void> {
  const box = deepAll<HTMLInputElement>(page, selector)[0]!;
  box.focus();
  box.select();
  await userEvent.keyboard(text);
}

const points = (id: string) => {
  const { settings } = checkOf(LOW_RAIL_PRESSURE, id)!;
  return settings.kind === 'inspection' ? settings.points : [];
};

const observation = ({ entries }: StoredRun, point: string) =>
  entries.filter((each) => each.kind === 'observation').findLast((each) => each.point === point);

function choose(page: Element, place: number, words: string): void {
  const item = deepAll(deep(page, 'm-inspection')!, 'li')[place]!;
  deepAll<HTMLButtonElement>(item, 'button')
    .find((each) => textOf(each).startsWith(words))!
    .click();
}

function addPhoto(page: Element, place: number, file: File): void {
  const input = deepAll<HTMLInputElement>(page, 'input[type=file]')[place]!;
  const data = new DataTransfer();
  data.items.add(file);
  input.files = data.files;
  input.dispatchEvent(new Event('change'));
}

/** A JPEG may carry anything behind its end (ITU-T T.81, B.2.1): so the file gets its size. */
async function largePhoto(): Promise<File> {
  const canvas = new OffscreenCanvas(800, 600);
  canvas.getContext('2d')!.fillRect(0, 0, 400, 300);
  const jpeg = await canvas.convertToBlob({ type: 'image/jpeg' });
  return new File([jpeg, new Uint8Array(20_000_000)], 'filter.jpg', { type: 'image/jpeg' });
}

describe('a check of a job, by hand', () => {
  test('a gauge value without a sheet is measured but not valid, and passes once a sheet is taken with a reason', async () => {
    const { services, page, kept } = await check('supply-idle');
    const own = {
      ...DEMONSTRATION_JOB_SHEET,
      id: 'own',
      sheetId: 'own',
      title: 'Shop limits',
      invented: false,
    };
    expect(await services.sheets.add([own])).toMatchObject({ ok: true });
    await until(() => textOf(page).includes('Type it by hand'));
    expect(await axeFindings(page)).toEqual([]);
    buttonSaying(page, 'Type it by hand').click();
    await until(() => deep(page, 'm-gauge-entry') !== null);

    await typeInto(page, '#value', '412{Enter}');
    await until(() => deep(page, 'm-verdict') !== null);
    // Read off a gauge of class 1.6 to 16 bar with divisions of 0.5 bar, by hand: 1.6 % of 1600 kPa, and half of 50 kPa.
    expect((await kept()).entries.at(-1)).toMatchObject({
      kind: 'value',
      value: 412,
      typed: '412 kPa',
      tolerance: expect.closeTo(25.6) as number,
      halfStep: 25,
    });
    expect((await kept()).verdict).toMatchObject({
      word: 'not valid',
      reasons: [{ code: 'limit.no-sheet' }],
    });

    await until(() => deep(page, 'sheet-choice') !== null);
    const choice = deep<HTMLElement>(page, 'sheet-choice')!;
    deepAll<HTMLDetailsElement>(choice, 'details')[0]!.open = true;
    await until(() => deepAll(choice, 'select').length > 0);
    buttonSaying(choice, 'Take this sheet').click();
    await until(() => textOf(page).includes('Say why first'));
    await typeInto(page, 'input[name=reason]', 'the customer gave the serial number{Enter}');
    await until(() => deep(page, 'm-verdict') !== null && textOf(page).includes('Shop limits'));
    // At least 900 kPa is asked for: 412 kPa fails low.
    await expect.poll(async () => (await kept()).verdict?.word).toBe('fail low');
  });

  test('a number that cannot be is refused, an unlikely one is asked about, and nothing is kept before', async () => {
    const { page, kept } = await check('supply-idle');
    await until(() => textOf(page).includes('Type it by hand'));
    buttonSaying(page, 'Type it by hand').click();
    await until(() => deep(page, 'm-gauge-entry') !== null);
    const before = (await kept()).entries.length;
    deep<HTMLInputElement>(page, 'input[value=bar]')!.click();
    await typeInto(page, '#value', '9999999{Enter}');
    await until(() => textOf(page).includes('cannot be. Check the number and the unit'));
    await typeInto(page, '#value', 'twelve{Enter}');
    await until(() => textOf(page).includes('not a plain number'));
    await typeInto(page, '#value', '1265{Enter}');
    await until(() => textOf(page).includes('is more than is usual here'));
    expect((await kept()).entries).toHaveLength(before);
    buttonSaying(page, 'It was 1265 kPa').click();
    await until(() => deep(page, 'm-verdict') !== null);
    await expect
      .poll(async () => (await kept()).entries.at(-1))
      .toMatchObject({ value: 1265, typed: '1265 kPa' });
  });

  test('an inspection asks for every point, and tells the worst of those not in order', async () => {
    const { page, kept } = await check('filters');
    await until(() => deep(page, 'm-inspection') !== null);
    expect(await axeFindings(page)).toEqual([]);
    for (const [place, { id }] of points('filters').entries()) {
      choose(page, place, place === 0 ? 'Not in order' : 'In order');
      await expect.poll(async () => observation(await kept(), id)).toBeDefined();
    }
    await until(() => deep(page, 'm-verdict') !== null);
    await expect.poll(async () => (await kept()).verdict?.word).toBe('fail low');
  });

  test('a photograph of 20 MB is kept with its point and shown with the verdict; what is none changes nothing', async () => {
    const { services, page, kept } = await check('filters');
    await until(() => deep(page, 'm-inspection') !== null);
    const before = (await kept()).entries.length;
    addPhoto(page, 1, new File(['only words'], 'filter.jpg', { type: 'image/jpeg' }));
    await until(() => textOf(page).includes('“filter.jpg” is not a photograph that can be opened here'));
    expect((await kept()).entries).toHaveLength(before);

    addPhoto(page, 1, await largePhoto());
    await until(() => deepAll(page, 'photo-view').length === 1);
    expect(observation(await kept(), points('filters')[1]!.id)?.photoIds).toHaveLength(1);
    expect(textOf(page)).not.toContain('not a photograph');
    // Nothing is said of the point by a photograph alone.
    expect(textOf(page)).toContain('0 of');

    for (const [place] of points('filters').entries()) choose(page, place, 'In order');
    await until(() => deep(page, 'm-verdict') !== null);
    await until(() => deepAll(page, 'photo-view').length === 1);
    const [photoId] = observation(await kept(), points('filters')[1]!.id)!.photoIds;
    const photo = await services.photos.get(photoId!);
    if (!photo.ok) throw new Error(photo.problem.code);
    expect(photo.value.bytes.length).toBeLessThanOrEqual(MOST_PHOTO_BYTES);
  });
});
