/**
 * Whether a plan makes her list more than she does: the planner knows moments, not her GM, so that this is told here,
 * before the plan is shown, kept or written.
 */
import type { Job } from '../job/job.ts';
import { tell } from '../plan/cautionList.ts';
import type { Plan } from '../plan/plan.ts';
import { effectOf } from './float.ts';
import { weightsAboard } from './moments.ts';
import { listNow } from './present.ts';
import { listWords } from './telling.ts';

/** A list is told from here on, degrees, where it is more than now by what tells two lists apart. */
const TOLD = 1;
const MORE = 0.1;

/** The plan with its caution that she lists more, where she does and that can be told. */
export function withList(job: Job, plan: Plan): Plan {
  const rest = plan.cautions.filter(({ code }) => code !== 'lists-more');
  const { vessel } = job;
  const stability = vessel && plan.bundles.length > 0 ? effectOf(vessel, weightsAboard(job, plan)).stability : null;
  if (stability?.kind !== 'answer') return { ...plan, cautions: rest };
  const { list, listBefore } = stability;
  const size = Math.abs(list.likely);
  if (size < TOLD || size <= Math.abs(listBefore ?? 0) + MORE) return { ...plan, cautions: rest };
  const text = `Reckoned with it: ${listWords(list)}; ${listBefore ? `now ${listNow(listBefore)}` : 'now taken as upright'}.`;
  return { ...plan, cautions: [tell('lists-more', 'the whole plan', text), ...rest] };
}
