import type { GattLike, PeripheralLike } from './bluetooth-device.ts';

/** How long a device stays connected after it was chosen, ms: opening it at once then needs no second connection. */
export const HANDOVER_MS = 3000;

/** One user's right to a connected device. */
export interface Hold {
  /** Connects, or joins the connecting that is under way. Rejects as the browser does. */
  connect(): Promise<unknown>;
  /** Stops joining what hangs: the next `connect` asks the browser afresh. */
  forget(): void;
  /** Gives the right back; the last one disconnects. Safe twice. */
  release(): void;
}

/**
 * Who uses which device on this page. A browser has one connection for each device, however many users, and need not stop
 * a connecting that nobody wants any more; this disconnects when the last user is gone, even if it connects only then.
 */
export interface BluetoothHolds {
  hold(gatt: GattLike): Hold;
  /** As `hold`, taking over what `handOver` left. */
  takeOver(peripheral: PeripheralLike, gatt: GattLike): Hold;
  /** Keeps a hold for who opens the device within HANDOVER_MS. */
  handOver(peripheral: PeripheralLike, hold: Hold): void;
}

interface Use {
  users: number;
  connecting: Promise<unknown> | null;
}

/** Holds of one adapter. */
export function bluetoothHolds(): BluetoothHolds {
  const uses = new WeakMap<GattLike, Use>();
  const left = new WeakMap<PeripheralLike, () => void>();
  const hold = (gatt: GattLike): Hold => {
    const use = uses.get(gatt) ?? { users: 0, connecting: null };
    uses.set(gatt, use);
    return holdOf(gatt, use);
  };
  const handOver = (peripheral: PeripheralLike, given: Hold) => {
    left.get(peripheral)?.();
    const end = () => {
      clearTimeout(timer);
      left.delete(peripheral);
      given.release();
    };
    const timer = setTimeout(end, HANDOVER_MS);
    left.set(peripheral, end);
  };
  const takeOver = (peripheral: PeripheralLike, gatt: GattLike): Hold => {
    const taken = hold(gatt); // before the other is given back, so that the device stays connected
    left.get(peripheral)?.();
    return taken;
  };
  return { hold, handOver, takeOver };
}

function holdOf(gatt: GattLike, use: Use): Hold {
  let released = false;
  use.users++;
  const connect = () => (use.connecting ??= connecting(gatt, use));
  const forget = () => {
    use.connecting = null;
  };
  const release = () => {
    if (released) return;
    released = true;
    use.users--;
    if (use.users === 0) gatt.disconnect();
  };
  return { connect, forget, release };
}

function connecting(gatt: GattLike, use: Use): Promise<unknown> {
  const attempt = Promise.resolve()
    .then(() => gatt.connect())
    .finally(() => {
      if (use.connecting === attempt) use.connecting = null;
      if (use.users === 0) gatt.disconnect();
    });
  return attempt;
}
