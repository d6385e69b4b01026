import { Subject, VirtualTimeScheduler, of, take, throwError, concat } from 'rxjs';
import { describe, expect, test } from 'vitest';
import type { LinkEvent } from '../../src/link/link-event.ts';
import { problem } from '../../src/problems/problem.ts';
import { failed, ok, type Result } from '../../src/problems/result.ts';
import { unpackChunk, type Chunk } from '../../src/recordings/chunk.ts';
import { recordTo, type RecordingReport } from '../../src/recordings/recorder.ts';
import type { RecordingWriter } from '../../src/recordings/recording-store.ts';
import { turns } from '../adapters/fixtures/turns.ts';
import { bytes, header, open } from './fixtures.ts';

/** A store in memory that fails when told to, and writes down what it was asked in order. */
function memory() {
  const asked: string[] = [];
  const chunks: Chunk[] = [];
  const rules = { failing: false, throwing: false, hold: null as Promise<unknown> | null };
  const outcome = async (what: string, keep: () => void): Promise<Result<void>> => {
    asked.push(what);
    await rules.hold;
    if (rules.throwing) throw new Error('broken');
    if (rules.failing) return failed(problem('storage.full'));
    keep();
    return ok(undefined);
  };
  const store: RecordingWriter = {
    create: ({ id }) => outcome(`create ${id}`, () => undefined),
    append: (chunk) => outcome(`append ${chunk.sequence}`, () => void chunks.push(chunk)),
    close: (id) => outcome(`close ${id}`, () => undefined),
  };
  return { store, rules, asked, kept: () => chunks.flatMap(unpackChunk) };
}

function setUp() {
  const scheduler = new VirtualTimeScheduler();
  const reports: RecordingReport[] = [];
  const kept = memory();
  const record = recordTo(kept.store, header('r'), { scheduler, onReport: (report) => reports.push(report) });
  const source = new Subject<LinkEvent>();
  const seen: LinkEvent[] = [];
  const advance = async (ms: number) => {
    await turns(2);
    scheduler.maxFrames = scheduler.frame + ms;
    scheduler.flush();
    scheduler.frame = scheduler.maxFrames;
    await turns(2);
  };
  return { scheduler, reports, ...kept, record, source, seen, advance, last: () => reports.at(-1) };
}

describe('a recorder', () => {
  test('passes each event on at once and as it is', () => {
    const { record, source, seen } = setUp();
    const subscription = source.pipe(record).subscribe((event) => seen.push(event));
    const event = bytes(1, 1);
    source.next(event);
    expect(seen).toEqual([event]);
    expect(seen[0]).toBe(event);
    subscription.unsubscribe();
  });

  test('begins nothing until subscribed', async () => {
    const { record, source, asked } = setUp();
    source.pipe(record);
    await turns();
    expect(asked).toEqual([]);
  });

  test('writes what is half a second old, and says until when all is safe', async () => {
    const { record, source, asked, advance, last, kept } = setUp();
    const subscription = source.pipe(record).subscribe();
    source.next(open(0));
    source.next(bytes(5, 1, 2, 3));
    await advance(499);
    expect(asked).toEqual(['create r']);
    await advance(1);
    expect(asked).toEqual(['create r', 'append 0']);
    expect(last()).toEqual({ savedUntilMs: 5, savedBytes: 3, unsavedBytes: 0, problem: null, closed: false });
    expect(kept()).toEqual([open(0), bytes(5, 1, 2, 3)]);
    subscription.unsubscribe();
  });

  test('lets no event get older than half a second, however many follow', async () => {
    const { record, source, advance, kept } = setUp();
    const subscription = source.pipe(record).subscribe();
    for (let at = 0; at < 20; at++) {
      source.next(bytes(at * 100, at));
      await advance(100);
      expect(at - kept().length).toBeLessThanOrEqual(5);
    }
    subscription.unsubscribe();
  });

  test('writes 64 KiB at once, without waiting', async () => {
    const { record, source, asked } = setUp();
    const subscription = source.pipe(record).subscribe();
    source.next({ ...bytes(1), bytes: new Uint8Array(60_000) } as LinkEvent);
    source.next({ ...bytes(2), bytes: new Uint8Array(60_000) } as LinkEvent);
    await turns();
    expect(asked).toEqual(['create r', 'append 0']);
    subscription.unsubscribe();
    await turns();
    expect(asked).toEqual(['create r', 'append 0', 'append 1', 'close r']);
  });

  test.each([
    ['completes', (source: Subject<LinkEvent>) => source.complete()],
    ['fails', (source: Subject<LinkEvent>) => source.error(problem('link.lost', { device: 'x' }))],
  ])('writes the rest and closes when the source %s', async (_how, end) => {
    const { record, source, asked, last, kept, scheduler } = setUp();
    const ended: unknown[] = [];
    const subscription = source
      .pipe(record)
      .subscribe({ error: (error) => ended.push(error), complete: () => ended.push('complete') });
    source.next(bytes(1, 1));
    end(source);
    expect(ended).toHaveLength(1);
    expect(subscription.closed).toBe(true);
    await turns();
    expect(asked).toEqual(['create r', 'append 0', 'close r']);
    expect(kept()).toEqual([bytes(1, 1)]);
    expect(last()).toMatchObject({ closed: true, problem: null, unsavedBytes: 0 });
    expect(scheduler.actions).toEqual([]);
  });

  test('writes the rest and closes when it is let go, and only once', async () => {
    const { record, source, asked, scheduler } = setUp();
    const subscription = source.pipe(record).subscribe();
    source.next(bytes(1, 1));
    subscription.unsubscribe();
    subscription.unsubscribe();
    source.next(bytes(2, 2));
    await turns();
    expect(asked).toEqual(['create r', 'append 0', 'close r']);
    expect(scheduler.actions).toEqual([]);
    expect(source.observed).toBe(false);
  });

  test('keeps the event at which a listener lets go', async () => {
    const { record, kept } = setUp();
    concat(
      of(bytes(1, 1), bytes(2, 2)),
      throwError(() => problem('link.closed')),
    )
      .pipe(record, take(1))
      .subscribe();
    await turns();
    expect(kept()).toEqual([bytes(1, 1)]);
  });

  test('closes an empty recording of a source that delivers nothing', async () => {
    const { record, asked } = setUp();
    const subscription = of<LinkEvent>().pipe(record).subscribe();
    expect(subscription.closed).toBe(true);
    await turns();
    expect(asked).toEqual(['create r', 'close r']);
  });
});

describe('a recorder whose store fails', () => {
  test('never stops or delays the stream, reports, and writes all in order when it works again', async () => {
    const { record, source, seen, rules, advance, last, kept } = setUp();
    const subscription = source.pipe(record).subscribe((event) => seen.push(event));
    rules.failing = true;
    for (let at = 0; at < 5; at++) {
      source.next(bytes(at * 1000, at));
      await advance(1000);
    }
    expect(seen).toHaveLength(5);
    expect(last()).toMatchObject({ problem: { code: 'storage.full' }, savedUntilMs: null });
    rules.failing = false;
    await advance(1000);
    expect(kept()).toEqual(seen);
    expect(last()).toMatchObject({ problem: null, savedUntilMs: 4000, savedBytes: 5, unsavedBytes: 0 });
    subscription.unsubscribe();
  });

  test('by an exception is a problem like any other', async () => {
    const { record, source, rules, advance, last } = setUp();
    rules.throwing = true;
    const subscription = source.pipe(record).subscribe();
    await advance(10);
    expect(last()).toMatchObject({ problem: { code: 'storage.failed' } });
    rules.throwing = false;
    await advance(1000);
    expect(last()).toMatchObject({ problem: null });
    subscription.unsubscribe();
  });

  test('after the source is over tries a few times more, then says how much is not saved', async () => {
    const { record, source, rules, asked, advance, last, scheduler } = setUp();
    const subscription = source.pipe(record).subscribe();
    await turns();
    rules.failing = true;
    source.next(bytes(1, 1, 2, 3));
    subscription.unsubscribe();
    for (let second = 0; second < 20; second++) await advance(1000);
    expect(asked.filter((what) => what === 'append 0')).toHaveLength(6);
    expect(last()).toMatchObject({
      closed: false,
      problem: { code: 'storage.not-saved', context: { bytes: 3 } },
    });
    expect(scheduler.actions).toEqual([]);
  });

  test('by being slow writes in order, one at a time', async () => {
    const { record, source, rules, asked, advance, kept } = setUp();
    let release = () => undefined as void;
    rules.hold = new Promise<void>((resolve) => (release = resolve));
    const subscription = source.pipe(record).subscribe();
    source.next(bytes(1, 1));
    await advance(500);
    source.next(bytes(2, 2));
    await advance(500);
    subscription.unsubscribe();
    await turns();
    expect(asked).toEqual(['create r']);
    release();
    await turns();
    expect(asked).toEqual(['create r', 'append 0', 'append 1', 'close r']);
    expect(kept()).toEqual([bytes(1, 1), bytes(2, 2)]);
  });
});
