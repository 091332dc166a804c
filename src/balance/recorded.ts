/** What of a plan is in her by the record: masses, their centre, and what they do to her. Masses off the scale where known. */
import type { Job } from '../job/job.ts';
import { addedContents, type Content } from '../plan/contents.ts';
import { atMassNow, type WeighedMasses } from '../plan/massNow.ts';
import type { Plan, PlanBundle } from '../plan/plan.ts';
import { type Recorded, recordIn } from '../plan/record.ts';
import { effectOf } from './float.ts';
import { centreOf, type Weight, weightsByVoid } from './moments.ts';
import { sentenceOf } from './telling.ts';

export interface Counted {
  bundles: number;
  /** kg */
  mass: number;
}

export interface AboardNow {
  in: Counted;
  /** Lifted out and not put back. */
  out: Counted;
  all: Counted;
  /** The centre of what is in, m; null where nothing is in or nothing is stated of the vessel. */
  centre: Weight | null;
  /** What that does to her, in a sentence; null where nothing is stated of her. */
  effect: string | null;
  /** What lay in the voids before the plan and is counted in the effect. */
  lying: Content[];
}

/**
 * `weighed` are kg off the scale by bundle. `others` is what lies in her by other plans and is not among what lay in the
 * voids; negative where it is among that, and is not in her.
 */
export function aboardNow(
  job: Job,
  plan: Plan,
  record: Recorded,
  weighed: WeighedMasses,
  others: readonly Weight[] = [],
): AboardNow {
  const bundles = atMassNow(plan.bundles, weighed);
  const ofState = (wanted: 'in' | 'out') => bundles.filter(({ bundle }) => recordIn(record, bundle).state === wanted);
  const present = ofState('in');
  const weights = [...weightsByVoid(job, { ...plan, bundles: present }).values()].flat();
  const lying = addedContents(job);
  return {
    in: countOf(present),
    out: countOf(ofState('out')),
    all: countOf(bundles),
    centre: job.vessel ? centreOf(weights) : null,
    effect: job.vessel ? sentenceOf(effectOf(job.vessel, [...weights, ...lying, ...others])) : null,
    lying,
  };
}

function countOf(bundles: readonly PlanBundle[]): Counted {
  return { bundles: bundles.length, mass: bundles.reduce((sum, { mass }) => sum + mass, 0) };
}
