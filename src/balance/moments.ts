/**
 * Weights and their moments, in the vessel's coordinates: x m forward of the after end of the waterline, y m to
 * starboard, z m above the underside of the keel. Nothing here is rounded.
 */
import type { Job, Void } from '../job/job.ts';
import { addedContents, type Content, contentsOf } from '../plan/contents.ts';
import type { Plan } from '../plan/plan.ts';
import { layVoid, middlePoint, vesselPoint } from '../stow/laid.ts';

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

export function addMoments(p: Moments, q: Moments): Moments {
  return {
    mass: p.mass + q.mass,
    alongMoment: p.alongMoment + q.alongMoment,
    acrossMoment: p.acrossMoment + q.acrossMoment,
    heightMoment: p.heightMoment + q.heightMoment,
  };
}

/** All the weights as one at their common centre; null where they weigh nothing together. */
export function centreOf(weights: readonly Weight[]): Weight | null {
  const { mass, alongMoment, acrossMoment, heightMoment } = sumMoments(weights);
  if (mass === 0) return null;
  return { mass, x: alongMoment / mass, y: acrossMoment / mass, z: heightMoment / mass };
}

/** What a sum comes to as one weight at its centre: lists and marks hang on sums alone. None where it weighs nothing. */
export function pointOf({ mass, alongMoment, acrossMoment, heightMoment }: Moments): Weight[] {
  return mass > 0 ? [{ mass, x: alongMoment / mass, y: acrossMoment / mass, z: heightMoment / mass }] : [];
}

/** The r.m.s. distance along the hull of the weights from `x`, m: what makes her slow to lift her ends. 0 for none. */
export function spreadAbout(weights: readonly Weight[], x: number): number {
  return rms(weights, (weight) => weight.x - x);
}

/** Their r.m.s. distance from the centreline, m: what makes her roll slower. 0 for none. */
export function rmsAcross(weights: readonly Weight[]): number {
  return rms(weights, (weight) => weight.y);
}

function rms(weights: readonly Weight[], arm: (weight: Weight) => number): number {
  const { mass } = sumMoments(weights);
  if (mass === 0) return 0;
  return Math.sqrt(weights.reduce((sum, weight) => sum + weight.mass * arm(weight) ** 2, 0) / mass);
}

/** Every bundle as a weight at the middle of its size, by void, in the order of the job's voids; empty voids have none. */
export function weightsByVoid(job: Job, plan: Plan): Map<string, Weight[]> {
  const byVoid = new Map<string, Weight[]>(job.voids.map((place) => [place.void, []]));
  const laid = new Map(
    job.voids.map((place) => {
      const ways = layVoid(place);
      const axis = plan.voids.find((placed) => placed.void === place.void)?.axis;
      return [place.void, ways.find((way) => way.axis === axis) ?? ways[0]!];
    }),
  );
  for (const bundle of plan.bundles) {
    const place = laid.get(bundle.void);
    if (place) byVoid.get(bundle.void)?.push({ mass: bundle.mass, ...middlePoint(place, bundle) });
  }
  return byVoid;
}

/** All that a plan puts on top of her own figures: its bundles, and what lies in the voids that those figures do not hold. */
export function weightsAboard(job: Job, plan: Plan): Weight[] {
  return [...[...weightsByVoid(job, plan).values()].flat(), ...addedContents(job)];
}

/** What lay in the voids before the plan, and all that lies in them with it; null where nothing lay there. */
export function allInVoids(job: Job, plan: Plan): { lying: Content[]; all: Weight } | null {
  const lying = contentsOf(job);
  const all = centreOf([...[...weightsByVoid(job, plan).values()].flat(), ...lying]);
  return lying.length > 0 && all ? { lying, all } : null;
}

/** Steel over room in a void filled with bundles, where nothing is planned yet: from 0.45 to 0.7 on plans so far. */
const TRIAL_FILL = 0.55;

/** The most that {@link TRIAL_FILL} lets lie in a void, or that it may carry, kg. */
export function trialRoom(place: Void, density: number): number {
  const area = (place.length - 2 * place.clear.ends) * (place.width - 2 * place.clear.sides);
  const depth = place.height - place.clear.top - place.dunnage;
  const most = place.most ?? Number.POSITIVE_INFINITY;
  return Math.max(0, Math.min(most, TRIAL_FILL * area * depth * density * 1e-9));
}

/**
 * A trial amount of `mass` kg in a void, before there is a plan: in the middle of its length and width, lying as low as
 * bundles that fill {@link TRIAL_FILL} of the room would, and never above the middle of the void.
 */
export function trialWeight(place: Void, mass: number, density: number): Weight {
  const area = (place.length - 2 * place.clear.ends) * (place.width - 2 * place.clear.sides);
  const depth = mass / (TRIAL_FILL * area * density * 1e-9);
  const up = Math.min(place.dunnage + depth / 2, Math.max(place.dunnage, place.height / 2));
  return { mass, ...vesselPoint(layVoid(place)[0]!, place.length / 2, 0, up) };
}
