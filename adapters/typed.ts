import { Observable } from 'rxjs';
import type { Adapter } from '../src/link/adapter.ts';
import type { LinkEvent } from '../src/link/link-event.ts';
import { problem, type Problem } from '../src/problems/problem.ts';
import { ok } from '../src/problems/result.ts';
import { NO_ORIGIN, type SignalId } from '../src/quantities/reading.ts';
import { millis, type Millis } from '../src/quantities/time.ts';
import { risingClock } from './rising-clock.ts';

export { typedCranks, type TypedCrank } from './typed-cranks.ts';

/** A number that a person typed, in the canonical unit of its signal. `atMs`: when it was read, where the person said; else now. */
export interface TypedReading {
  readonly signal: SignalId;
  readonly value: number;
  readonly atMs?: number;
}

/** What the screen calls this way of entering numbers. */
export interface TypedChoice {
  readonly device: string;
}

/** Highest engine speed that J1939 can say, SPN 190: 64,255 x 0.125 rpm. More is a slip of the finger. Source: J1939-71. */
const MOST_RPM = 8031.875;

/**
 * Numbers typed by hand as a source. Each entry becomes a `reading` without address (NO_ORIGIN), stamped by the time that the person
 * gave or by `clock`, which count from the same origin. Times only rise: an entry for an instant before the last one, or a
 * value that cannot be, is a `gap` with the reason and no reading. Completes with its entries.
 */
export function typedAdapter(entry$: Observable<TypedReading>, clock: () => Millis): Adapter<TypedChoice> {
  return {
    id: 'typed',
    availability: () => ({ usable: true }),
    choose: () => Promise.resolve(ok({ device: 'Typed numbers' })),
    open: ({ device }) =>
      new Observable<LinkEvent>((subscriber) => {
        const stamp = risingClock(clock);
        let lastMs = stamp();
        const eventOf = (entry: TypedReading): LinkEvent => {
          const atMs = entry.atMs ?? Math.max(lastMs, stamp());
          const mistake = mistakeIn(entry, atMs, lastMs);
          if (mistake) return { kind: 'gap', atMs: lastMs, problem: mistake };
          lastMs = millis(atMs);
          const { signal, value } = entry;
          const reading = { signal, atMs: lastMs, value, quality: 'valid', origin: NO_ORIGIN } as const;
          return { kind: 'reading', atMs: lastMs, reading };
        };
        subscriber.next({ kind: 'open', atMs: lastMs, device, write: null });
        return entry$.subscribe({
          next: (entry) => subscriber.next(eventOf(entry)),
          error: (error: unknown) =>
            subscriber.error(problem('device.typed-ended', { detail: String(error) })),
          complete: () => subscriber.complete(),
        });
      }),
  };
}

function mistakeIn({ signal, value }: TypedReading, atMs: number, lastMs: number): Problem | null {
  const isSpeed = signal === 'engineSpeed';
  if (!Number.isFinite(value) || (isSpeed && (value < 0 || value > MOST_RPM)))
    return problem('device.typed-value', { value });
  if (!(atMs >= lastMs) || !Number.isFinite(atMs))
    return problem('device.typed-order', { seconds: atMs / 1000, last: lastMs / 1000 });
  return null;
}
