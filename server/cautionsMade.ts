/** Cautions that the planner cannot make: what holds a plan down, what it does to her list, and to her limits if heavier. */
import { withLimits } from '../src/balance/limitsHeavier.ts';
import { withList } from '../src/balance/listsMore.ts';
import { withSecuring } from '../src/hold/securing.ts';
import type { Job } from '../src/job/job.ts';
import type { WeighedMasses } from '../src/plan/massNow.ts';
import type { Plan } from '../src/plan/plan.ts';

/** The plan with them; `weighed` are bundles off the scale, kg. Asked before a plan is shown, kept or written. */
export function withCautions(job: Job, plan: Plan, weighed?: WeighedMasses): Plan {
  return withSecuring(job, withList(job, withLimits(job, plan, weighed)), weighed);
}
