/** Masses read off the scale beside the reckoned ones: by how much they differ, and which of them want looking into. */
import type { Job } from '../../src/job/job.ts';
import type { WeighedMasses } from '../../src/plan/massNow.ts';
import { massTolerances } from '../../src/plan/massTolerance.ts';
import { type Overload, overloadsOf } from '../../src/plan/overloads.ts';
import type { Plan, PlanBundle } from '../../src/plan/plan.ts';
import { markRanges } from '../../src/plan/stops.ts';
import { massTold, tell, type Wanted } from './feet.ts';
import { inOrder } from './tags.ts';
import { REGISTER_WORDS as W } from './words.ts';

const KG_IN_A_POUND = 0.45359237;
/** Scales that show pounds show halves of them at least, kg. */
const ROUNDED_POUND = KG_IN_A_POUND / 2;

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

/**
 * What the scale takes past a limit, in sentences, for every paper that is loaded or lifted by: bundles over the lift limit
 * of their void, then voids, runs and bearers past the most that they may carry. Of one void where it is named.
 */
export function tooHeavyLines(paper: Wanted, job: Job, plan: Plan, masses: WeighedMasses, name?: string): string[] {
  const isOf = (one: { void: string }) => name === undefined || one.void === name;
  const heavy = weighingsOf(job, plan, masses).filter(({ bundle, overLimit }) => overLimit && isOf(bundle));
  const limits = [...new Set(heavy.map(({ bundle }) => `${bundle.limit} ${bundle.void}`))];
  const over = limits.map((limit) =>
    overOf(
      paper,
      heavy.filter(({ bundle }) => `${bundle.limit} ${bundle.void}` === limit),
    ),
  );
  const loads = weighedOverloads(job, plan, masses).filter(isOf);
  return [
    ...(over.length > 0 ? [W.overLimit(over.join('; '))] : []),
    ...(loads.length > 0 ? [tell(paper, W.overloads(loads.map(({ text }) => text).join('; ')))] : []),
  ];
}

/** Bundles of one limit by ranges of their marks, with what the heaviest weighs. */
function overOf(paper: Wanted, heavy: readonly Weighing[]): string {
  const marks = markRanges(heavy.map(({ bundle }) => bundle.bundle)).join(', ');
  const most = Math.max(...heavy.map(({ weighed }) => weighed ?? 0));
  const limit = massTold(paper, heavy[0]?.bundle.limit ?? 0, undefined, 'down');
  return W.over(marks, heavy.length > 1, massTold(paper, most), limit);
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
