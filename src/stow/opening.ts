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

/** The widest bundle that any opening of a void lets through to rest at height `up`, mm. */
export function openingOf(laid: LaidVoid, along: number, height: number, up: number): number {
  const free = laid.height - up;
  let widest = widestThrough(laid.opening, along, height, free);
  for (const opening of laid.otherOpenings ?? [])
    widest = Math.max(widest, widestThrough(opening, along, height, free));
  return widest;
}

/** True where what bundles of this size along may pass does not depend on how high they come to rest. */
export function passesAlike({ opening, otherOpenings }: LaidVoid, along: number): boolean {
  const all = opening ? [opening, ...(otherOpenings ?? [])] : [];
  return all.every((one) => along <= one.along || !one.endFirst);
}
