/** The fixed part of a plan, stowed before the trial, and the trim part, placed by what was read afloat. */
import type { Job } from '../job/job.ts';
import { voidsUnder } from './overVoids.ts';
import type { Plan, PlanBundle } from './plan.ts';

/**
 * How many bundles of each void, in stowing order, are its fixed part: the first ones, up to `share` of its mass. Since
 * a void is stowed towards its openings, and the lighter bundles of a tier last, the rest are small and near an opening.
 */
export function fixedPart(plan: Pick<Plan, 'bundles' | 'voids'>, share: number): Map<string, number> {
  const counts = new Map<string, number>();
  for (const { void: name } of plan.voids) {
    const bundles = plan.bundles.filter((bundle) => bundle.void === name).sort((p, q) => p.order - q.order);
    const whole = bundles.reduce((sum, bundle) => sum + bundle.mass, 0);
    let mass = 0;
    let count = 0;
    for (const bundle of bundles) {
      if (mass + bundle.mass > share * whole) break;
      mass += bundle.mass;
      count += 1;
    }
    counts.set(name, count);
  }
  return counts;
}

/** What goes in before the trial, where voids that lie over each other leave the fixed part of each no way. */
export interface FirstPart {
  /** Bundles of each void, in stowing order. */
  counts: Map<string, number>;
  /** Voids all of which goes in before it, trim part and all, each with those that lie over it. */
  whole: Map<string, string[]>;
  /** Voids nothing of which goes in before it, each with those that it lies over. */
  waiting: Map<string, string[]>;
}

/**
 * The fixed part of each void; but what lies over a void bars the way to all of that one, to go in or to come out. So where
 * one lies over another, either that is filled first, its trim part too, or the upper one waits until after the trial:
 * whichever moves less mass. With them go all voids under, or over, in turn.
 */
export function firstPart(job: Job, plan: Pick<Plan, 'bundles' | 'voids'>, share: number): FirstPart {
  const counts = fixedPart(plan, share);
  const all = fixedPart(plan, 1);
  const under = voidsUnder(job, plan);
  const over = turnedRound(under);
  const [whole, waiting] = [new Set<string>(), new Set<string>()];
  const isFull = (name: string): boolean => counts.get(name) === all.get(name);
  const massOf = (names: readonly string[], from: (name: string) => number, to: (name: string) => number): number =>
    plan.bundles.reduce(
      (sum, { void: name, order, mass }) =>
        names.includes(name) && order > from(name) && order <= to(name) ? sum + mass : sum,
      0,
    );
  const countOf = (name: string): number => counts.get(name) ?? 0;
  const allOf = (name: string): number => all.get(name) ?? 0;
  for (const [upper, lower] of under) {
    if (countOf(upper) === 0 || lower.every(isFull)) continue;
    const below = reached(under, lower);
    const above = reached(over, [upper]);
    if (massOf(below, countOf, allOf) <= massOf(above, () => 0, countOf)) {
      for (const name of below.filter((each) => !isFull(each))) {
        counts.set(name, allOf(name));
        whole.add(name);
      }
    } else
      for (const name of above) {
        if (countOf(name) > 0) waiting.add(name);
        counts.set(name, 0);
      }
  }
  const told = (names: ReadonlySet<string>, those: ReadonlyMap<string, string[]>) =>
    new Map([...those].filter(([name]) => names.has(name)));
  return { counts, whole: told(whole, over), waiting: told(waiting, under) };
}

/** Of each void those that lie over it. */
function turnedRound(under: ReadonlyMap<string, string[]>): Map<string, string[]> {
  const over = new Map<string, string[]>();
  for (const [upper, lower] of under) for (const name of lower) over.set(name, [...(over.get(name) ?? []), upper]);
  return over;
}

/** `from` and all that is reached from there, one after the other. */
function reached(ways: ReadonlyMap<string, string[]>, from: readonly string[]): string[] {
  const found = new Set(from);
  for (const name of found) for (const next of ways.get(name) ?? []) found.add(next);
  return [...found];
}

/** What the first `counts` bundles of each void are of the mass of all, 0 to 1: over the share they were cut at only where a void goes in whole under another. */
export function shareIn({ bundles }: Pick<Plan, 'bundles'>, counts: ReadonlyMap<string, number>): number {
  const sum = (some: PlanBundle[]): number => some.reduce((total, { mass }) => total + mass, 0);
  const first = bundles.filter(({ void: name, order }) => order <= (counts.get(name) ?? 0));
  return bundles.length === 0 ? 0 : sum(first) / sum(bundles);
}

/** The same bundles, each told to be of the fixed or of the trim part of its void. */
export function withShares(plan: Pick<Plan, 'bundles' | 'voids'>, share: number): PlanBundle[] {
  const counts = fixedPart(plan, share);
  return plan.bundles.map((bundle) => ({
    ...bundle,
    share: bundle.order <= (counts.get(bundle.void) ?? 0) ? 'fixed' : 'trim',
  }));
}
