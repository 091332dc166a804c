/** Column generation: solves the joint master by pricing patterns and layouts until none improves it. */
import type { Berth } from '../stow/layout.ts';
import { patternOf } from './barPattern.ts';
import type { Filling } from './caps.ts';
import type { Master } from './master.ts';
import { type Prices, worthAt } from './prices.ts';
import { priceUnderCap } from './priceUnderCap.ts';
import {
  fillSkeleton,
  leastSought,
  loadAllowance,
  type PricedLayout,
  priceLayout,
  pricePatterns,
  type Skeleton,
  worthOfBars,
} from './pricing.ts';
import type { Problem, Space } from './problem.ts';

export interface GenerateOptions {
  /** Piece lengths to price, by steel. */
  lengths: number[][];
  /** Rounds at most. */
  rounds: number;
  /** Stop when bound and value are this close, relative to the value. */
  tolerance: number;
  /** Where each void is a group: voids whose runs are settled; null for those that are still open. */
  skeletons?: (Skeleton | null)[];
  /** Voids that stand as they are and are not priced. */
  standing?: boolean[];
  /** Where groups are other things: what they are. */
  parts?: Part[];
  /** Given up once no plan of these lengths is worth more than this, kg. */
  least?: number;
  /** Prices to begin near; those of the first solve when absent. */
  from?: Prices;
  /**
   * Where the best layout of an open void passes its cap, so many charges on a kilogram are tried; without any it is cut down
   * to the cap alone, and the relaxation may end well under its bound: enough for a search, which goes on from it.
   */
  charges?: number;
  shouldStop?: () => boolean;
}

/** What the layouts of a group of the master are sought for: a whole void, or settled runs of it. */
export interface Part {
  group: number;
  space: Space;
  skeleton: Skeleton | null;
}

/** Every void as a group of its own. */
export function wholeVoids(spaces: Space[], skeletons: (Skeleton | null)[] = []): Part[] {
  return spaces.map((space) => ({ group: space.index, space, skeleton: skeletons[space.index] ?? null }));
}

export interface Generated {
  rounds: number;
  /** Upper bound over plans of the priced lengths (Infinity where a round did not price everything). */
  bound: number;
  /** The prices that gave the bound. */
  prices: Prices;
  converged: boolean;
}

const IMPROVES = 1e-6;

/**
 * Prices at a point between the best prices so far and those of the last solve (smoothing steadies the duals), adds what
 * improves, solves again. The master is left solved.
 */
export function generate(problem: Problem, master: Master, berths: Berth[][], options: GenerateOptions): Generated {
  const { lengths, skeletons } = options;
  const layoutLengths = [...new Set(lengths.flat())].sort((a, b) => a - b);
  const parts =
    options.parts ?? wholeVoids(problem.spaces, skeletons).filter(({ group }) => !options.standing?.[group]);
  let bound = Number.POSITIVE_INFINITY;
  let centre: Prices | null = options.from ?? null;
  let smoothing = 0.8;
  master.solve();
  let round = 0;
  let converged = false;
  let prices = master.prices();
  while (round < options.rounds && !options.shouldStop?.()) {
    round++;
    const at: Prices = centre && smoothing > 0 ? between(prices, centre, smoothing) : prices;
    const least = leastSought(at);
    const patterns = pricePatterns(problem, at, lengths, { least });
    let total = loadAllowance(master.loadRows, at) + worthOfBars(problem, patterns, least);
    let added = 0;
    const take = (group: number, space: Space, layout: Filling): void => {
      if (!layout || master.layoutGain(group, space, layout, prices) <= IMPROVES) return;
      master.addLayout(group, space, layout);
      added++;
    };
    for (const priced of patterns) {
      if (priced.worth <= 0) continue;
      const pattern = patternOf(priced.kind, priced.spans, problem.job, problem.labour);
      if (master.patternGain(pattern, prices) > IMPROVES && master.addPattern(pattern)) added++;
    }
    for (const { group, space, skeleton } of parts) {
      problem.poll();
      const price = (at: Prices): PricedLayout | null =>
        skeleton
          ? fillSkeleton(problem, master.loadRows, at, skeleton)
          : priceLayout(problem, master.loadRows, at, space, berths[space.index]!, layoutLengths);
      const first = price(at);
      if (!first) continue;
      // What passes a cap of its void has shares that come to just the cap, as no whole layout does.
      const charges = skeleton ? 0 : (options.charges ?? 0);
      const { worth, layouts } = priceUnderCap(problem, master.loadRows, at, space, first, price, charges);
      total += worth;
      for (const layout of layouts) take(group, space, layout);
    }
    if (total < bound) {
      bound = total;
      centre = at;
    }
    const givenUp = bound <= (options.least ?? Number.NEGATIVE_INFINITY);
    if (givenUp || bound - master.value <= options.tolerance * Math.abs(master.value)) {
      converged = !givenUp;
      if (added > 0) master.solve();
      break;
    }
    if (added > 0) {
      master.solve();
      prices = master.prices();
      smoothing = 0.8;
    } else if (at !== prices) {
      smoothing = smoothing > 0.1 ? smoothing - 0.25 : 0;
    } else {
      converged = true;
      break;
    }
  }
  return { rounds: round, bound, prices: centre ?? prices, converged };
}

/** The prices `share` of the way from `a` to `b`, on the lengths of `a`. */
export function between(a: Prices, b: Prices, share: number): Prices {
  const mix = (p: Float64Array, q: Float64Array) => Float64Array.from(p, (x, i) => x * (1 - share) + q[i]! * share);
  return {
    pieces: a.pieces.map((pieces, steel) => ({
      lengths: pieces.lengths,
      worth: pieces.lengths.map(
        (length, i) => pieces.worth[i]! * (1 - share) + worthAt(b.pieces[steel]!, length) * share,
      ),
    })),
    bars: mix(a.bars, b.bars),
    groups: mix(a.groups, b.groups),
    loads: mix(a.loads, b.loads),
  };
}
