/** From shares of layouts to the runs of every void: where each run lies and how long its bundles are. */
import { isPlaceless } from '../stow/laid.ts';
import type { Berth, Layout } from '../stow/layout.ts';
import { generate } from './generate.ts';
import type { LayoutColumn, Master } from './master.ts';
import type { Skeleton } from './pricing.ts';
import type { Problem, Space } from './problem.ts';

export interface RunsOptions {
  lengths: number[][];
  /** Rounds of pricing after each void. */
  rounds: number;
  /** Voids that stand as they are. */
  standing?: boolean[];
  shouldStop?: () => boolean;
}

/** Runs that hold this much of all shares are settled without trying others. */
const SURE = 0.995;
/** Of the voids that are open, one in so many is settled at once. */
const AT_ONCE = 8;
/** In a job of more voids than this they are settled by turns of a quarter, and no other way is tried. */
const FEW = 12;
/** Ways of dividing a void that are tried before one is settled. */
const TRIED = 3;

/** A way of dividing a void, and its share. */
export interface Way {
  key: string;
  column: LayoutColumn;
  share: number;
}

/**
 * Settles the runs of void after void, the surest first, pricing again in between; how the runs are filled stays open.
 * The master is left free again.
 */
export function settleRuns(problem: Problem, master: Master, berths: Berth[][], options: RunsOptions): Skeleton[] {
  const { standing } = options;
  const few = problem.spaces.length <= FEW;
  const skeletons: (Skeleton | null)[] = problem.spaces.map((space) =>
    standing?.[space.index] ? skeletonOf(space, berths[space.index]!, null) : null,
  );
  try {
    master.solve();
    while (skeletons.some((skeleton) => skeleton === null)) {
      const open = problem.spaces
        .filter((space) => skeletons[space.index] === null)
        .map((space) => ({ space, ways: waysOf(master, space.index) }));
      const sure = open.filter(({ ways }) => ways.length === 0 || ways[0]!.share > SURE * total(ways));
      const surest = [...open].sort((p, q) => top(q.ways) - top(p.ways) || p.space.index - q.space.index);
      const now = sure.length > 0 ? sure : surest.slice(0, Math.ceil(open.length / (few ? AT_ONCE : 4)));
      for (const { space, ways } of now) {
        const way = chooseWay(master, space.index, few ? ways : ways.slice(0, 1));
        skeletons[space.index] = skeletonOf(space, berths[space.index]!, way?.column.layout ?? null);
      }
      if (options.rounds > 0) generate(problem, master, berths, { ...options, tolerance: 0, skeletons });
      else master.solve();
    }
  } finally {
    for (const space of problem.spaces) master.free(space.index);
  }
  return skeletons.map((skeleton) => skeleton!);
}

/** Of every void the runs that have most shares, without a look at how they go together. */
export function largestRuns(problem: Problem, master: Master, berths: Berth[][]): Skeleton[] {
  master.solve();
  return problem.spaces.map((space) =>
    skeletonOf(space, berths[space.index]!, waysOf(master, space.index)[0]?.column.layout ?? null),
  );
}

function total(ways: Way[]): number {
  return ways.reduce((sum, way) => sum + way.share, 0);
}

function top(ways: Way[]): number {
  return ways.length === 0 ? 1 : ways[0]!.share / total(ways);
}

/** The divisions of the void of a group that have a share, the largest first. */
export function waysOf(master: Master, group: number): Way[] {
  const levels = master.levels();
  const ways = new Map<string, Way>();
  master.columns.forEach((column, i) => {
    if (column.what !== 'layout' || column.group !== group || levels[i]! < 1e-4) return;
    const key = keyOf(column.layout);
    const way = ways.get(key);
    if (way) way.share += levels[i]!;
    else ways.set(key, { key, column, share: levels[i]! });
  });
  return [...ways.values()].sort((p, q) => q.share - p.share);
}

/** The division whose settling leaves the master worth most; the group is left restricted to it. */
export function chooseWay(master: Master, group: number, ways: Way[]): Way | null {
  const restrict = (way: Way | null) =>
    master.restrict(group, ({ layout }) => way !== null && keyOf(layout) === way.key);
  if (ways.length < 2 || ways[0]!.share > SURE * total(ways)) {
    restrict(ways[0] ?? null);
    return ways[0] ?? null;
  }
  let best: { way: Way; value: number } | null = null;
  for (const way of ways.slice(0, TRIED)) {
    restrict(way);
    master.solve();
    if (!best || master.value > best.value + 1e-9) best = { way, value: master.value };
  }
  restrict(best!.way);
  return best!.way;
}

/** Alike for layouts that divide a void into runs of the same lengths; where runs are not exchangeable, at the same places. */
function keyOf({ laid, runs }: Layout): string {
  const placeless = isPlaceless(laid);
  const parts = runs.map(({ from, stack }) => (placeless ? `${stack.length}` : `${stack.length}@${from}`)).sort();
  return `${laid.axis}:${parts.join('+')}`;
}

/** The runs of a layout of a void; none for nothing. */
export function skeletonOf(space: Space, berths: Berth[], layout: Layout | null): Skeleton {
  const berth = berths.find(({ laid }) => laid === layout?.laid) ?? berths[0]!;
  const runs = layout?.runs.map(({ from, stack }) => ({ from, length: stack.length })) ?? [];
  return { space, berth, runs };
}
