import { debounceTime, filter, take, type Observable } from 'rxjs';
import { isOpen } from '../link/link-state.ts';
import type { Problem } from '../problems/problem.ts';
import { problem } from '../problems/problem.ts';
import { openDatabase, type Database } from '../storage/database.ts';
import { memoryDatabase } from './memory-database.ts';
import type { SessionState } from './session.ts';

export interface StoreMeans {
  /** Shows trouble with what is kept; null takes it back. */
  readonly tell: (problem: Problem | null) => void;
  /** Hands over the way to make room for a newer version in another tab. */
  readonly onBlocking: (release: () => void) => void;
}

/** Opens what is kept in this browser; where that cannot be, a run is still possible, in memory, and the trouble says so. */
export async function openStore(name: string, { tell, onBlocking }: StoreMeans): Promise<Database> {
  const opened = await openDatabase(name, {
    onBlocked: tell,
    onBlocking: (trouble, release) => {
      tell(trouble);
      onBlocking(() => {
        release();
        tell(problem('storage.closed'));
      });
    },
    onTerminated: tell,
  });
  tell(opened.ok ? null : opened.problem);
  return opened.ok ? opened.value : memoryDatabase();
}

/** A recording's last piece is written within half a second after its source is over; this leaves it twice that and more. */
export const CALM_MS = 3000;

/** Speaks once, when nothing has been listened to for a while: then the store may be given away without losing anything. */
export const calmOf = (state$: Observable<SessionState>): Observable<SessionState> =>
  state$.pipe(
    debounceTime(CALM_MS),
    filter(({ link }) => !isOpen(link.kind)),
    take(1),
  );
