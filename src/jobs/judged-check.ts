import type { CheckKind } from '../checks/check-kind.ts';
import type { Collection } from '../checks/collection.ts';
import type { Inspection } from '../checks/inspection.ts';
import type { CollectedVolume, CrankDelivery } from '../checks/measurement.ts';
import type { PressureDeviation } from '../checks/pressure-deviation.ts';
import type { ValueMeasurement } from '../checks/value-measurement.ts';
import type { ArithmeticStep } from '../grading/arithmetic-step.ts';
import type { Verdict } from '../grading/verdict.ts';
import type { Limit, LimitSheet, SpeedChart } from '../limits/limit-sheet.ts';
import type { Problem } from '../problems/problem.ts';
import type { ProcedureCheck } from '../procedures/procedure.ts';
import type { CheckFacts } from './check-facts.ts';
import type { RunValues } from './run-entries.ts';
import type { ValueSummary } from './run.ts';

/** What a check measured, by its kind. */
export type CheckMeasurement =
  | {
      readonly kind: 'crank delivery';
      /** Null without a sheet that has one: then the cranks are measured against no target. */
      readonly chart: SpeedChart | null;
      readonly delivery: CrankDelivery;
    }
  | {
      readonly kind: 'collected volume';
      readonly collected: CollectedVolume;
      /** Where its time comes from. */
      readonly collection: Collection;
    }
  | {
      readonly kind: 'steady pressure' | 'pressure build' | 'pressure decay';
      readonly value: ValueMeasurement;
    }
  | { readonly kind: 'pressure deviation'; readonly value: PressureDeviation }
  | { readonly kind: 'inspection'; readonly inspection: Inspection };

/** A check of any kind, measured and judged. */
export interface JudgedCheck {
  readonly kind: CheckKind;
  /** The limit that was found for the check; null without one. */
  readonly limit: Limit | null;
  readonly measurement: CheckMeasurement;
  /** Null while there is nothing to judge: no volume typed, or a value that may still come (`over` false). */
  readonly verdict: Verdict | null;
  /** Null while there is no value, and for inspections. */
  readonly valueSummary: ValueSummary | null;
  readonly arithmetic: readonly ArithmeticStep[];
  /** Why the typed volume cannot be taken. */
  readonly volumeProblem: Problem | null;
}

export interface CheckToJudge {
  readonly kind: CheckKind;
  /** The check of the procedure as it was when the run began; null for crank deliveries from before there were procedures. */
  readonly guide: ProcedureCheck | null;
  /** Id of the check, by which its limit is found. */
  readonly check: string;
  /** The sheet that the run began with; one taken later in the run (`values.sheet`) holds instead. */
  readonly sheet: LimitSheet | null;
  readonly facts: CheckFacts;
  readonly values: RunValues;
  /** The data are over: what is missing will not come any more. */
  readonly over?: boolean;
}
