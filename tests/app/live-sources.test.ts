import { Observable, Subject, type Subscriber } from 'rxjs';
import { afterEach, beforeEach, describe, expect, onTestFinished, test, vi } from 'vitest';
import { deviceMemory } from '../../src/app/device-memory.ts';
import {
  liveSources,
  wishesOf,
  type LiveAdapter,
  type LiveChoice,
  type LiveMeans,
  type LiveUse,
} from '../../src/app/live-sources.ts';
import { memoryDatabase } from '../../src/app/memory-database.ts';
import { portHolders } from '../../src/app/port-holders.ts';
import { DEFAULT_SETTINGS } from '../../src/app/settings.ts';
import type { LinkEvent } from '../../src/link/link-event.ts';
import { problem, type Problem } from '../../src/problems/problem.ts';
import { failed, ok } from '../../src/problems/result.ts';
import { millis } from '../../src/quantities/time.ts';
import type { SearchReport } from '../../src/wire/found-bridge.ts';
import { asyncScheduler } from 'rxjs';

beforeEach(() => void vi.useFakeTimers());
afterEach(() => void vi.useRealTimers());

const FRAME = 'T0CF004008FFFFFF6813FFFFFF\r';
const bytes = (text: string) => Uint8Array.from(text, (letter) => letter.charCodeAt(0));

/** A serial port with a classic bridge at one speed on a 250 kbit/s bus; everything asked of it is written down. */
function fakeDevice(rightBaud = 500_000) {
  const opened: number[] = [];
  const returned = new Subject<LiveChoice>();
  const state = {
    plugged: true,
    subscriber: null as Subscriber<LinkEvent> | null,
    closed: 0,
    choices: [] as string[],
  };
  const open = (choice: LiveChoice) =>
    new Observable<LinkEvent>((subscriber) => {
      const baud = (choice as LiveChoice & { baudRate: number }).baudRate;
      opened.push(baud);
      state.choices.push(choice.device);
      if (!state.plugged)
        return subscriber.error(problem('link.open-failed', { device: choice.device, detail: '' }));
      state.subscriber = subscriber;
      const right = baud === rightBaud;
      let rate = '';
      let listening = false;
      const say = (text: string) =>
        right && subscriber.next({ kind: 'bytes', atMs: millis(Date.now()), bytes: bytes(text) });
      const write = (sent: Uint8Array) => {
        for (const command of String.fromCharCode(...sent)
          .split('\r')
          .slice(0, -1)) {
          if (command.startsWith('S')) rate = command;
          if (command === 'L') listening = rate === 'S5';
          if (command === 'C') listening = false;
          say(command === 'V' ? 'V1013\r' : '\r');
        }
        return Promise.resolve(ok(undefined));
      };
      subscriber.next({ kind: 'open', atMs: millis(Date.now()), device: choice.device, write });
      const timer = setInterval(() => listening && say(FRAME), 20);
      return () => {
        clearInterval(timer);
        state.closed++;
      };
    });
  const adapter: LiveAdapter = {
    id: 'web-serial',
    availability: () => ({ usable: true }),
    choose: () => Promise.resolve(ok({ device: 'bridge' })),
    key: () => 'usb:1',
    known: () => Promise.resolve([{ device: 'bridge' }]),
    returned$: () => returned,
    open,
  };
  return { adapter, opened, returned, state };
}

function setUp(device = fakeDevice(), part: Partial<LiveMeans> = {}) {
  const memory = deviceMemory(memoryDatabase());
  const live = liveSources({
    load: () => Promise.resolve(device.adapter),
    memory,
    holders: portHolders(null),
    scheduler: asyncScheduler,
    nowIso: () => '2026-11-25T08:00:00.000Z',
    ...part,
  });
  const reports: SearchReport[] = [];
  const use: LiveUse = {
    wishes: wishesOf(DEFAULT_SETTINGS),
    title: 'a run',
    onSearch: (report) => reports.push(report),
    ask$: new Subject(),
  };
  const listen = async () => {
    const chosen = await live.choose('web-serial', null);
    if (!chosen.ok) throw new Error(chosen.problem.code);
    const events: LinkEvent[] = [];
    const errors: Problem[] = [];
    const subscription = live
      .open(chosen.value, use)
      .subscribe({ next: (event) => events.push(event), error: (cause: Problem) => errors.push(cause) });
    onTestFinished(() => subscription.unsubscribe());
    return { events, errors, subscription };
  };
  return { ...device, live, memory, reports, listen };
}

const kinds = (events: readonly LinkEvent[]) => events.map((event) => event.kind).join(' ');
const framesIn = (events: readonly LinkEvent[]) =>
  events.filter((event) => event.kind === 'bytes' && String.fromCharCode(...event.bytes) === FRAME).length;
const pass = (ms: number) => vi.advanceTimersByTimeAsync(ms);

describe('a live source', () => {
  test('is found at its serial speed and bit rate, and what worked is remembered', async () => {
    const { listen, memory, opened, reports } = setUp();
    const { events, errors } = await listen();
    await pass(5000);
    expect(errors).toEqual([]);
    expect(framesIn(events)).toBeGreaterThan(50);
    expect(events.filter(({ kind }) => kind === 'open')).toHaveLength(1);
    expect(opened).toContain(500_000);
    expect(reports.at(-1)).toMatchObject({ stage: 'found', found: { baudRate: 500_000, bitRate: 250_000 } });
    expect(await memory.recall('usb:1')).toMatchObject({
      adapter: 'web-serial',
      found: { baudRate: 500_000 },
    });
  });

  test('that is known is opened at its speed first', async () => {
    const { listen, opened } = setUp();
    const first = await listen();
    await pass(5000);
    first.subscription.unsubscribe();
    await pass(1000);
    opened.length = 0;
    const again = await listen();
    await pass(1000);
    expect(opened).toEqual([500_000]);
    expect(framesIn(again.events)).toBeGreaterThan(10);
  });

  test('that is lost comes back as the device that the browser gives then, in the same stream', async () => {
    const { listen, state, returned } = setUp();
    const { events, errors } = await listen();
    await pass(5000);
    state.plugged = false;
    state.subscriber?.error(problem('link.lost', { device: 'bridge' }));
    await pass(100);
    expect(events.at(-1)).toMatchObject({ kind: 'gap', problem: { code: 'link.reopening' } });
    await pass(9000);
    state.plugged = true;
    const before = framesIn(events);
    returned.next({ device: 'the same bridge, plugged in again' });
    await pass(2000);
    expect(errors).toEqual([]);
    expect(state.choices.at(-1)).toBe('the same bridge, plugged in again');
    expect(framesIn(events)).toBeGreaterThan(before + 10);
    expect(kinds(events)).toMatch(/gap( gap)* open gap/);
  });

  test('is closed, and its port freed, when nobody listens any more', async () => {
    const { listen, state, opened } = setUp();
    const { subscription } = await listen();
    await pass(5000);
    subscription.unsubscribe();
    await pass(1000);
    expect(state.closed).toBe(opened.length);
  });

  test('that another tab holds is named with what that tab does', async () => {
    const device = fakeDevice();
    const busy: LiveAdapter = {
      ...device.adapter,
      open: () => new Observable((subscriber) => subscriber.error(problem('link.port-busy'))),
    };
    const holders = {
      ...portHolders(null),
      whoHolds: () =>
        Promise.resolve({ key: 'usb:1', title: 'Crank delivery', sinceIso: '2026-11-25T07:00:00.000Z' }),
    };
    const { listen } = setUp({ ...device, adapter: busy }, { holders });
    const { errors } = await listen();
    await pass(20_000);
    expect(errors[0]).toMatchObject({ code: 'device.held-by-tab', context: { title: 'Crank delivery' } });
  });
});

describe('choosing', () => {
  test('says why a source cannot be used, and does not ask then', async () => {
    const device = fakeDevice();
    const choose = vi.fn(device.adapter.choose);
    const none: LiveAdapter = {
      ...device.adapter,
      choose,
      availability: () => ({ usable: false, problem: problem('link.no-web-serial') }),
    };
    const { live } = setUp({ ...device, adapter: none });
    expect(await live.choose('web-serial', null)).toMatchObject({
      ok: false,
      problem: { code: 'link.no-web-serial' },
    });
    expect(choose).not.toHaveBeenCalled();
  });

  test('passes on that the person chose nothing', async () => {
    const device = fakeDevice();
    const refusing = { ...device.adapter, choose: () => Promise.resolve(failed(problem('link.refused'))) };
    const { live } = setUp({ ...device, adapter: refusing });
    expect(await live.choose('web-serial', null)).toMatchObject({ problem: { code: 'link.refused' } });
  });

  test('recalls a remembered device without asking, and none that the browser no longer grants', async () => {
    const { live } = setUp();
    const device = {
      adapter: 'web-serial',
      name: 'bridge',
      found: null,
      choice: null,
      lastUsedIso: '',
    } as const;
    expect(await live.recall({ ...device, key: 'usb:1' })).toMatchObject({ kind: 'live', key: 'usb:1' });
    expect(await live.recall({ ...device, key: 'usb:2' })).toBeNull();
    expect(await live.recall({ ...device, adapter: 'bench', key: 'usb:1' })).toBeNull();
  });
});

test('the wishes are those of the settings, and a bit rate that cannot be searched for is none', () => {
  expect(wishesOf(DEFAULT_SETTINGS)).toEqual({
    listenOnly: true,
    trySilentMode: false,
    baudRate: null,
    bitRate: null,
  });
  expect(wishesOf({ ...DEFAULT_SETTINGS, fixedBaudRate: 9600, fixedBitRate: 500_000 })).toMatchObject({
    baudRate: 9600,
    bitRate: 500_000,
  });
  expect(wishesOf({ ...DEFAULT_SETTINGS, fixedBitRate: 33_333 }).bitRate).toBeNull();
});
