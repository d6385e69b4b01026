import { NEVER, of, Subject, VirtualTimeScheduler, type Subscription } from 'rxjs';
import { tap } from 'rxjs/operators';
import { describe, expect, test } from 'vitest';
import { benchAdapter, type BenchChoice, type BenchKey } from '../../adapters/bench.ts';
import type { BenchCommand } from '../../simulators/bench-command.ts';
import type { BenchView } from '../../simulators/bench.ts';
import type { LinkEvent, WriteBytes } from '../../src/link/link-event.ts';
import { describeAdapter } from './describe-adapter.ts';
import { turns } from './fixtures/turns.ts';

const text = (value: string): Uint8Array => new TextEncoder().encode(value);
const HANDSHAKE = 'C\rV\rS5\rZ1\rL\r';
const KEY_ON: BenchKey = { keyOn: true, starterOn: false };

const choiceOf = (more: Partial<BenchChoice> = {}): BenchChoice => ({
  scenario: 'healthy',
  seed: 1,
  speed: 1,
  key$: of(KEY_ON),
  ...more,
});

/** Virtual wall time: `pass(ms)` lets so much of it go by. */
function clock() {
  const scheduler = new VirtualTimeScheduler(undefined, 0);
  return {
    scheduler,
    pass: (ms: number) => {
      scheduler.maxFrames += ms;
      scheduler.flush();
    },
    held: () => scheduler.actions.filter((action) => !action.closed).length,
  };
}

/** An open bench with its events so far, shaken hands with. */
function opened(more: Partial<BenchChoice> = {}) {
  const { scheduler, pass, held } = clock();
  const events: LinkEvent[] = [];
  const subscription: Subscription = benchAdapter({ scheduler })
    .open(choiceOf(more))
    .subscribe((event) => events.push(event));
  const first = events[0];
  const write: WriteBytes =
    first?.kind === 'open' ? first.write! : () => Promise.reject(new Error('not open'));
  const received = () =>
    events.map((event) => (event.kind === 'bytes' ? new TextDecoder().decode(event.bytes) : '')).join('');
  return { pass, held, events, subscription, write, received };
}

describeAdapter('bench', () => {
  const { scheduler, pass, held } = clock();
  const bench = benchAdapter({ scheduler });
  return {
    // the host's side of the handshake belongs to the caller; here it follows `open` at once
    adapter: {
      ...bench,
      open: (choice) =>
        bench
          .open(choice)
          .pipe(tap((event) => void (event.kind === 'open' && event.write?.(text(HANDSHAKE))))),
    },
    choice: choiceOf(),
    held,
    settle: async () => {
      pass(200);
      await turns();
    },
    ownContent: true,
  };
});

describe('the bench as a source', () => {
  test('opens at once with a write, and says nothing until the host has opened the bridge', async () => {
    const bench = opened();
    expect(bench.events).toMatchObject([{ kind: 'open', atMs: 0, device: 'Bench engine' }]);
    bench.pass(500);
    expect(bench.events).toHaveLength(1);
    expect(await bench.write(text(HANDSHAKE))).toEqual({ ok: true, value: undefined });
    bench.pass(20);
    expect(bench.received().startsWith('\x07V1013\r\r\r\r')).toBe(true);
    bench.pass(500);
    expect(bench.received()).toMatch(/T0CF004008[0-9A-F]{20}\r/);
  });

  test.each([1, 2, 4, 8] as const)(
    'at %d times the speed each 20 ms of wall time bring so much simulated time',
    (speed) => {
      const bench = opened({ speed });
      void bench.write(text(HANDSHAKE));
      bench.pass(1000);
      const stamps = bench.events.filter((event) => event.kind === 'bytes').map((event) => event.atMs);
      expect(stamps).toHaveLength(50);
      expect(stamps).toEqual(stamps.map((_, index) => 20 * speed * (index + 1)));
      const speeds = bench.received().match(/T0CF00400/g)!.length;
      expect(speeds).toBe(100 * speed); // EEC1 every 10 ms
    },
  );

  test('the same choice and keys give the same bytes at any speed', () => {
    const texts = ([1, 2, 4, 8] as const).map((speed) => {
      const key$ = new Subject<BenchKey>();
      const bench = opened({ speed, key$ });
      void bench.write(text(HANDSHAKE));
      key$.next(KEY_ON);
      bench.pass(800 / speed);
      key$.next({ keyOn: true, starterOn: true });
      bench.pass(4000 / speed);
      return bench.received();
    });
    expect(new Set(texts).size).toBe(1);
    expect(texts[0]).toContain('T0CF00400');
  });

  test('turns the engine while the starter is held, and fills the vessel that is seen', () => {
    const key$ = new Subject<BenchKey>();
    const views: BenchView[] = [];
    const bench = opened({ key$, speed: 8, onView: (view) => views.push(view) });
    key$.next({ keyOn: true, starterOn: true });
    bench.pass(1000);
    expect(views).toHaveLength(50);
    expect(views.at(-1)).toMatchObject({ timeMs: 8000, keyOn: true, starterOn: true, engineRunning: false });
    expect(views.at(-1)!.speedRpm).toBeGreaterThan(150);
    const filled = views.at(-1)!.vessel.levelMl;
    expect(filled).toBeGreaterThan(40);
    key$.next({ keyOn: true, starterOn: false, emptyVessel: true });
    bench.pass(20);
    expect(views.at(-1)!.vessel.levelMl).toBeLessThan(filled / 5);
    bench.pass(1000);
    expect(views.at(-1)!.speedRpm).toBe(0);
  });

  test('empties the vessel once, even when the key moves on before the next tick', () => {
    const key$ = new Subject<BenchKey>();
    const views: BenchView[] = [];
    const bench = opened({ key$, speed: 8, onView: (view) => views.push(view) });
    key$.next({ keyOn: true, starterOn: true });
    bench.pass(1000);
    key$.next({ keyOn: true, starterOn: true, emptyVessel: true });
    key$.next({ keyOn: true, starterOn: true });
    bench.pass(20);
    expect(views.at(-1)!.vessel.levelMl).toBeLessThan(10);
    bench.pass(1000);
    expect(views.at(-1)!.vessel.levelMl).toBeGreaterThan(40);
  });

  test('obeys commands in the order in which they and the keys came', () => {
    const key$ = new Subject<BenchKey>();
    const command$ = new Subject<BenchCommand>();
    const views: BenchView[] = [];
    const bench = opened({ key$, command$, scenario: 'sound-engine', onView: (view) => views.push(view) });
    command$.next({ kind: 'key', at: 'crank' });
    command$.next({ kind: 'injection', blocked: true });
    command$.next({ kind: 'line', into: 'pump return' });
    bench.pass(1000);
    expect(views.at(-1)).toMatchObject({
      starterOn: true,
      rig: { injectionBlocked: true, intoVessel: 'pump return' },
    });
    expect(views.at(-1)!.speedRpm).toBeGreaterThan(100);
    command$.next({ kind: 'key', at: 'crank' });
    key$.next({ keyOn: false, starterOn: false });
    bench.pass(20);
    expect(views.at(-1)).toMatchObject({ keyOn: false, starterOn: false });
    bench.subscription.unsubscribe();
    expect(command$.observed).toBe(false);
  });

  test('rests with the key off where no key ever comes', () => {
    const bench = opened({ key$: NEVER });
    void bench.write(text(HANDSHAKE));
    bench.pass(3000);
    expect(bench.received()).toBe('\x07V1013\r\r\r\r');
  });

  test('goes on when the keys complete', () => {
    const bench = opened({ key$: of(KEY_ON) });
    void bench.write(text(HANDSHAKE));
    bench.pass(5000);
    expect(bench.events.at(-1)!.atMs).toBe(5000);
    expect(bench.subscription.closed).toBe(false);
  });

  test('makes up for a page that was held up, but not for a shut lid', () => {
    const { scheduler } = clock();
    let wall = 0;
    const late = Object.create(scheduler, { now: { value: () => wall } }) as VirtualTimeScheduler;
    const views: BenchView[] = [];
    const subscription = benchAdapter({ scheduler: late })
      .open(choiceOf({ onView: (view) => views.push(view) }))
      .subscribe();
    const wake = (ms: number) => {
      wall += ms;
      scheduler.maxFrames += 20;
      scheduler.flush();
    };
    wake(20);
    wake(1000);
    expect(views.at(-1)!.timeMs).toBe(1020);
    wake(3_600_000);
    expect(views.at(-1)!.timeMs).toBe(3020);
    wake(-500); // the system clock was set back
    expect(views.at(-1)!.timeMs).toBe(3020);
    subscription.unsubscribe();
  });

  test('stops its clock and lets go of the keys when unsubscribed', () => {
    const key$ = new Subject<BenchKey>();
    const bench = opened({ key$ });
    bench.pass(100);
    expect(key$.observed).toBe(true);
    expect(bench.held()).toBe(1);
    bench.subscription.unsubscribe();
    expect(key$.observed).toBe(false);
    expect(bench.held()).toBe(0);
  });

  test('refuses a write after closing with a problem', async () => {
    const bench = opened();
    bench.subscription.unsubscribe();
    expect(await bench.write(text('V\r'))).toEqual({
      ok: false,
      problem: { code: 'link.closed', context: {} },
    });
  });

  test('each subscription is an engine of its own', () => {
    const { scheduler, pass } = clock();
    const seen: BenchView[][] = [[], []];
    const source = benchAdapter({ scheduler });
    const cranking = of({ keyOn: true, starterOn: true });
    const first = source
      .open(choiceOf({ key$: cranking, onView: (view) => seen[0]!.push(view) }))
      .subscribe();
    pass(1000);
    const second = source
      .open(choiceOf({ key$: cranking, onView: (view) => seen[1]!.push(view) }))
      .subscribe();
    pass(1000);
    expect(seen[0]!.at(-1)!.timeMs).toBe(2000);
    expect(seen[1]!.at(-1)!.timeMs).toBe(1000);
    expect(seen[1]!.at(-1)).toEqual(seen[0]!.find(({ timeMs }) => timeMs === 1000));
    first.unsubscribe();
    second.unsubscribe();
  });

  test('offers the healthy engine with the key on unless the page lets the person choose', async () => {
    const chosen = await benchAdapter().choose();
    expect(chosen).toMatchObject({ ok: true, value: { scenario: 'healthy', speed: 1 } });
    const worn = choiceOf({ scenario: 'worn' });
    const asked = await benchAdapter({ choose: () => Promise.resolve({ ok: true, value: worn }) }).choose();
    expect(asked).toEqual({ ok: true, value: worn });
  });
});
