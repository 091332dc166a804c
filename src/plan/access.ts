/** What must come out to get at a keep-out: a keel bolt to draw, a seacock to service. Mm in the void's own frame. */
import type { KeepOut } from '../job/job.ts';
import type { Plan, PlanBundle } from './plan.ts';

/**
 * Bundles to lift out, in breaking-out order: those whose plan lies within `room` mm of the keep-out, and all that rest
 * on them, one on another. `keepOut` is in the frame in which the void was laid.
 */
export function breakingOut(plan: Plan, space: string, keepOut: KeepOut, room: number): PlanBundle[] {
  const bundles = plan.bundles.filter((bundle) => bundle.void === space);
  const near = (bundle: PlanBundle): boolean =>
    bundle.at.along < keepOut.along[1] + room &&
    bundle.at.along + bundle.size.along > keepOut.along[0] - room &&
    bundle.at.across < keepOut.across[1] + room &&
    bundle.at.across + bundle.size.across > keepOut.across[0] - room;
  const out = new Set(bundles.filter(near));
  // In loading order every bundle comes after what carries it, so that one pass reaches whatever rests on the first ones.
  for (const bundle of [...bundles].sort((p, q) => p.order - q.order)) {
    if ([...out].some((below) => liesOver(bundle, below))) out.add(bundle);
  }
  return [...out].sort((p, q) => q.order - p.order);
}

/** Whether `upper` lies over `lower` by any part of its plan and no lower than its top, within the 2 mm of resting. */
export function liesOver(upper: PlanBundle, lower: PlanBundle): boolean {
  return (
    upper !== lower &&
    upper.at.up >= lower.at.up + lower.size.up - 2 &&
    upper.at.along < lower.at.along + lower.size.along &&
    lower.at.along < upper.at.along + upper.size.along &&
    upper.at.across < lower.at.across + lower.size.across &&
    lower.at.across < upper.at.across + upper.size.across
  );
}
