/** Whether a bundle passes the opening over its void (format.md, "Opening"). Sizes mm. */
import type { Opening } from '../job/job.ts';
import type { LaidVoid } from './laid.ts';

/**
 * The widest bundle, mm, of a given length along and height up that passes an opening and comes to rest `free` mm under
 * the top of the void; 0 where none passes. Flat, or end first: slid under the edge of the opening at its flattest angle.
 */
export function widestThrough(opening: Opening | undefined, along: number, up: number, free: number): number {
  if (!opening) return Number.POSITIVE_INFINITY;
  if (along <= opening.along) return opening.across;
  return opening.endFirst && endFirstNeeds(opening, along, up, free) <= opening.along ? opening.across : 0;
}

/** The length of opening that a bundle needs to go in end first: D where it stands upright, else D·L/h + T·√((L/h)² − 1). */
function endFirstNeeds(opening: Opening, along: number, up: number, free: number): number {
  const slope = along / free;
  return slope <= 1 ? up : up * slope + opening.deck * Math.sqrt(slope * slope - 1);
}

/** How far a bundle going in end first reaches under the deck, level, when its last end passes it at the flattest, mm. */
export function reachUnder(along: number, free: number): number {
  return along <= free ? 0 : Math.sqrt(along * along - free * free);
}

/**
 * The most that a void offers from an edge of an opening, under it and past its other edge, mm, where `middle` is the
 * opening's: up to an end of the void, or to what stands over the whole breadth with less than `height` free over it.
 */
export function roomUnder(opening: Opening, laid: LaidVoid, middle: number, height: number): number {
  const edges = [middle - opening.along / 2, middle + opening.along / 2] as const;
  let room = 0;
  for (const [from, to] of stretchesUnder(laid, height)) {
    const left = from > 0 ? Math.max(edges[0], from) : edges[0];
    const right = to < laid.length ? Math.min(edges[1], to) : edges[1];
    if (left < right) room = Math.max(room, right - from, to - left);
  }
  return room;
}

/**
 * True where something light, mm along, across and up as it is to lie, passes an opening of a void to rest at height `rest`:
 * flat, or tilted along or across; carried by hand, so whether bundles may go in end first does not matter.
 */
export function passesByHand(laid: LaidVoid, size: Record<'along' | 'across' | 'up', number>, rest: number): boolean {
  const { along, across, up } = size;
  const free = laid.height - rest;
  const openings = laid.opening ? [laid.opening, ...(laid.otherOpenings ?? [])] : [];
  return (
    openings.length === 0 ||
    openings.some((stated) => {
      const opening = { ...stated, endFirst: true };
      if (widestIn(opening, laid, along, up, free) >= across) return true;
      if (along > opening.along || endFirstNeeds(opening, across, up, free) > opening.across) return false;
      return !opening.at || reachUnder(across, free) <= roomAside(opening, laid, opening.at.across);
    })
  );
}

/** The most that a void offers across from an edge of an opening, under it and past its other edge, mm. */
function roomAside({ across }: Opening, laid: LaidVoid, middle: number): number {
  const { port, starboard } = breadthOf(laid);
  return Math.max(starboard - (middle - across / 2), middle + across / 2 - port);
}

function breadthOf({ stations, width }: LaidVoid): { port: number; starboard: number } {
  const readings = (stations ?? []).flatMap(({ at }) => at);
  const port = stations ? Math.min(...readings.map(({ from }) => from)) : -width / 2;
  const starboard = stations ? Math.max(...readings.map(({ to }) => to)) : width / 2;
  return { port, starboard };
}

/** What may be left beside a keep-out that takes the whole breadth, mm: its places are rounded. */
const BESIDE = 1;

/** The stretches of a void between what a bundle of this height gets neither past nor over, mm along. */
function stretchesUnder(laid: LaidVoid, height: number): [number, number][] {
  const { port, starboard } = breadthOf(laid);
  const shut = laid.keepOut
    .filter(({ across }) => across[0] <= port + BESIDE && across[1] >= starboard - BESIDE)
    .filter(({ up }) => up[0] < height && laid.height - up[1] < height)
    .sort((p, q) => p.along[0] - q.along[0]);
  const open: [number, number][] = [];
  let from = 0;
  for (const { along } of shut) {
    if (along[0] > from) open.push([from, along[0]]);
    from = Math.max(from, along[1]);
  }
  if (from < laid.length) open.push([from, laid.length]);
  return open;
}

/** False where what is under the deck ends before a bundle that has to go in end first is in; true where nobody said where the opening lies. */
export function hasRoomUnder(opening: Opening, laid: LaidVoid, along: number, height: number, free: number): boolean {
  if (!opening.at || along <= opening.along) return true;
  return reachUnder(along, free) <= roomUnder(opening, laid, opening.at.along, height);
}

/** The widest bundle that any opening of a void lets through to rest at height `up`, mm. */
export function openingOf(laid: LaidVoid, along: number, height: number, up: number): number {
  const free = laid.height - up;
  let widest = widestIn(laid.opening, laid, along, height, free);
  for (const opening of laid.otherOpenings ?? [])
    widest = Math.max(widest, widestIn(opening, laid, along, height, free));
  return widest;
}

function widestIn(opening: Opening | undefined, laid: LaidVoid, along: number, height: number, free: number): number {
  if (opening && !hasRoomUnder(opening, laid, along, height, free)) return 0;
  return widestThrough(opening, along, height, free);
}

/** True where what bundles of this size along may pass does not depend on how high they come to rest. */
export function passesAlike({ opening, otherOpenings }: LaidVoid, along: number): boolean {
  const all = opening ? [opening, ...(otherOpenings ?? [])] : [];
  return all.every((one) => along <= one.along || !one.endFirst);
}
