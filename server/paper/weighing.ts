/** Masses read off the scale beside the reckoned ones: by how much they differ, and which of them want looking into. */
import type { Job } from '../../src/job/job.ts';
import { massTolerances } from '../../src/plan/massTolerance.ts';
import { type Overload, overloadsOf } from '../../src/plan/overloads.ts';
import type { Plan, PlanBundle } from '../../src/plan/plan.ts';
import { inOrder } from './tags.ts';

const KG_IN_A_POUND = 0.45359237;
/** Scales that show pounds show halves of them at least, kg. */
const ROUNDED_POUND = KG_IN_A_POUND / 2;

/** kg by bundle. */
export type WeighedMasses = ReadonlyMap<string, number>;

export interface Weighing {
  bundle: PlanBundle;
  /** How far the scale may lie from the reckoned mass, kg. */
  tolerance: number;
  /** Off the scale, kg; null where it was not weighed. */
  weighed: number | null;
  /** Weighed less reckoned, kg. */
  differs: number | null;
  /** The difference is more than the tolerance. */
  beyond: boolean;
  /** The scale's figure is what was reckoned, if it was read in pounds: it lacks its unit. */
  pounds: boolean;
  /** What was weighed is more than the lift limit of its void. */
  overLimit: boolean;
}

/** Every bundle in the order of voids and of loading. */
export function weighingsOf(job: Job, plan: Plan, masses: WeighedMasses): Weighing[] {
  const tolerances = massTolerances(job, plan);
  return inOrder(job, plan).map((bundle) => {
    const tolerance = tolerances.get(bundle.bundle) ?? 0;
    const weighed = masses.get(bundle.bundle) ?? null;
    const differs = weighed === null ? null : Math.round((weighed - bundle.mass) * 1000) / 1000;
    const beyond = differs !== null && Math.abs(differs) > tolerance + 1e-9;
    return {
      bundle,
      tolerance,
      weighed,
      differs,
      beyond,
      pounds: beyond && Math.abs(weighed! * KG_IN_A_POUND - bundle.mass) <= tolerance + ROUNDED_POUND,
      overLimit: weighed !== null && weighed > bundle.limit + 1e-9,
    };
  });
}

/** How many of them were weighed, and their masses off the scale together, kg. */
export function sumWeighed(weighings: readonly Weighing[]): { count: number; mass: number } {
  const done = weighings.filter((each) => each.weighed !== null);
  return { count: done.length, mass: done.reduce((sum, each) => sum + (each.weighed ?? 0), 0) };
}

/** What the weighed masses, with the planned ones of the rest, take past the most it may carry; nothing before one is weighed. */
export function weighedOverloads(job: Job, plan: Plan, masses: WeighedMasses): Overload[] {
  return masses.size === 0 ? [] : overloadsOf(job, plan, masses);
}

/** The plan with the masses that the scale said, where it did: what holds it down and what floats it have to carry those. */
export function byScale(plan: Plan, masses: WeighedMasses | undefined): Plan {
  if (!masses || !plan.bundles.some(({ bundle }) => masses.has(bundle))) return plan;
  const bundles = plan.bundles.map((own) => ({ ...own, mass: masses.get(own.bundle) ?? own.mass }));
  return { ...plan, bundles };
}
