import type { Vessel } from '../checks/measurement.ts';
import { DEFAULT_CRANK_SETTINGS } from '../crank/crank.ts';
import { RUN_FORMAT, type StoredRun } from '../jobs/run.ts';
import type { LimitSheet } from '../limits/limit-sheet.ts';

export interface NewRun {
  readonly id: string;
  readonly createdAt: string;
  readonly source: StoredRun['source'];
  readonly sheet: LimitSheet | null;
  readonly vessel: Vessel;
}

/** A run at its beginning: nothing ticked, nothing heard, nothing typed. Pure; the caller brings id and time. */
export function newRun({ id, createdAt, source, sheet, vessel }: NewRun): StoredRun {
  return {
    formatVersion: RUN_FORMAT,
    id,
    createdAt,
    jobId: null,
    check: 'crank-delivery',
    kind: 'crank delivery',
    guide: null,
    title: 'Crank delivery',
    source,
    recordingId: null,
    sheet,
    vessel,
    crankSettings: DEFAULT_CRANK_SETTINGS,
    entries: [],
    measurementSummary: null,
    valueSummary: null,
    verdict: null,
    gradingRevision: null,
    state: 'open',
  };
}
