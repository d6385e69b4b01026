import { gzipSync } from 'node:zlib';
import fc from 'fast-check';
import { VirtualTimeScheduler, type SchedulerAction, type SchedulerLike } from 'rxjs';
import { describe, expect, test, vi } from 'vitest';
import { SLICE_MS } from '../../adapters/deliver-in-slices.ts';
import { logChunks } from '../../adapters/log-chunks.ts';
import { logFileAdapter, type LogFileChoice, type LogFileMeans } from '../../adapters/log-file.ts';
import { unpackGzip } from '../../adapters/unpack-gzip.ts';
import type { LinkEvent } from '../../src/link/link-event.ts';
import { problem } from '../../src/problems/problem.ts';
import { failed, ok } from '../../src/problems/result.ts';
import { millis } from '../../src/quantities/time.ts';
import { bytesOf } from './describe-adapter.ts';
import { turns } from './fixtures/turns.ts';

const text = (value: string) => new TextEncoder().encode(value);
const line = (stamp: string) => `(${stamp}) can0 0CF00400#FFFFFF6813FFFFFF\n`;

async function read(choice: Partial<LogFileChoice>, means: Partial<LogFileMeans> = {}) {
  const scheduler = new VirtualTimeScheduler();
  const adapter = logFileAdapter({
    scheduler,
    pick: () => Promise.resolve(null),
    readNumbers: () => ok([]),
    ...means,
  });
  const seen = { events: [] as LinkEvent[], ends: [] as unknown[] };
  const subscription = adapter
    .open({ name: 'a.log', bytes: text(''), wire: 'candump', plan: null, ...choice })
    .subscribe({
      next: (event) => seen.events.push(event),
      error: (error) => seen.ends.push(error),
      complete: () => seen.ends.push('complete'),
    });
  // Unpacking runs on another thread: wait for the end, not for a number of turns.
  await vi.waitFor(async () => {
    await turns();
    scheduler.flush();
    expect(seen.ends).toHaveLength(1);
  });
  subscription.unsubscribe();
  return seen;
}

const stamps = (log: string, wire: 'candump' | 'slcan' = 'candump') =>
  [...logChunks(text(log), wire)].map(({ atMs }) => atMs);

describe('the pieces of a log', () => {
  test('are paced by its stamps, in spans of about 50 ms', () => {
    const log = ['1589326646.631333', '1589326646.641333', '1589326646.700333', '1589326648.000333']
      .map(line)
      .join('');
    const [first, second, third] = stamps(log);
    expect(first).toBeCloseTo(10, 3);
    expect(second).toBeCloseTo(69, 3);
    expect(third).toBeCloseTo(1369, 3);
  });

  test('take stamps of the screen format, and fractions of 1 to 9 digits', () => {
    const log = ` (000.1)  can0  123   [1]  11\n (000.25)  can0  123   [1]  11\n (000.400000000)  can0  123   [1]  11\n`;
    expect(stamps(log).map(Math.round)).toEqual([0, 150, 300]);
  });

  test('of a log with times since the line before never run back', () => {
    const log = ['000.000000', '000.100000', '000.060000', '000.050000'].map(line).join('');
    expect(stamps(log).map(Math.round)).toEqual([0, 100, 160, 210]);
  });

  test('of a log whose clock was set back stand still there', () => {
    const log = ['1589326646.000000', '1589326647.000000', '1589326600.000000', '1589326600.200000']
      .map(line)
      .join('');
    expect(stamps(log).map(Math.round)).toEqual([0, 1000, 1200]);
  });

  test('without stamps are spread by position, as 115,200 baud would bring them', () => {
    // 10 bits a byte (8 data, start, stop): 11,520 bytes a second, arithmetic.
    expect(stamps('t1230\r'.repeat(1920), 'slcan').at(-1)).toBeCloseTo(1000, 6);
    expect(stamps('  can0  123   [1]  11\n'.repeat(2000)).at(-1)).toBeCloseTo((22 * 2000) / 11.52, 6);
  });

  test('of any bytes are small, in order of time, and hold every byte', () => {
    const stamp = fc
      .tuple(fc.nat(100), fc.nat(999_999))
      .map(([seconds, micro]) => line(`${seconds}.${micro}`));
    const junk = fc.oneof(
      stamp,
      fc.string(),
      fc.constant('\n'),
      fc.constant('(12.5'),
      fc.constant('x'.repeat(70_000)),
    );
    fc.assert(
      fc.property(
        fc.array(junk, { maxLength: 20 }),
        fc.constantFrom('candump' as const, 'slcan' as const),
        (parts, wire) => {
          const log = text(parts.join(''));
          const chunks = [...logChunks(log, wire)];
          expect(Buffer.concat(chunks.map(({ bytes }) => bytes)).equals(log)).toBe(true);
          expect(chunks.every(({ bytes }) => bytes.length > 0 && bytes.length <= 65_536)).toBe(true);
          const times = chunks.map(({ atMs }) => atMs);
          expect(times).toEqual(times.toSorted((a, b) => a - b));
        },
      ),
    );
  });
});

describe('a log file', () => {
  test('comes out of its packing, whatever its name', async () => {
    const log = [1, 2, 3].map((second) => line(`${second}.0`)).join('');
    const seen = await read({ bytes: new Uint8Array(gzipSync(log)) });
    expect(bytesOf(seen.events)).toEqual([...text(log)]);
    expect(seen.ends).toEqual(['complete']);
  });

  test('whose packing is cut or damaged is refused whole', async () => {
    const packed = new Uint8Array(gzipSync(line('1.0').repeat(1000)));
    for (const bytes of [packed.slice(0, -9), packed.map((byte, at) => (at === 40 ? byte ^ 0xff : byte))]) {
      const seen = await read({ bytes });
      expect(seen.events).toEqual([]);
      expect(seen.ends).toMatchObject([{ code: 'link.gzip-damaged', context: { name: 'a.log' } }]);
    }
  });

  test('that unpacks to more than fits is refused', async () => {
    const bytes = new Uint8Array(gzipSync(new Uint8Array(3 * 1_048_576)));
    expect(await unpackGzip('a.gz', bytes, 2)).toMatchObject({ problem: { code: 'link.gzip-too-large' } });
    expect(await unpackGzip('a.gz', bytes, 3)).toMatchObject({ ok: true, value: { length: 3 * 1_048_576 } });
  });

  test('that is empty opens and completes', async () => {
    const seen = await read({});
    expect(seen.events).toEqual([{ kind: 'open', atMs: 0, device: 'a.log', write: null }]);
    expect(seen.ends).toEqual(['complete']);
  });

  const reading = (atMs: number): LinkEvent => ({
    kind: 'reading',
    atMs: millis(atMs),
    reading: { signal: 'engineSpeed', atMs: millis(atMs), value: 150, quality: 'valid', origin: -1 },
  });

  test('of numbers is read by its plan, opened by its name, and never runs back', async () => {
    const plans: unknown[] = [];
    const readNumbers: LogFileMeans['readNumbers'] = (_bytes, plan) => {
      plans.push(plan);
      return ok([
        { kind: 'open', atMs: millis(0), device: 'x', write: null },
        reading(500),
        reading(400),
        reading(900),
      ]);
    };
    const seen = await read({ wire: 'readings', plan: { delimiter: ';' } }, { readNumbers });
    expect(plans).toEqual([{ delimiter: ';' }]);
    expect(seen.events.map(({ kind, atMs }) => [kind, atMs])).toEqual([
      ['open', 500],
      ['reading', 500],
      ['reading', 500],
      ['reading', 900],
    ]);
    expect(seen.events[2]).toMatchObject({ reading: { atMs: 400 } });
  });

  test('of numbers that cannot be read ends with the reason', async () => {
    const readNumbers = () => failed(problem('log.empty', { name: 'a.csv' }));
    expect((await read({ wire: 'readings' }, { readNumbers })).ends).toMatchObject([{ code: 'log.empty' }]);
  });

  test('whose choosing fails says that it could not be read', async () => {
    const pick = () => Promise.reject(new DOMException('moved away', 'NotReadableError'));
    const adapter = logFileAdapter({
      scheduler: new VirtualTimeScheduler(),
      pick,
      readNumbers: () => ok([]),
    });
    expect(await adapter.choose()).toMatchObject({ problem: { code: 'link.file-unreadable' } });
  });

  test('gives the page a turn after each slice of work', async () => {
    let now = 0;
    const virtual = new VirtualTimeScheduler();
    // Time moves only by the work of the listener, 5 ms an event; each task that is begun is written down.
    const begun: number[] = [];
    const scheduler: SchedulerLike = {
      now: () => now,
      schedule: (work, delay, state) =>
        virtual.schedule(function (this: SchedulerAction<never>) {
          begun.push(now);
          (work as (this: SchedulerAction<never>, given?: unknown) => void).call(this, state);
        }, delay),
    };
    const adapter = logFileAdapter({
      scheduler,
      pick: () => Promise.resolve(null),
      readNumbers: () => ok([]),
    });
    const subscription = adapter
      .open({ name: 'a', bytes: text('t1230\r'.repeat(2000)), wire: 'slcan', plan: null })
      .subscribe(() => (now += 5));
    await turns();
    virtual.flush();
    subscription.unsubscribe();
    const spans = begun.map((start, at) => (begun[at + 1] ?? now) - start);
    expect(spans.length).toBeGreaterThan(4);
    expect(Math.max(...spans)).toBeLessThanOrEqual(SLICE_MS + 5);
  });
});
