import type { AdapterId } from '../link/adapter.ts';
import type { WireProtocol } from '../wire/wire-decoder.ts';

/** How the events of a recording are to be read: a line protocol, one still to be recognised, or readings that need none. */
export type RecordingWire = WireProtocol | 'auto' | 'readings';

/** Form in which headers are written. Older ones are brought to it when they are read (recording-schema.ts). */
export const RECORDING_FORMAT = 2;

/** What a recording is and where it came from. `closed` recordings never change. */
export interface RecordingHeader {
  readonly formatVersion: typeof RECORDING_FORMAT;
  readonly id: string;
  readonly source: AdapterId;
  readonly wire: RecordingWire;
  readonly device: string;
  /** Wall-clock time of the first event, ISO 8601; source time counts from its own origin. */
  readonly startedAt: string;
  readonly closed: boolean;
  /** Interval between speed samples that the person gave for a log without time stamps, ms. */
  readonly givenIntervalMs: number | null;
  /** File name where a file was dropped. */
  readonly fileName: string | null;
  /** How a speed log was read (plain data of logs/), for a file of numbers. */
  readonly logPlan: unknown;
}
