/** A plan with what the scale said in place of what was planned. */
import type { Job } from '../job/job.ts';
import { atMassNow, countWeighed, type WeighedMasses } from '../plan/massNow.ts';
import type { Plan, PlanVoid } from '../plan/plan.ts';
import { bundleMassOf } from '../plan/totals.ts';
import { centreOf, type Weight, weightsByVoid } from './moments.ts';

/**
 * Its bundles with the masses off the scale, kg by bundle in `weighed`, and the planned ones of the rest; masses and centres
 * of the voids that those lie in, and the centre of all, follow. Order, parts, totals and bound stay what was planned. Where
 * none of its bundles was weighed, the very plan that was given.
 */
export function byScale(job: Job, plan: Plan, weighed: WeighedMasses | undefined): Plan {
  if (countWeighed(plan.bundles, weighed) === 0) return plan;
  const scaled = { ...plan, bundles: atMassNow(plan.bundles, weighed) };
  const weights = weightsByVoid(job, scaled);
  const voids = plan.voids.map((entry): PlanVoid => {
    const own = scaled.bundles.filter((bundle) => bundle.void === entry.void);
    if (countWeighed(own, weighed) === 0) return entry;
    return { ...entry, mass: bundleMassOf({ bundles: own }), centre: placeOf(weights.get(entry.void) ?? []) };
  });
  return { ...scaled, voids, centre: placeOf([...weights.values()].flat()) };
}

/** To a tenth of a millimetre, as a plan has its centres. */
function placeOf(weights: readonly Weight[]): Plan['centre'] {
  const centre = centreOf(weights);
  const metres = (value: number) => Math.round(value * 10_000) / 10_000 + 0;
  return centre && { x: metres(centre.x), y: metres(centre.y), z: metres(centre.z) };
}
