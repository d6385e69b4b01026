import { firstValueFrom, NEVER, of, Subject, throwError, toArray, VirtualTimeScheduler } from 'rxjs';
import { describe, expect, test } from 'vitest';
import { heldAs, portHolders, type ChannelLike, type Holder } from '../../src/app/port-holders.ts';
import { describeProblem, problem, type Problem } from '../../src/problems/problem.ts';
import { NOW_ISO, open } from './services.ts';

type Listener = (event: { readonly data: unknown }) => void;

/** Channels of several tabs in one page: what one says all others hear, later, as copies, as with the browser's own. */
function tabs() {
  const listeners = new Map<object, Set<Listener>>();
  const said: unknown[] = [];
  const channel = (): ChannelLike => {
    const own = new Set<Listener>();
    const self: ChannelLike = {
      postMessage: (message) => {
        const data: unknown = structuredClone(message);
        said.push(data);
        for (const [other, heard] of listeners)
          if (other !== self) for (const listener of heard) queueMicrotask(() => listener({ data }));
      },
      addEventListener: (_type, listener) => void own.add(listener),
      removeEventListener: (_type, listener) => void own.delete(listener),
      close: () => void listeners.delete(self),
    };
    listeners.set(self, own);
    return self;
  };
  const count = () => [...listeners.values()].reduce((sum, own) => sum + own.size, 0);
  return { channel, said, count };
}

const HOLDER: Holder = { key: 'usb:1', title: 'Truck 12', sinceIso: NOW_ISO };

/** What is answered once the time to answer is over. */
async function after(scheduler: VirtualTimeScheduler, answer: Promise<Holder | null>) {
  await new Promise((resolve) => setImmediate(resolve));
  scheduler.flush();
  return answer;
}

describe('two tabs', () => {
  test('the one that holds a device says so to the one that asks', async () => {
    const { channel } = tabs();
    const [first, second] = [portHolders(channel()), portHolders(channel())];
    first.hold(HOLDER);
    expect(await second.whoHolds('usb:1')).toEqual(HOLDER);
  });

  test('nobody answers for a device that is not held, and 200 ms are waited for that', async () => {
    const { channel } = tabs();
    const scheduler = new VirtualTimeScheduler();
    portHolders(channel()).hold(HOLDER);
    const asking = portHolders(channel(), scheduler);
    expect(await after(scheduler, asking.whoHolds('usb:2'))).toBeNull();
    expect(scheduler.frame).toBe(200);
  });

  test('nobody answers any more once it was let go, twice being no harm', async () => {
    const { channel } = tabs();
    const scheduler = new VirtualTimeScheduler();
    const holding = portHolders(channel());
    const letGo = holding.hold(HOLDER);
    const again = holding.hold(HOLDER);
    letGo();
    letGo();
    const asking = portHolders(channel(), scheduler);
    expect(await asking.whoHolds('usb:1')).toEqual(HOLDER);
    again();
    expect(await after(scheduler, asking.whoHolds('usb:1'))).toBeNull();
  });

  test('a tab does not name itself', async () => {
    const { channel } = tabs();
    const scheduler = new VirtualTimeScheduler();
    const only = portHolders(channel(), scheduler);
    only.hold(HOLDER);
    expect(await after(scheduler, only.whoHolds('usb:1'))).toBeNull();
  });

  test('the right one of several answers', async () => {
    const { channel } = tabs();
    const [a, b, asking] = [portHolders(channel()), portHolders(channel()), portHolders(channel())];
    a.hold({ ...HOLDER, key: 'usb:2', title: 'Truck 7' });
    b.hold(HOLDER);
    expect((await asking.whoHolds('usb:1'))?.title).toBe('Truck 12');
    expect((await asking.whoHolds('usb:2'))?.title).toBe('Truck 7');
  });

  test('devices that cannot be told apart are asked after by nobody', async () => {
    const { channel, said } = tabs();
    expect(await portHolders(channel()).whoHolds(null)).toBeNull();
    expect(said).toEqual([]);
  });

  test('a tab that was closed answers no more and leaves no listener behind', async () => {
    const { channel, count } = tabs();
    const scheduler = new VirtualTimeScheduler();
    const gone = portHolders(channel());
    gone.hold(HOLDER);
    const asking = portHolders(channel(), scheduler);
    gone.close();
    expect(await after(scheduler, asking.whoHolds('usb:1'))).toBeNull();
    expect(count()).toBe(1); // the asking tab's own answering
    asking.close();
    expect(count()).toBe(0);
  });

  test('what another version says over the channel is passed over', async () => {
    const { channel } = tabs();
    const strange = channel();
    const scheduler = new VirtualTimeScheduler();
    const [holding, asking] = [portHolders(channel()), portHolders(channel(), scheduler)];
    holding.hold(HOLDER);
    const answer = asking.whoHolds('usb:9');
    for (const message of [null, 7, 'who', {}, { kind: 'mine', key: 'usb:9' }, { kind: 'who' }])
      strange.postMessage(message);
    expect(await after(scheduler, answer)).toBeNull();
  });

  test('without a channel nobody is found, and holding is no harm', async () => {
    const alone = portHolders(null);
    alone.hold(HOLDER)();
    expect(await alone.whoHolds('usb:1')).toBeNull();
    alone.close();
  });
});

describe('the events of a device', () => {
  const holding = { key: 'usb:1', title: 'Truck 12', nowIso: () => NOW_ISO };
  const BUSY = problem('link.port-busy');

  test('make this tab its holder from the first open until they end', async () => {
    const { channel } = tabs();
    const scheduler = new VirtualTimeScheduler();
    const [own, other] = [portHolders(channel()), portHolders(channel(), scheduler)];
    const events = new Subject<ReturnType<typeof open>>();
    const listening = events.pipe(heldAs(own, holding)).subscribe();
    expect(await after(scheduler, other.whoHolds('usb:1'))).toBeNull();
    events.next(open());
    events.next(open(5)); // opened again after a drop
    expect(await other.whoHolds('usb:1')).toEqual(HOLDER);
    listening.unsubscribe();
    expect(await after(scheduler, other.whoHolds('usb:1'))).toBeNull();
  });

  test('pass on untouched', async () => {
    const events = [open(), { kind: 'gap', atMs: open().atMs, problem: BUSY } as const];
    const passed = of(...events).pipe(heldAs(portHolders(null), holding), toArray());
    expect(await firstValueFrom(passed)).toEqual(events);
  });

  const failureOf = (cause: unknown, holders = portHolders(null), key: string | null = 'usb:1') =>
    firstValueFrom(throwError(() => cause).pipe(heldAs(holders, { ...holding, key }))).then(
      () => null,
      (error: unknown) => error as Problem,
    );

  test('that cannot come because another tab holds the device name that tab and since when', async () => {
    const { channel } = tabs();
    portHolders(channel()).hold(HOLDER);
    const told = await failureOf(BUSY, portHolders(channel()));
    expect(told).toMatchObject({ code: 'device.held-by-tab', context: { title: 'Truck 12' } });
    expect(told?.context['since']).toMatch(/\d{1,2}:\d{2}/);
    expect(describeProblem(told!).message).toContain('"Truck 12"');
  });

  test('that cannot come because another program holds the device say just that', async () => {
    const { channel } = tabs();
    const scheduler = new VirtualTimeScheduler();
    const failure = failureOf(BUSY, portHolders(channel(), scheduler));
    await new Promise((resolve) => setImmediate(resolve));
    scheduler.flush();
    expect(await failure).toBe(BUSY);
  });

  test('that fail for another reason ask nobody', async () => {
    const { channel, said } = tabs();
    for (const cause of [problem('link.lost', { device: 'x', detail: 'y' }), new Error('z'), null])
      expect(await failureOf(cause, portHolders(channel()))).toBe(cause);
    expect(said).toEqual([]);
  });

  test('of a device without a key hold nothing and ask nobody', async () => {
    const { channel, said } = tabs();
    expect(await failureOf(BUSY, portHolders(channel()), null)).toBe(BUSY);
    expect(said).toEqual([]);
    const listening = NEVER.pipe(heldAs(portHolders(channel()), { ...holding, key: null })).subscribe();
    listening.unsubscribe();
  });

  test('keep a time that cannot be read as it stands', async () => {
    const { channel } = tabs();
    portHolders(channel()).hold({ ...HOLDER, sinceIso: 'this morning' });
    expect((await failureOf(BUSY, portHolders(channel())))?.context['since']).toBe('this morning');
  });
});
