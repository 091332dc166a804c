/** Prices: the duals of the master, and what they say of any length. */

/** Duals of a solve, as prices. */
export interface Prices {
  /** Worth of a piece, kg, for the lengths that have rows, by steel; lengths rising. */
  pieces: { lengths: number[]; worth: number[] }[];
  /** Worth of one more bar of a kind, kg, ≥ 0. */
  bars: Float64Array;
  /** Worth of a group's convexity (a void's, as a rule), kg, ≥ 0. */
  groups: Float64Array;
  /** Worth of one more unit of each load row, ≥ 0, in the order of `loadRows`. */
  loads: Float64Array;
}

/** The worth of a piece of any length: linear between priced lengths, in proportion to length beyond them. */
export function worthAt(pieces: { lengths: number[]; worth: number[] }, length: number): number {
  const { lengths, worth } = pieces;
  const n = lengths.length;
  if (n === 0) return 0;
  let low = 0;
  let high = n;
  while (low < high) {
    const middle = (low + high) >> 1;
    if (lengths[middle]! < length) low = middle + 1;
    else high = middle;
  }
  if (low === n) return (worth[n - 1]! * length) / lengths[n - 1]!;
  if (low === 0 || lengths[low] === length) return (worth[low]! * length) / lengths[low]!;
  const share = (length - lengths[low - 1]!) / (lengths[low]! - lengths[low - 1]!);
  return worth[low - 1]! * (1 - share) + worth[low]! * share;
}
