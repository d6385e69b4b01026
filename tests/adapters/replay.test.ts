import fc from 'fast-check';
import { Subject, VirtualTimeScheduler } from 'rxjs';
import { describe, expect, test } from 'vitest';
import { replayAdapter, type ReplayChoice, type ReplaySpeed } from '../../adapters/replay.ts';
import type { LinkEvent } from '../../src/link/link-event.ts';
import { problem } from '../../src/problems/problem.ts';
import { failed } from '../../src/problems/result.ts';
import { millis } from '../../src/quantities/time.ts';
import { turns } from './fixtures/turns.ts';

const open: LinkEvent = { kind: 'open', atMs: millis(1000), device: 'bridge', write: null };
const bytes = (atMs: number): LinkEvent => ({
  kind: 'bytes',
  atMs: millis(atMs),
  bytes: Uint8Array.of(atMs & 0xff),
});
const recorded = [open, bytes(1100), bytes(1200), bytes(3000)];

function play(choice: Partial<ReplayChoice>) {
  const scheduler = new VirtualTimeScheduler();
  const seen: { at: number; event: LinkEvent }[] = [];
  const ends: unknown[] = [];
  const adapter = replayAdapter(scheduler, () => Promise.resolve(failed(problem('link.refused'))));
  const subscription = adapter.open({ events: recorded, device: 'bridge', speed: 1, ...choice }).subscribe({
    next: (event) => seen.push({ at: scheduler.frame, event }),
    error: (error) => ends.push(error),
    complete: () => ends.push(`complete at ${scheduler.frame}`),
  });
  const until = (frame: number) => {
    scheduler.maxFrames = frame;
    scheduler.flush();
    scheduler.frame = frame;
  };
  return { scheduler, seen, ends, subscription, until, times: () => seen.map(({ at }) => at) };
}

describe('a replay', () => {
  test.each<[ReplaySpeed, number[]]>([
    [1, [0, 100, 200, 2000]],
    [0.25, [0, 400, 800, 8000]],
    [2, [0, 50, 100, 1000]],
    [32, [0, 3.125, 6.25, 62.5]],
    ['instant', [0, 0, 0, 0]],
  ])('at speed %s gives each event in its time, and completes after the last', (speed, times) => {
    const { until, ...replay } = play({ speed });
    until(10_000);
    expect(replay.times()).toEqual(times);
    expect(replay.ends).toHaveLength(1);
    expect(replay.seen.map(({ event }) => event)).toEqual(recorded);
  });

  test.each([
    [1000, 32],
    [0.001, 0.25],
    [-1, 0.25],
    [NaN, 1],
  ])('asked for speed %s runs at %s', (asked, speed) => {
    const replay = play({ speed: asked });
    replay.until(10_000);
    expect(replay.times().at(-1)).toBeCloseTo(2000 / speed, 6);
  });

  test('changes its speed from the place where it is', () => {
    const speed$ = new Subject<ReplaySpeed>();
    const replay = play({ speed$ });
    replay.until(1000); // at 2000 of the recording
    speed$.next(4);
    replay.until(10_000);
    expect(replay.times()).toEqual([0, 100, 200, 1250]);
  });

  test('stands still while paused and goes on from there', () => {
    const speed$ = new Subject<ReplaySpeed>();
    const replay = play({ speed$ });
    replay.until(150);
    speed$.next('paused');
    replay.until(60_000);
    expect(replay.times()).toEqual([0, 100]);
    speed$.next(1);
    replay.until(100_000);
    expect(replay.times()).toEqual([0, 100, 60_050, 61_850]);
  });

  test('plays the rest at once when asked, and the end of the speed changes nothing', () => {
    const speed$ = new Subject<ReplaySpeed>();
    const replay = play({ speed$ });
    replay.until(150);
    speed$.next('instant');
    speed$.complete();
    replay.until(151);
    expect([replay.seen.length, replay.ends]).toEqual([4, ['complete at 150']]);
    expect(speed$.observed).toBe(false);
  });

  test('outlasts a pause of a month in the recording', () => {
    const month = 30 * 24 * 3_600_000;
    const replay = play({ events: [open, bytes(1000 + month)] });
    replay.until(month - 1);
    expect(replay.seen).toHaveLength(1);
    replay.until(month);
    expect(replay.seen).toHaveLength(2);
  });

  test('never hands out the means to write', () => {
    const write = () => Promise.resolve({ ok: true as const, value: undefined });
    const replay = play({ events: [{ ...open, write } as LinkEvent], speed: 'instant' });
    replay.until(1);
    expect(replay.seen[0]?.event).toEqual(open);
  });

  test('of a recording whose beginning is lost opens at its first event', () => {
    const replay = play({ events: recorded.slice(1) });
    replay.until(10_000);
    expect(replay.seen.map(({ event }) => event)).toEqual([{ ...open, atMs: 1100 }, ...recorded.slice(1)]);
  });

  test('of nothing completes', () => {
    const replay = play({ events: [] });
    replay.until(1);
    expect([replay.seen, replay.ends.length]).toEqual([[], 1]);
  });

  test('gives the same events at any speed, with any changes of it', () => {
    const speed = fc.oneof(
      fc.double({ min: 0.25, max: 32, noNaN: true }),
      fc.constantFrom('instant' as const, 'paused' as const),
    );
    fc.assert(
      fc.property(
        fc.array(fc.nat(900), { maxLength: 12 }),
        speed,
        fc.array(fc.tuple(fc.nat(400), speed)),
        (gaps, first, changes) => {
          let atMs = 1000;
          const events = [open, ...gaps.map((gap) => bytes((atMs += gap)))];
          const speed$ = new Subject<ReplaySpeed>();
          const replay = play({ events, speed: first, speed$ });
          let frame = 0;
          for (const [wait, next] of changes) {
            replay.until((frame += wait));
            speed$.next(next);
          }
          speed$.next(1);
          replay.until(frame + 1_000_000);
          expect(replay.seen.map(({ event }) => event)).toEqual(events);
          expect(replay.ends).toHaveLength(1);
        },
      ),
    );
  });
});

describe('a replay from disk', () => {
  test('reads ahead only so far, and gives all', async () => {
    let read = 0;
    const events: AsyncIterable<LinkEvent> = {
      async *[Symbol.asyncIterator]() {
        for (; read < 9_000; read++) yield read === 0 ? open : bytes(1000 + read);
      },
    };
    const replay = play({ events, speed: 1 });
    for (let turn = 0; turn < 5; turn++) await turns();
    expect(read).toBeLessThan(3_000);
    for (let frame = 1; frame < 100; frame++) {
      replay.until(frame * 100);
      await turns(1);
    }
    expect(replay.seen.map(({ event }) => event.atMs)).toEqual(
      Array.from({ length: 9_000 }, (_, at) => 1000 + at),
    );
    expect(replay.ends).toHaveLength(1);
  });

  test('that cannot be read further ends with a problem, after what was read', async () => {
    const events: AsyncIterable<LinkEvent> = {
      async *[Symbol.asyncIterator]() {
        yield open;
        throw new Error('damaged');
      },
    };
    const replay = play({ events, speed: 'instant' });
    await turns();
    replay.until(10);
    await turns();
    replay.until(20);
    expect(replay.seen).toHaveLength(1);
    expect(replay.ends).toMatchObject([{ code: 'link.replay-unreadable' }]);
  });
});
