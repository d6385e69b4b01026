import { html } from 'lit';
import { Subject } from 'rxjs';
import { userEvent } from 'vitest/browser';
import { afterEach, describe, expect, test } from 'vitest';
import '../../src/app/pages/run-page.ts';
import type { RunEntry } from '../../src/jobs/run-entry.ts';
import type { StoredRun } from '../../src/jobs/run.ts';
import { DEMONSTRATION_SHEET } from '../../src/limits/demonstration-sheet.ts';
import type { LinkEvent } from '../../src/link/link-event.ts';
import { CRANK_DELIVERY } from '../../src/app/guide-of.ts';
import { packChunk } from '../../src/recordings/chunk.ts';
import { axeFindings, clearPage, mount, textOf } from '../ui/mount.ts';
import { deep, deepAll, press, tabTo, until } from './page.ts';
import {
  eec1Line,
  fakeLive,
  fakeServices,
  header,
  LIVE_PENDING,
  NOW_ISO,
  open,
  run,
  speeds,
  TWO_CRANKS,
} from './services.ts';

afterEach(clearPage);

const CAUTIONS = CRANK_DELIVERY.cautions.map(({ id }): RunEntry => ({
  kind: 'caution-ticked',
  atIso: NOW_ISO,
  reason: '',
  caution: id,
}));

const pageOf = (services: ReturnType<typeof fakeServices>) =>
  mount(html`<run-page .services=${services} .runId=${'run-1'}></run-page>`);

/** A run on a serial source whose events the test gives. */
async function live(entries: readonly RunEntry[]) {
  const event$ = new Subject<LinkEvent>();
  const base = fakeServices();
  const services = { ...base, live: fakeLive(event$) };
  const stored: StoredRun = { ...run({ adapter: 'web-serial', device: 'bridge' }), entries: [...entries] };
  await services.runs.put(stored);
  services.pending.set('run-1', LIVE_PENDING);
  return { event$, services, page: await pageOf(services) };
}

/** A run whose recording is kept already, as after a reload. */
async function kept(
  events: readonly LinkEvent[],
  entries: readonly RunEntry[] = [],
  change: Partial<StoredRun> = {},
) {
  const services = fakeServices();
  await services.recordings.create(header('rec'));
  await services.recordings.append(packChunk('rec', 0, events));
  await services.recordings.close('rec');
  await services.runs.put({ ...run(), recordingId: 'rec', entries: [...entries], ...change });
  return { services, page: await pageOf(services) };
}

const entriesOf = async (services: ReturnType<typeof fakeServices>) => {
  const stored = await services.runs.get('run-1');
  return stored.ok ? stored.value.entries : [];
};

/** The entries, once there are so many. */
async function entries(services: ReturnType<typeof fakeServices>, count: number) {
  for (let turn = 0; turn < 200; turn += 1) {
    const found = await entriesOf(services);
    if (found.length >= count) return found;
    await new Promise(requestAnimationFrame);
  }
  throw new Error(`there never were ${count} entries`);
}

describe('the stages of a run', () => {
  test('prepare: the cautions are ticked by keyboard, and only then the source is opened', async () => {
    const { event$, services, page } = await live([]);
    await until(() => textOf(page).includes('Read the cautions'));
    expect(await axeFindings(page)).toEqual([]);
    expect(event$.observed).toBe(false);
    const ticks = deepAll<HTMLInputElement>(page, 'm-cautions').flatMap((list) =>
      deepAll<HTMLInputElement>(list, 'input[type=checkbox]'),
    );
    expect(ticks).toHaveLength(CAUTIONS.length);
    for (const tick of ticks) {
      tick.focus();
      await userEvent.keyboard(' ');
    }
    await tabTo('I have read these');
    await userEvent.keyboard('{Enter}');
    await until(() => event$.observed);
    expect(await entries(services, CAUTIONS.length)).toHaveLength(CAUTIONS.length);
  });

  test('connect: after a reload the source has to be chosen again', async () => {
    const { page } = await live(CAUTIONS);
    await until(() => textOf(page).includes('Connect the source'));
    expect(await axeFindings(page)).toEqual([]);
  });

  test('crank: numerals and clock are shown, and leaving the page frees the source', async () => {
    const { event$, page } = await live([]);
    await until(() => textOf(page).includes('Read the cautions'));
    deepAll<HTMLInputElement>(page, 'input[type=checkbox]').forEach((tick) => tick.click());
    press(page, 'I have read these');
    await until(() => event$.observed);
    event$.next(open());
    await until(() => textOf(page).includes('Waiting'));
    expect(await axeFindings(page)).toEqual([]);
    page.remove();
    expect(event$.observed).toBe(false);
  });

  test('read, then verdict: the volume is typed by keyboard, and the verdict can be opened', async () => {
    const { services, page } = await kept(TWO_CRANKS);
    await until(() => textOf(page).includes('2 cranks found in the log'));
    expect(await axeFindings(page)).toEqual([]);
    const pad = deep<HTMLInputElement>(page, 'm-number-pad')!;
    deep<HTMLInputElement>(pad, 'input')!.focus();
    await userEvent.keyboard('400{Enter}');
    await until(() => textOf(page).includes('Graded'));
    expect(await entries(services, 1)).toMatchObject([{ kind: 'volume', readingsMl: [400] }]);
    deepAll<HTMLDetailsElement>(page, 'details').forEach((each) => (each.open = true));
    await until(() => textOf(page).includes('volume 400 mL'));
    expect(await axeFindings(page)).toEqual([]);
  });
});

test.each([
  // By hand: 2026-08-26 to 2026-11-25, the day of the run, are 5 + 30 + 31 + 25 = 91 days.
  [
    { confirmedOn: '2026-08-26' },
    'Not final until the sheet is confirmed again',
    'were last confirmed on 2026-08-26, 91 days',
  ],
  [{ confirmedOn: null, confirmedBy: '' }, 'Not final until the sheet is confirmed', 'Nobody has confirmed'],
  [{ validFrom: '2026-11-26' }, 'Not final: the sheet does not hold yet', 'holds only from 2026-11-26 on'],
  [{}, null, null],
])('a verdict on a sheet of %j says %s beside it', async (change, words, why) => {
  const sheet = { ...DEMONSTRATION_SHEET, id: 'shop', sheetId: 'shop', title: 'Shop sheet', invented: false };
  const sound = { ...sheet, confirmedBy: 'R. M.', confirmedOn: '2026-08-27', validFrom: '2026-01-01' };
  const { page } = await kept(TWO_CRANKS, [], { sheet: { ...sound, ...change } });
  await until(() => textOf(page).includes('2 cranks found in the log'));
  deep<HTMLInputElement>(deep(page, 'm-number-pad')!, 'input')!.focus();
  await userEvent.keyboard('400{Enter}');
  await until(() => deep(page, 'm-verdict') !== null);
  const verdict = deep(page, 'm-verdict')!;
  await until(() => /Pass/i.test(textOf(verdict)));
  if (words === null) expect(textOf(verdict)).not.toMatch(/not final|confirmed/i);
  else expect([textOf(verdict).includes(words), textOf(verdict).includes(why!)]).toEqual([true, true]);
  expect(await axeFindings(page)).toEqual([]);
});

test('a run that is not kept here says so, with a way out', async () => {
  const page = await pageOf(fakeServices());
  await until(() => textOf(page).includes('is not kept here'));
  expect(await axeFindings(page)).toEqual([]);
});

test('a crank is left out only once there is a reason, and counts until then', async () => {
  const { services, page } = await kept(TWO_CRANKS);
  await until(
    () =>
      deepAll(page, 'm-crank-table input').length +
        deepAll(page, "input[aria-label='Crank 1 counts']").length >
      0,
  );
  const tick = deep<HTMLInputElement>(page, "input[aria-label='Crank 1 counts']")!;
  tick.click();
  await until(() => deep(page, 'reason-form') !== null);
  expect(tick.checked).toBe(true);
  expect(await axeFindings(page)).toEqual([]);
  await userEvent.keyboard('{Enter}');
  expect(await entriesOf(services)).toEqual([]);
  await userEvent.keyboard('drain line slipped{Enter}');
  await until(() => deep(page, 'reason-form') === null);
  await until(() => !tick.checked);
  expect(await entries(services, 1)).toMatchObject([
    { kind: 'crank-left-out', crank: 0, leftOut: true, reason: 'drain line slipped' },
  ]);
  tick.click();
  expect((await entries(services, 2))[1]).toMatchObject({ kind: 'crank-left-out', crank: 0, leftOut: false });
  await until(() => tick.checked);
});

test('an edge is set by hand with a reason, kept beside the found one, and can be set back', async () => {
  const { services, page } = await kept(TWO_CRANKS);
  await until(() => deepAll(page, 'edge-form').length === 2);
  const form = deepAll(page, 'edge-form')[1]!;
  deep<HTMLDetailsElement>(form, 'details')!.open = true;
  expect(await axeFindings(page)).toEqual([]);
  await userEvent.fill(deep(form, 'input[name=end]')!, '70,5');
  press(form, 'Set the edges');
  await until(() => textOf(form).includes('Say why'));
  await userEvent.fill(deep(form, 'input[name=reason]')!, 'vessel was full');
  press(form, 'Set the edges');
  const [entry] = await entries(services, 1);
  await until(() => /crank 2 ?, set by hand/.test(textOf(form)));
  expect(entry).toMatchObject({
    kind: 'crank-edge',
    crank: 1,
    edge: 'end',
    atMs: 70_500,
    reason: 'vessel was full',
  });
  press(form, 'Back to the found edges');
  expect((await entries(services, 2)).at(-1)).toMatchObject({ kind: 'crank-edge', atMs: null });
});

test('the address of engine speed is asked for only where several send it, and can be chosen and taken back', async () => {
  const single = await kept(TWO_CRANKS);
  await until(() => deepAll(single.page, 'edge-form').length === 2);
  expect(deep(single.page, 'origin-choice select')).toBeNull();
  clearPage();
  const second = speeds(80, [[2, 17]], 3);
  const { services, page } = await kept([...TWO_CRANKS, ...second].toSorted((a, b) => a.atMs - b.atMs));
  await until(() => deepAll(page, 'edge-form').length === 2);
  const select = deepAll<HTMLSelectElement>(page, 'select').find(
    (each) => each.value === '0' && each.options.length === 2,
  )!;
  expect(await axeFindings(page)).toEqual([]);
  await userEvent.selectOptions(select, '3');
  await until(() => deepAll(page, 'edge-form').length === 1);
  expect(await entries(services, 1)).toMatchObject([
    { kind: 'origin-chosen', signal: 'engineSpeed', origin: 3 },
  ]);
  await userEvent.selectOptions(select, '0');
  await until(() => deepAll(page, 'edge-form').length === 2);
});

test('a log without times is refused clearly until its interval is given, then gives its crank', async () => {
  const rpms = [
    ...Array.from({ length: 100 }, () => 0),
    ...Array.from({ length: 750 }, () => 160),
    ...Array.from({ length: 100 }, () => 0),
  ];
  const text = rpms
    .map((rpm) => `can0  0CF00400   [8]  ${eec1Line(rpm).replace(/../g, '$& ').trim()}\n`)
    .join('');
  const services = fakeServices();
  await services.runs.put(run());
  const choice = {
    name: 'x.log',
    bytes: new TextEncoder().encode(text),
    wire: 'candump' as const,
    plan: null,
  };
  services.pending.set('run-1', { kind: 'log-file', choice, givenIntervalMs: null });
  const page = await pageOf(services);
  await until(() => deep(page, 'interval-form') !== null);
  expect(textOf(page)).toContain('An average over time cannot be formed');
  expect(await axeFindings(page)).toEqual([]);
  await userEvent.fill(deep(page, 'input[name=interval]')!, 'soon');
  press(page, 'Read the log with this interval');
  await until(() => textOf(page).includes('is not a plain number'));
  await userEvent.fill(deep(page, 'input[name=interval]')!, '20');
  await userEvent.keyboard('{Enter}');
  await until(() => deepAll(page, 'edge-form').length === 1);
  expect(deep(page, 'interval-form')).toBeNull();
  expect((await entriesOf(services)).at(-1)).toMatchObject({ kind: 'interval', intervalMs: 20 });
});
