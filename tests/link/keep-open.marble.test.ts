import { concat, defer, NEVER, of, Subject, throwError, VirtualTimeScheduler, type Observable } from 'rxjs';
import { TestScheduler } from 'rxjs/testing';
import { describe, expect, test } from 'vitest';
import { BACK_OFF_MS, keepOpen, type KeepReport } from '../../src/link/keep-open.ts';
import type { LinkEvent } from '../../src/link/link-event.ts';
import { nextLinkState, NO_LINK } from '../../src/link/link-state.ts';
import { problem, type Problem } from '../../src/problems/problem.ts';
import { millis } from '../../src/quantities/time.ts';

const open = (atMs: number): LinkEvent => ({
  kind: 'open',
  atMs: millis(atMs),
  device: 'bridge',
  write: null,
});
const bytes = (atMs: number): LinkEvent => ({ kind: 'bytes', atMs: millis(atMs), bytes: Uint8Array.of(65) });
const gap = (atMs: number): LinkEvent => ({
  kind: 'gap',
  atMs: millis(atMs),
  problem: problem('link.overrun'),
});
const lost = problem('link.lost', { device: 'bridge' });
const busy = problem('link.port-busy');
const reopening = (atMs: number): LinkEvent => ({
  kind: 'gap',
  atMs: millis(atMs),
  problem: problem('link.reopening', { device: 'bridge' }),
});
const reopened = (atMs: number, seconds: number): LinkEvent => ({
  kind: 'gap',
  atMs: millis(atMs),
  problem: problem('search.reopened', { device: 'bridge', seconds }),
});

/** Marbles, one frame a millisecond. */
const marbles = (run: Parameters<TestScheduler['run']>[0]) =>
  new TestScheduler((actual, wanted) => expect(actual).toEqual(wanted)).run(run);
const means = (scheduler: TestScheduler, returned$: Observable<unknown> = NEVER) => ({
  scheduler,
  returned$,
  onReport: () => undefined,
});
const running = () => new TestScheduler(() => undefined);

describe('a source kept open', () => {
  test('emits what it is given and completes with it, opened once', () => {
    marbles(({ cold, expectObservable, expectSubscriptions }) => {
      const source = cold('ab-(c|)', { a: open(0), b: bytes(1), c: bytes(3) });
      expectObservable(keepOpen(() => source, means(running()))).toBe('ab-(c|)', {
        ...{ a: open(0), b: bytes(1), c: bytes(3) },
      });
      expectSubscriptions(source.subscriptions).toBe('^--!');
    });
  });

  test('that is empty completes; one that never speaks never does', () => {
    marbles(({ cold, expectObservable }) => {
      expectObservable(keepOpen(() => cold('|'), means(running()))).toBe('|');
      expectObservable(keepOpen(() => cold('-'), means(running()))).toBe('-');
    });
  });

  test('passes several events of one instant in their order', () => {
    marbles(({ cold, expectObservable }) => {
      const source = cold('(abc)', { a: open(0), b: bytes(0), c: bytes(0) });
      expectObservable(keepOpen(() => source, means(running()))).toBe('(abc)', {
        ...{ a: open(0), b: bytes(0), c: bytes(0) },
      });
    });
  });

  test('passes a gap on and goes on with the same connection', () => {
    marbles(({ cold, expectObservable, expectSubscriptions }) => {
      const source = cold('agb', { a: open(0), g: gap(1), b: bytes(2) });
      expectObservable(keepOpen(() => source, means(running()))).toBe('agb', {
        ...{ a: open(0), g: gap(1), b: bytes(2) },
      });
      expectSubscriptions(source.subscriptions).toBe('^');
    });
  });

  test('let go early lets the source go, while open and while it waits to reopen', () => {
    marbles(({ cold, expectObservable, expectSubscriptions }) => {
      const source = cold('a---', { a: open(0) });
      expectObservable(
        keepOpen(() => source, means(running())),
        '^-!',
      ).toBe('a--', { a: open(0) });
      expectSubscriptions(source.subscriptions).toBe('^-!');
    });
    const rig = play([
      () =>
        concat(
          of(open(0)),
          throwError(() => lost),
        ),
      () => NEVER,
    ]);
    rig.subscription.unsubscribe();
    rig.runTo(60_000);
    expect([rig.openings(), rig.scheduler.actions.length]).toEqual([1, 0]);
  });

  test.each([lost, busy, problem('link.open-failed'), problem('link.refused')])(
    'whose first opening fails with $code passes it as an error, with nothing tried again',
    (cause) => {
      marbles(({ cold, expectObservable, expectSubscriptions }) => {
        const source = cold<LinkEvent>('-#', {}, cause);
        expectObservable(keepOpen(() => source, means(running()))).toBe('-#', {}, cause);
        expectSubscriptions(source.subscriptions).toBe('^!');
      });
    },
  );

  test('opens nothing before it is subscribed to', () => {
    let count = 0;
    keepOpen(() => defer(() => of(open(count++))), means(running()));
    expect(count).toBe(0);
  });
});

/** A scripted device: each opening is the next of the list (the last one again and again), in virtual time. */
function play(
  openings: readonly ((nowMs: number) => Observable<LinkEvent>)[],
  returned$: Observable<unknown> = NEVER,
) {
  const scheduler = new VirtualTimeScheduler(undefined, Infinity);
  const times: number[] = [];
  const reports: KeepReport[] = [];
  const events: LinkEvent[] = [];
  const errors: Problem[] = [];
  const kept = keepOpen(
    () => {
      times.push(scheduler.now());
      return openings[Math.min(times.length, openings.length) - 1]!(scheduler.now());
    },
    { scheduler, returned$, onReport: (report) => reports.push(report) },
  );
  const subscription = kept.subscribe({
    next: (event) => events.push(event),
    error: (cause: Problem) => errors.push(cause),
  });
  const runTo = (ms: number) => {
    scheduler.maxFrames = ms;
    scheduler.flush();
    scheduler.frame = ms;
  };
  return { scheduler, times, reports, events, errors, subscription, runTo, openings: () => times.length };
}
const fails = (cause: Problem) => () => throwError(() => cause);
const opensAndDies = (nowMs: number) =>
  concat(
    of(open(nowMs), bytes(nowMs)),
    throwError(() => lost),
  ) as Observable<LinkEvent>;
const staysOpen = (nowMs: number) => concat(of(open(nowMs)), NEVER) as Observable<LinkEvent>;

describe('a loss', () => {
  test('is one gap, then the new open, then how long nothing was received', () => {
    const rig = play([opensAndDies, fails(busy), fails(lost), staysOpen]);
    rig.runTo(10_000);
    expect(rig.errors).toEqual([]);
    // 250 + 500 + 1000 ms of waiting
    expect(rig.events).toEqual([open(0), bytes(0), reopening(0), open(1750), reopened(1750, 1.8)]);
    expect(rig.reports.at(-1)).toEqual({ kind: 'reopened', seconds: 1.8, attempts: 3 });
  });

  test('is tried again after 0.25, 0.5, 1, 2, 4, 5, 5 … s, for ever', () => {
    const rig = play([opensAndDies, fails(lost)]);
    rig.runTo(600_000);
    const waits = rig.times.slice(1).map((time, at) => time - rig.times[at]!);
    expect(waits.slice(0, 8)).toEqual([250, 500, 1000, 2000, 4000, 5000, 5000, 5000]);
    expect([BACK_OFF_MS.at(-1), waits.length > 110, rig.errors]).toEqual([5000, true, []]);
    expect(rig.events.filter(({ kind }) => kind === 'gap')).toHaveLength(1);
  });

  test('is tried again at once when the device returned, and its other returns are of no matter', () => {
    const returned$ = new Subject<void>();
    const rig = play(
      [opensAndDies, fails(busy), fails(busy), fails(busy), fails(busy), staysOpen],
      returned$,
    );
    rig.runTo(5000);
    expect(rig.openings()).toBe(5); // at 0, 250, 750, 1750, 3750; the next at 7750
    returned$.next();
    expect(rig.openings()).toBe(6);
    returned$.next();
    returned$.next();
    rig.runTo(60_000);
    expect([rig.openings(), returned$.observed]).toEqual([6, false]);
    expect(rig.events.at(-1)).toEqual(reopened(5000, 5));
  });

  test.each<[string, (returned$: Subject<void>) => void]>([
    ['fails', (returned$) => returned$.error(new Error('no such events'))],
    ['ends', (returned$) => returned$.complete()],
  ])('goes by its waits where the word of a return %s', (_how, end) => {
    const returned$ = new Subject<void>();
    const rig = play([opensAndDies, staysOpen], returned$);
    end(returned$);
    expect(rig.openings()).toBe(1);
    rig.runTo(1000);
    expect(rig.times).toEqual([0, 250]);
  });

  test.each([problem('link.refused'), problem('link.not-allowed')])(
    'that only the person can cure ($code) ends it, also while it is being reopened',
    (cause) => {
      const rig = play([opensAndDies, fails(busy), fails(cause), staysOpen]);
      rig.runTo(60_000);
      expect([rig.errors, rig.openings()]).toEqual([[cause], 3]);
    },
  );

  test('again and again right after opening is not tried faster and faster', () => {
    const dies = (nowMs: number) =>
      concat(
        of(open(nowMs)),
        throwError(() => lost),
      ) as Observable<LinkEvent>;
    const rig = play([dies]);
    rig.runTo(60_000);
    const waits = rig.times.slice(1).map((time, at) => time - rig.times[at]!);
    expect(waits.slice(0, 7)).toEqual([250, 500, 1000, 2000, 4000, 5000, 5000]);
  });

  test('after data came begins with the short wait again', () => {
    const rig = play([opensAndDies, fails(lost), fails(lost), opensAndDies, staysOpen]);
    rig.runTo(60_000);
    expect(rig.times).toEqual([0, 250, 750, 1750, 2000]);
    expect(rig.events.filter(({ kind }) => kind === 'open')).toHaveLength(3);
  });

  test('slept through with a shut lid is one attempt, not a burst, and short waits after it', () => {
    const rig = play([opensAndDies, fails(busy), fails(busy), fails(busy), staysOpen]);
    rig.runTo(700); // the second wait, of 500 ms, has 50 ms to go
    // The lid: nothing runs for 8 hours, then the timer that was due fires late.
    const HOURS_8 = 28_800_000;
    rig.scheduler.frame = 700;
    const waiting = rig.scheduler.actions[0]!;
    waiting.delay = HOURS_8;
    const before = rig.openings();
    rig.scheduler.maxFrames = HOURS_8;
    rig.scheduler.flush();
    expect(rig.openings() - before).toBe(1);
    rig.runTo(HOURS_8 + 800);
    expect(rig.times.slice(-2).map((time) => time - HOURS_8)).toEqual([250, 750]);
    const told = rig.events.at(-1);
    expect(told).toMatchObject({ problem: { code: 'search.reopened', context: { seconds: 28_800.8 } } });
  });

  test('of a source whose clock starts afresh moves its times on, so that none falls', () => {
    const afresh = () => concat(of(open(0), bytes(5), bytes(40)), NEVER) as Observable<LinkEvent>;
    const first = () =>
      concat(
        of(open(0), bytes(90_000)),
        throwError(() => lost),
      ) as Observable<LinkEvent>;
    const rig = play([first, afresh]);
    rig.runTo(1000);
    expect(rig.events.map(({ atMs }) => atMs)).toEqual([0, 90_000, 90_000, 90_250, 90_250, 90_255, 90_290]);
    expect(rig.events[4]).toEqual(reopened(90_250, 0.3));
  });

  test('moves the time of readings with that of their events', () => {
    const reading = (atMs: number): LinkEvent => ({
      ...{ kind: 'reading', atMs: millis(atMs) },
      reading: { signal: 'engineSpeed', atMs: millis(atMs), value: 150, quality: 'valid', origin: -1 },
    });
    const first = () =>
      concat(
        of(open(0), reading(1000)),
        throwError(() => lost),
      ) as Observable<LinkEvent>;
    const rig = play([first, () => concat(of(open(0), reading(10)), NEVER) as Observable<LinkEvent>]);
    rig.runTo(1000);
    expect(rig.events.at(-1)).toMatchObject({ atMs: 1260, reading: { atMs: 1260 } });
  });

  test('is seen in the state of the link: reopening, then waiting, then live', () => {
    const rig = play([
      opensAndDies,
      (nowMs) => concat(of(open(nowMs), bytes(nowMs)), NEVER) as Observable<LinkEvent>,
    ]);
    const states = () => rig.events.reduce(nextLinkState, NO_LINK);
    expect(states().kind).toBe('reopening');
    rig.runTo(1000);
    expect(states()).toMatchObject({ kind: 'live', bytes: 2 });
  });
});
