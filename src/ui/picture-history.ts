/** A state with what was before it and what was taken back. `gesture` names the change that may still go on. */
export interface History<T> {
  readonly past: readonly T[];
  readonly now: T;
  readonly future: readonly T[];
  readonly gesture: string | null;
}

/** Steps that can be taken back. */
const MOST_STEPS = 300;

export const beginHistory = <T>(now: T): History<T> => ({ past: [], now, future: [], gesture: null });

/**
 * Makes `next` what holds. Changes of one gesture (a drag, typing in one field) are one step back; what was taken back
 * before is forgotten. The same state again changes nothing.
 */
export function remember<T>(history: History<T>, next: T, gesture: string | null = null): History<T> {
  if (next === history.now) return history;
  const goesOn = gesture !== null && gesture === history.gesture;
  const past = goesOn ? history.past : [...history.past, history.now].slice(-MOST_STEPS);
  return { past, now: next, future: [], gesture };
}

/** Changes what is looked at, which is no step of its own. */
export const amend = <T>(history: History<T>, next: T): History<T> =>
  next === history.now ? history : { ...history, now: next, gesture: null };

/** One step back; with nothing before, the same history. */
export function undo<T>(history: History<T>): History<T> {
  const last = history.past.at(-1);
  if (last === undefined) return history;
  return {
    past: history.past.slice(0, -1),
    now: last,
    future: [history.now, ...history.future],
    gesture: null,
  };
}

/** One step forward again; with nothing taken back, the same history. */
export function redo<T>(history: History<T>): History<T> {
  const [next, ...future] = history.future;
  if (next === undefined) return history;
  return { past: [...history.past, history.now], now: next, future, gesture: null };
}

/** What Ctrl+Z, Ctrl+Shift+Z and Ctrl+Y (or the command key) ask for; null for any other key. */
export function historyKey(event: {
  readonly key: string;
  readonly ctrlKey: boolean;
  readonly metaKey: boolean;
  readonly shiftKey: boolean;
}): 'undo' | 'redo' | null {
  if (!event.ctrlKey && !event.metaKey) return null;
  const key = event.key.toLowerCase();
  if (key === 'y') return 'redo';
  if (key !== 'z') return null;
  return event.shiftKey ? 'redo' : 'undo';
}
