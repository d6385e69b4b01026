/** State of the generator: one unsigned 32-bit number. Carried in the state of whoever draws. */
export type Chance = number;

/** A generator for a seed; any number is taken (its low 32 bits count). */
export const chanceFrom = (seed: number): Chance => seed >>> 0;

/** The state after one draw (the counter step of mulberry32, public domain; from memory). */
export const nextChance = (chance: Chance): Chance => (chance + 0x6d2b79f5) >>> 0;

/** Uniform number in [0, 1) that belongs to a state: draw by `chance = nextChance(chance); uniform(chance)`. */
export function uniform(chance: Chance): number {
  let word = Math.imul(chance ^ (chance >>> 15), chance | 1);
  word ^= word + Math.imul(word ^ (word >>> 7), word | 61);
  return ((word ^ (word >>> 14)) >>> 0) / 4294967296;
}

/**
 * Number of mean 0 and standard deviation 1, near enough normal for sensors (sum of four uniforms, bounded at 3.46),
 * and the state after it.
 */
export function nearlyNormal(chance: Chance): { readonly value: number; readonly chance: Chance } {
  let next = chance;
  let sum = 0;
  for (let draw = 0; draw < 4; draw += 1) {
    next = nextChance(next);
    sum += uniform(next);
  }
  return { value: (sum - 2) * Math.sqrt(3), chance: next };
}
