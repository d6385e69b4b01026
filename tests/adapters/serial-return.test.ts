import { describe, expect, test } from 'vitest';
import { webSerialAdapter } from '../../adapters/web-serial.ts';
import { millis } from '../../src/quantities/time.ts';
import { fakeSerial } from './fixtures/fake-serial.ts';
import { fakeSerialPort } from './fixtures/fake-serial-port.ts';
import { turns } from './fixtures/turns.ts';

const clock = () => millis(0);

describe('knowing a port again', () => {
  const withInfo = (info: object) =>
    Object.defineProperty(fakeSerialPort(), 'getInfo', { value: () => info });
  const SERIAL_PORT = '00001101-0000-1000-8000-00805f9b34fb';

  test.each([
    [{ usbVendorId: 0x1d50, usbProductId: 0x606f }, 'usb:1D50:606F', 'usb', 'USB serial bridge 1D50:606F'],
    [{ usbVendorId: 0, usbProductId: 1 }, 'usb:0000:0001', 'usb', 'USB serial bridge 0000:0001'],
    [
      { bluetoothServiceClassId: SERIAL_PORT.toUpperCase() },
      `bluetooth:${SERIAL_PORT}`,
      'bluetooth',
      'Bluetooth serial device',
    ],
    [{ bluetoothServiceClassId: 0x1101 }, `bluetooth:${SERIAL_PORT}`, 'bluetooth', 'Bluetooth serial device'],
    [{}, null, 'other', 'Serial port'],
    [{ usbVendorId: 0x1d50 }, null, 'other', 'Serial port'],
  ])('that says %j has the key %s', async (info, key, kind, device) => {
    const adapter = webSerialAdapter(fakeSerial(withInfo(info)), clock);
    const [choice] = await adapter.known();
    expect([adapter.key(choice!), choice!.kind, choice!.device]).toEqual([key, kind, device]);
  });

  test('lists no port where the browser has no list or forbids it', async () => {
    const { requestPort } = fakeSerial();
    expect(await webSerialAdapter({ requestPort }, clock).known()).toEqual([]);
    expect(await webSerialAdapter(undefined, clock).known()).toEqual([]);
    const getPorts = () => Promise.reject(new DOMException('policy', 'SecurityError'));
    expect(await webSerialAdapter({ requestPort, getPorts }, clock).known()).toEqual([]);
  });

  const waitFor = (serial: ReturnType<typeof fakeSerial>, port: ReturnType<typeof fakeSerialPort>) => {
    const adapter = webSerialAdapter(serial, clock);
    const choice = { port, baudRate: 500_000, device: 'bridge', kind: 'usb' } as const;
    const returns: unknown[] = [];
    const subscription = adapter.returned$(choice).subscribe((next) => returns.push(next.port));
    return { returns, subscription };
  };

  test('a re-plugged port comes as its new object, with the speed that was chosen', async () => {
    const [before, after] = [fakeSerialPort(), fakeSerialPort()];
    const serial = fakeSerial(before);
    const adapter = webSerialAdapter(serial, clock);
    const choice = { port: before, baudRate: 500_000, device: 'bridge', kind: 'usb' } as const;
    const returns: unknown[] = [];
    const subscription = adapter.returned$(choice).subscribe((next) => returns.push(next));
    serial.pull(before);
    serial.plug(after);
    await turns();
    expect(returns).toEqual([{ ...choice, port: after }]);
    subscription.unsubscribe();
  });

  test('the same object may return again and again, as a Bluetooth device does', () => {
    const port = withInfo({ bluetoothServiceClassId: SERIAL_PORT });
    const serial = fakeSerial(port);
    const { returns, subscription } = waitFor(serial, port);
    serial.tellConnect(port);
    serial.tellConnect(port);
    expect(returns).toEqual([port, port]);
    subscription.unsubscribe();
  });

  test('a port that nothing tells from others returns only as the same object', () => {
    const [port, other] = [withInfo({}), withInfo({})];
    const serial = fakeSerial(port);
    const { returns, subscription } = waitFor(serial, port);
    serial.tellConnect(other);
    serial.tellConnect(serial); // an event that comes from no port
    serial.tellConnect(null);
    serial.tellConnect(port);
    expect(returns).toEqual([port]);
    subscription.unsubscribe();
  });

  test('never returns where there is no Web Serial', async () => {
    const returns: unknown[] = [];
    const choice = { port: fakeSerialPort(), baudRate: 1, device: 'x', kind: 'other' } as const;
    const subscription = webSerialAdapter(undefined, clock)
      .returned$(choice)
      .subscribe((next) => returns.push(next));
    await turns();
    expect([returns, subscription.closed]).toEqual([[], false]);
    subscription.unsubscribe();
  });
});
