/** Which pieces to butt into a bar: the splits of a length that gain most at given prices of pieces. Lengths whole mm. */
import type { Split } from './jointProgram.ts';

export interface SplitPrices {
  /** What one more bar of the length is worth, kg. */
  worth: number;
  /** What one more piece of each length costs, kg; Infinity where none can be cut. */
  piece: Float64Array;
  /** kg in a millimetre of bar. */
  perMm: number;
}

export interface SplitRules {
  /** The shortest piece of a joint. */
  least: number;
  /** A jointed bar may be this much shorter than its bundle. */
  tolerance: number;
  /** Lengths that are cut anyway. */
  stops: Set<number>;
  /** Piece lengths more at most. */
  newStops: number;
}

/** A split, what a bar jointed so gains, and how many lengths it cuts that were not cut before. */
export interface PricedSplit {
  split: Split;
  gain: number;
  newStops: number;
}

/**
 * The best split of `length` for each number of new piece lengths that there is a better one for than with fewer. Tried:
 * every pair; of three pieces those with one cut anyway, or two alike. Cost: (cut anyway + 2) × length.
 */
export function bestSplits(length: number, prices: SplitPrices, rules: SplitRules): PricedSplit[] {
  const best: (PricedSplit | undefined)[] = [];
  const offer = (parts: number[], whole: number): void => {
    let cost = prices.perMm * (length - whole);
    for (const part of parts) cost += prices.piece[part]!;
    const gain = prices.worth - cost;
    if (gain <= 0) return;
    const newStops = new Set(parts.filter((part) => !rules.stops.has(part))).size;
    if (newStops > rules.newStops || gain <= (best[newStops]?.gain ?? 0)) return;
    best[newStops] = { split: { length, parts: [...parts].sort((a, b) => b - a) }, gain, newStops };
  };
  const { least } = rules;
  const anyway = [...rules.stops].filter((stop) => stop >= least);
  for (let whole = Math.ceil(length - rules.tolerance); whole <= length; whole++) {
    for (let first = least; 2 * first <= whole; first++) offer([first, whole - first], whole);
    for (let first = least; first + 2 * least <= whole; first++) {
      const rest = whole - first;
      if (rest % 2 === 0) offer([first, rest / 2, rest / 2], whole);
    }
    for (const stop of anyway) {
      const rest = whole - stop;
      for (let first = least; 2 * first <= rest; first++) offer([stop, first, rest - first], whole);
    }
  }
  let record = 0;
  return best.filter((priced): priced is PricedSplit => {
    if (!priced || priced.gain <= record) return false;
    record = priced.gain;
    return true;
  });
}
