import type { Crank, CrankSettings } from './crank.ts';

export interface CrankTime {
  readonly seconds: number;
  readonly standardUncertaintySeconds: number;
  /** The start is known from speed only, which controllers report late: the starter may have turned longer. */
  readonly doubt: boolean;
}

/**
 * How long the starter turned. Where only speed marked the start, the true time is 0 to lateReportMs longer (rectangular). The time is not
 * shifted: what is shown is what was seen. So the doubt enters as GUM F.2.4.5 asks of a bias not corrected for: variance a²/12 plus
 * mean shift (a/2)², together a²/3. A crank of negative length is 0 long.
 */
export function crankTime(
  { starterOn, end, startSign }: Crank,
  { lateReportMs }: Pick<CrankSettings, 'lateReportMs'>,
): CrankTime {
  const doubt = startSign === 'speed';
  const lateMs = doubt ? lateReportMs / Math.sqrt(3) : 0;
  const uncertaintyMs = Math.hypot(starterOn.standardUncertaintyMs, end.standardUncertaintyMs, lateMs);
  return {
    seconds: Math.max(0, end.atMs - starterOn.atMs) / 1000,
    standardUncertaintySeconds: uncertaintyMs / 1000,
    doubt,
  };
}
