/** Quick whole plans without linear programming: a start, and the rest of a rounded one. Heuristic. */
import { makePattern, type Pattern } from './columns.ts';
import { type Fill, PatternTable } from './pattern.ts';
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
    // Once nothing that is open holds this size, only bars opened after may.
    let since = 0;
    for (let left = demand[row]!; left > 0; ) {
      let place = findBest(open, size, since);
      if (place === null) {
        since = open.length;
        place = openBar(size);
      }
      if (place === null) {
        short.push({ row, count: left });
        break;
      }
      // What it leaves is the least of all that holds another: it is filled up.
      const count = Math.min(left, Math.floor(place.left / size));
      left -= count;
      place.left -= count * size;
      place.counts.set(row, (place.counts.get(row) ?? 0) + count);
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
    const first = open.length;
    scaled.stocks[stock]!.capacities.forEach((left, span) => {
      open.push({ bar, span, left, counts: new Map() });
    });
    return findBest(open, size, first);
  }
}

/** Table cells that filling bars fully may take in all; larger problems do without. */
const FULL_CELLS = 60_000_000;
const FULL_NODES = 3000;

/**
 * Fills bar after bar as full as can be, each with the longest piece left; of several stock types the one that is filled
 * with least waste for its price. Null where bars have several spans, where ends cost, where it would take too long, and
 * where `over` says that time is up.
 */
export function fillFull(scaled: Scaled, bars: number, over: () => boolean): GreedyPlan | null {
  const { stocks, sizes } = scaled;
  const widest = Math.max(0, ...stocks.flatMap((stock) => stock.capacities));
  if (scaled.ends.length > 0 || stocks.some((stock) => stock.capacities.length !== 1)) return null;
  if (Math.min(3_000_000, sizes.length * widest) * bars > 2 * FULL_CELLS) return null;
  const demand = Int32Array.from(scaled.demand);
  const counts = stocks.map((stock) => stock.count);
  const table = new PatternTable(sizes, widest);
  const patterns: Pattern[] = [];
  const values = Float64Array.from(sizes);
  for (;;) {
    if (over()) return null;
    table.fill(values, demand);
    let best: { fill: Fill; stock: number; rate: number } | null = null;
    for (const [stock, { capacities, price }] of stocks.entries()) {
      if (counts[stock]! <= 0) continue;
      const fill = table.bestWithLongest(capacities[0]!, FULL_NODES);
      if (fill === null) continue;
      const rate = price / fill.value;
      if (best === null || rate < best.rate) best = { fill, stock, rate };
    }
    if (best === null) break;
    const { fill, stock } = best;
    fill.rows.forEach((row, k) => {
      demand[row]! -= fill.counts[k]!;
    });
    counts[stock]!--;
    patterns.push(makePattern(scaled, stock, [fill]));
  }
  const short: Short[] = [];
  demand.forEach((count, row) => {
    if (count > 0) short.push({ row, count });
  });
  return { patterns, cost: patterns.reduce((sum, pattern) => sum + pattern.cost, 0), short };
}

function findBest(open: OpenSpan[], size: number, first: number): OpenSpan | null {
  let best: OpenSpan | null = null;
  for (let i = first; i < open.length; i++) {
    const place = open[i]!;
    if (place.left >= size && (best === null || place.left < best.left)) best = place;
  }
  return best;
}

/** Stock types by price for a unit of capacity, least first. */
function rankStocks(scaled: Scaled): number[] {
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
