import type { Problem } from '../problems/problem.ts';
import type { Result } from '../problems/result.ts';
import type { Reading } from '../quantities/reading.ts';
import type { Millis } from '../quantities/time.ts';

/** Sends bytes to the device. Resolves when the device's driver took them, or with the problem why not. */
export type WriteBytes = (bytes: Uint8Array) => Promise<Result<void>>;

/**
 * What a source delivers, stamped at arrival (`atMs`, never decreasing within one subscription).
 * - `open` comes first, once per connection. `write` is null where nothing can be sent.
 * - `bytes` are as received, however cut.
 * - `reading` comes from sources that deliver numbers (speed logs, typed numbers).
 * - `gap`: something was lost or broken here; data may go on.
 */
export type LinkEvent =
  | {
      readonly kind: 'open';
      readonly atMs: Millis;
      readonly device: string;
      readonly write: WriteBytes | null;
    }
  | { readonly kind: 'bytes'; readonly atMs: Millis; readonly bytes: Uint8Array }
  | { readonly kind: 'reading'; readonly atMs: Millis; readonly reading: Reading }
  | { readonly kind: 'gap'; readonly atMs: Millis; readonly problem: Problem };
