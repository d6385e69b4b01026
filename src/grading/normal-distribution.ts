/** Where the series hands over to the continued fraction; both are good to about 1e-15 there. */
const HANDOVER = 3;
/** Terms of the continued fraction, enough for full precision from the hand-over on. */
const FRACTION_TERMS = 80;

/** Density of the standard normal distribution. */
const density = (z: number): number => Math.exp((-z * z) / 2) / Math.sqrt(2 * Math.PI);

/**
 * Φ(z), the probability that a standard normal value is below `z`. Good to 1e-14 absolutely, and relatively also in the tails. Series near the
 * middle (Abramowitz and Stegun 26.2.11), continued fraction in the tails (26.2.14). ±Infinity gives 1 or 0, NaN gives NaN.
 */
export function normalBelow(z: number): number {
  if (Number.isNaN(z)) return NaN;
  if (z < -HANDOVER) return tail(-z);
  if (z > HANDOVER) return 1 - tail(z);
  let term = z;
  let sum = z;
  for (let odd = 3; Math.abs(term) > 1e-18 * Math.abs(sum); odd += 2) {
    term *= (z * z) / odd;
    sum += term;
  }
  return 0.5 + sum * density(z);
}

/** The z below which a standard normal value lies with probability `p`; ±Infinity at 1 and 0, NaN outside. By bisection: plain, and exact enough. */
export function normalQuantile(p: number): number {
  if (!(p >= 0 && p <= 1)) return NaN;
  if (p === 0 || p === 1) return p === 0 ? -Infinity : Infinity;
  let low = -40;
  let high = 40;
  while (high - low > 1e-14 * Math.max(1, Math.abs(low))) {
    const middle = (low + high) / 2;
    if (middle === low || middle === high) break;
    if (normalBelow(middle) < p) low = middle;
    else high = middle;
  }
  return (low + high) / 2;
}

/** Probability above z, for z well above 0: density / (z + 1/(z + 2/(z + 3/(z + …)))). */
function tail(z: number): number {
  if (z === Infinity) return 0;
  let below = z;
  for (let term = FRACTION_TERMS; term >= 1; term -= 1) below = z + term / below;
  return density(z) / below;
}
