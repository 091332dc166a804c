/**
 * Weights and their moments, in the vessel's coordinates: x m forward of the after end of the waterline, y m to
 * starboard, z m above the underside of the keel. Nothing here is rounded.
 */
import type { Job, Void } from '../job/job.ts';
import type { Plan, PlanBundle } from '../plan/plan.ts';

/** A mass, kg, at a place, m. A weight taken out is negative. */
export interface Weight {
  mass: number;
  x: number;
  y: number;
  z: number;
}

/** A sum of weights: kg, and kg·m about the after end, the centreline and the keel. */
export interface Moments {
  mass: number;
  alongMoment: number;
  acrossMoment: number;
  heightMoment: number;
}

export function sumMoments(weights: readonly Weight[]): Moments {
  const sum = { mass: 0, alongMoment: 0, acrossMoment: 0, heightMoment: 0 };
  for (const { mass, x, y, z } of weights) {
    sum.mass += mass;
    sum.alongMoment += mass * x;
    sum.acrossMoment += mass * y;
    sum.heightMoment += mass * z;
  }
  return sum;
}

/** All the weights as one at their common centre; null where they weigh nothing together. */
export function centreOf(weights: readonly Weight[]): Weight | null {
  const { mass, alongMoment, acrossMoment, heightMoment } = sumMoments(weights);
  if (mass === 0) return null;
  return { mass, x: alongMoment / mass, y: acrossMoment / mass, z: heightMoment / mass };
}

/** The r.m.s. distance along the hull of the weights from `x`, m: what makes her slow to lift her ends. 0 for none. */
export function spreadAbout(weights: readonly Weight[], x: number): number {
  const mass = weights.reduce((sum, weight) => sum + weight.mass, 0);
  if (mass === 0) return 0;
  return Math.sqrt(weights.reduce((sum, weight) => sum + weight.mass * (weight.x - x) ** 2, 0) / mass);
}

/** A point of a void, mm along, across and up in its own coordinates, as a place in the vessel, m. */
export function placeInVessel(
  place: Void,
  laid: 'fore-and-aft' | 'athwartships',
  at: { along: number; across: number; up: number },
): { x: number; y: number; z: number } {
  const { x, y, z } = place.origin;
  const [along, across, up] = [at.along / 1000, at.across / 1000, at.up / 1000];
  if (laid === 'fore-and-aft') return { x: x + along, y: y + across, z: z + up };
  if (place.axis === 'athwartships') return { x: x + across, y: y + along, z: z + up };
  // An either-way void laid athwartships: its port side is the new origin, at the middle of its length.
  return { x: x + place.length / 2000 + across, y: y - place.width / 2000 + along, z: z + up };
}

/** Every bundle as a weight at the middle of its size, by void, in the order of the job's voids; empty voids have none. */
export function weightsByVoid(job: Job, plan: Plan): Map<string, Weight[]> {
  const byVoid = new Map<string, Weight[]>(job.voids.map((place) => [place.void, []]));
  const places = new Map(job.voids.map((place) => [place.void, place]));
  const laid = new Map(plan.voids.map((placed) => [placed.void, placed.axis]));
  for (const bundle of plan.bundles) {
    const place = places.get(bundle.void);
    if (!place) continue;
    const stated = place.axis === 'either' ? (laid.get(bundle.void) ?? 'fore-and-aft') : place.axis;
    byVoid.get(bundle.void)?.push({ mass: bundle.mass, ...placeInVessel(place, stated, middleOf(bundle)) });
  }
  return byVoid;
}

function middleOf(bundle: PlanBundle): { along: number; across: number; up: number } {
  return {
    along: bundle.at.along + bundle.size.along / 2,
    across: bundle.at.across + bundle.size.across / 2,
    up: bundle.at.up + bundle.size.up / 2,
  };
}

/** Steel over room in a void filled with bundles, where nothing is planned yet: from 0.45 to 0.7 on plans so far. */
const TRIAL_FILL = 0.55;

/**
 * A trial amount of `mass` kg in a void, before there is a plan: in the middle of its length and width, lying as low as
 * bundles that fill {@link TRIAL_FILL} of the room would, and never above the middle of the void.
 */
export function trialWeight(place: Void, mass: number, density: number): Weight {
  const area = (place.length - 2 * place.clear.ends) * (place.width - 2 * place.clear.sides);
  const depth = mass / (TRIAL_FILL * area * density * 1e-9);
  const up = Math.min(place.dunnage + depth / 2, Math.max(place.dunnage, place.height / 2));
  return { mass, ...placeInVessel(place, trialLie(place), { along: place.length / 2, across: 0, up }) };
}

function trialLie(place: Void): 'fore-and-aft' | 'athwartships' {
  return place.axis === 'athwartships' ? 'athwartships' : 'fore-and-aft';
}
