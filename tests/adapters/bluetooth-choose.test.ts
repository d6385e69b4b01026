import { lastValueFrom } from 'rxjs';
import { describe, expect, test, vi } from 'vitest';
import type { BluetoothPerson } from '../../adapters/bluetooth-choose.ts';
import { PROFILE_SERVICES } from '../../adapters/bluetooth-profiles.ts';
import { webBluetoothAdapter } from '../../adapters/web-bluetooth.ts';
import {
  BATTERY,
  CUSTOM,
  CUSTOM_SERVICES,
  LEVEL,
  PICK,
  clock,
  codes,
  holdTimers,
  network,
  refusal,
  setUp,
  settle,
  text,
  textOf,
} from './fixtures/bluetooth-setup.ts';
import { fakeBluetooth, UART_SERVICES, type FakeRules } from './fixtures/fake-bluetooth.ts';

holdTimers();

describe('choosing a device', () => {
  // Texts of Chromium's bluetooth_error.cc: one name for almost everything.
  test.each([
    [refusal('User cancelled the requestDevice() chooser.'), true, 'link.refused'],
    [new DOMException('closed', 'AbortError'), true, 'link.refused'],
    [refusal('Bluetooth adapter not available.'), true, 'bluetooth.off'],
    [refusal('Bluetooth Low Energy not available.'), true, 'bluetooth.off'],
    [refusal('No device.'), false, 'bluetooth.off'],
    [
      refusal('User denied the browser permission to scan for Bluetooth devices.'),
      true,
      'bluetooth.not-allowed',
    ],
    [refusal('User or their enterprise policy has disabled Web Bluetooth.'), true, 'bluetooth.not-allowed'],
    [new DOMException('Must be handling a user gesture', 'SecurityError'), true, 'bluetooth.not-allowed'],
  ])('that ends with "%s" (adapter there: %s) is %s', async (error, available, code) => {
    const bluetooth = fakeBluetooth(error);
    bluetooth.available = available;
    expect(await webBluetoothAdapter(bluetooth, clock, true).choose()).toMatchObject({
      ok: false,
      problem: { code },
    });
  });

  test('names the services of the table and those typed, each once', async () => {
    const { bluetooth, adapter } = setUp(
      {},
      { customServices: () => ['FFE0', ` ${CUSTOM.toUpperCase()} `, ''] },
    );
    await adapter.choose();
    vi.runAllTimers();
    expect(bluetooth.asked).toEqual([
      { acceptAllDevices: true, optionalServices: [...PROFILE_SERVICES, CUSTOM] },
    ]);
  });

  test('does not start with a service number that is none', async () => {
    const { bluetooth, adapter } = setUp({}, { customServices: () => ['uart'] });
    expect(await adapter.choose()).toMatchObject({ problem: { code: 'bluetooth.bad-uuid' } });
    expect(bluetooth.asked).toEqual([]);
  });

  test('gives its name, its key and no pick where the table knows it', async () => {
    const { adapter, peripheral } = setUp({ id: 'xyz', name: ' shop bridge ' });
    const chosen = await adapter.choose();
    expect(chosen).toEqual({ ok: true, value: { peripheral, device: 'shop bridge', pick: null } });
    expect(chosen.ok && adapter.key(chosen.value)).toBe('xyz');
    vi.runAllTimers();
  });

  test('without a name is just a Bluetooth device', async () => {
    const { adapter } = setUp({ name: '' });
    expect(await adapter.choose()).toMatchObject({ value: { device: 'Bluetooth device' } });
    vi.runAllTimers();
  });

  test('keeps the connection for opening at once, which then needs no second one', async () => {
    const { adapter, peripheral, connect, isFree } = setUp();
    const chosen = await adapter.choose();
    if (!chosen.ok) throw new Error('not chosen');
    vi.advanceTimersByTime(2999);
    const seen = connect(chosen.value);
    await settle();
    vi.advanceTimersByTime(10_000);
    await settle();
    expect([peripheral.connects, peripheral.connected, seen.errors]).toEqual([1, true, []]);
    seen.subscription.unsubscribe();
    await settle();
    isFree();
  });

  test('lets go of a device that is not opened within three seconds', async () => {
    const { adapter, peripheral, isFree } = setUp();
    await adapter.choose();
    expect(peripheral.connected).toBe(true);
    vi.advanceTimersByTime(3000);
    isFree();
  });

  test('anew while it is open does not end the connection that is used', async () => {
    const { adapter, peripheral, connect } = setUp();
    const seen = connect();
    await settle();
    await adapter.choose();
    vi.advanceTimersByTime(3000);
    await settle();
    expect([peripheral.connected, seen.errors]).toEqual([true, []]);
    seen.subscription.unsubscribe();
    await settle();
  });

  test.each([
    [
      'refused',
      { connecting: () => Promise.reject(network('Connection Error')) },
      'bluetooth.connect-failed',
    ],
    ['without any service', { services: {} }, 'bluetooth.no-profile'],
    [
      'with a service of no use',
      { services: { [BATTERY]: { [LEVEL]: ['notify'] } } },
      'bluetooth.no-profile',
    ],
    ['with an empty service', { services: { [CUSTOM]: {} } }, 'bluetooth.no-profile'],
  ] as const)('that is %s is told and let go of', async (_how, rules, code) => {
    const { adapter, isFree } = setUp(rules as FakeRules, { customServices: () => [CUSTOM] });
    expect(await adapter.choose()).toMatchObject({ ok: false, problem: { code } });
    isFree();
  });

  test('without a GATT server is no serial line', async () => {
    const { peripheral } = setUp();
    const bare = Object.defineProperty(peripheral, 'gatt', { value: undefined });
    const adapter = webBluetoothAdapter(fakeBluetooth(bare), clock, true);
    expect(await adapter.choose()).toMatchObject({ problem: { code: 'bluetooth.no-profile' } });
    const opened = lastValueFrom(adapter.open({ peripheral: bare, device: 'bridge', pick: null }));
    await expect(opened).rejects.toMatchObject({ code: 'bluetooth.no-profile' });
  });
});

describe('picking characteristics by hand', () => {
  const person = (more: BluetoothPerson = {}): BluetoothPerson => ({
    customServices: () => [CUSTOM],
    pickCharacteristics: () => Promise.resolve(PICK),
    ...more,
  });

  test('offers what can notify or be written, as data, and the pick is part of the choice', async () => {
    const offered = vi.fn(() => Promise.resolve(PICK));
    const services = { [CUSTOM]: { ...CUSTOM_SERVICES[CUSTOM], mute: [] } };
    const { adapter, connect, peripheral } = setUp({ services }, person({ pickCharacteristics: offered }));
    const chosen = await adapter.choose();
    expect(offered).toHaveBeenCalledWith([
      { service: CUSTOM, characteristic: 'custom-out', notifies: true, writes: false },
      { service: CUSTOM, characteristic: 'custom-in', notifies: false, writes: true },
    ]);
    expect(chosen).toMatchObject({ ok: true, value: { pick: PICK } });
    const seen = connect({ peripheral, device: 'bridge', pick: PICK });
    await settle();
    peripheral.feed(text('x'));
    await seen.write(text('V\r'));
    expect([textOf(seen.events), peripheral.sent.map(({ how }) => how)]).toEqual(['x', ['with']]);
    seen.subscription.unsubscribe();
    await settle();
  });

  test('that the person gives up is a refusal', async () => {
    const nobody = person({ pickCharacteristics: () => Promise.resolve(null) });
    const { adapter, isFree } = setUp({ services: CUSTOM_SERVICES }, nobody);
    expect(await adapter.choose()).toMatchObject({ ok: false, problem: { code: 'link.refused' } });
    isFree();
  });

  test('is not asked where the table knows the device, unless the person wants to', async () => {
    const offered = vi.fn(() => Promise.resolve(PICK));
    const services = { ...UART_SERVICES, ...CUSTOM_SERVICES };
    const quiet = setUp({ services }, person({ pickCharacteristics: offered }));
    expect(await quiet.adapter.choose()).toMatchObject({ value: { pick: null } });
    expect(offered).not.toHaveBeenCalled();
    const anew = setUp({ services }, person({ pickCharacteristics: offered, pickAnew: () => true }));
    expect(await anew.adapter.choose()).toMatchObject({ value: { pick: PICK } });
    vi.runAllTimers();
  });

  test('that is remembered is not asked again, and goes before the table', async () => {
    const offered = vi.fn(() => Promise.resolve(PICK));
    const remembered = (key: string) => (key === 'device-1' ? PICK : null);
    const services = { ...UART_SERVICES, ...CUSTOM_SERVICES };
    const { adapter } = setUp({ services }, person({ pickCharacteristics: offered, remembered }));
    expect(await adapter.choose()).toMatchObject({ value: { pick: PICK } });
    expect(await adapter.known()).toMatchObject([{ device: 'bridge', pick: PICK }]);
    expect(offered).not.toHaveBeenCalled();
    vi.runAllTimers();
  });

  test('that the device lost is not used: it is asked again, and opening says so', async () => {
    const services = { [CUSTOM]: { other: ['notify'] as const } };
    const other = { notify: { service: CUSTOM, characteristic: 'other' }, write: null };
    const offered = vi.fn(() => Promise.resolve(other));
    const { adapter, connect, peripheral } = setUp(
      { services },
      person({ pickCharacteristics: offered, remembered: () => PICK }),
    );
    expect(await adapter.choose()).toMatchObject({ value: { pick: other } });
    vi.runAllTimers();
    const seen = connect({ peripheral, device: 'bridge', pick: PICK });
    await settle();
    expect(codes(seen.errors)).toEqual(['bluetooth.pick-missing']);
  });

  test('of a device that can only notify gives no way to write', async () => {
    const services = { [CUSTOM]: { out: ['notify'] as const } };
    const { peripheral, connect, isFree } = setUp({ services });
    const pick = { notify: { service: CUSTOM, characteristic: 'out' }, write: null };
    const seen = connect({ peripheral, device: 'bridge', pick });
    await settle();
    expect(seen.events).toMatchObject([{ kind: 'open', write: null }]);
    seen.subscription.unsubscribe();
    await settle();
    isFree();
  });
});
