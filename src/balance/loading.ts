/** The loading sequence of a plan as it is printed: the fixed share first, and begun with the list that she has. */
import type { Job } from '../job/job.ts';
import type { Plan } from '../plan/plan.ts';
import { type Loaded, loadingSequence } from '../plan/sequence.ts';
import { fixedPart } from '../plan/share.ts';
import { likelyMoment } from './present.ts';

/** Where her GM is not stated her list counts by its likely moment; what she lists on the way is not told then. */
export function loadingOf(job: Job, plan: Plan): Loaded[] {
  const present = job.vessel ? likelyMoment(job.vessel) : 0;
  return loadingSequence(job, plan, { first: fixedPart(plan, job.aims.fixedShare), present });
}
