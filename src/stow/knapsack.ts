/** The knapsack over the height of a run: which tiers, how many of each. */

/** A tier that may be chosen: its height in half millimetres and its worth. */
export interface Level {
  up: number;
  worth: number;
}

/**
 * Unbounded knapsack over `height` half millimetres; `levels` lowest first. `value` is room for the working, at least
 * height + 1 long, and holds the worth of every height afterwards.
 */
export function stackWorth(levels: Level[], height: number, value: Float64Array): number {
  const ups = Int32Array.from(levels, (level) => level.up);
  const worths = Float64Array.from(levels, (level) => level.worth);
  return knapsack(ups, worths, levels.length, height, value);
}

/** The same, of `count` levels held in arrays; nothing is allocated. */
export function knapsack(
  ups: Int32Array,
  worths: Float64Array,
  count: number,
  height: number,
  value: Float64Array,
): number {
  if (count === 0) return 0;
  const least = ups[0]!;
  value.fill(0, 0, Math.min(least, height + 1));
  for (let h = least; h <= height; h++) {
    let best = value[h - 1]!;
    for (let i = 0; i < count; i++) {
      const up = ups[i]!;
      if (up > h) break;
      const worth = value[h - up]! + worths[i]!;
      if (worth > best) best = worth;
    }
    value[h] = best;
  }
  return value[height]!;
}
