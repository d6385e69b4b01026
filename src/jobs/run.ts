import { z } from 'zod';
import { CHECK_KINDS } from '../checks/check-kind.ts';
import { ADAPTER_IDS } from '../link/adapter.ts';
import { LimitSheet } from '../limits/limit-sheet.ts';
import { ProcedureCheck } from '../procedures/procedure.ts';
import { StoredFoundBridge } from '../recordings/stored-bridge.ts';
import { AnyNumber, StoredProblem } from '../storage/stored-problem.ts';
import { RunEntry, StoredVessel } from './run-entry.ts';

const Zone = z.enum(['pass', 'marginal', 'fail low', 'fail high']);

/** A verdict as stored; its type is the contract in grading/verdict.ts. */
export const StoredVerdict = z.strictObject({
  word: z.enum([...Zone.options, 'too close to call', 'not valid']),
  leaning: Zone.nullable(),
  confidence: z.number().min(0).max(1).nullable(),
  probabilities: z.record(Zone, z.number()).nullable(),
  nearest: z
    .strictObject({
      name: z.enum(['failBelow', 'passAbove', 'failAbove', 'min', 'max']),
      atValue: AnyNumber,
      distance: AnyNumber,
      distancePercent: AnyNumber,
    })
    .nullable(),
  reasons: z.array(StoredProblem),
  warnings: z.array(StoredProblem),
  gradingRevision: z.number().int().positive(),
});

/** What was measured when the run was graded, for lists and reports; the recording can give it again. */
export const MeasurementSummary = z.strictObject({
  averageSpeedRpm: AnyNumber.nullable(),
  crankSeconds: AnyNumber,
  cranks: z.array(
    z.strictObject({
      startMs: AnyNumber,
      endMs: AnyNumber,
      meanSpeedRpm: AnyNumber,
      coverage: AnyNumber,
      endedBy: z.enum(['released', 'engine started', 'data lost', 'cut']),
      counts: z.boolean(),
    }),
  ),
});

/** The graded value as it was measured, for lists, repeats, before and after, and the report. */
export const ValueSummary = z.strictObject({
  quantity: z.enum(['volume', 'pressure', 'time', 'rate']),
  /** In the unit that limits of the quantity are kept in (limits/printed-unit.ts); null where there is none. */
  value: AnyNumber.nullable(),
  standardUncertainty: AnyNumber,
  /** Step of the instrument (one mark of a vessel), for repeats; 0 where there is none. */
  step: AnyNumber,
  facts: z.array(z.strictObject({ name: z.string(), value: AnyNumber, unit: z.string() })),
});

/** Settings of the crank finder as they were for this run; contract in crank/crank.ts. */
export const StoredCrankSettings = z.strictObject({
  startRpm: z.number(),
  endRpm: z.number(),
  runningRpm: z.number(),
  holdMs: z.number(),
  runningHoldMs: z.number(),
  restMs: z.number(),
  staleIntervals: z.number(),
  staleFloorMs: z.number(),
  lateReportMs: z.number(),
});

/** Form in which runs are written. Older ones are brought to it when they are read (run-store.ts). */
export const RUN_FORMAT = 3;

/**
 * Where a run's data come from. `found` (what recognising the bridge gave) and `deviceKey` (tells the device from others) are
 * known only once it is open; they are named once. Null or absent: not known, or not that kind of source.
 */
export const RunSource = z.strictObject({
  adapter: z.enum(ADAPTER_IDS),
  device: z.string(),
  scenarioId: z.string().optional(),
  found: StoredFoundBridge.nullable().optional(),
  deviceKey: z.string().min(1).nullable().optional(),
});

/**
 * One carrying-out of a check, as kept. `sheet` is a copy made when the run began: a sheet that is revised later does not
 * move this verdict. `entries` only ever grow; what holds now is their fold (run-entries.ts).
 */
export const StoredRun = z.strictObject({
  formatVersion: z.literal(RUN_FORMAT),
  id: z.string().min(1),
  createdAt: z.iso.datetime({ offset: true }),
  /** The job that it belongs to; null for a run on its own. */
  jobId: z.string().min(1).nullable(),
  /** Id of the check in the procedure. */
  check: z.string().min(1),
  kind: z.enum(CHECK_KINDS),
  /** The check of the procedure as it was when the run began; null for runs that were made before there were procedures. */
  guide: ProcedureCheck.nullable(),
  title: z.string(),
  source: RunSource,
  recordingId: z.string().nullable(),
  /** The sheet set when the run began; an entry takes another. Null: none was there. */
  sheet: LimitSheet.nullable(),
  /** The vessel set when the run began; an entry changes it. */
  vessel: StoredVessel.nullable(),
  crankSettings: StoredCrankSettings,
  entries: z.array(RunEntry),
  measurementSummary: MeasurementSummary.nullable(),
  valueSummary: ValueSummary.nullable(),
  verdict: StoredVerdict.nullable(),
  /** Revision of the grading that gave `verdict`; null before. */
  gradingRevision: z.number().int().positive().nullable(),
  state: z.enum(['open', 'graded', 'abandoned']),
});

export type RunSource = z.infer<typeof RunSource>;
export type StoredRun = z.infer<typeof StoredRun>;
export type ValueSummary = z.infer<typeof ValueSummary>;
export type MeasurementSummary = z.infer<typeof MeasurementSummary>;
