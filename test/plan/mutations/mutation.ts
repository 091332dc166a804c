/**
 * One thing changed in a right plan or its job, and the fault that must be found. A change gives false where it has
 * nothing to change in the pair at hand.
 */
import type { Job } from '../../../src/job/job.ts';
import type { PlanFaultCode } from '../../../src/plan/check/planFault.ts';
import type { Plan, PlanBundle } from '../../../src/plan/plan.ts';

type Change = (plan: Plan, job: Job) => unknown;
/** What was changed, the fault it must give, how it is changed. */
export type Mutation = [name: string, code: PlanFaultCode, change: Change];

/** Does a change with the first bundle that fits; false where none does. */
export function first(
  plan: Plan,
  fits: (bundle: PlanBundle) => boolean,
  change: (bundle: PlanBundle) => unknown,
): unknown {
  const bundle = plan.bundles.find(fits);
  return bundle === undefined ? false : change(bundle);
}

export function barWith(plan: Plan, pieces: number): Plan['bars'][number] | undefined {
  return plan.bars.find((bar) => bar.pieces.length >= pieces);
}

/** Two bundles side by side in one tier. */
export function neighbours(plan: Plan): [PlanBundle, PlanBundle] | undefined {
  for (const p of plan.bundles)
    for (const q of plan.bundles)
      if (p !== q && p.void === q.void && p.run === q.run && p.tier === q.tier && q.at.across > p.at.across)
        return [p, q];
  return undefined;
}

export const upper = (bundle: PlanBundle) => bundle.tier > 1;
export const spaceOf = (job: Job, bundle: PlanBundle) => job.voids.find((space) => space.void === bundle.void)!;
export const filled = (plan: Plan) => plan.voids.find((space) => space.bundles > 0)!;

/** Bundles of which a bar is jointed. */
export const jointed = (bundle: PlanBundle) => bundle.slots.some((slot) => slot.length > 1);

/** Applies a mutation; false where it has nothing to change. */
export function mutate([name, , change]: Mutation, plan: Plan, job: Job): boolean {
  const before = JSON.stringify([plan, job]);
  if (change(plan, job) === false) return false;
  if (JSON.stringify([plan, job]) === before) throw new Error(`${name}: nothing was changed`);
  return true;
}
