/** Improving a whole plan: a few voids are emptied and planned again round the rest, and what is better is kept. */
import type { LinearEngine } from '../linear/model.ts';
import type { Berth } from '../stow/layout.ts';
import { bundleMasses, type Filling } from './caps.ts';
import { dive } from './dive.ts';
import { generate } from './generate.ts';
import { Master } from './master.ts';
import type { Problem } from './problem.ts';
import { usesOf } from './short.ts';

export interface ReplanOptions {
  engine: LinearEngine;
  lengths: number[][];
  /** Rounds of pricing before the dive, and after each of its steps. */
  rounds: number;
  barsFirst: boolean;
  /** Bundles lighter than this, kg, are done without in the voids planned anew; 0 for none. */
  leastBundle: number;
  shouldStop?: () => boolean;
}

/** The fillings with the voids in `open` planned anew, at prices that leave the rest its steel. */
export function replan(
  problem: Problem,
  root: Master,
  berths: Berth[][],
  fillings: Filling[],
  open: boolean[],
  options: ReplanOptions,
): Filling[] {
  const { engine, rounds, barsFirst, shouldStop, leastBundle } = options;
  const own =
    leastBundle > 0
      ? berths.map((ways, i) => (open[i] ? ways.map((berth) => berth.without(leastBundle)) : ways))
      : berths;
  const standing = fillings.map((filling, i) => (open[i] ? null : filling));
  const master = new Master(engine, problem);
  try {
    const lengths = options.lengths.map((own) => [...own]);
    for (const { steel, length } of usesOf(standing))
      if (!lengths[steel]!.includes(length)) lengths[steel]!.push(length);
    for (const list of lengths) list.sort((a, b) => a - b);
    seed(problem, master, root, standing, leastBundle > 0 ? open.map(() => false) : open, lengths);
    const closed = problem.spaces.map((space) => !open[space.index]);
    generate(problem, master, own, { lengths, rounds, tolerance: 1e-3, standing: closed, shouldStop });
    return dive(problem, master, own, {
      engine,
      lengths,
      rounds: Math.min(rounds, 8),
      standing,
      barsFirst,
      shouldStop,
    });
  } finally {
    master.dispose();
  }
}

/** What stands, the patterns of the root, and its layouts of the open voids, as far as their lengths are allowed. */
function seed(
  problem: Problem,
  master: Master,
  root: Master,
  standing: Filling[],
  open: boolean[],
  lengths: number[][],
): void {
  const allowed = lengths.map((own) => new Set(own));
  lengths.forEach((own, steel) => {
    for (const length of own) master.addLength(steel, length);
  });
  const masses = bundleMasses(problem, standing);
  if (masses.length > 0) master.allowOver(Math.min(...masses));
  for (const space of problem.spaces) {
    const layout = standing[space.index];
    if (layout) master.addLayout(null, space, layout);
  }
  const levels = root.levels();
  root.columns.forEach((column, i) => {
    if (levels[i]! < 1e-9) return;
    if (column.what === 'pattern') {
      const own = allowed[column.pattern.kind.steel]!;
      if (column.pattern.spans.every((pieces) => pieces.every((length) => own.has(length))))
        master.addPattern(column.pattern);
    } else if (open[column.space.index] && column.use.every(({ steel, length }) => allowed[steel]!.has(length))) {
      master.addLayout(column.space.index, column.space, column.layout);
    }
  });
}
