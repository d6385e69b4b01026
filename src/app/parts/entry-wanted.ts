import type { RunEntry } from '../../jobs/run-entry.ts';

type WithoutTime<E> = E extends unknown ? Omit<E, 'atIso'> : never;

/** An entry as a form asks for it; the page gives it its time. */
export type WantedEntry = WithoutTime<RunEntry>;

/** The event by which a part of the page asks for entries. */
export const entryWanted = (...detail: readonly WantedEntry[]): CustomEvent<readonly WantedEntry[]> =>
  new CustomEvent('entry-wanted', { detail, bubbles: true, composed: true });

declare global {
  interface HTMLElementEventMap {
    'entry-wanted': CustomEvent<readonly WantedEntry[]>;
  }
}
