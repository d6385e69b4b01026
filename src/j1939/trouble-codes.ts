/** `notAvailable`: the controller does not drive this lamp. */
export type LampState = 'off' | 'on' | 'slow flash' | 'fast flash' | 'notAvailable';

export interface Lamps {
  readonly malfunction: LampState;
  readonly redStop: LampState;
  readonly amberWarning: LampState;
  readonly protect: LampState;
}

/** One trouble code. `spn` is the version 4 reading. */
export interface TroubleCode {
  readonly spn: number;
  readonly fmi: number;
  /** Null: not available. */
  readonly occurrences: number | null;
  /** Conversion bit 1: the number depends on which older packing the controller uses; these are the candidates. */
  readonly otherSpns: readonly number[];
  /** Conversion bit 1, also where the candidates are one and the same number. */
  readonly olderPacking?: true;
}

/** One DM1 or DM2 of one controller. */
export interface CodeReport {
  readonly atMs: number;
  readonly lamps: Lamps;
  readonly codes: readonly TroubleCode[];
  /** Bytes behind the last whole code that are no padding either: the message was cut or is malformed. Absent where none. */
  readonly leftOver?: number;
}
