import type { Observable } from 'rxjs';
import type { Problem } from '../problems/problem.ts';
import type { Result } from '../problems/result.ts';
import type { LinkEvent } from './link-event.ts';

/** Every kind of source there is. Only ever append: recordings hold these words. */
export const ADAPTER_IDS = [
  'bench',
  'web-serial',
  'log-file',
  'replay',
  'web-bluetooth',
  'web-usb',
  'web-socket',
  'typed',
] as const;
export type AdapterId = (typeof ADAPTER_IDS)[number];

/** Whether this machine and browser can do this source; if not, the problem says why and what cures it. */
export type Availability = { readonly usable: true } | { readonly usable: false; readonly problem: Problem };

/**
 * One kind of source. Everything about framing and decoding is somebody else's business.
 * `open` is cold: subscribing opens, unsubscribing closes and frees the device. It errors with a `Problem`
 * (never an Error) when the source is over for good, and completes when a finite source has delivered all.
 */
export interface Adapter<Choice> {
  readonly id: AdapterId;
  availability(): Availability;
  /** Lets the person choose (needs their click). A refusal is `link.refused`, which is no error to show in red. */
  choose(): Promise<Result<Choice>>;
  open(choice: Choice): Observable<LinkEvent>;
}

/**
 * A source that is a device which can go away and come back. `key` names the device across sessions (null: it cannot be
 * told from others); what worked is remembered by it. `known` lists devices that open without the chooser.
 * `returned$` emits when the device of the choice may be opened again; the choice it gives replaces the old one.
 */
export interface DeviceAdapter<Choice> extends Adapter<Choice> {
  key(choice: Choice): string | null;
  known(): Promise<readonly Choice[]>;
  returned$(choice: Choice): Observable<Choice>;
}
