/**
 * What she lists with some bundles in her. With W her displacement, GM and KG as stated, w the mass at (x, y, z) of each
 * bundle that is in: list = Σw·y / (W·GM + Σw·(GM + KG − z)) radians, KM held as in the balance; without a stated KG the
 * last sum is left out, which tells of too much list rather than too little where bundles lie low. What counts as in from
 * the start: what lies in her voids already and her figures do not hold, and the list stated of her, a moment of
 * W·GM·list; where none is stated she is taken as upright before.
 */
import type { Job, Vessel } from '../job/job.ts';
import { addedContents } from './contents.ts';

/** What is in her: kg, kg·m about the centreline, and kg·m of stiffness (righting moment for a radian), null where unknown. */
export interface Aboard {
  mass: number;
  moment: number;
  stiffness: number | null;
}

/** kg at a place, m to starboard and above the keel. */
export interface Placed {
  mass: number;
  y: number;
  z: number;
}

const DEGREES = 180 / Math.PI;

/** Without any bundle. `present` is the likely moment of her list, kg·m, for where stated figures do not give it. */
export function emptyOf(job: Job, present: number): Aboard {
  const { displacement, gm } = job.vessel ?? {};
  const stiffness = displacement === undefined || !gm || gm <= 0 ? null : displacement * gm;
  const contents = addedContents(job);
  const listed = stiffness === null ? present : (stiffness * (job.vessel?.list ?? 0)) / DEGREES;
  const aboard = contents.reduce((sum, content) => withWeight(sum, content, job.vessel), {
    mass: 0,
    moment: listed,
    stiffness,
  });
  return { ...aboard, mass: 0 };
}

export function withWeight({ mass, moment, stiffness }: Aboard, weight: Placed, vessel: Vessel | undefined): Aboard {
  const { gm, vcg } = vessel ?? {};
  const more = gm === undefined || vcg === undefined ? 0 : weight.mass * (gm + vcg - weight.z);
  return {
    mass: mass + weight.mass,
    moment: moment + weight.mass * weight.y,
    stiffness: stiffness === null ? null : stiffness + more,
  };
}

/** Degrees, to starboard positive; null where it is not known, or she would not stand up at all. */
export function listOf({ moment, stiffness }: Pick<Aboard, 'moment' | 'stiffness'>): number | null {
  return stiffness === null || stiffness <= 0 ? null : (DEGREES * moment) / stiffness;
}
