/**
 * Whether she would pass a limit of her own, should the bars that nobody has weighed be as much heavier than reckoned as they
 * may be: the doubt that voids and bearers are told with (`plan/massTolerance.ts`). What is passed as reckoned is told anyway.
 */
import type { Job } from '../job/job.ts';
import { tell } from '../plan/cautionList.ts';
import { atMassNow, type WeighedMasses } from '../plan/massNow.ts';
import { heavierPlan, MASS_SPREAD } from '../plan/massTolerance.ts';
import type { Plan } from '../plan/plan.ts';
import { effectOf } from './float.ts';
import { type Margin, marginsOf } from './limits.ts';
import { weightsAboard } from './moments.ts';

const ABOUT = 'the vessel';

/** The plan with its caution, where there is one; `weighed` are bundles off the scale, kg. */
export function withLimits(job: Job, plan: Plan, weighed: WeighedMasses = new Map()): Plan {
  const rest = plan.cautions.filter(({ code, about }) => code !== 'most-on-paper' || about !== ABOUT);
  const now = { ...plan, bundles: atMassNow(plan.bundles, weighed) };
  const held = new Set(marginsWith(job, now).flatMap(({ what, holds }) => (holds ? [what] : [])));
  const lost = marginsWith(job, heavierPlan(job, plan, weighed)).filter(({ what, holds }) => !holds && held.has(what));
  if (plan.bundles.length === 0 || lost.length === 0) return { ...plan, cautions: rest };
  const text = `Nobody has weighed some of these bars: should they be ${100 * MASS_SPREAD.reckoned} % heavier than reckoned, she would pass limits of hers. ${lost.map((one) => one.text).join(' ')}`;
  return { ...plan, cautions: [tell('most-on-paper', ABOUT, text), ...rest] };
}

function marginsWith(job: Job, plan: Plan): Margin[] {
  return job.vessel ? marginsOf(job.vessel, effectOf(job.vessel, weightsAboard(job, plan))).margins : [];
}
