import { Observable } from 'rxjs';
import type { Millis } from '../src/quantities/time.ts';
import type { PeripheralLike } from './bluetooth-device.ts';

/** Devices advertise up to fifty times a second; one telling a second is enough to open it again. */
const TELL_EVERY_MS = 1000;

/**
 * Calls `heard` whenever the device advertises itself, which it does while nothing is connected to it. Where the browser
 * cannot listen for that, it never calls. @returns stops listening; safe twice.
 */
export function watchReturn(peripheral: PeripheralLike, heard: () => void): () => void {
  if (!peripheral.watchAdvertisements) return () => undefined;
  const watching = new AbortController();
  peripheral.addEventListener('advertisementreceived', heard);
  // Rejects when stopped, and where the system cannot scan: then it stays quiet.
  void peripheral.watchAdvertisements({ signal: watching.signal }).catch(() => undefined);
  return () => {
    watching.abort();
    peripheral.removeEventListener('advertisementreceived', heard);
  };
}

/** Emits `value` when the device advertises, at most once a second by `clock`. Never completes, never errors. */
export function advertised$<T>(peripheral: PeripheralLike, value: T, clock: () => Millis): Observable<T> {
  return new Observable((subscriber) => {
    let toldMs = -Infinity;
    return watchReturn(peripheral, () => {
      const nowMs = clock();
      if (nowMs - toldMs < TELL_EVERY_MS) return;
      toldMs = nowMs;
      subscriber.next(value);
    });
  });
}
