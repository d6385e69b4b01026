import type { Crank, CrankSettings } from './crank.ts';

export interface CrankTime {
  readonly seconds: number;
  readonly standardUncertaintySeconds: number;
  /** The start is known from speed only, which controllers report late: the starter may have turned longer. */
  readonly doubt: boolean;
}

/**
 * How long the starter turned. Where only speed marked the start, the true time is 0 to lateReportMs (a) longer, rectangular. What is shown is
 * what was seen: the time is not corrected by the mean, a/2, since the span is a guess. So the doubt is the mean square about the shown value:
 * spread a²/12 (GUM 4.3.7) and mean shift (a/2)², together a²/3. a/√12 alone would be right for a corrected time only: its one-sided 95 % reach,
 * 1.645 a/√12 = 0.47 a, holds the truth in 47 % of cases; 1.645 a/√3 = 0.95 a in 95 %. GUM F.2.4.5 (from memory) would rather correct.
 * A crank of negative length is 0 long.
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
