import type { Store } from '../../server/store/store.ts';
import type { Plan } from '../../src/plan/plan.ts';

/** Keeps a plan of a job that is in the store, as the server keeps one that was made; its serial. */
export function keepPlan(store: Store, job: number, input: object, plan: Plan, madeAt: string): number {
  const { totals, bound, effort, jobDigest } = plan;
  return store.plans.add({
    job,
    jobDigest,
    digest: jobDigest,
    jobBody: JSON.stringify(input),
    body: JSON.stringify(plan),
    summary: { totals, bound, effort },
    stoppedEarly: false,
    madeAt,
  });
}
