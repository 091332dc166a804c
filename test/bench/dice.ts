/** Seeded dice for random jobs: the same seed gives the same job on every machine. */

/** Uniform numbers in [0, 1), by the mulberry32 recurrence on 32-bit integers. */
export interface Dice {
  next(): number;
  /** A whole number from `low` to `high`, both possible. */
  whole(low: number, high: number): number;
  /** A number from `low` to `high` in steps of `step`. */
  stepped(low: number, high: number, step: number): number;
  /** True with the probability `p`. */
  chance(p: number): boolean;
  /** One of the list. */
  pick<T>(list: readonly T[]): T;
}

export function throwDice(seed: number): Dice {
  let state = (seed ^ 0x9e3779b9) >>> 0;
  const next = (): number => {
    state = (state + 0x6d2b79f5) >>> 0;
    let t = state;
    t = Math.imul(t ^ (t >>> 15), t | 1);
    t ^= t + Math.imul(t ^ (t >>> 7), t | 61);
    return ((t ^ (t >>> 14)) >>> 0) / 4294967296;
  };
  const whole = (low: number, high: number): number => low + Math.floor(next() * (high - low + 1));
  return {
    next,
    whole,
    stepped: (low, high, step) => Math.round((low + whole(0, Math.round((high - low) / step)) * step) * 1000) / 1000,
    chance: (p) => next() < p,
    pick: (list) => list[whole(0, list.length - 1)]!,
  };
}
