/** The loading sequence of a plan as it is printed: the fixed share first, and begun with the list that she has. */
import type { Job } from '../job/job.ts';
import { addedContents } from '../plan/contents.ts';
import type { WeighedMasses } from '../plan/massNow.ts';
import type { Plan, PlanBundle } from '../plan/plan.ts';
import { type Loaded, loadingSequence, sequenceNow } from '../plan/sequence.ts';
import { firstPart } from '../plan/share.ts';
import { weightsByVoid } from './moments.ts';
import { likelyMoment } from './present.ts';
import { meanwhileOf } from './telling.ts';

export interface LoadedStep extends Loaded {
  /**
   * Where her marks are to be read, after a quarter or the fixed part: how she then floats, in a sentence, her marks against
   * those read before the first bundle goes in; null at any other step, and where nothing is stated of her.
   */
  floats: string | null;
}

/**
 * Where her GM is not stated her list counts by its likely moment; what she lists on the way is not told then. `weighed` are
 * kg off the scale by bundle: masses, moments, lists and how she floats go by them where they are known, the order by the
 * plan alone.
 */
export function loadingOf(job: Job, plan: Plan, weighed: WeighedMasses = new Map()): LoadedStep[] {
  const { vessel } = job;
  const present = vessel ? likelyMoment(vessel) : 0;
  const planned = loadingSequence(job, plan, { first: firstPart(job, plan, job.aims.fixedShare).counts, present });
  const steps = sequenceNow(job, plan, planned, weighed, { present });
  const lying = addedContents(job);
  const loaded: PlanBundle[] = [];
  return steps.map((step) => {
    loaded.push(step.bundle);
    if (!vessel || (step.quarter === null && !step.lastOfFirst)) return { ...step, floats: null };
    const weights = [...weightsByVoid(job, { ...plan, bundles: loaded }).values()].flat();
    return { ...step, floats: meanwhileOf(vessel, [...weights, ...lying], weights) };
  });
}
