import { findScenario, type BenchScenario } from '../../simulators/scenarios.ts';
import type { JobEntry, JobField } from '../jobs/job-entry.ts';
import { JOB_FORMAT, type StoredJob } from '../jobs/job.ts';
import { LOW_RAIL_PRESSURE } from '../procedures/library.ts';
import type { Procedure } from '../procedures/procedure.ts';

export interface NewJob {
  readonly id: string;
  readonly createdAt: string;
  readonly procedure?: Procedure;
  /** The bench engine that feeds the job; its complaint and identity are noted at once. */
  readonly scenarioId?: string;
}

/** A job at its beginning. Pure; the caller brings id and time. */
export function newJob({ id, createdAt, procedure = LOW_RAIL_PRESSURE, scenarioId }: NewJob): StoredJob {
  return {
    formatVersion: JOB_FORMAT,
    id,
    createdAt,
    updatedAt: createdAt,
    scenarioId: scenarioId ?? null,
    procedure,
    entries: scenarioId === undefined ? [] : benchEntries(scenarioId, createdAt),
  };
}

const benchEntries = (scenarioId: string, atIso: string): JobEntry[] => {
  const scenario = findScenario(scenarioId);
  return scenario ? noted(scenario, atIso) : [];
};

/** What is noted at once of an engine of the bench. */
export function noted({ identity, complaint }: BenchScenario, atIso: string): JobEntry[] {
  const fields: readonly (readonly [JobField, string])[] = [
    ['unitNumber', identity.unit],
    ['engineFamily', identity.engineFamily],
    ['serialNumber', identity.serialNumber],
    ['engineHours', String(identity.hours)],
    ['complaint', complaint],
  ];
  return fields.map(([field, value]) => ({ kind: 'field', atIso, field, value, from: 'typed' }));
}
