/** Puts a plan that a child has sent into the store. */

import { type Plan, planSchema } from '../../src/plan/plan.ts';
import { planDigest } from '../planDigest.ts';
import type { Store } from '../store/store.ts';

/** The plan with a tighter bound than it had when it was sent; the same plan where `bound` is no tighter. */
export function tightenBound(plan: Plan, bound: number | null): Plan {
  const before = plan.bound.valueAtMost;
  if (bound === null) return plan;
  // To a hundredth as in the file, upward: no plan is worth more stays true.
  const valueAtMost = Math.max(Math.ceil(bound * 100) / 100, plan.bound.value);
  if (before !== null && before <= valueAtMost) return plan;
  const gap = valueAtMost === 0 ? 0 : (valueAtMost - plan.bound.value) / Math.abs(valueAtMost);
  return { ...plan, bound: { ...plan.bound, valueAtMost, gap } };
}

/** Reads, tightens and keeps a plan; its serial. */
export function recordPlan(
  store: Store,
  task: { job: number; body: string },
  text: string,
  bound: number | null,
  stoppedEarly: boolean,
  madeAt: string,
): number {
  const plan = tightenBound(planSchema.parse(JSON.parse(text)), bound);
  return store.plans.add({
    job: task.job,
    jobDigest: plan.jobDigest,
    digest: planDigest(plan),
    jobBody: task.body,
    body: JSON.stringify(plan),
    summary: { totals: plan.totals, bound: plan.bound, effort: plan.effort },
    stoppedEarly,
    madeAt,
  });
}
