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

/** Where the search stands, for the screen. `silent`: the bridge answers but nothing comes from the bus yet. */
export interface SearchReport {
  readonly stage: 'opening' | 'serial speed' | 'bit rate' | 'silent' | 'found' | 'unintelligible' | 'nothing';
  readonly baudRate: number | null;
  readonly bitRate: BitRate | null;
  readonly found: FoundBridge | null;
}
