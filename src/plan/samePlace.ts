/** Voids that are told to lie where another one lies: one was copied and its place left as it was, or places were never stated. */
import type { Void } from '../job/job.ts';
import type { StatedParts } from '../job/jobFaults.ts';

/** Boxes about shaped voids may share a corner: from this part of the smaller one on, two can hardly both be there. */
const SHARE = 0.25;

/** A box in her, m: forward, to starboard, up. */
type Room = readonly [x: readonly [number, number], y: readonly [number, number], z: readonly [number, number]];

/**
 * For each void that lies where one before it lies, a good part of it at least, its index and that one's mark. Places count only where some
 * void's is stated, or where something is wanted that hangs on them: her figures, a centre, a spread.
 */
export function samePlaces(parts: StatedParts): { index: number; other: string }[] {
  const rooms = parts.voids.map((space) =>
    typeof space === 'object' ? { mark: space.void, room: roomOf(space) } : null,
  );
  if (!doPlacesCount(parts)) return [];
  return rooms.flatMap((own, index) => {
    if (!own) return [];
    const other = rooms.slice(0, index).find((before) => before && shared(own.room, before.room) >= SHARE);
    return other ? [{ index, other: other.mark }] : [];
  });
}

/**
 * The indices of voids whose bars lie athwartships and whose port end is on her middle line, with none to port that ends
 * there: whoever measures from the middle line writes 0 for the middle, and such a void then lies to starboard with all of
 * it.
 */
export function portEndsAmidships(parts: StatedParts): number[] {
  if (!doPlacesCount(parts)) return [];
  const ends = parts.voids.map((space) =>
    typeof space === 'object' && space.axis === 'athwartships' ? roomOf(space)[1] : null,
  );
  const isPaired = ends.some((end) => end && Math.abs(end[1]) < KEEL);
  return isPaired ? [] : ends.flatMap((end, index) => (end?.[0] === 0 ? [index] : []));
}

/** Whether it is stated where a void lies: hardly any lies where one does that says nothing, under its bottom are planking and frames. */
export function isPlaced({ origin: { x, y, z } }: Pick<Void, 'origin'>): boolean {
  return x !== 0 || y !== 0 || z !== 0;
}

/** The indices of voids whose place nobody stated, while some other's is stated. */
export function leftUnplaced({ voids }: Pick<StatedParts, 'voids'>): number[] {
  const isStated = voids.some((space) => typeof space === 'object' && isPlaced(space));
  return isStated ? voids.flatMap((space, i) => (typeof space === 'object' && !isPlaced(space) ? [i] : [])) : [];
}

/** Two voids on either side of her keel end at most so far from her middle line, m. */
const KEEL = 0.2;

function doPlacesCount({ voids, vessel, aims }: StatedParts): boolean {
  const stated = voids.some((space) => typeof space === 'object' && isPlaced(space));
  return stated || Boolean(vessel || aims?.centre || aims?.effect) || aims?.spread !== undefined;
}

/** The box about the clear space; of a void whose bars may lie either way, as it is given. */
function roomOf(space: Void): Room {
  const readings = (space.stations ?? []).flatMap(({ at }) => at);
  const from = readings.length > 0 ? Math.min(...readings.map((one) => one.from)) : -space.width / 2;
  const to = readings.length > 0 ? Math.max(...readings.map((one) => one.to)) : space.width / 2;
  const { x, y, z } = space.origin;
  const along = [0, space.length] as const;
  const [forward, starboard] =
    space.axis === 'athwartships' ? [[from, to] as const, along] : [along, [from, to] as const];
  return [inHer(x, forward), inHer(y, starboard), inHer(z, [0, space.height])];
}

function inHer(origin: number, [from, to]: readonly [number, number]): readonly [number, number] {
  return [origin + from / 1000, origin + to / 1000];
}

/** What two rooms share, as a part of the smaller one. */
function shared(one: Room, other: Room): number {
  const common = one.map(([from, to], i) => Math.min(to, other[i]![1]) - Math.max(from, other[i]![0]));
  if (common.some((length) => length <= 0)) return 0;
  return product(common) / Math.min(product(one.map(lengthOf)), product(other.map(lengthOf)));
}

function lengthOf([from, to]: readonly [number, number]): number {
  return to - from;
}

function product(lengths: readonly number[]): number {
  return lengths.reduce((all, length) => all * length, 1);
}
