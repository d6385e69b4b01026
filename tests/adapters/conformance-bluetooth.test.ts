import { webBluetoothAdapter } from '../../adapters/web-bluetooth.ts';
import { millis } from '../../src/quantities/time.ts';
import { describeAdapter } from './describe-adapter.ts';
import { fakeBluetooth, fakePeripheral, type FakeRules } from './fixtures/fake-bluetooth.ts';
import { turns } from './fixtures/turns.ts';

function rig(rules: FakeRules) {
  const peripheral = fakePeripheral(rules);
  // A clock that jumps back now and then, as a system clock does when it is set.
  let ticks = 0;
  const clock = () => millis(++ticks % 5 === 0 ? ticks - 3 : ticks);
  const nobody = new DOMException('User cancelled the requestDevice() chooser.', 'NotFoundError');
  const other = fakePeripheral({ ...rules, id: 'device-2' });
  const adapter = webBluetoothAdapter(fakeBluetooth(peripheral, [other, peripheral]), clock);
  return {
    adapter,
    choice: { peripheral, device: 'bridge', pick: null },
    held: () =>
      Number(peripheral.connected) + peripheral.listeners + peripheral.notifying + peripheral.watching,
    settle: () => turns(10),
    feed: (bytes: Uint8Array) => peripheral.feed(bytes),
    unplug: () => peripheral.unplug(),
    restore: () => peripheral.comeBack(),
    device: {
      adapter,
      ...(rules.watches ? { replug: () => peripheral.comeBack(), stranger: () => other.advertise() } : {}),
    },
    refused: webBluetoothAdapter(fakeBluetooth(nobody), clock),
  };
}

describeAdapter('web bluetooth', () => rig({ watches: true, notifyBytes: 20 }));

describeAdapter('web bluetooth in a browser that lets a connecting be aborted', () =>
  rig({ abortsConnecting: true }),
);

describeAdapter('web bluetooth with one characteristic both ways', () =>
  rig({
    services: {
      '0000ffe0-0000-1000-8000-00805f9b34fb': {
        '0000ffe1-0000-1000-8000-00805f9b34fb': ['notify', 'write', 'writeWithoutResponse'],
      },
    },
  }),
);
