import { z } from 'zod';
import { CheckSettings } from '../checks/check-settings.ts';
import { StationId } from './station.ts';

const text = z.string().min(1);
const checkId = z.string().regex(/^[a-z][a-z0-9-]*$/, 'small letters, digits and dashes');

/** Verdict words of a check, as advice is written for them. */
export const ADVICE_WORDS = [
  'pass',
  'marginal',
  'fail low',
  'fail high',
  'too close to call',
  'not valid',
] as const;

/** What one verdict of one check suggests. `causes` are ids of the procedure's causes, likeliest first. */
export const Advice = z.strictObject({
  headline: text,
  causes: z.array(text).default([]),
  next: z.array(text).min(1),
  /** The check to do next; null: the next one in order. */
  nextCheck: checkId.nullable().default(null),
});

/** One check of a procedure: what a person must know to carry it out, and what its verdicts mean. */
export const ProcedureCheck = z.strictObject({
  id: checkId,
  title: text,
  purpose: text,
  /** Stations that this check speaks for; none where it is about what comes before the fuel path, e.g. the batteries. */
  stations: z.array(StationId),
  /** Stations of which a pass says that they are in order. */
  clears: z.array(StationId),
  /** Checks that come before it; leaving one out needs a reason. */
  needs: z.array(checkId).default([]),
  /** Dangers, each to be ticked before the check can run. */
  cautions: z.array(z.strictObject({ id: text, text })).min(1),
  preparations: z.array(text).min(1),
  howTo: z.array(text).min(1),
  settings: CheckSettings,
  /** Runs with one verdict that a finding needs. */
  runsNeeded: z.number().int().min(1).max(5).default(1),
  /** Work at these stations makes the check one to be repeated. */
  repeatAfter: z.array(StationId).default([]),
  advice: z.strictObject({
    pass: Advice,
    marginal: Advice,
    'fail low': Advice,
    'fail high': Advice,
    'too close to call': Advice,
    'not valid': Advice,
  }),
});

/** One thing that can be wrong, where it lies, what to look at, and what the work on it is. */
export const Cause = z.strictObject({
  id: text,
  station: StationId,
  text,
  look: text,
  repair: text,
  /** Ids of checks to be repeated once it was put right. */
  repeat: z.array(checkId).default([]),
});

/** Form in which procedures are written. */
export const PROCEDURE_FORMAT = 1;

/** The order of checks with preparations, cautions and advice: data, so that it can be read, changed and translated. */
export const Procedure = z.strictObject({
  formatVersion: z.literal(PROCEDURE_FORMAT),
  id: text,
  title: text,
  revision: text,
  /** Where it comes from, e.g. that it is generic and general knowledge of the trade. */
  source: text,
  complaint: text,
  /** Always shown: what stands above this procedure. */
  defersTo: text,
  /** What to do before anything is run again after work on the fuel path. */
  priming: z.array(text).min(1),
  checks: z.array(ProcedureCheck).min(1),
  causes: z.array(Cause),
});

export type Advice = z.infer<typeof Advice>;
export type ProcedureCheck = z.infer<typeof ProcedureCheck>;
export type Cause = z.infer<typeof Cause>;
export type Procedure = z.infer<typeof Procedure>;
