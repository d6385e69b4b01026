/** A seeded source of chance. Its state moves with each draw: one for each session, never shared. */
export interface Draws {
  /** A whole number from 0 to below `limit`. */
  below(limit: number): number;
  /** A whole number from `least` to `most`, both included. */
  between(least: number, most: number): number;
  /** True with this probability. */
  chance(probability: number): boolean;
  pick<Item>(items: readonly Item[]): Item;
}

/** The same seed gives the same draws. Marsaglia's xorshift, 32 bits, shifts 13, 17, 5 (J. Stat. Software 8 (2003) 14). */
export function drawsFrom(seed: number): Draws {
  // Spread, so that neighbouring seeds do not begin alike; 0 would stay 0 for ever.
  let state = Math.imul(seed + 1, 0x9e3779b1) | 0 || 1;
  const next = (): number => {
    state ^= state << 13;
    state ^= state >>> 17;
    state ^= state << 5;
    return state >>> 0;
  };
  for (let warm = 0; warm < 8; warm++) next();
  const below = (limit: number) => next() % limit;
  return {
    below,
    between: (least, most) => least + below(most - least + 1),
    chance: (probability) => next() / 0x1_0000_0000 < probability,
    pick: (items) => items[below(items.length)]!,
  };
}
