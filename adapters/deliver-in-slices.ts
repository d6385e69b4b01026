import type { SchedulerLike, Subscriber, Subscription } from 'rxjs';
import type { LinkEvent } from '../src/link/link-event.ts';

/** Longest stretch of work without giving the page a turn, ms: below the 50 ms from which people feel it hang. */
export const SLICE_MS = 16;

/**
 * Gives all events of a finite source to `subscriber` as fast as they are taken, in slices of SLICE_MS on `scheduler`,
 * and completes. Unsubscribing the result stops it. An iterator that throws is a programmer mistake and passes through.
 */
export function deliverInSlices(
  events: Iterator<LinkEvent>,
  subscriber: Subscriber<LinkEvent>,
  scheduler: SchedulerLike,
): Subscription {
  return scheduler.schedule(function () {
    const until = scheduler.now() + SLICE_MS;
    do {
      const next = events.next();
      if (next.done === true) return subscriber.complete();
      subscriber.next(next.value);
    } while (!subscriber.closed && scheduler.now() < until);
    if (!subscriber.closed) this.schedule(undefined, 0);
  });
}
