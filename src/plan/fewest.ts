/** Which of the divisions of ever fewer lengths are made plans of, so that the fewest stops that are enough are found, and a choice beside. */
import { type Division, lengthsIn } from './division.ts';
import { type Found, NEAR_BEST } from './found.ts';

export interface FewestOptions {
  /** What the best division is worth, kg. */
  best: number;
  /** A number of stops that a plan is wanted of, whatever it is worth; Infinity for none. */
  asked: number;
  /** So many are made plans of at most, the fewest lengths first, until one is near the best plan; 0 where the fewest are not sought. */
  tries: number;
  plan: (division: Division) => Found | null;
  /** True where a plan is worth nearly as much as the best. */
  isNear: (found: Found) => boolean;
  shouldStop: () => boolean;
}

/** Whole stacks and bars cost a division of few lengths a little more than the best: it is tried where it is worth this share. */
const HOPEFUL = NEAR_BEST + 0.002;

/** `found`: the best divisions of ever fewer lengths, those of most first. */
export function planFewest(found: Division[], { best, asked, tries, plan, isNear, shouldStop }: FewestOptions): void {
  const left = new Set(found);
  const planned = (division: Division | undefined): Found | null => {
    if (!division || shouldStop() || !left.delete(division)) return null;
    return plan(division);
  };
  const hopeful = found.filter(({ worth }) => worth >= HOPEFUL * best).reverse();
  for (const division of hopeful.slice(0, tries)) {
    const next = planned(division);
    if (next && isNear(next)) break;
  }
  if (Number.isFinite(asked)) planned(found.find(({ skeletons }) => lengthsIn(skeletons).length <= asked));
  // For the choice: what a stop fewer would cost, and what the worthiest comes to.
  if (tries > 0) planned(found.find(({ worth }) => worth < HOPEFUL * best));
  planned([...left].sort((p, q) => q.worth - p.worth)[0]);
}
