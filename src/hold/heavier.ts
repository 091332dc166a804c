/**
 * What a void carries no longer, should the bars that nobody has weighed be as much heavier than reckoned as they may be:
 * the doubt that limits and bearers are told with (`plan/massTolerance.ts`), for what holds a stow down.
 */
import type { Job } from '../job/job.ts';
import { atMassNow, type WeighedMasses } from '../plan/massNow.ts';
import { heavierMasses, MASS_SPREAD } from '../plan/massTolerance.ts';
import type { Plan } from '../plan/plan.ts';
import type { HeldCase } from './holdDown.ts';

/** The plan with every bundle as heavy as it may be: off the scale it is what that said, kg by bundle in `weighed`. */
export function heavierPlan(job: Job, plan: Plan, weighed: WeighedMasses): Plan {
  const heavier = heavierMasses(job, plan);
  const doubted = plan.bundles.map((own) => ({ ...own, mass: heavier.get(own.bundle) ?? own.mass }));
  return { ...plan, bundles: atMassNow(doubted, weighed) };
}

/** Of the cases that `mass` kg would take past what carries them now; null where that is none. */
export function lostWords(lost: readonly HeldCase[], mass: number): string | null {
  if (lost.length === 0) return null;
  const told = lost.map(({ name, used }) => (used === null ? name : `${name} (${percentOver(used)} %)`));
  return `Nobody has weighed some of these bars: should they be ${100 * MASS_SPREAD.reckoned} % heavier than reckoned, ${mass.toFixed(1)} kg here, what is entered no longer carries: ${told.join(', ')}.`;
}

/** Never told as 100 where it is more. */
function percentOver(used: number): number {
  return Math.ceil(100 * used - 1e-9);
}
