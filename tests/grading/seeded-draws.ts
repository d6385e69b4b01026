/** A source of draws that gives the same ones for the same seed. */
export interface Draws {
  /** Uniform between -1 and 1. */
  readonly flat: () => number;
  /** Standard normal, by Box and Muller (Ann. Math. Stat. 29 (1958) 610). */
  readonly normal: () => number;
}

/** Marsaglia's xorshift generator, 32 bits, shifts 13, 17, 5 (J. Stat. Software 8 (2003) 14). `seed` is a whole number other than 0. */
export function seededDraws(seed: number): Draws {
  let state = seed | 0;
  const unit = (): number => {
    state ^= state << 13;
    state ^= state >>> 17;
    state ^= state << 5;
    return ((state >>> 0) + 0.5) / 4294967296;
  };
  return {
    flat: () => 2 * unit() - 1,
    normal: () => Math.sqrt(-2 * Math.log(unit())) * Math.cos(2 * Math.PI * unit()),
  };
}

/** Mean and standard deviation of draws. */
export function spreadOfDraws(values: readonly number[]): { readonly mean: number; readonly sd: number } {
  const mean = values.reduce((sum, value) => sum + value, 0) / values.length;
  const square = values.reduce((sum, value) => sum + (value - mean) ** 2, 0);
  return { mean, sd: Math.sqrt(square / (values.length - 1)) };
}
