import type { CleanRows } from '../signals/clean-rows.ts';
import { fitLine } from './line-fit.ts';

/** How a pressure rises: in a straight line (what leaks does not grow with it), or towards an end value (what leaks does). */
export interface BuildFit {
  readonly form: 'straight' | 'levelling off';
  /** Mean rate of the straight line, kPa/s. */
  readonly rateKPaS: number;
  readonly rateUncertainty: number;
  /** Of p = p∞ − (p∞ − p0) e^(−t/τ); null for a straight rise. */
  readonly tauSeconds: number | null;
  readonly endKPa: number | null;
  /** Root mean square of the residuals of the form chosen, kPa. */
  readonly residualKPa: number;
}

/** Times constants tried, as a part of the time that the rise took: beyond, it cannot be told from a straight line. */
const LEAST_TAU_PART = 0.02;
const MOST_TAU_PART = 20;
const STEPS = 60;
/** The bow must be this part of the rise, and this many of its standard uncertainties, to be believed. Our choice. */
const LEAST_BOW_PART = 0.01;
const SURE = 3;

/**
 * Fits a straight line and, where the rise bows out of it, a first-order rise: for each τ the line through p over e^(−t/τ) is least squares in closed
 * form, and τ is found by golden section. Null below three rows and where the pressure does not rise.
 */
export function fitBuild({ count, atMs, value }: CleanRows): BuildFit | null {
  const seconds = Float64Array.from(atMs.subarray(0, count), (at) => (at - atMs[0]!) / 1000);
  const values = value.subarray(0, count);
  const line = fitLine(seconds, values);
  if (!line || !(line.slope > 0)) return null;
  const straight: BuildFit = {
    form: 'straight',
    rateKPaS: line.slope,
    rateUncertainty: line.slopeUncertainty,
    tauSeconds: null,
    endKPa: null,
    residualKPa: line.residual,
  };
  const rise = line.slope * seconds.at(-1)!;
  if (line.bow <= Math.max(LEAST_BOW_PART * rise, SURE * line.bowUncertainty)) return straight;
  const found = firstOrder(seconds, values);
  // A rise that grows faster and faster bows the other way: no end value describes it.
  if (!found || found.residual >= line.residual) return straight;
  return {
    ...straight,
    form: 'levelling off',
    tauSeconds: found.tau,
    endKPa: found.end,
    residualKPa: found.residual,
  };
}

interface FirstOrder {
  readonly tau: number;
  readonly end: number;
  readonly residual: number;
}

function firstOrder(seconds: Float64Array, values: Float64Array): FirstOrder | null {
  const at = (logTau: number): FirstOrder | null => {
    const tau = Math.exp(logTau);
    const line = fitLine(
      seconds.map((t) => Math.exp(-t / tau)),
      values,
    );
    return line && line.slope < 0 ? { tau, end: line.intercept, residual: line.residual } : null;
  };
  const span = seconds.at(-1)!;
  const best = goldenLeast(
    (logTau) => at(logTau)?.residual ?? Infinity,
    Math.log(LEAST_TAU_PART * span),
    Math.log(MOST_TAU_PART * span),
  );
  return at(best);
}

/** Where a function with one valley is least between two ends. */
function goldenLeast(of: (x: number) => number, from: number, to: number): number {
  const part = (Math.sqrt(5) - 1) / 2;
  let [low, high] = [from, to];
  let [a, b] = [high - part * (high - low), low + part * (high - low)];
  let [atA, atB] = [of(a), of(b)];
  for (let step = 0; step < STEPS; step++) {
    if (atA <= atB) {
      [high, b, atB] = [b, a, atA];
      a = high - part * (high - low);
      atA = of(a);
    } else {
      [low, a, atA] = [a, b, atB];
      b = low + part * (high - low);
      atB = of(b);
    }
  }
  return (low + high) / 2;
}
