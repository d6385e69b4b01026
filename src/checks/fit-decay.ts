import type { CleanRows } from '../signals/clean-rows.ts';
import { fitLine } from './line-fit.ts';

/** An exponential p = p0 e^(−t/τ) fitted to a falling pressure. */
export interface DecayFit {
  readonly tauSeconds: number;
  readonly tauUncertainty: number;
  /** Root mean square of the residuals as a part of the pressure. */
  readonly residualShare: number;
  /** False where the curve bows out of the exponential by more than 2 % of the pressure, beyond its own doubt. */
  readonly exponential: boolean;
}

/** A bow smaller than this part of the pressure changes no verdict; beyond it the one number τ does not describe the fall. Our choice. */
const LEAST_BOW = 0.02;
/** Standard uncertainties that a bow must be beyond. */
const SURE = 3;

/**
 * Log-linear least squares: a line through ln p over time; τ = −1/slope, u(τ) = u(slope)/slope² (GUM 5.1.2). Null below three rows above zero and
 * where the pressure does not fall.
 */
export function fitDecay({ count, atMs, value }: CleanRows): DecayFit | null {
  const seconds: number[] = [];
  const logs: number[] = [];
  for (let row = 0; row < count; row++) {
    if (!(value[row]! > 0)) continue;
    seconds.push((atMs[row]! - atMs[0]!) / 1000);
    logs.push(Math.log(value[row]!));
  }
  const line = fitLine(seconds, logs);
  if (!line || !(line.slope < 0)) return null;
  return {
    tauSeconds: -1 / line.slope,
    tauUncertainty: line.slopeUncertainty / line.slope ** 2,
    residualShare: line.residual,
    exponential: line.bow <= Math.max(LEAST_BOW, SURE * line.bowUncertainty),
  };
}
