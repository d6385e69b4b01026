import {
  combineLatest,
  distinctUntilChanged,
  fromEvent,
  map,
  Observable,
  of,
  startWith,
  switchMap,
} from 'rxjs';

/** The members of `navigator.wakeLock` that are used. */
export interface WakeLockLike {
  request(type: 'screen'): Promise<WakeLockHold>;
}

/** A lock that the browser gave. It lets go by itself, with the event, when the page is hidden or the battery is low. */
export interface WakeLockHold {
  readonly released: boolean;
  release(): Promise<void>;
  addEventListener(type: 'release', listener: () => void): void;
  removeEventListener(type: 'release', listener: () => void): void;
}

/** Whether the screen is kept on. `not possible`: this browser cannot, or refused; the person has to keep it on by hand. */
export type WakeLockState = 'held' | 'not held' | 'not possible';

/**
 * Keeps the screen on while it is wanted and the page is seen, and lets go after. A browser releases the lock of a hidden page; it is
 * taken again when the page comes back. A refusal is no error: it is the state `not possible` until the next time it is wanted.
 * Cold: subscribing follows, unsubscribing lets go. Never errors by itself.
 */
export function followWakeLock(
  wanted$: Observable<boolean>,
  wakeLock: WakeLockLike | undefined,
  visible$: Observable<boolean>,
): Observable<WakeLockState> {
  const due$ = combineLatest([wanted$, visible$]).pipe(
    map(([wanted, visible]) => wanted && visible),
    distinctUntilChanged(),
  );
  return due$.pipe(
    switchMap((due) =>
      wakeLock ? (due ? hold(wakeLock) : of('not held' as const)) : of('not possible' as const),
    ),
    distinctUntilChanged(),
  );
}

/** Whether the page is seen: now, and whenever that changes. */
export const pageVisible$ = (page: Document): Observable<boolean> =>
  fromEvent(page, 'visibilitychange').pipe(
    startWith(null),
    map(() => page.visibilityState === 'visible'),
  );

/** One lock for the length of the subscription: asked for at once, released at its end, also where the browser answers later. */
function hold(wakeLock: WakeLockLike): Observable<WakeLockState> {
  return new Observable((subscriber) => {
    let given: WakeLockHold | null = null;
    const onRelease = () => subscriber.next('not held');
    subscriber.next('not held');
    const letGo = (lock: WakeLockHold) => {
      lock.removeEventListener('release', onRelease);
      lock.release().catch(() => undefined); // then the browser has released it already
    };
    requestLock(wakeLock).then(
      (lock) => {
        if (subscriber.closed) return letGo(lock);
        given = lock;
        lock.addEventListener('release', onRelease);
        subscriber.next(lock.released ? 'not held' : 'held');
      },
      () => subscriber.next('not possible'),
    );
    return () => {
      if (given) letGo(given);
    };
  });
}

/** Some browsers throw at once instead of rejecting, where a policy of the page forbids it. */
const requestLock = async (wakeLock: WakeLockLike): Promise<WakeLockHold> => wakeLock.request('screen');
