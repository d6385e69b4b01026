import type { GattLike, PeripheralLike } from './bluetooth-device.ts';

/** How long a device stays connected after it was chosen, ms: opening it at once then needs no second connection. */
export const HANDOVER_MS = 3000;

/** One user's right to a connected device. */
export interface Hold {
  /** Connects, or joins the connecting that is under way. Rejects as the browser does. */
  connect(): Promise<unknown>;
  /**
   * Runs one operation on the connected device after those before it, whoever asked for them: browsers refuse two at once
   * ("GATT operation already in progress"). Rejects as `work` does, or when the device was let go of before its turn.
   */
  operate<T>(work: () => Promise<T>): Promise<T>;
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
  /** The operations of this connection, one after the other; a new object after each letting go. */
  queue: { tail: Promise<unknown> };
}

/** Holds of one adapter. */
export function bluetoothHolds(): BluetoothHolds {
  const uses = new WeakMap<GattLike, Use>();
  const left = new WeakMap<PeripheralLike, () => void>();
  const hold = (gatt: GattLike): Hold => {
    const use = uses.get(gatt) ?? { users: 0, connecting: null, queue: { tail: Promise.resolve() } };
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
  const operate = <T>(work: () => Promise<T>): Promise<T> => {
    const { queue } = use;
    const result = queue.tail.then(() => {
      if (use.queue !== queue) throw new Error('the connection is over');
      return work();
    });
    queue.tail = result.catch(() => undefined);
    return result;
  };
  const forget = () => {
    use.connecting = null;
  };
  const release = () => {
    if (released) return;
    released = true;
    use.users--;
    if (use.users > 0) return;
    use.queue = { tail: Promise.resolve() }; // what hangs there must not hold up the next connection
    gatt.disconnect();
  };
  return { connect, operate, forget, release };
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
