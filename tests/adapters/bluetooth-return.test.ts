import { describe, expect, test, vi } from 'vitest';
import { webBluetoothAdapter } from '../../adapters/web-bluetooth.ts';
import { millis } from '../../src/quantities/time.ts';
import { PICK, codes, holdTimers, setUp, settle } from './fixtures/bluetooth-setup.ts';
import { fakeBluetooth, fakePeripheral } from './fixtures/fake-bluetooth.ts';

holdTimers();

describe('a device out of range', () => {
  test('that the system forgot is looked for and connected when it advertises', async () => {
    const { connect, peripheral, isFree } = setUp({ watches: true });
    peripheral.unplug();
    const seen = connect();
    await settle();
    expect([peripheral.watching, seen.errors]).toEqual([1, []]);
    peripheral.comeBack();
    await settle();
    expect(seen.events.map(({ kind }) => kind)).toEqual(['open']);
    expect(peripheral.watching).toBe(0);
    seen.subscription.unsubscribe();
    await settle();
    isFree();
  });

  test('is tried each second too, and given up after ten', async () => {
    const { connect, isFree, peripheral } = setUp({ watches: 'refuses' });
    peripheral.unplug();
    const seen = connect();
    for (let second = 0; second < 10; second++) {
      await settle();
      expect(seen.errors).toEqual([]);
      vi.advanceTimersByTime(1000);
    }
    await settle();
    expect(codes(seen.errors)).toEqual(['bluetooth.connect-timeout']);
    isFree();
  });

  test('is told at once where the browser cannot look for it', async () => {
    const { connect, peripheral } = setUp();
    peripheral.unplug();
    const seen = connect();
    await settle();
    expect(codes(seen.errors)).toEqual(['bluetooth.connect-failed']);
  });

  test('is told when it returns, at most once a second, until nobody listens', async () => {
    const peripheral = fakePeripheral({ watches: true });
    let nowMs = 0;
    const adapter = webBluetoothAdapter(fakeBluetooth(peripheral), () => millis(nowMs), true);
    peripheral.unplug();
    const choice = { peripheral, device: 'bridge', pick: PICK };
    const returns: unknown[] = [];
    const waiting = adapter.returned$(choice).subscribe((each) => returns.push(each));
    await settle();
    expect(returns).toEqual([]);
    peripheral.comeBack();
    for (nowMs of [300, 999]) peripheral.advertise();
    expect(returns).toEqual([choice]);
    nowMs = 1000;
    peripheral.advertise();
    expect(returns).toHaveLength(2);
    waiting.unsubscribe();
    nowMs = 5000;
    peripheral.advertise();
    expect([returns.length, peripheral.listeners, peripheral.watching]).toEqual([2, 0, 0]);
  });

  test.each([undefined, 'refuses'] as const)('is quiet where watching is %s', async (watches) => {
    const { adapter, peripheral, isFree } = setUp(watches ? { watches } : {});
    const events: unknown[] = [];
    const waiting = adapter.returned$({ peripheral, device: 'bridge', pick: null }).subscribe({
      next: (event) => events.push(event),
      error: (error) => events.push(error),
      complete: () => events.push('complete'),
    });
    await settle();
    peripheral.advertise();
    expect(events).toEqual([]);
    waiting.unsubscribe();
    isFree();
  });
});
