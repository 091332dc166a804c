/**
 * Layouts of a space under the mass that it may hold. That one which is worth most may pass the cap of its space, and what is
 * left of it once it is brought under may be worth nothing more than what is known: so a charge on each kilogram is sought
 * at which layouts over the cap and under it are worth the same, and those under it are taken.
 */
import { bundleMasses, withinCaps } from './caps.ts';
import type { LoadRow } from './loadRows.ts';
import type { Prices } from './prices.ts';
import type { PricedLayout } from './pricing.ts';
import type { Problem, Space } from './problem.ts';
import { worthBy } from './worth.ts';

const CLOSE = 1e-6;

export interface PricedUnderCap {
  /** No layout of the space that keeps its cap is worth more, kg. */
  worth: number;
  layouts: PricedLayout['layout'][];
}

/**
 * `price`: the layout of the space worth most at some prices; `first`: that at `prices`. Where it keeps the caps it is all;
 * else it is brought under them, and so are the layouts at so many `charges` at most: they close in on the best one in about
 * five. Cost: `price` for each.
 */
export function priceUnderCap(
  problem: Problem,
  rows: LoadRow[],
  prices: Prices,
  space: Space,
  first: PricedLayout,
  price: (prices: Prices) => PricedLayout | null,
  charges: number,
): PricedUnderCap {
  const worthPerKg = worthBy(problem, prices);
  const under = (priced: PricedLayout) => withinCaps(problem, space, priced.layout, worthPerKg);
  const layout = under(first);
  if (layout === first.layout) return { worth: first.worth, layouts: [layout] };
  const found: PricedUnderCap = { worth: first.worth, layouts: layout ? [layout] : [] };
  const row = tightest(rows, space);
  if (row < 0) return found;
  const { most } = rows[row]!;
  let over = lineOf(problem, first, 0);
  let below: Line = { mass: 0, worth: 0 };
  for (let i = 0; i < charges; i++) {
    const charge = (over.worth - below.worth) / (over.mass - below.mass);
    if (!(charge > 0)) break;
    const loads = prices.loads.map((load, r) => (r === row ? load + charge : load));
    const next = price({ ...prices, loads });
    const worth = next?.worth ?? 0;
    found.worth = Math.min(found.worth, worth + charge * most);
    if (!next || worth <= over.worth - charge * over.mass + CLOSE) break;
    const kept = under(next);
    if (kept) found.layouts.push(kept);
    if (kept === next.layout) below = lineOf(problem, next, charge);
    else over = lineOf(problem, next, charge);
  }
  return found;
}

/** What a layout weighs, and what it is worth without any charge, kg. */
interface Line {
  mass: number;
  worth: number;
}

function lineOf(problem: Problem, { layout, worth }: PricedLayout, charge: number): Line {
  const mass = bundleMasses(problem, [layout]).reduce((sum, each) => sum + each, 0);
  return { mass, worth: worth + charge * mass };
}

/** The index of the row that lets a space hold least; -1 where there is none. */
function tightest(rows: LoadRow[], space: Space): number {
  let best = -1;
  rows.forEach((row, i) => {
    if (row.space === space.index && (best < 0 || row.most < rows[best]!.most)) best = i;
  });
  return best;
}
