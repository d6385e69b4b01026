import { Observable } from 'rxjs';
import type { Availability, DeviceAdapter } from '../src/link/adapter.ts';
import type { LinkEvent } from '../src/link/link-event.ts';
import { problem, type Problem } from '../src/problems/problem.ts';
import { failed } from '../src/problems/result.ts';
import type { Millis } from '../src/quantities/time.ts';
import { chooseDevice, nameOf, type BluetoothChoice, type BluetoothPerson } from './bluetooth-choose.ts';
import type { BluetoothLike, PeripheralLike } from './bluetooth-device.ts';
import { bluetoothHolds } from './bluetooth-holds.ts';
import { advertised$ } from './bluetooth-return.ts';
import { startBluetoothSession } from './bluetooth-session.ts';

/**
 * Serial lines over Bluetooth LE by Web Bluetooth. `bluetooth` is `navigator.bluetooth`, or undefined where there is none;
 * `clock` stamps arrivals, ms; `secure` is `isSecureContext`, for saying why there is none; `person` chooses what the
 * browser's chooser does not. Loss is one `link.lost` on the error channel; opening the same choice again reconnects without
 * the chooser.
 */
export function webBluetoothAdapter(
  bluetooth: BluetoothLike | undefined,
  clock: () => Millis,
  secure = globalThis.isSecureContext !== false,
  person: BluetoothPerson = {},
): DeviceAdapter<BluetoothChoice> {
  const holds = bluetoothHolds();
  const availability = watchAvailability(bluetooth, secure);
  return {
    id: 'web-bluetooth',
    availability,
    choose: () =>
      bluetooth ? chooseDevice(bluetooth, holds, person) : Promise.resolve(failed(missing(secure))),
    open: openWith(holds, clock),
    key: ({ peripheral }) => peripheral.id,
    known: async () => {
      const peripherals = (await bluetooth?.getDevices?.().catch(() => [])) ?? [];
      return peripherals.map((peripheral) => ({
        peripheral,
        device: nameOf(peripheral),
        pick: person.remembered?.(peripheral.id) ?? null,
      }));
    },
    returned$: (choice) => advertised$(choice.peripheral, choice, clock),
  };
}

const missing = (secure: boolean): Problem =>
  problem(secure ? 'bluetooth.no-web-bluetooth' : 'bluetooth.insecure-page');

/**
 * Whether there is Bluetooth. The browser tells whether an adapter is there only later: until it has, there is one; each
 * asking looks again, so that the next one knows what was switched meanwhile.
 */
function watchAvailability(bluetooth: BluetoothLike | undefined, secure: boolean): () => Availability {
  if (!bluetooth) return () => ({ usable: false, problem: missing(secure) });
  let present = true;
  const look = async () => {
    present = (await bluetooth.getAvailability?.().catch(() => true)) ?? true;
  };
  void look();
  return () => {
    void look();
    return present ? { usable: true } : { usable: false, problem: problem('bluetooth.off') };
  };
}

/** Opening, one connection a device: a second at the same time is refused, a later one waits for the closing before. */
function openWith(holds: ReturnType<typeof bluetoothHolds>, clock: () => Millis) {
  const open = new WeakSet<PeripheralLike>();
  const closings = new WeakMap<PeripheralLike, Promise<void>>();
  return ({ peripheral, device, pick }: BluetoothChoice): Observable<LinkEvent> =>
    new Observable<LinkEvent>((subscriber) => {
      const { gatt } = peripheral;
      if (!gatt) return subscriber.error(problem('bluetooth.no-profile', { device }));
      if (open.has(peripheral)) return subscriber.error(problem('bluetooth.already-open', { device }));
      open.add(peripheral);
      const onOver = () => void open.delete(peripheral);
      const hold = holds.takeOver(peripheral, gatt);
      const settings = { peripheral, gatt, device, pick, hold, onOver };
      const before = closings.get(peripheral) ?? Promise.resolve();
      const close = startBluetoothSession(settings, clock, subscriber, before);
      return () => {
        onOver();
        closings.set(peripheral, close());
      };
    });
}
