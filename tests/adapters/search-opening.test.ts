import { concat, NEVER, of, throwError, VirtualTimeScheduler, type Observable } from 'rxjs';
import { describe, expect, test } from 'vitest';
import { benchAdapter } from '../../adapters/bench.ts';
import { openBridge, type BridgeMeans } from '../../adapters/open-bridge.ts';
import type { LinkEvent, WriteBytes } from '../../src/link/link-event.ts';
import { problem, type Problem } from '../../src/problems/problem.ts';
import { ok } from '../../src/problems/result.ts';
import { millis } from '../../src/quantities/time.ts';
import type { SearchReport } from '../../src/wire/found-bridge.ts';

const write: WriteBytes = () => Promise.resolve(ok(undefined));
const open = (by: WriteBytes | null = write): LinkEvent => ({
  ...{ kind: 'open', atMs: millis(0), device: 'bridge' },
  write: by,
});
const bytes = (text: string): LinkEvent => ({
  ...{ kind: 'bytes', atMs: millis(0) },
  bytes: Uint8Array.from(text, (letter) => letter.charCodeAt(0)),
});
const FRAME = 'T0CF004008F0FF7DBA04FFFFFF\r';

/** Opens sources by their speed. */
function play(source: (baud: number | null) => Observable<LinkEvent>, means: Partial<BridgeMeans> = {}) {
  const scheduler = new VirtualTimeScheduler(undefined, 6000);
  const opened: (number | null)[] = [];
  const events: LinkEvent[] = [];
  const ends: unknown[] = [];
  const reports: SearchReport[] = [];
  const subscription = openBridge(
    (baud) => {
      opened.push(baud);
      return source(baud);
    },
    {
      ...{ scheduler, speeds: [115_200, 57_600], remembered: null, wanted: { listenOnly: true } },
      onReport: (report) => reports.push(report),
      ...means,
    },
  ).subscribe({
    next: (event) => events.push(event),
    error: (cause) => ends.push(cause),
    complete: () => ends.push('complete'),
  });
  scheduler.flush();
  return { scheduler, opened, events, ends, reports, subscription };
}
const fails = (cause: Problem) => throwError(() => cause);
const endless = (...events: LinkEvent[]) => concat(of(...events), NEVER) as Observable<LinkEvent>;

describe('a source that fails', () => {
  test('to open at one speed is opened at the next', () => {
    const refuses = problem('link.open-failed', { device: 'bridge', detail: 'speed' });
    const line = '(1589326646.631333) can1 18FEF700#FFFFFFFFF200FFFF\n';
    const { opened, ends, reports } = play((baud) =>
      baud === 115_200 ? fails(refuses) : endless(open(), bytes(line + line)),
    );
    expect([opened, ends]).toEqual([[115_200, 57_600], []]);
    expect(reports.at(-1)?.found).toMatchObject({ protocol: 'candump', baudRate: 57_600 });
  });

  test('to open at every speed ends with its problem', () => {
    const refuses = problem('link.open-failed', { device: 'bridge', detail: 'gone' });
    expect(play(() => fails(refuses)).ends).toEqual([refuses]);
  });

  test.each([problem('link.port-busy'), problem('link.refused'), problem('link.lost', { device: 'bridge' })])(
    'with $code at first ends with it, and no other speed is tried',
    (cause) => {
      const { ends, opened } = play(() => fails(cause));
      expect([ends, opened]).toEqual([[cause], [115_200]]);
    },
  );

  test('in the middle of the search ends it, with no timer left', () => {
    const lost = problem('link.lost', { device: 'bridge' });
    const { ends, scheduler, events } = play(() => concat(of(open()), fails(lost)));
    expect([ends, events, scheduler.actions]).toEqual([[lost], [], []]);
  });
});

describe('a source of another sort', () => {
  test('that ends gives all that it had', () => {
    const { events, ends } = play(() => of(open(), bytes('abc')));
    expect([events.map(({ kind }) => kind), ends]).toEqual([['open', 'bytes'], ['complete']]);
  });

  test('that delivers readings is left alone', () => {
    const reading: LinkEvent = {
      ...{ kind: 'reading', atMs: millis(5) },
      reading: { signal: 'engineSpeed', atMs: millis(5), value: 150, quality: 'valid', origin: -1 },
    };
    const { events, opened } = play(() => endless(open(null), reading));
    expect([events.map(({ kind }) => kind), opened]).toEqual([['open', 'reading'], [115_200]]);
  });

  test('that cannot be written to is listened to', () => {
    const { reports } = play(() => endless(open(null), bytes(FRAME + FRAME)), { speeds: null });
    expect(reports.at(-1)?.found).toMatchObject({ protocol: 'slcan', listenOnly: 'notApplicable' });
  });

  test('whose write fails tells it, once it is kept', async () => {
    const failed = problem('link.write-failed', { device: 'bridge', detail: 'x' });
    const refuses = () => Promise.resolve({ ok: false as const, problem: failed });
    const { events, subscription } = play(() => endless(open(refuses)), { speeds: null });
    await Promise.resolve();
    await Promise.resolve();
    expect(events.some((event) => event.kind === 'gap' && event.problem === failed)).toBe(true);
    subscription.unsubscribe();
  });
});

describe('the bench', () => {
  test('is found through the very same search, as a bridge without a serial speed', () => {
    const scheduler = new VirtualTimeScheduler(undefined, 3000);
    const reports: SearchReport[] = [];
    const events: LinkEvent[] = [];
    const bench = benchAdapter({ scheduler });
    const subscription = openBridge(
      () =>
        bench.open({
          ...{ scenario: 'healthy', seed: 1, speed: 1 },
          key$: concat(of({ keyOn: true, starterOn: false }), NEVER),
        }),
      {
        ...{ scheduler, speeds: null, remembered: null, wanted: { listenOnly: true } },
        onReport: (report) => reports.push(report),
      },
    ).subscribe((event) => events.push(event));
    scheduler.maxFrames = 1500;
    scheduler.flush();
    expect(reports.at(-1)).toMatchObject({
      stage: 'found',
      found: { baudRate: null, bitRate: 250_000, listenOnly: 'confirmed' },
    });
    const times = events.map(({ atMs }) => atMs);
    expect(times).toEqual(times.toSorted((a, b) => a - b));
    subscription.unsubscribe();
  });
});
