import { html } from 'lit';
import { userEvent } from 'vitest/browser';
import { afterEach, describe, expect, test } from 'vitest';
import { newRun } from '../../src/app/new-run.ts';
import '../../src/app/pages/run-page.ts';
import { vesselById } from '../../src/checks/vessels.ts';
import type { RunEntry } from '../../src/jobs/run-entry.ts';
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

async function typeInto(page: Element, name: string, text: string): Promise<void> {
  const box = deepAll<HTMLInputElement>(page, `input[name=${name}]`)[0]!;
  box.focus();
  box.select();
  await userEvent.keyboard(text);
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
    await until(() => deepAll(page, 'input[name=value]').length > 0);

    await typeInto(page, 'value', '12.65{Enter}');
    await until(() => deep(page, 'm-verdict') !== null);
    // 12.65 kPa, since kPa is the first unit: below any supply pressure, but without a sheet nothing can be said.
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
    await typeInto(page, 'reason', 'the customer gave the serial number{Enter}');
    await until(() => deep(page, 'm-verdict') !== null && textOf(page).includes('Shop limits'));
    // At least 900 kPa is asked for: 12.65 kPa fails low.
    await expect.poll(async () => (await kept()).verdict?.word).toBe('fail low');
  });

  test('a number that cannot be is refused, and nothing is kept', async () => {
    const { page, kept } = await check('supply-idle');
    await until(() => textOf(page).includes('Type it by hand'));
    buttonSaying(page, 'Type it by hand').click();
    await until(() => deepAll(page, 'input[name=value]').length > 0);
    const before = (await kept()).entries.length;
    await typeInto(page, 'value', '9999999{Enter}');
    await until(() => textOf(page).includes('cannot be: check the number and the unit'));
    await typeInto(page, 'value', 'twelve{Enter}');
    await until(() => textOf(page).includes('not a plain number'));
    expect((await kept()).entries).toHaveLength(before);
  });

  test('an inspection asks for every point, and tells the worst of those not in order', async () => {
    const { page, kept } = await check('filters');
    await until(() => deep(page, 'inspection-part') !== null);
    expect(await axeFindings(page)).toEqual([]);
    const points = LOW_RAIL_PRESSURE.checks.find(({ id }) => id === 'filters')!;
    const ids = points.settings.kind === 'inspection' ? points.settings.points.map(({ id }) => id) : [];
    for (const [place, id] of ids.entries()) {
      const seen = place === 0 ? 'not in order' : 'in order';
      await until(() => deepAll(page, `input[name=seen-${id}]`).length > 0);
      deepAll<HTMLInputElement>(page, `input[name=seen-${id}]`)
        .find(({ value }) => value === seen)!
        .click();
      await expect
        .poll(async () =>
          (await kept()).entries.some((each) => each.kind === 'observation' && each.point === id),
        )
        .toBe(true);
    }
    await until(() => deep(page, 'm-verdict') !== null);
    await expect.poll(async () => (await kept()).verdict?.word).toBe('fail low');
  });
});
