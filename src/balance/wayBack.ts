/** What goes back next after a survey: nothing goes under what lies over its place. */
import { liesOver } from '../plan/access.ts';
import type { PlanBundle } from '../plan/plan.ts';

interface Way {
  bundle: PlanBundle;
  isOut: boolean;
}

/** One that is out, and what is in over its place: that comes out before it goes back, the first first. */
export interface Covered {
  bundle: string;
  over: string[];
}

export interface WayBack<Step extends Way> {
  /** What is out and may go back, the first first: not what waits for another to go under it. */
  back: Step[];
  covered: Covered[];
}

/** Of `steps` in the order of coming out, those that are in among them. What lies over what lies over a place counts as well. */
export function wayBack<Step extends Way>(steps: readonly Step[]): WayBack<Step> {
  const waits = new Set<Step>();
  const covered: Covered[] = [];
  const backwards = [...steps].reverse();
  for (const [n, low] of backwards.entries()) {
    if (!low.isOut) continue;
    const above: Step[] = [];
    for (const high of backwards.slice(n + 1))
      if (high.bundle.void === low.bundle.void && [low, ...above].some((one) => liesOver(high.bundle, one.bundle)))
        above.push(high);
    const over = above.filter(({ isOut }) => !isOut).reverse();
    if (over.length === 0) continue;
    covered.push({ bundle: low.bundle.bundle, over: over.map(({ bundle }) => bundle.bundle) });
    for (const one of [low, ...above]) waits.add(one);
  }
  return { back: backwards.filter((one) => one.isOut && !waits.has(one)), covered };
}
