/** Stacks of a run that are worth almost as much as the best: all of them, within a slack. */
import { heightOf, type RunSpace } from './runSpace.ts';
import {
  bestStack,
  type CarryingTier,
  carrierOf,
  type Stack,
  type StackPrices,
  setTiers,
  stackKey,
  stackOf,
} from './stack.ts';
import { type Fill, layFill, type TierKind } from './tier.ts';

interface Item {
  kind: TierKind;
  fill: Fill;
  /** Height, half millimetres. */
  up: number;
  worth: number;
}

/** Slacks are halved until one is less, kg. */
const LEAST_SLACK = 1e-3;
/** Nodes of the search for one answer. */
const MOST_STEPS = 6000;

/**
 * The stacks that are worth at most `slack` less than the best at these prices, the best first, one for each count of bars
 * and bundles; no more than `most`, those of a slack halved as often as it takes where there would be more. Only the best where the space is
 * not uniform.
 */
export function nearStacks(run: RunSpace, prices: StackPrices, steels: number, slack: number, most: number): Stack[] {
  const best = bestStack(run, prices, steels)?.stack;
  if (!run.uniform || !run.rest.stands) return best ? [best] : [stackOf(run.length, [], steels)];
  const height = heightOf(run);
  const items = itemsOf(run, prices, slack, height);
  const tables = tablesOf(items, height);
  // From the smallest slack: few stacks are found quickly, and too many only once.
  const slacks = [slack];
  while (slacks[0]! >= LEAST_SLACK) slacks.unshift(slacks[0]! / 2);
  let near = new Map<string, Stack>();
  for (const within of slacks) {
    const found = stacksWithin(run, items, tables, within, most, steels);
    if (!found) break;
    near = found;
  }
  return best && !near.has(stackKey(best)) ? [best, ...near.values()] : [...near.values()];
}

/** Tiers that some such stack may have. */
function itemsOf(run: RunSpace, { perBar, perBundle }: StackPrices, slack: number, height: number): Item[] {
  const items: Item[] = [];
  run.kinds.forEach((kind, i) => {
    for (const fill of run.fills[i]!) {
      const worth = fill.bars * perBar[kind.steel]! - fill.ties.length * perBundle;
      const up = Math.round(kind.up * 2);
      if (up > height) continue;
      const other = items.findIndex(
        (item) =>
          item.kind.steel === kind.steel &&
          item.up <= up &&
          item.fill.bars >= fill.bars &&
          item.fill.ties.length <= fill.ties.length,
      );
      if (other < 0) items.push({ kind, fill, up, worth });
    }
  });
  const best = tablesOf(items, height)[0]!;
  return items
    .filter(({ up, worth }) => best[height]! - worth - best[height - up]! <= slack)
    .sort((p, q) => q.worth / q.up - p.worth / p.up);
}

/** The worth of the best stack, by height, of the tiers from each on; the last of nothing. */
function tablesOf(items: Item[], height: number): Float64Array[] {
  const tables = new Array<Float64Array>(items.length + 1);
  tables[items.length] = new Float64Array(height + 1);
  for (let i = items.length - 1; i >= 0; i--) {
    const { up, worth } = items[i]!;
    const best = tables[i + 1]!.slice();
    for (let h = up; h <= height; h++) {
      const more = best[h - up]! + worth;
      if (more > best[h]!) best[h] = more;
    }
    tables[i] = best;
  }
  return tables;
}

function stacksWithin(
  run: RunSpace,
  items: Item[],
  tables: Float64Array[],
  slack: number,
  most: number,
  steels: number,
): Map<string, Stack> | null {
  const [interval] = run.space.clear(run.space.bottom, run.space.top);
  if (!interval) return new Map();
  const height = heightOf(run);
  const least = tables[0]![height]! - slack;
  const found = new Map<string, Stack>();
  const chosen: CarryingTier[] = [];
  let steps = 0;
  const carriers = items.map(({ kind, fill }) =>
    carrierOf(run, { kind, lying: layFill(kind, fill, interval, run.gap) }),
  );
  // Of what is chosen, if all of it is carried.
  const all: Stack = { length: run.length, tiers: [], bars: new Array<number>(steels).fill(0), bundles: 0 };
  const count = ({ kind, fill }: Item, times: number) => {
    all.bars[kind.steel]! += times * fill.bars;
    all.bundles += times * fill.ties.length;
  };
  const search = (first: number, left: number, worth: number): boolean => {
    if (++steps > MOST_STEPS) return false;
    if (worth >= least && !found.has(stackKey(all))) {
      const stack = stackOf(run.length, setTiers(run, [...chosen]), steels);
      found.set(stackKey(stack), stack);
      if (found.size > most) return false;
    }
    for (let i = first; i < items.length; i++) {
      // What these and the later items come to at most: nothing of them is enough.
      if (worth + tables[i]![left]! < least) break;
      const item = items[i]!;
      if (item.up > left || worth + item.worth + tables[i]![left - item.up]! < least) continue;
      chosen.push(carriers[i]!);
      count(item, 1);
      const going = search(i, left - item.up, worth + item.worth);
      chosen.pop();
      count(item, -1);
      if (!going) return false;
    }
    return true;
  };
  return search(0, height, 0) ? found : null;
}
