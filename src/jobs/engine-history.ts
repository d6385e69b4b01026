import type { JobSummary } from './job-summary.ts';

/** What tells an engine, and the vehicle around it; empty where it is not known. */
export type EngineIdentity = Pick<JobSummary, 'serialNumber' | 'vin'>;

/** An earlier or later job on the same engine, or on the same vehicle. */
export interface PastJob {
  readonly summary: JobSummary;
  readonly by: 'serial number' | 'VIN';
  /** Same vehicle, but both jobs name a serial number and not the same: the engine was changed, or one was mistyped. */
  readonly otherEngine: boolean;
}

/** A serial number or VIN as it is compared: capital letters and digits alone. */
export const comparable = (number: string): string => number.toUpperCase().replace(/[^\p{L}\p{N}]/gu, '');

/** The jobs among the rows that were done on this engine or vehicle, in the order of the rows. The job itself is left out. */
export function engineHistory(
  rows: readonly JobSummary[],
  engine: EngineIdentity,
  exceptJobId: string,
): readonly PastJob[] {
  const serial = comparable(engine.serialNumber);
  const vin = comparable(engine.vin);
  return rows.flatMap((summary): PastJob[] => {
    if (summary.id === exceptJobId) return [];
    const theirs = comparable(summary.serialNumber);
    if (serial !== '' && theirs === serial) return [{ summary, by: 'serial number', otherEngine: false }];
    if (vin === '' || comparable(summary.vin) !== vin) return [];
    return [{ summary, by: 'VIN', otherEngine: serial !== '' && theirs !== '' }];
  });
}
