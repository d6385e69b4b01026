import type { Vessel } from '../checks/measurement.ts';
import { DEFAULT_CRANK_SETTINGS } from '../crank/crank.ts';
import { RUN_FORMAT, type StoredRun } from '../jobs/run.ts';
import type { LimitSheet } from '../limits/limit-sheet.ts';
import type { ProcedureCheck } from '../procedures/procedure.ts';

export interface NewRun {
  readonly id: string;
  readonly createdAt: string;
  readonly source: StoredRun['source'];
  readonly sheet: LimitSheet | null;
  readonly vessel: Vessel;
  /** The job and the check of its procedure; without it a crank delivery on its own. */
  readonly within?: { readonly jobId: string; readonly guide: ProcedureCheck };
}

/** A run at its beginning: nothing ticked, nothing heard, nothing typed. Pure; the caller brings id and time. */
export function newRun({ id, createdAt, source, sheet, vessel, within }: NewRun): StoredRun {
  return {
    formatVersion: RUN_FORMAT,
    id,
    createdAt,
    jobId: within?.jobId ?? null,
    check: within?.guide.id ?? 'crank-delivery',
    kind: within?.guide.settings.kind ?? 'crank delivery',
    guide: within?.guide ?? null,
    title: within?.guide.title ?? 'Crank delivery',
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

/** The next repeat of a run, with everything kept: check, source, sheet, and the vessel taken last. */
export function repeatOf(run: StoredRun, id: string, createdAt: string): StoredRun {
  const vessel = run.entries.findLast((entry) => entry.kind === 'vessel')?.vessel ?? run.vessel;
  const sheet = run.entries.findLast((entry) => entry.kind === 'sheet')?.sheet ?? run.sheet;
  return {
    ...run,
    id,
    createdAt,
    recordingId: null,
    sheet,
    vessel,
    entries: [],
    measurementSummary: null,
    valueSummary: null,
    verdict: null,
    gradingRevision: null,
    state: 'open',
  };
}
