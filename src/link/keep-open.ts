import {
  catchError,
  concat,
  concatMap,
  defer,
  EMPTY,
  merge,
  NEVER,
  of,
  retry,
  take,
  tap,
  throwError,
  timer,
  type Observable,
  type SchedulerLike,
} from 'rxjs';
import { problem, type Problem } from '../problems/problem.ts';
import { millis, type Millis } from '../quantities/time.ts';
import type { LinkEvent } from './link-event.ts';

/** What is told of a connection that went away: the next attempt, or that it is back. */
export type KeepReport =
  | { readonly kind: 'reopening'; readonly cause: Problem; readonly attempt: number; readonly inMs: number }
  | { readonly kind: 'reopened'; readonly seconds: number; readonly attempts: number };

export interface KeepMeans {
  readonly scheduler: SchedulerLike;
  /** Emits when the device may be opened again: the next attempt is made at once. */
  readonly returned$: Observable<unknown>;
  readonly onReport: (report: KeepReport) => void;
}

/** Waits before the attempts, ms; the last one goes on for ever. */
export const BACK_OFF_MS = [250, 500, 1000, 2000, 4000, 5000] as const;
/** A connection that lasted this long without data counts as good: the waits begin anew after it, ms. */
const STEADY_MS = 5000;
/** A wait that took this much longer than asked for: the machine slept, and the waits begin anew, ms. */
const SLEPT_MS = 2000;

/** Failures after which a device that was open may come back. Anything else needs the person. */
const COMES_BACK: readonly Problem['code'][] = [
  'link.lost',
  'link.port-busy',
  'link.open-failed',
  'bluetooth.connect-failed',
  'bluetooth.connect-timeout',
  'bluetooth.services-failed',
];

/**
 * Keeps a source open over losses, as one source: the same recording goes on. A loss is a gap `link.reopening`; then `open`
 * is subscribed to again and again, with growing waits, until it opens or the subscriber goes. The new `open` event passes,
 * followed by a gap `search.reopened` that says for how long nothing was received. `atMs` never falls: a source whose clock
 * starts afresh is moved on. Failures before anything was open, and those that only the person can cure, pass as errors.
 */
export function keepOpen(
  open: () => Observable<LinkEvent>,
  { scheduler, returned$, onReport }: KeepMeans,
): Observable<LinkEvent> {
  return defer(() => {
    const course = beginCourse(scheduler);
    return defer(() => {
      course.shiftMs = null;
      return open();
    }).pipe(
      concatMap((event) => of(...takeEvent(course, event, onReport))),
      catchError((cause: Problem) =>
        concat(
          of(...takeLoss(course, cause)),
          throwError(() => cause),
        ),
      ),
      retry({ delay: (cause: Problem) => waitToReopen(course, cause, { scheduler, returned$, onReport }) }),
    );
  });
}

/** One subscription's course. Times named `…At` are the scheduler's, the others the source's. */
interface Course {
  readonly now: () => number;
  everOpened: boolean;
  /** Added to the source's times; null until the connection's first event. */
  shiftMs: number | null;
  lastMs: number;
  lastAt: number;
  openedAt: number;
  gotData: boolean;
  /** Since when nothing was received, in the times handed on; null while open. */
  lostSinceMs: number | null;
  attempt: number;
}

const beginCourse = (scheduler: SchedulerLike): Course => ({
  now: () => scheduler.now(),
  everOpened: false,
  shiftMs: null,
  lastMs: 0,
  lastAt: scheduler.now(),
  openedAt: 0,
  gotData: false,
  lostSinceMs: null,
  attempt: 0,
});

/** What is handed on for one event of the source. */
function takeEvent(course: Course, event: LinkEvent, onReport: KeepMeans['onReport']): readonly LinkEvent[] {
  const moved = move(course, event);
  if (event.kind !== 'open') {
    course.gotData ||= event.kind !== 'gap';
    return [moved];
  }
  const { lostSinceMs, attempt } = course;
  course.everOpened = true;
  course.openedAt = course.now();
  course.gotData = false;
  course.lostSinceMs = null;
  if (lostSinceMs === null) return [moved];
  const seconds = Math.round((moved.atMs - lostSinceMs) / 100) / 10;
  onReport({ kind: 'reopened', seconds, attempts: attempt });
  const told = problem('search.reopened', { device: event.device, seconds });
  return [moved, { kind: 'gap', atMs: moved.atMs, problem: told }];
}

/** The event at a time that does not lie before the last one: a source's own clock may have started afresh. */
function move(course: Course, event: LinkEvent): LinkEvent {
  if (course.shiftMs === null) {
    const expectedMs = nowOf(course);
    course.shiftMs = course.everOpened && event.atMs < course.lastMs ? expectedMs - event.atMs : 0;
  }
  const atMs = millis(course.everOpened ? Math.max(course.lastMs, event.atMs + course.shiftMs) : event.atMs);
  course.lastMs = atMs;
  course.lastAt = course.now();
  if (event.kind === 'reading')
    return {
      ...event,
      atMs,
      reading: { ...event.reading, atMs: millis(event.reading.atMs + course.shiftMs) },
    };
  return { ...event, atMs };
}

/** The time of the source now, as the scheduler's clock has it since the last event. */
const nowOf = (course: Course): Millis => millis(course.lastMs + Math.max(0, course.now() - course.lastAt));

const comesBack = (course: Course, cause: Problem): boolean =>
  course.everOpened && COMES_BACK.includes(cause.code);

/** The gap of a loss, once a loss and not once an attempt. */
function takeLoss(course: Course, cause: Problem): readonly LinkEvent[] {
  if (!comesBack(course, cause) || course.lostSinceMs !== null) return [];
  course.lostSinceMs = course.lastMs;
  if (course.gotData || course.now() - course.openedAt >= STEADY_MS) course.attempt = 0;
  const atMs = nowOf(course);
  course.lastMs = atMs;
  course.lastAt = course.now();
  const device = cause.context['device'] ?? 'the bridge';
  return [{ kind: 'gap', atMs, problem: problem('link.reopening', { device }) }];
}

/** Emits when the next attempt is due; passes on what cannot come back. */
function waitToReopen(
  course: Course,
  cause: Problem,
  { scheduler, returned$, onReport }: KeepMeans,
): Observable<unknown> {
  if (!comesBack(course, cause)) return throwError(() => cause);
  const inMs = BACK_OFF_MS[Math.min(course.attempt, BACK_OFF_MS.length - 1)]!;
  course.attempt++;
  onReport({ kind: 'reopening', cause, attempt: course.attempt, inMs });
  const beganAt = course.now();
  const due$ = timer(inMs, scheduler).pipe(
    // One attempt for all that was slept through, and then short waits again: the devices are just coming back.
    tap(() => {
      if (course.now() - beganAt - inMs >= SLEPT_MS) course.attempt = 0;
    }),
  );
  const back$ = concat(returned$.pipe(catchError(() => EMPTY)), NEVER).pipe(tap(() => (course.attempt = 0)));
  return merge(due$, back$).pipe(take(1));
}
