import type { BrokenTransfer } from './bus-message.ts';
import type { CodeReport } from './trouble-codes.ts';
import type { Identification } from './identification.ts';

/** What the bus has told of itself so far. Keys are origins (channel * 256 + source address). */
export interface BusFacts {
  readonly identifications: ReadonlyMap<number, Identification>;
  /** The last DM1 of each origin: codes active now. */
  readonly active: ReadonlyMap<number, CodeReport>;
  /** The last DM2 of each origin: codes that were active before. */
  readonly previous: ReadonlyMap<number, CodeReport>;
  /** The last few transfers that broke off, newest last. */
  readonly broken: readonly BrokenTransfer[];
  readonly brokenCount: number;
}
