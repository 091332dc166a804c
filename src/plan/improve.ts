/** Improving a plan: a few voids are emptied and planned again round the rest, from what they held and a few lengths more. */
import type { LinearEngine } from '../linear/model.ts';
import type { Berth } from '../stow/layout.ts';
import type { SomeLengths } from '../stow/pileCeiling.ts';
import type { Bounder } from './bound.ts';
import { bundleMasses, type Filling } from './caps.ts';
import { dive } from './dive.ts';
import { generate } from './generate.ts';
import { Master } from './master.ts';
import type { Problem } from './problem.ts';
import { countStops, usesOf } from './short.ts';
import type { Dived } from './tiers.ts';

export interface ReplanOptions {
  engine: LinearEngine;
  /** The lengths that the open voids may have, by steel, beside those that stand. */
  lengths: number[][];
  rounds: number;
  /** No bundle lighter than this, kg, in the open voids. */
  leastBundle: number;
  /** What the plan is worth, kg: what can't be better is given up. */
  least: number;
  /** Asked for lengths that would be worth having, once the rest is priced; null where that is not wanted. */
  bounder: Bounder | null;
  /** The lengths that it may suggest. */
  some: SomeLengths;
  shouldStop?: () => boolean;
}

/** What is not worth this much more, kg, is no better. */
const BETTER = 0.02;

/**
 * The fillings with the voids in `open` planned anew, at prices that leave the rest its steel; null where a
 * relaxation shows that nothing better comes of it.
 */
export function replan(
  problem: Problem,
  berths: Berth[][],
  fillings: Filling[],
  open: boolean[],
  options: ReplanOptions,
): Dived | null {
  const { engine, rounds, shouldStop, leastBundle, least, bounder } = options;
  const own =
    leastBundle > 0
      ? berths.map((ways, i) => (open[i] ? ways.map((berth) => berth.without(leastBundle)) : ways))
      : berths;
  const standing = fillings.map((filling, i) => (open[i] ? null : filling));
  const { labour } = problem;
  const master = new Master(engine, problem);
  try {
    const lengths = options.lengths.map((list) => [...list]);
    const take = (length: number, steel: number) => {
      if (!lengths[steel]!.includes(length)) lengths[steel]!.push(length);
    };
    for (const { steel, length } of usesOf(standing)) take(length, steel);
    for (const list of lengths) list.sort((a, b) => a - b);
    seed(problem, master, fillings, open, lengths, leastBundle === 0);
    const closed = problem.spaces.map((space) => !open[space.index]);
    const settling = { lengths, rounds, tolerance: 1e-3, standing: closed, shouldStop };
    const { prices } = generate(problem, master, own, settling);
    if (bounder && !shouldStop?.()) {
      bounder.suggest(master.loadRows, prices, open, options.some).forEach((found, steel) => {
        for (const length of found) take(length, steel);
      });
      for (const list of lengths) list.sort((a, b) => a - b);
      generate(problem, master, own, settling);
    }
    if (master.value - countStops(standing) * labour.stop <= least + BETTER) return null;
    const diving = { engine, lengths, rounds: Math.min(rounds, 8), standing, shouldStop };
    const dived = dive(problem, master, own, diving);
    return dived.worth > least + BETTER ? dived : null;
  } finally {
    master.dispose();
  }
}

/**
 * What stands for good and, where it may be light, what the open voids held. Nothing else: a relaxation that begins near the
 * plan ends near it, and settles better than one that mixes the layouts of the root.
 */
function seed(
  problem: Problem,
  master: Master,
  fillings: Filling[],
  open: boolean[],
  lengths: number[][],
  light: boolean,
): void {
  const allowed = lengths.map((own) => new Set(own));
  lengths.forEach((own, steel) => {
    for (const length of own) master.addLength(steel, length);
  });
  const standing = fillings.filter((_, i) => !open[i]);
  const masses = bundleMasses(problem, standing);
  if (masses.length > 0) master.allowBallastOver(Math.min(...masses));
  for (const space of problem.spaces) {
    const layout = fillings[space.index];
    if (layout && !open[space.index]) master.addLayout(null, space, layout);
    else if (layout && light && usesOf([layout]).every(({ steel, length }) => allowed[steel]!.has(length)))
      master.addLayout(space.index, space, layout);
  }
}
