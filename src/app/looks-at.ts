import { distinctUntilChanged, interval, map, of, startWith, switchMap, type Observable } from 'rxjs';
import { isOpen } from '../link/link-state.ts';
import type { SessionState } from './session.ts';

/** The screen looks at the data this often, ms: calm enough to read, quick enough for a clock that warns of seconds. */
const LOOK_MS = 150;

/** When to look at the data: steadily while a source is open, once when it is over. A page at rest costs nothing. */
export const looksAt = (session$: Observable<SessionState>): Observable<unknown> =>
  session$.pipe(
    map(({ link }) => link.kind),
    distinctUntilChanged(),
    switchMap((kind) => (isOpen(kind) ? interval(LOOK_MS).pipe(startWith(0)) : of(0))),
  );
