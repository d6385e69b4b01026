import lowRailPressure from './library/low-rail-pressure.json' with { type: 'json' };
import { Procedure, type Cause, type ProcedureCheck } from './procedure.ts';

/** The generic procedure for low rail pressure, validated when the page loads: a broken library is a programmer's mistake. */
export const LOW_RAIL_PRESSURE: Procedure = Procedure.parse(lowRailPressure);

/** The check with that id; null where the procedure has none. */
export const checkOf = (procedure: Procedure, id: string): ProcedureCheck | null =>
  procedure.checks.find((check) => check.id === id) ?? null;

/** The cause with that id; null where the procedure has none. */
export const causeOf = (procedure: Procedure, id: string): Cause | null =>
  procedure.causes.find((cause) => cause.id === id) ?? null;
