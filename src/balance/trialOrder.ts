/** What is done with the bundles after the trial, one after the other: lifted out again, put in, left ashore. */
import type { Job } from '../job/job.ts';
import { listOf } from '../plan/aboard.ts';
import type { Plan, PlanBundle } from '../plan/plan.ts';
import { aboardBefore, type LoadingOptions, loadingSequence } from '../plan/sequence.ts';
import { type BreakOut, barredOf } from './breakOut.ts';
import { likelyMoment } from './present.ts';

export interface TrialOrder {
  /** Of those in at the trial, what comes out: the first first. */
  out: PlanBundle[];
  /** What goes in after that, in the order of the loading sequence: low first, she upright. */
  into: PlanBundle[];
  /** All that is not in her in the end, by voids and in loading order; what comes out among it. */
  ashore: PlanBundle[];
  /** The greatest list on the way, without its side, degrees; null where it is not known, or nothing moves. */
  listGreatest: number | null;
  /** Voids of which bundles stay in over others of which some come out or go in: those may bar the way. */
  barred: BreakOut['barred'];
}

/** `first` and `end` say how many bundles of each void, in loading order, are in at the trial and in the end. */
export function trialOrderOf(
  job: Job,
  plan: Plan,
  first: ReadonlyMap<string, number>,
  end: ReadonlyMap<string, number>,
): TrialOrder {
  const isIn = (one: PlanBundle, counts: ReadonlyMap<string, number>) => one.order <= (counts.get(one.void) ?? 0);
  const some = (is: (one: PlanBundle) => boolean) => ({ ...plan, bundles: plan.bundles.filter(is) });
  const standing = plan.bundles.filter((one) => isIn(one, first) && isIn(one, end));
  const options: LoadingOptions = { present: job.vessel ? likelyMoment(job.vessel) : 0, standing };
  const lifted = loadingSequence(
    job,
    some((one) => isIn(one, first) && !isIn(one, end)),
    options,
  );
  const into = loadingSequence(
    job,
    some((one) => !isIn(one, first) && isIn(one, end)),
    options,
  );
  const between = lifted.length > 0 ? [{ list: listOf(aboardBefore(job, plan, options)) }] : [];
  const lists = [...lifted, ...between, ...into].flatMap(({ list }) => (list === null ? [] : [Math.abs(list)]));
  return {
    out: lifted.map(({ bundle }) => bundle).reverse(),
    into: into.map(({ bundle }) => bundle),
    ashore: plan.voids.flatMap(({ void: name }) =>
      plan.bundles.filter((one) => one.void === name && !isIn(one, end)).sort((p, q) => p.order - q.order),
    ),
    listGreatest: lists.length === 0 ? null : lists.reduce((p, q) => Math.max(p, q)),
    barred: barredOf(
      job,
      plan,
      standing,
      [...lifted, ...into].map(({ bundle }) => bundle),
    ),
  };
}
