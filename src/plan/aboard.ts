/**
 * What she lists with some bundles in her. With W her displacement and GM as stated, w the mass at (x, y, z) of each
 * bundle that is in: list = Σw·y / (W·GM + Σw·(e − z)) radians, e the height that {@link stiffensBelow} gives, as in the
 * balance; where that is not known the last sum is left out, which tells of too much list rather than too little where
 * bundles lie low. What counts as in from
 * the start: what lies in her voids already and her figures do not hold, and the list stated of her, a moment of
 * W·GM·list; where none is stated she is taken as upright before.
 */
import type { Job, Vessel } from '../job/job.ts';
import { meanDraught } from '../job/meanDraught.ts';
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

/**
 * Height above the keel, m, below which what is added makes her stiffer and above which it makes her less stiff: with
 * S = W·GM, S′ = S + Σw·(e − z). Where a draught T is stated e = T. Of sides that are upright where the water meets
 * them the second moment of the water-plane stays, and so does what it gives to S, ρ·I; the w more that she displaces
 * lie about T above the keel, and give w·T. (w²/2ρA, the half of her sinkage, is left out: a little too little GM. Sides that
 * flare out leave her more, sides that fall in less.) Where no draught is stated e = KM = GM + KG, which holds KM and
 * tells too much: KM falls as she sinks. Null where that is not known either.
 */
export function stiffensBelow(vessel: Vessel, { gm, vcg }: Pick<Vessel, 'gm' | 'vcg'>): number | null {
  return meanDraught(vessel) ?? (gm === undefined || vcg === undefined ? null : gm + vcg);
}

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
  const level = vessel && stiffensBelow(vessel, vessel);
  const more = level ? weight.mass * (level - weight.z) : 0;
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
