/**
 * A void as its bars lie in it. A void whose bars may lie either way becomes one of two laid voids; every other void is
 * laid as stated. Coordinates as in the job file: along, across, up in mm from the laid void's own origin.
 */
import type { KeepOut, Opening, Void } from '../job/job.ts';
import { ceilHalf, floorHalf } from './half.ts';

export type Axis = 'fore-and-aft' | 'athwartships';

/** A void with its axis decided; length runs along the bars. */
export type LaidVoid = Omit<Void, 'axis'> & {
  axis: Axis;
  /** Bundles lighter than this, kg, are not tied while the planner tries to do without them. */
  leastBundle?: number;
};

/** True where the space of a run does not depend on its place along. */
export function isPlaceless({ stations, keepOut, bearers }: LaidVoid): boolean {
  return !stations && keepOut.length === 0 && !bearers;
}

/** True of a box with nothing in it, nothing over it and no limit to what it bears. */
export function isPlain(laid: LaidVoid): boolean {
  return isPlaceless(laid) && !laid.opening && !laid.drain && laid.mostPerMetre === undefined;
}

/** The ways a void's bars may lie: one laid void, or two for `either`. */
export function layVoid(voidStated: Void): LaidVoid[] {
  const { axis } = voidStated;
  if (axis !== 'either') return [{ ...voidStated, axis }];
  return [{ ...voidStated, axis: 'fore-and-aft' }, turnVoid(voidStated)];
}

/** The void, as a box where its stations say no more than a box does. */
export function asBox(laid: LaidVoid): LaidVoid {
  const { stations } = laid;
  const half = stations?.[0]?.at[0]?.to ?? 0;
  const straight = stations?.every(
    ({ at }) =>
      Math.min(...at.map(({ up }) => up)) === 0 &&
      at.every(({ from, to }) => from === -half && to === half && half > 0),
  );
  return straight ? { ...laid, width: 2 * half, stations: undefined } : laid;
}

/**
 * The void with its ends and gaps on the half millimetres that bundles lie on, as clearances in fractions of an inch are
 * not: the same bundles may lie in it, no fewer and no more.
 */
export function onHalves(laid: LaidVoid): LaidVoid {
  const { length, clear, gap } = laid;
  const ends = ceilHalf(clear.ends);
  const free = Math.max(0, floorHalf(length - clear.ends) - ends);
  return {
    ...laid,
    length: free + 2 * ends,
    clear: { ...clear, ends },
    gap: { runs: ceilHalf(gap.runs), across: ceilHalf(gap.across) },
  };
}

/** The void given as for fore-and-aft, turned so that its bars lie athwartships; along then runs from its port side. */
function turnVoid(given: Void): LaidVoid {
  const turned = (keepOut: KeepOut): KeepOut => ({
    ...keepOut,
    along: shift(keepOut.across, given.width / 2),
    across: shift(keepOut.along, -given.length / 2),
  });
  return {
    ...given,
    axis: 'athwartships',
    length: given.width,
    width: given.length,
    origin: {
      x: given.origin.x + given.length / 2000,
      y: given.origin.y - given.width / 2000,
      z: given.origin.z,
    },
    opening: given.opening && turnOpening(given.opening, given),
    otherOpenings: given.otherOpenings?.map((opening) => turnOpening(opening, given)),
    keepOut: given.keepOut.map(turned),
  };
}

function turnOpening(opening: Opening, given: Void): Opening {
  const { along, across, at } = opening;
  const turned = { ...opening, along: across, across: along };
  return at ? { ...turned, at: { along: at.across + given.width / 2, across: at.along - given.length / 2 } } : turned;
}

function shift([from, to]: [number, number], by: number): [number, number] {
  return [from + by, to + by];
}

/** Vessel coordinates, m, of a point of the laid void, mm. */
export function vesselPoint(
  laid: LaidVoid,
  along: number,
  across: number,
  up: number,
): { x: number; y: number; z: number } {
  const { x, y, z } = laid.origin;
  const [forward, starboard] = laid.axis === 'athwartships' ? [across, along] : [along, across];
  return { x: x + forward / 1000, y: y + starboard / 1000, z: z + up / 1000 };
}

/** Vessel coordinates, m, of the middle of what lies in the laid void: its place and size in mm. */
export function middlePoint(
  laid: LaidVoid,
  { at, size }: Record<'at' | 'size', { along: number; across: number; up: number }>,
): { x: number; y: number; z: number } {
  return vesselPoint(laid, at.along + size.along / 2, at.across + size.across / 2, at.up + size.up / 2);
}
