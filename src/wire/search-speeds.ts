import type { FoundBridge } from './found-bridge.ts';

/**
 * How long one opening is given. `known`: the device is remembered at this speed. `quick`: gone on from as soon as nothing
 * intelligible answers. `patient`: long enough for a board that starts afresh. `stay`: the last one, kept open for good.
 */
export type Patience = 'known' | 'quick' | 'patient' | 'stay';

/** One opening of the port. A null speed: the source has none. */
export interface Trial {
  readonly baudRate: number | null;
  readonly patience: Patience;
}

/**
 * Serial speeds in the order in which they are tried quickly, baud: how often they are met on bridges (common practice,
 * no source). Bridges that are USB devices themselves take any speed, so the first one finds them.
 */
export const SERIAL_SPEEDS = [
  115_200, 1_000_000, 500_000, 921_600, 230_400, 460_800, 2_000_000, 57_600, 38_400, 9_600,
] as const;

/**
 * Serial speeds for the second, patient pass, baud. On many microcontroller boards the DTR line is wired to reset, and
 * opening the port raises DTR: the board starts afresh at every opening, prints the text of its boot program (often at a
 * speed of its own) or is silent for 1 to 2.5 s, and only then runs. So the quick pass never hears such a board at all,
 * and each opening of this pass must outlast a start (common practice, no source for the times).
 */
export const BOOT_SPEEDS = [115_200, 9_600, 57_600, 250_000, 38_400, 19_200, 500_000, 1_000_000] as const;

/** How long a patient opening listens in all, ms: a start of 2.5 s, and half a second for a line or an answer. */
export const DWELL_MS = 3000;

/** What is known before anything is opened. `speeds` null: the source has no serial speed. */
export interface PlanMeans {
  readonly speeds: readonly number[] | null;
  readonly remembered: FoundBridge | null;
  /** The person's own choice; nothing else is tried. */
  readonly baudRate: number | null;
}

/**
 * The openings in their order, the last of which stays open where `lastWithBytes` says: it is not part of the list, since
 * it depends on what was heard. A source without a speed, or with a given one, has one opening that stays.
 */
export function planTrials({ speeds, remembered, baudRate }: PlanMeans): readonly Trial[] {
  if (speeds === null) return [{ baudRate: null, patience: 'stay' }];
  if (baudRate !== null) return [{ baudRate, patience: 'stay' }];
  const knownSpeed = remembered?.protocol ? remembered.baudRate : null;
  const known: readonly Trial[] = knownSpeed === null ? [] : [{ baudRate: knownSpeed, patience: 'known' }];
  const quick = speeds.map((speed): Trial => ({ baudRate: speed, patience: 'quick' }));
  return [
    ...known,
    ...quick,
    ...BOOT_SPEEDS.map((speed): Trial => ({ baudRate: speed, patience: 'patient' })),
  ];
}
