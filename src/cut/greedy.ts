/** Quick whole plans without linear programming: a start, and the rest of a rounded one. Heuristic. */
import { makePattern, type Pattern } from './columns.ts';
import type { Fill } from './pattern.ts';
import type { Scaled } from './scale.ts';

/** Pieces of a row that are not cut. */
export interface Short {
  row: number;
  count: number;
}

export interface GreedyPlan {
  patterns: Pattern[];
  /** Of the patterns alone. */
  cost: number;
  short: Short[];
}

export function costOfShort(short: readonly Short[], dear: Float64Array): number {
  return short.reduce((sum, { row, count }) => sum + count * dear[row]!, 0);
}

interface OpenSpan {
  bar: number;
  span: number;
  left: number;
  counts: Map<number, number>;
}

/**
 * Best fit, longest first: each piece goes where it leaves least; where it fits nowhere a bar is opened, of the type with
 * the least price for its capacity that holds the piece (of these `pick` says which, by rank).
 */
export function fitBest(scaled: Scaled, demand: ArrayLike<number>, counts: ArrayLike<number>, pick = 0): GreedyPlan {
  const open: OpenSpan[] = [];
  const barStock: number[] = [];
  const used = new Int32Array(scaled.stocks.length);
  const ranked = rankStocks(scaled);
  const short: Short[] = [];
  for (let row = 0; row < scaled.sizes.length; row++) {
    const size = scaled.sizes[row]!;
    for (let left = demand[row]!; left > 0; left--) {
      const place = findBest(open, size) ?? openBar(size);
      if (place === null) {
        short.push({ row, count: left });
        break;
      }
      place.left -= size;
      place.counts.set(row, (place.counts.get(row) ?? 0) + 1);
    }
  }
  const fills: Fill[][] = barStock.map((stock) =>
    (scaled.stocks[stock]?.capacities ?? []).map((left) => ({ rows: [], counts: [], left, value: 0 })),
  );
  for (const { bar, span, left, counts: held } of open) {
    fills[bar]![span] = { rows: [...held.keys()], counts: [...held.values()], left, value: 0 };
  }
  const patterns = fills.map((fill, bar) => makePattern(scaled, barStock[bar]!, fill));
  return { patterns, cost: patterns.reduce((sum, pattern) => sum + pattern.cost, 0), short };

  function openBar(size: number): OpenSpan | null {
    const usable = ranked.filter(
      (t) => used[t]! < counts[t]! && scaled.stocks[t]!.capacities.some((capacity) => capacity >= size),
    );
    const stock = usable[Math.min(pick, usable.length - 1)];
    if (stock === undefined) return null;
    used[stock]!++;
    const bar = barStock.push(stock) - 1;
    scaled.stocks[stock]!.capacities.forEach((left, span) => {
      open.push({ bar, span, left, counts: new Map() });
    });
    return findBest(open, size);
  }
}

function findBest(open: OpenSpan[], size: number): OpenSpan | null {
  let best: OpenSpan | null = null;
  for (const place of open) {
    if (place.left >= size && (best === null || place.left < best.left)) best = place;
  }
  return best;
}

/** Stock types by price for a unit of capacity, least first. */
export function rankStocks(scaled: Scaled): number[] {
  const rate = scaled.stocks.map(
    (stock) =>
      stock.price /
      Math.max(
        1,
        stock.capacities.reduce((sum, c) => sum + c, 0),
      ),
  );
  return scaled.stocks.map((_, t) => t).sort((a, b) => rate[a]! - rate[b]! || a - b);
}
