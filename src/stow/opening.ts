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

/** The most that a void of this length offers from an edge of an opening, under it and past its other edge, mm, where `middle` is the opening's. */
export function roomUnder(opening: Opening, length: number, middle: number): number {
  return Math.max(middle, length - middle) + opening.along / 2;
}

/** False where the void ends before a bundle that has to go in end first is under its deck; true where nobody said where the opening lies. */
export function hasRoomUnder(opening: Opening, length: number, along: number, free: number): boolean {
  if (!opening.at || along <= opening.along) return true;
  return reachUnder(along, free) <= roomUnder(opening, length, opening.at.along);
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
  if (opening && !hasRoomUnder(opening, laid.length, along, free)) return 0;
  return widestThrough(opening, along, height, free);
}

/** True where what bundles of this size along may pass does not depend on how high they come to rest. */
export function passesAlike({ opening, otherOpenings }: LaidVoid, along: number): boolean {
  const all = opening ? [opening, ...(otherOpenings ?? [])] : [];
  return all.every((one) => along <= one.along || !one.endFirst);
}
