/** A straight line through points by least squares, with how well it holds. */
export interface LineFit {
  readonly intercept: number;
  readonly slope: number;
  /** Standard uncertainty of the slope from the residuals (divisor n − 2). */
  readonly slopeUncertainty: number;
  /** Root mean square of the residuals (divisor n − 2). */
  readonly residual: number;
  /** How far a parabola through the points bows out of its chord in their middle, in the unit of y; 0 below four points. */
  readonly bow: number;
  readonly bowUncertainty: number;
}

/**
 * Least squares of y over x, and of what a parabola would add to it (its part that no line can take: orthogonal to 1 and x). Null below three
 * points, or where all share one x.
 */
export function fitLine(x: ArrayLike<number>, y: ArrayLike<number>): LineFit | null {
  const n = x.length;
  const sum = (term: (i: number) => number): number => {
    let total = 0;
    for (let i = 0; i < n; i++) total += term(i);
    return total;
  };
  const meanX = sum((i) => x[i]!) / n;
  const meanY = sum((i) => y[i]!) / n;
  const square = sum((i) => (x[i]! - meanX) ** 2);
  if (n < 3 || !(square > 0)) return null;
  const slope = sum((i) => (x[i]! - meanX) * (y[i]! - meanY)) / square;
  const left = (i: number) => y[i]! - meanY - slope * (x[i]! - meanX);
  const leftSquare = sum((i) => left(i) ** 2);
  const residual = Math.sqrt(leftSquare / (n - 2));
  // The parabola less its own best line.
  const skew = sum((i) => (x[i]! - meanX) ** 3) / square;
  const arch = (i: number) => (x[i]! - meanX) ** 2 - skew * (x[i]! - meanX) - square / n;
  const archSquare = sum((i) => arch(i) ** 2);
  const curve = n < 4 || !(archSquare > 0) ? 0 : sum((i) => left(i) * arch(i)) / archSquare;
  const curveLeft = Math.max(0, leftSquare - curve ** 2 * archSquare);
  const reach = (x[n - 1]! - x[0]!) ** 2 / 4;
  return {
    intercept: meanY - slope * meanX,
    slope,
    slopeUncertainty: residual / Math.sqrt(square),
    residual,
    bow: Math.abs(curve) * reach,
    bowUncertainty: n < 4 ? 0 : (Math.sqrt(curveLeft / (n - 3)) / Math.sqrt(archSquare)) * reach,
  };
}
