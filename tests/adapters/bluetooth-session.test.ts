import { describe, expect, test, vi } from 'vitest';
import {
  CUSTOM_SERVICES,
  PICK,
  codes,
  hang,
  holdTimers,
  network,
  setUp,
  settle,
  text,
  textOf,
} from './fixtures/bluetooth-setup.ts';
import { UART_SERVICES } from './fixtures/fake-bluetooth.ts';

holdTimers();

describe('receiving', () => {
  test('what comes before notifications are said to have started is kept, after open', async () => {
    let started: () => void = () => undefined;
    const { connect, peripheral } = setUp({
      starting: () => new Promise<void>((resolve) => (started = resolve)),
    });
    const seen = connect();
    await settle();
    peripheral.feed(text('early'));
    expect(seen.events).toEqual([]);
    started();
    await settle();
    peripheral.feed(text(' late'));
    expect(seen.events.map(({ kind }) => kind)).toEqual(['open', 'bytes', 'bytes']);
    expect(textOf(seen.events)).toBe('early late');
    seen.subscription.unsubscribe();
    await settle();
  });

  test('each notification is a copy, and an empty one is none', async () => {
    const { connect, peripheral } = setUp();
    const seen = connect();
    await settle();
    for (const piece of ['one', '', 'two']) peripheral.feed(text(piece));
    expect(seen.events.slice(1).map((event) => textOf([event]))).toEqual(['one', 'two']);
    seen.subscription.unsubscribe();
    await settle();
  });

  test('a loss is told once, also when told late again, and a late telling of an earlier one is none', async () => {
    const { connect, peripheral, isFree } = setUp();
    const seen = connect();
    await settle();
    peripheral.tellLate();
    await settle();
    expect([seen.errors, peripheral.connected]).toEqual([[], true]);
    peripheral.drop();
    peripheral.tellLate();
    await settle();
    expect(seen.errors).toEqual([{ code: 'link.lost', context: { device: 'bridge' } }]);
    isFree();
  });

  test('a loss while it starts is a loss', async () => {
    const { connect, peripheral, isFree } = setUp({ starting: hang });
    const seen = connect();
    await settle();
    peripheral.drop();
    await settle();
    expect([codes(seen.errors), seen.events]).toEqual([['link.lost'], []]);
    isFree();
  });
});

describe('writing', () => {
  test.each([
    ['without response where allowed', UART_SERVICES, false, 'without'],
    ['with response where not', CUSTOM_SERVICES, false, 'with'],
    ['the older way where the browser has no other', UART_SERVICES, true, 'old'],
  ] as const)('goes %s', async (_how, services, oldWrites, how) => {
    const { connect, peripheral } = setUp({ services, oldWrites });
    const pick = services === CUSTOM_SERVICES ? PICK : null;
    const seen = connect({ peripheral, device: 'bridge', pick });
    await settle();
    expect(await seen.write(text('x'.repeat(41)))).toEqual({ ok: true, value: undefined });
    expect(peripheral.sent.map((piece) => [piece.bytes.length, piece.how])).toEqual([
      [20, how],
      [20, how],
      [1, how],
    ]);
    seen.subscription.unsubscribe();
    await settle();
  });

  test.each([
    [182, 182],
    [514, 512],
    [7, 20],
  ])('where the browser says that %i bytes fit goes in pieces of %i', async (tells, pieceBytes) => {
    const { connect, peripheral } = setUp({ writeBytes: Math.max(tells, 20), tellsWriteBytes: true });
    const seen = connect();
    await settle();
    await seen.write(new Uint8Array(600));
    expect(peripheral.sent[0]?.bytes.length).toBe(pieceBytes);
    expect(peripheral.sent.reduce((sum, { bytes }) => sum + bytes.length, 0)).toBe(600);
    seen.subscription.unsubscribe();
    await settle();
  });

  test('takes a copy, so that the caller may use its bytes again', async () => {
    const { connect, peripheral } = setUp();
    const seen = connect();
    await settle();
    const bytes = text('S5\r');
    const outcome = seen.write(bytes);
    bytes.fill(0);
    await outcome;
    expect(new TextDecoder().decode(peripheral.sent[0]?.bytes)).toBe('S5\r');
    seen.subscription.unsubscribe();
    await settle();
  });

  test('that fails in the middle is a problem and sends no more of it; the next message is tried', async () => {
    let count = 0;
    const { connect, peripheral } = setUp({
      writing: () => (++count === 2 ? Promise.reject(network('GATT Error Unknown.')) : Promise.resolve()),
    });
    const seen = connect();
    await settle();
    const [first, second] = await Promise.all([seen.write(text('a'.repeat(60))), seen.write(text('b'))]);
    expect(first).toEqual({
      ok: false,
      problem: { code: 'link.write-failed', context: { device: 'bridge', detail: 'GATT Error Unknown.' } },
    });
    expect(second).toEqual({ ok: true, value: undefined });
    expect(peripheral.sent.map(({ bytes }) => new TextDecoder().decode(bytes))).toEqual([
      'a'.repeat(20),
      'b',
    ]);
    seen.subscription.unsubscribe();
    await settle();
  });

  test('that hangs when the device is lost fails then', async () => {
    const { connect, peripheral, isFree } = setUp({ writing: hang });
    const seen = connect();
    await settle();
    const outcome = seen.write(text('V\r'));
    await settle();
    peripheral.drop();
    expect(await outcome).toMatchObject({ ok: false, problem: { code: 'link.write-failed' } });
    expect(await seen.write(text('V\r'))).toMatchObject({ problem: { code: 'link.closed' } });
    isFree();
  });

  test('what was handed over just before closing still goes out', async () => {
    const { connect, peripheral, isFree } = setUp();
    const seen = connect();
    await settle();
    const outcome = seen.write(text('C\r'.repeat(20)));
    seen.subscription.unsubscribe();
    expect(await seen.write(text('L\r'))).toMatchObject({ problem: { code: 'link.closed' } });
    expect(await outcome).toEqual({ ok: true, value: undefined });
    await settle();
    expect(peripheral.sent.map(({ bytes }) => bytes.length)).toEqual([20, 20]);
    isFree();
  });

  test('to a device that takes nothing does not keep the connection from closing', async () => {
    const { connect, peripheral } = setUp({ writing: hang, stopping: hang });
    const seen = connect();
    await settle();
    const outcome = seen.write(text('C\r'));
    seen.subscription.unsubscribe();
    await settle();
    expect(peripheral.connected).toBe(true);
    vi.advanceTimersByTime(500);
    expect(await outcome).toMatchObject({ problem: { code: 'link.write-failed' } });
    await settle();
    vi.advanceTimersByTime(500);
    await settle();
    expect([peripheral.connected, peripheral.listeners]).toEqual([false, 0]);
  });
});
