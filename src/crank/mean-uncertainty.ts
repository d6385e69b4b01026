/** How much is known about the mean of a series whose values lean on each other. */
export interface MeanUncertainty {
  readonly standardUncertainty: number;
  /** How many independent values would give the same uncertainty. */
  readonly effectiveSamples: number;
}

/**
 * Standard uncertainty of the mean of `values`, with the autocorrelation of the first `lags` lags (Bartlett weights, Newey and West 1987):
 * var = (s0²/n)(1 + 2 Σ (1 − k/(lags+1)) ρk), s0² with divisor n. Lag 1 alone is wrong for speed that ripples or is held between updates.
 * The variance is never taken below s0²/(n·lags) (a mean over whole ripples can be very good, but not perfect). One value tells nothing of its spread: Infinity.
 * No value: NaN.
 */
export function meanUncertainty(values: ArrayLike<number>, lags: number): MeanUncertainty {
  const n = values.length;
  if (n < 2) return { standardUncertainty: n === 1 ? Infinity : NaN, effectiveSamples: n };
  const mean = sumOf(n, (i) => values[i]!) / n;
  const square = sumOf(n, (i) => (values[i]! - mean) ** 2);
  if (square === 0) return { standardUncertainty: 0, effectiveSamples: n };
  const most = Math.min(Math.max(0, Math.floor(lags)), n - 1);
  let factor = 1;
  for (let lag = 1; lag <= most; lag++) {
    const shared = sumOf(n - lag, (i) => (values[i]! - mean) * (values[i + lag]! - mean));
    factor += (2 * (1 - lag / (most + 1)) * shared) / square;
  }
  const least = 1 / Math.max(1, most);
  const variance = (square / n / n) * Math.max(least, factor);
  return { standardUncertainty: Math.sqrt(variance), effectiveSamples: square / n / variance };
}

function sumOf(count: number, term: (index: number) => number): number {
  let sum = 0;
  for (let index = 0; index < count; index++) sum += term(index);
  return sum;
}
