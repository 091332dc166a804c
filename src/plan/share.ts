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

/**
 * How many bundles of each void, in stowing order, go in before the trial: its fixed part, but nothing of a void that lies
 * over one of which a trim part is still to follow, since that could not be reached any more, to go in or to come out.
 */
export function firstPart(job: Job, plan: Pick<Plan, 'bundles' | 'voids'>, share: number): Map<string, number> {
  const counts = fixedPart(plan, share);
  const all = fixedPart(plan, 1);
  const waits = (lower: string): boolean => (counts.get(lower) ?? 0) < (all.get(lower) ?? 0);
  const over = [...voidsUnder(job, plan)];
  // What waits keeps waiting what lies over it in turn.
  for (let more = true; more; ) {
    const kept = over.filter(([upper, under]) => (counts.get(upper) ?? 0) > 0 && under.some(waits));
    for (const [upper] of kept) counts.set(upper, 0);
    more = kept.length > 0;
  }
  return counts;
}

/** The voids that so wait for the trim part of others to be in, each with those that it lies over. */
export function waitingOver(job: Job, plan: Pick<Plan, 'bundles' | 'voids'>, share: number): Map<string, string[]> {
  const [fixed, first] = [fixedPart(plan, share), firstPart(job, plan, share)];
  return new Map([...voidsUnder(job, plan)].filter(([upper]) => fixed.get(upper) !== first.get(upper)));
}

/** What the first `counts` bundles of each void are of the mass of all, 0 to 1: never over the share they were cut at, as bundles are whole. */
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
