import type { StoredRun } from '../jobs/run.ts';
import { checkOf, LOW_RAIL_PRESSURE } from '../procedures/library.ts';
import type { ProcedureCheck } from '../procedures/procedure.ts';

/** The crank delivery of the shipped procedure: for runs on their own, and for those made before there were procedures. */
export const CRANK_DELIVERY: ProcedureCheck = checkOf(LOW_RAIL_PRESSURE, 'crank-delivery')!;

/** The check that a run carries out, as it was written when the run began. */
export const guideOf = ({ guide }: Pick<StoredRun, 'guide'>): ProcedureCheck => guide ?? CRANK_DELIVERY;

export interface StarterRules {
  readonly longestCrankSeconds: number;
  readonly leastRestSeconds: number;
}

/** What the starter stands, in a check that cranks: its own rules, else those of the crank delivery. */
export function starterRules({ settings }: ProcedureCheck): StarterRules {
  const from = settings.kind === 'crank delivery' ? settings : CRANK_DELIVERY.settings;
  if (from.kind !== 'crank delivery') return { longestCrankSeconds: 15, leastRestSeconds: 120 };
  return { longestCrankSeconds: from.longestCrankSeconds, leastRestSeconds: from.leastRestSeconds };
}
