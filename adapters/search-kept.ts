import type { LinkEvent } from '../src/link/link-event.ts';
import type { Problem } from '../src/problems/problem.ts';
import { millis } from '../src/quantities/time.ts';

/** Events wait here until their opening is kept; then they go out in order, and the later ones at once. */
export function keptEvents(emit: (event: LinkEvent) => void) {
  let waiting: LinkEvent[] | null = [];
  let bytes = 0;
  let lastMs = millis(0);
  const told = new Set<Problem['code']>();
  const take = (event: LinkEvent) => {
    lastMs = event.atMs;
    if (waiting === null) return emit(event);
    if (event.kind === 'bytes') bytes += event.bytes.length;
    waiting.push(event);
  };
  const tell = (cause: Problem) => take({ kind: 'gap', atMs: lastMs, problem: cause });
  return {
    take,
    tell,
    tellOnce: (cause: Problem) => {
      if (!told.has(cause.code)) tell(cause);
      told.add(cause.code);
    },
    keep: () => {
      const kept = waiting ?? [];
      waiting = null;
      kept.forEach(emit);
    },
    isKept: () => waiting === null,
    bytes: () => bytes,
  };
}
