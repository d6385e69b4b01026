import { describe, expect, test, vi } from 'vitest';
import { BLUETOOTH_PROFILES } from '../../adapters/bluetooth-profiles.ts';
import { webBluetoothAdapter } from '../../adapters/web-bluetooth.ts';
import type { LinkEvent } from '../../src/link/link-event.ts';
import type { Problem } from '../../src/problems/problem.ts';
import {
  BATTERY,
  LEVEL,
  clock,
  codes,
  hang,
  holdTimers,
  network,
  servicesOf,
  setUp,
  settle,
  text,
  textOf,
} from './fixtures/bluetooth-setup.ts';
import { fakeBluetooth, fakePeripheral, UART_SERVICES, type FakeRules } from './fixtures/fake-bluetooth.ts';

holdTimers();

describe('whether it can be used', () => {
  test.each([
    [true, 'bluetooth.no-web-bluetooth'],
    [false, 'bluetooth.insecure-page'],
  ])('without Web Bluetooth, on a page secure %s, is told with the reason', async (secure, code) => {
    const adapter = webBluetoothAdapter(undefined, clock, secure);
    expect(adapter.availability()).toMatchObject({ usable: false, problem: { code } });
    expect(await adapter.choose()).toMatchObject({ ok: false, problem: { code } });
    expect(await adapter.known()).toEqual([]);
  });

  test('follows the adapter being switched off and on', async () => {
    const { bluetooth, adapter } = setUp();
    expect(adapter.availability()).toEqual({ usable: true });
    bluetooth.available = false;
    adapter.availability();
    await settle();
    expect(adapter.availability()).toMatchObject({ usable: false, problem: { code: 'bluetooth.off' } });
    bluetooth.available = true;
    await settle();
    adapter.availability();
    await settle();
    expect(adapter.availability()).toEqual({ usable: true });
  });

  test('is assumed where the browser cannot tell or will not', async () => {
    const { bluetooth } = setUp();
    const { requestDevice } = bluetooth;
    const forbids = () => Promise.reject(new Error('policy'));
    for (const browser of [{ requestDevice }, { requestDevice, getAvailability: forbids }]) {
      const adapter = webBluetoothAdapter(browser, clock, true);
      await settle();
      expect(adapter.availability()).toEqual({ usable: true });
    }
  });
});

describe('opening', () => {
  test.each(BLUETOOTH_PROFILES)('finds the line of $id and uses both ends', async (profile) => {
    const { peripheral, connect, isFree } = setUp({ services: servicesOf(profile) });
    const seen = connect();
    await settle();
    peripheral.feed(text('V1013\r'));
    expect(await seen.write(text('V\r'))).toEqual({ ok: true, value: undefined });
    expect([textOf(seen.events), peripheral.sent.length, peripheral.mistakes]).toEqual(['V1013\r', 1, []]);
    seen.subscription.unsubscribe();
    await settle();
    isFree();
  });

  test('takes the surer of two lines', async () => {
    const single = BLUETOOTH_PROFILES.find(({ id }) => id === 'FFE0, FFE1 both ways')!;
    const { peripheral, connect } = setUp({ services: { ...servicesOf(single), ...UART_SERVICES } });
    const seen = connect();
    await settle();
    await seen.write(text('V\r'));
    expect(peripheral.sent.map(({ how }) => how)).toEqual(['without']); // only the UART service can
    seen.subscription.unsubscribe();
    await settle();
  });

  test.each([
    [
      'is refused',
      { connecting: () => Promise.reject(network('Connection Error: 8')) },
      'bluetooth.connect-failed',
    ],
    [
      'is a device without a line',
      { services: { [BATTERY]: { [LEVEL]: ['notify'] } } },
      'bluetooth.no-profile',
    ],
    ['finds no services', { services: {} }, 'bluetooth.no-profile'],
    [
      'may not start notifications',
      { starting: () => Promise.reject(new DOMException('GATT Error: Not paired.', 'NetworkError')) },
      'bluetooth.services-failed',
    ],
  ] as const)('that %s is one problem and holds nothing', async (_how, rules, code) => {
    const { connect, isFree } = setUp(rules as FakeRules);
    const seen = connect();
    await settle();
    expect([codes(seen.errors), seen.events]).toEqual([[code], []]);
    isFree();
  });

  test.each([
    ['connecting', { connecting: hang }, 'bluetooth.connect-timeout'],
    [
      'connecting (can be aborted)',
      { connecting: hang, abortsConnecting: true },
      'bluetooth.connect-timeout',
    ],
    [
      'telling its services',
      { step: (name: string) => (name === 'services' ? hang() : Promise.resolve()) },
      'bluetooth.connect-timeout',
    ],
    ['starting notifications', { starting: hang }, 'bluetooth.services-failed'],
  ])('a device that hangs while %s is given up after ten seconds', async (_when, rules, code) => {
    const { connect, peripheral } = setUp(rules);
    const seen = connect();
    await settle();
    vi.advanceTimersByTime(9_999);
    await settle();
    expect(seen.errors).toEqual([]);
    vi.advanceTimersByTime(1);
    await settle();
    vi.advanceTimersByTime(500); // ending the notifications hangs too
    await settle();
    expect(codes(seen.errors)).toEqual([code]);
    expect([peripheral.connected, peripheral.listeners]).toEqual([false, 0]);
  });

  test('a device that connects only after it was given up is let go of', async () => {
    let arrive: () => void = () => undefined;
    const { connect, isFree, peripheral } = setUp({
      connecting: () => new Promise<void>((resolve) => (arrive = resolve)),
    });
    const seen = connect();
    await settle();
    seen.subscription.unsubscribe();
    await settle();
    arrive();
    await settle();
    expect(peripheral.connects).toBe(1);
    isFree();
  });

  test('again while the first connecting is still under way joins it', async () => {
    let arrive: () => void = () => undefined;
    const { connect, peripheral } = setUp({
      connecting: () => new Promise<void>((resolve) => (arrive = resolve)),
    });
    const first = connect();
    await settle();
    first.subscription.unsubscribe();
    const second = connect();
    await settle();
    arrive();
    await settle();
    expect(second.events.map(({ kind }) => kind)).toEqual(['open']);
    expect([first.events, peripheral.mistakes, peripheral.connects]).toEqual([[], [], 1]);
    second.subscription.unsubscribe();
    await settle();
  });

  test('again after a connecting that hung was given up asks the browser afresh', async () => {
    const { connect, peripheral } = setUp();
    const gatt = peripheral.gatt!;
    const { connect: connects } = gatt;
    gatt.connect = hang;
    const first = connect();
    await settle();
    vi.advanceTimersByTime(10_000);
    await settle();
    gatt.connect = connects;
    const second = connect();
    await settle();
    expect(codes(first.errors)).toEqual(['bluetooth.connect-timeout']);
    expect(second.events.map(({ kind }) => kind)).toEqual(['open']);
    second.subscription.unsubscribe();
    await settle();
  });

  test('again at once waits until the one before has sent its last and ended its notifications', async () => {
    const steps: string[] = [];
    let sent: () => void = () => undefined;
    const { connect } = setUp({
      starting: () => Promise.resolve(steps.push('start')),
      stopping: () => Promise.resolve(steps.push('stop')),
      writing: () => new Promise<void>((resolve) => (sent = resolve)),
    });
    const first = connect();
    await settle();
    void first.write(text('C\r'));
    await settle();
    first.subscription.unsubscribe();
    const second = connect();
    await settle();
    expect([steps, second.events]).toEqual([['start'], []]);
    sent();
    await settle();
    expect(steps).toEqual(['start', 'stop', 'start']);
    expect(second.events.map(({ kind }) => kind)).toEqual(['open']);
    second.subscription.unsubscribe();
    await settle();
    expect(steps.at(-1)).toBe('stop');
  });

  test('does not take a characteristic for the line that cannot do its part', async () => {
    const [service] = Object.keys(UART_SERVICES);
    const characteristics = Object.keys(UART_SERVICES[service!]!);
    const mute = Object.fromEntries(characteristics.map((uuid) => [uuid, ['notify'] as const]));
    const { connect } = setUp({ services: { [service!]: mute } });
    const seen = connect();
    await settle();
    expect(codes(seen.errors)).toEqual(['bluetooth.no-profile']);
  });

  test('a device twice at the same time is refused, and the first goes on', async () => {
    const { connect, peripheral } = setUp();
    const first = connect();
    await settle();
    const second = connect();
    await settle();
    expect(codes(second.errors)).toEqual(['bluetooth.already-open']);
    peripheral.feed(text('still here'));
    expect([textOf(first.events), first.errors]).toEqual(['still here', []]);
    first.subscription.unsubscribe();
    await settle();
  });

  test('from within the telling of the loss works: services are fetched anew', async () => {
    const { adapter, peripheral, isFree } = setUp();
    const events: LinkEvent[] = [];
    const errors: Problem[] = [];
    let again = { unsubscribe: () => undefined as void };
    const choice = { peripheral, device: 'bridge', pick: null };
    const open = (onLoss: () => void) =>
      adapter.open(choice).subscribe({
        next: (event) => events.push(event),
        error: (problem: Problem) => {
          errors.push(problem);
          onLoss();
        },
      });
    open(() => (again = open(() => undefined)));
    await settle();
    peripheral.drop();
    await settle();
    peripheral.feed(text('b'));
    expect(codes(errors)).toEqual(['link.lost']);
    expect(events.map(({ kind }) => kind)).toEqual(['open', 'open', 'bytes']);
    expect(peripheral.mistakes).toEqual([]);
    again.unsubscribe();
    await settle();
    isFree();
  });
});

describe('known devices', () => {
  test('are those that the browser lists, with their names', async () => {
    const known = ['a', 'b'].map((id) => fakePeripheral({ id, name: id === 'a' ? 'bridge' : '' }));
    const adapter = webBluetoothAdapter(fakeBluetooth(known[0]!, known), clock, true);
    const choices = await adapter.known();
    expect(choices.map(({ device, pick }) => [device, pick])).toEqual([
      ['bridge', null],
      ['Bluetooth device', null],
    ]);
    expect(choices.map(adapter.key)).toEqual(['a', 'b']);
  });

  test('are none where the browser cannot list them or may not', async () => {
    const peripheral = fakePeripheral();
    expect(await webBluetoothAdapter(fakeBluetooth(peripheral), clock, true).known()).toEqual([]);
    const forbidden = Object.assign(fakeBluetooth(peripheral), {
      getDevices: () => Promise.reject(new DOMException('policy', 'SecurityError')),
    });
    expect(await webBluetoothAdapter(forbidden, clock, true).known()).toEqual([]);
  });
});
