import type { Observable } from 'rxjs';
import type { Problem } from '../problems/problem.ts';
import type { Result } from '../problems/result.ts';
import type { LinkEvent } from './link-event.ts';

export type AdapterId = 'bench' | 'web-serial' | 'log-file' | 'replay';

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
