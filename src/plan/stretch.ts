/** A pile that is short, as joints might stretch it: for planning voids that then ask for more than whole bars yield. */

import type { Plan } from './plan.ts';
import type { Problem } from './problem.ts';

/** A steel of which this share of the bars is cut up is short. */
const SHORT = 0.9;
/** Scrap of a steel under this share of what is cut up is left alone. */
const LITTLE = 0.005;

/**
 * The problem with more bars of every steel that the plan uses up, by as much as the plan makes scrap of it; null without
 * joints, or where no such steel leaves scrap. Fillings made for it are cut, and taken down, for the pile as it is.
 */
export function stretchPile(problem: Problem, plan: Plan): Problem | null {
  if (!problem.job.bundle.joints) return null;
  const steelOf = new Map(problem.barKinds.map((kind) => [kind.lot, kind.steel]));
  const cut = problem.steels.map(() => ({ stock: 0, scrap: 0 }));
  for (const bar of plan.bars) {
    const own = cut[steelOf.get(bar.lot)!]!;
    own.stock += bar.length;
    for (const { from, to, fate } of bar.remainders) if (fate === 'scrap') own.scrap += to - from;
  }
  const pile = problem.steels.map(() => 0);
  for (const kind of problem.barKinds) pile[kind.steel]! += kind.count * kind.length;
  const factors = cut.map(({ stock, scrap }, steel) =>
    stock > SHORT * pile[steel]! && scrap > LITTLE * stock ? 1 + scrap / (stock - scrap) : 1,
  );
  if (factors.every((factor) => factor === 1)) return null;
  return {
    ...problem,
    barKinds: problem.barKinds.map((kind) => ({ ...kind, count: kind.count * factors[kind.steel]! })),
  };
}
