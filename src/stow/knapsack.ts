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
  const ups = new Int32Array(levels.length);
  const worths = new Float64Array(levels.length);
  for (let i = 0; i < levels.length; i++) {
    ups[i] = levels[i]!.up;
    worths[i] = levels[i]!.worth;
  }
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
  value.fill(0, 0, height + 1);
  for (let h = 0; h <= height; h++) {
    const now = value[h]!;
    const before = h === 0 ? -1 : value[h - 1]!;
    // From a height that is worth no more than one below, nothing is come to that is not come to from there.
    if (now <= before) {
      value[h] = before;
      continue;
    }
    for (let i = 0; i < count; i++) {
      const to = h + ups[i]!;
      if (to > height) break;
      const worth = now + worths[i]!;
      if (worth > value[to]!) value[to] = worth;
    }
  }
  return value[height]!;
}

/**
 * The places of a knapsack over a length at which an item may end that begins where another ends, or at 0: only there more
 * may be worth than just before, if items are worth the same wherever they lie.
 */
export class Ends {
  private readonly sizes: Int32Array;
  private readonly may: Uint8Array;

  /** `sizes` rise. */
  constructor(sizes: Int32Array, room: number) {
    this.sizes = sizes;
    this.may = new Uint8Array(room + 1);
    this.begin(0);
  }

  /** Something may begin at a place: there all before it is worth more than just before. */
  begin(at: number): void {
    const { sizes, may } = this;
    for (let i = 0; i < sizes.length; i++) {
      const end = at + sizes[i]!;
      if (end >= may.length) break;
      may[end] = 1;
    }
  }

  has(end: number): boolean {
    return this.may[end] === 1;
  }
}
