import type { Problem } from '../problems/problem.ts';
import type { WireProtocol } from './wire-decoder.ts';

/** CAN bit rates that are tried, in the order of how often they are met on engine buses, bit/s. */
export const BIT_RATES = [250_000, 500_000, 125_000, 1_000_000] as const;
export type BitRate = (typeof BIT_RATES)[number];

/** `unconfirmed`: asked for, but the bridge did not say so. `off`: the person allowed to open it normally. */
export type ListenOnly = 'confirmed' | 'unconfirmed' | 'off' | 'notApplicable';

/** What was found by listening and probing. Plain data: it is remembered per device and tried first the next time. */
export interface FoundBridge {
  /** Serial speed, baud; null where the source has none (Bluetooth, WebSocket). */
  readonly baudRate: number | null;
  /** Null: bytes come but nothing is intelligible. */
  readonly protocol: WireProtocol | null;
  /** Null: the bus is silent so far, or the protocol has no bit rate to set. */
  readonly bitRate: BitRate | null;
  readonly version: string | null;
  readonly listenOnly: ListenOnly;
}

/**
 * Where the search stands, for the screen. `silent`: the bridge answers but nothing comes from the bus yet. `refused`: it
 * answers, and would only open in a way that the person did not allow. `problem`: what to tell the person about it.
 */
export interface SearchReport {
  readonly stage:
    'opening' | 'serial speed' | 'bit rate' | 'silent' | 'found' | 'refused' | 'unintelligible' | 'nothing';
  readonly baudRate: number | null;
  readonly bitRate: BitRate | null;
  readonly found: FoundBridge | null;
  readonly problem?: Problem | null;
  /** Openings given up so far, and the bytes that they brought: these are in no recording. */
  readonly trials?: number;
  readonly droppedBytes?: number;
}

/** What the person wants of the bridge. A given speed or bit rate is taken as it is and not searched for. */
export interface WantedBridge {
  readonly listenOnly: boolean;
  readonly baudRate?: number | null;
  readonly bitRate?: BitRate | null;
  /** The person ticked "try M1 + O": a bridge without `L` may be opened in the silent mode of its kind. */
  readonly trySilentMode?: boolean;
}
