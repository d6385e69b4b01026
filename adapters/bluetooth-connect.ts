import { problem, type Problem } from '../src/problems/problem.ts';
import { failed, ok, type Result } from '../src/problems/result.ts';
import { errorName, errorText, type GattLike, type PeripheralLike } from './bluetooth-device.ts';
import { discover, type FoundCharacteristic } from './bluetooth-discovery.ts';
import type { Hold } from './bluetooth-holds.ts';
import { watchReturn } from './bluetooth-return.ts';
import { within, type Outcome } from './bluetooth-within.ts';

/** Longest time for connecting, and again for asking what the device has, ms. */
export const CONNECT_LIMIT_MS = 10_000;
/** How often a device that the system has forgotten is tried while it is being looked for, ms. */
const RETRY_MS = 1000;

/** A device on its way to being connected. `signal` is aborted when nobody wants it any more. */
export interface Attempt {
  readonly peripheral: PeripheralLike;
  readonly gatt: GattLike;
  readonly hold: Hold;
  /** Its name, for problems. */
  readonly device: string;
  readonly signal: AbortSignal;
}

/**
 * Connects and asks the device what it has, anew each time: what an earlier connection gave is void after it. Gives
 * `bluetooth.connect-timeout` or `bluetooth.connect-failed`; after `signal` was aborted the problem means nothing.
 */
export async function connectAndDiscover(attempt: Attempt): Promise<Result<readonly FoundCharacteristic[]>> {
  const searching = new AbortController();
  const connected = await within(connectInRange(attempt, searching.signal), CONNECT_LIMIT_MS, attempt.signal);
  searching.abort();
  if (connected.kind !== 'done') {
    if (connected.kind === 'late') attempt.hold.forget();
    return failed(failure(connected, attempt.device));
  }
  const discovering = attempt.hold.operate(() => discover(attempt.gatt));
  const found = await within(discovering, CONNECT_LIMIT_MS, attempt.signal);
  return found.kind === 'done' ? ok(found.value) : failed(failure(found, attempt.device));
}

function failure(outcome: Exclude<Outcome<unknown>, { kind: 'done' }>, device: string): Problem {
  if (outcome.kind === 'late')
    return problem('bluetooth.connect-timeout', { device, limitS: CONNECT_LIMIT_MS / 1000 });
  const detail = outcome.kind === 'failed' ? errorText(outcome.error) : 'given up';
  return problem('bluetooth.connect-failed', { device, detail });
}

/**
 * Connects; a device that the system has not heard for a while ("no longer in range", also after the page was opened anew)
 * is looked for by its advertisements, where the browser can, and tried again until `signal` is aborted. It is tried each
 * second too: some systems hear the device and do not tell the page.
 */
async function connectInRange({ peripheral, hold }: Attempt, signal: AbortSignal): Promise<void> {
  for (;;) {
    try {
      await hold.connect();
      return;
    } catch (error) {
      const canLook =
        peripheral.watchAdvertisements !== undefined && /no longer in range/i.test(errorText(error));
      if (!canLook || errorName(error) !== 'NetworkError' || signal.aborted) throw error;
    }
    await heardOrLater(peripheral, signal);
    if (signal.aborted) return;
  }
}

async function heardOrLater(peripheral: PeripheralLike, signal: AbortSignal): Promise<void> {
  let stop = () => {};
  const heard = new Promise<void>((resolve) => {
    stop = watchReturn(peripheral, resolve);
  });
  await within(heard, RETRY_MS, signal);
  stop();
}
