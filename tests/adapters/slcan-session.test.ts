import { Subject, VirtualTimeScheduler } from 'rxjs';
import { describe, expect, test } from 'vitest';
import { withSlcanSetup } from '../../adapters/slcan-session.ts';
import type { LinkEvent, WriteBytes } from '../../src/link/link-event.ts';
import { problem } from '../../src/problems/problem.ts';
import { failed, ok } from '../../src/problems/result.ts';
import { millis } from '../../src/quantities/time.ts';
import type { SlcanSettings } from '../../src/wire/slcan-setup.ts';
import { turns } from './fixtures/turns.ts';

const text = (value: string) => new TextEncoder().encode(value);
const LISTEN: SlcanSettings = { bitRate: 250_000, listenOnly: true, stamps: true };

/** A bridge that answers each command from a table, at once and in the middle of the write, or not at all. */
function setUp(answers: Readonly<Record<string, string>>, settings: SlcanSettings = LISTEN) {
  const scheduler = new VirtualTimeScheduler();
  const device = new Subject<LinkEvent>();
  const sent: string[] = [];
  let atMs = 0;
  const say = (line: string) => device.next({ kind: 'bytes', atMs: millis(++atMs), bytes: text(line) });
  const write: WriteBytes = (bytes) => {
    const command = new TextDecoder().decode(bytes);
    sent.push(command);
    const answer = answers[command];
    if (answer !== undefined) say(answer);
    return Promise.resolve(ok(undefined));
  };
  const seen: LinkEvent[] = [];
  const ends: unknown[] = [];
  const subscription = device.pipe(withSlcanSetup(settings, scheduler)).subscribe({
    next: (event) => seen.push(event),
    error: (error) => ends.push(error),
    complete: () => ends.push('complete'),
  });
  const open = (by: WriteBytes | null = write) =>
    device.next({ kind: 'open', atMs: millis(0), device: 'bridge', write: by });
  const gaps = () => seen.flatMap((event) => (event.kind === 'gap' ? [event.problem.code] : []));
  return { scheduler, device, sent, say, seen, ends, subscription, open, gaps };
}

const ANSWERS = { 'C\r': '\r', 'V\r': 'V1013\r', 'S5\r': '\r', 'Z1\r': '\r', 'L\r': '\r', 'O\r': '\r' };
// Order of can-text-formats.md, Part 1, "Safe start".
const SAFE_START = ['\r\r\r', 'C\r', 'V\r', 'S5\r', 'Z1\r', 'L\r'];

describe('setting up a bridge', () => {
  test('that answers sends the safe start, one command a write, each after its answer', () => {
    const { scheduler, sent, open, gaps } = setUp(ANSWERS);
    open();
    expect(sent).toEqual(['\r\r\r']);
    scheduler.flush();
    expect(sent).toEqual(SAFE_START);
    expect([gaps(), scheduler.actions.length]).toEqual([[], 0]);
  });

  test('that never answers goes on after a wait, without what only known bridges understand', () => {
    const { scheduler, sent, open, gaps } = setUp({});
    open();
    scheduler.flush();
    expect(sent).toEqual(['\r\r\r', 'C\r', 'V\r', 'S5\r', 'L\r']);
    // 100 to 300 ms an answer: can-text-formats.md, Quirks, "No ACK or NACK at all".
    expect(scheduler.frame).toBeGreaterThanOrEqual(500);
    expect(scheduler.frame).toBeLessThanOrEqual(1500);
    expect(gaps()).toEqual(['wire.listen-only-unconfirmed']);
  });

  test('that refuses listen-only is told, and is never opened normally instead', () => {
    const { scheduler, sent, open, gaps } = setUp({ ...ANSWERS, 'L\r': '\u0007' });
    open();
    scheduler.flush();
    expect(gaps()).toEqual(['wire.listen-only-refused']);
    expect(sent).not.toContain('O\r');
  });

  test('that refuses the bit rate is told, and is not opened at all', () => {
    const { scheduler, sent, open, gaps } = setUp({ ...ANSWERS, 'S5\r': '\u0007' });
    open();
    scheduler.flush();
    expect(gaps()).toEqual(['wire.bit-rate-refused']);
    expect(sent).not.toContain('L\r');
  });

  test.each([
    ['has a version of free text', { 'V\r': 'V2.0 open firmware\r' }, ['wire.listen-only-unconfirmed']],
    ['has no version', { 'V\r': '\u0007' }, ['wire.listen-only-unconfirmed']],
    ['is silent after L', { 'L\r': '' }, ['wire.listen-only-unconfirmed']],
    ['is of the classic kind and acknowledges L', {}, []],
  ])('that %s is told of at most once', (_what, answers, told) => {
    const { scheduler, sent, say, open, gaps } = setUp({ ...ANSWERS, ...answers });
    open();
    scheduler.flush();
    say('\r\u0007T0CF004008FFFFFF6813FFFFFF\rF00\r');
    scheduler.flush();
    expect([gaps(), sent.includes('L\r'), sent.includes('O\r')]).toEqual([told, true, false]);
  });

  test('that never answers, opened normally as was asked, has nothing to be told of', () => {
    const { scheduler, open, gaps } = setUp({}, { ...LISTEN, listenOnly: false });
    open();
    scheduler.flush();
    expect(gaps()).toEqual([]);
  });

  test('that talks without end is set up all the same', () => {
    const chatter = 'sa000000\r'.repeat(40);
    const commands = [...Object.keys(ANSWERS), '\r\r\r'];
    const { scheduler, sent, open, gaps } = setUp(Object.fromEntries(commands.map((it) => [it, chatter])));
    open();
    scheduler.flush();
    expect([sent.at(-1), gaps()]).toEqual(['L\r', ['wire.listen-only-unconfirmed']]);
  });

  test('at 500 kbit/s with requests wanted opens as it was asked to', () => {
    const { scheduler, sent, open } = setUp({}, { bitRate: 500_000, listenOnly: false, stamps: false });
    open();
    scheduler.flush();
    expect(sent).toEqual(['\r\r\r', 'C\r', 'V\r', 'S6\r', 'O\r']);
  });

  test('finds the answers among the frames of a bridge that was left open', () => {
    const frame = 'T0CF004008FFFFFF6813FFFFFF\r';
    const busy = Object.fromEntries(
      Object.entries(ANSWERS).map(([command, answer]) => [command, frame + answer + frame]),
    );
    const { scheduler, sent, open, gaps } = setUp(busy);
    open();
    scheduler.flush();
    expect([sent, gaps()]).toEqual([SAFE_START, []]);
  });

  test('that cannot be written to does nothing', () => {
    const { scheduler, sent, open, seen, subscription } = setUp(ANSWERS);
    open(null);
    scheduler.flush();
    subscription.unsubscribe();
    expect([sent, seen.length]).toEqual([[], 1]);
  });

  test('whose write fails says so', async () => {
    const { open, gaps, subscription } = setUp({});
    open(() => Promise.resolve(failed(problem('link.write-failed', { device: 'bridge', detail: 'x' }))));
    await turns();
    expect(gaps()).toEqual(['link.write-failed']);
    subscription.unsubscribe();
  });

  test('starts afresh when the link opens again', () => {
    const { scheduler, sent, open } = setUp(ANSWERS);
    open();
    scheduler.flush();
    open();
    scheduler.maxFrames = Infinity;
    scheduler.flush();
    expect(sent).toEqual([...SAFE_START, ...SAFE_START]);
  });
});

describe('a bridge that is set up', () => {
  test('has every event passed on as it is, during the handshake and after', () => {
    const { scheduler, device, say, seen, open } = setUp({}, { ...LISTEN, listenOnly: false });
    const passed: LinkEvent[] = [];
    const watching = device.subscribe((event) => passed.push(event));
    open();
    say('T0CF');
    scheduler.flush();
    say('004008FFFFFF6813FFFFFF\r');
    watching.unsubscribe();
    expect(seen).toEqual(passed);
    seen.forEach((event, at) => expect(event).toBe(passed[at]));
  });

  test('has its channel closed when it is let go, while the link can still be written to', () => {
    const { scheduler, device, sent, open, subscription } = setUp(ANSWERS);
    open();
    scheduler.flush();
    subscription.unsubscribe();
    expect(sent.at(-1)).toBe('C\r');
    expect([sent.length, device.observed]).toEqual([SAFE_START.length + 1, false]);
  });

  test('let go in the middle of the handshake leaves no timer and sends nothing but the closing', () => {
    const { scheduler, sent, open, subscription } = setUp({});
    open();
    subscription.unsubscribe();
    expect(scheduler.actions).toEqual([]);
    scheduler.flush();
    expect(sent).toEqual(['\r\r\r', 'C\r']);
  });

  test.each([
    ['lost', (device: Subject<LinkEvent>) => device.error(problem('link.lost', { device: 'bridge' }))],
    ['ended', (device: Subject<LinkEvent>) => device.complete()],
  ])('that is %s is written to no more', (_how, end) => {
    const { scheduler, device, sent, ends, open } = setUp({});
    open();
    end(device);
    scheduler.flush();
    expect([sent, ends.length, scheduler.actions.length]).toEqual([['\r\r\r'], 1, 0]);
  });
});
