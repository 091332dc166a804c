/** The fixed part of a plan, stowed before the trial, and the trim part, placed by what was read afloat. */
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
