/** The voids of a job as a plan laid them, and what of them is kept clear. */
import type { KeepOut, Void } from '../job/job.ts';
import type { Plan } from '../plan/plan.ts';
import { type LaidVoid, layVoid } from '../stow/laid.ts';
import { bottomLine, widestSides } from './outline.ts';

/** `space` with its bars lying as the plan has them; one left empty that may lie either way is taken fore-and-aft. */
export function laidVoid(space: Void, plan: Plan): LaidVoid {
  const ways = layVoid(space);
  const axis = plan.voids.find((entry) => entry.void === space.void)?.axis;
  return ways.find((way) => way.axis === axis) ?? ways[0]!;
}

/** The height of the top of what may not be entered: an access keep-out reaches up to the top of its void. */
export function keepOutTop(laid: LaidVoid, keepOut: KeepOut): number {
  return keepOut.access ? laid.height : keepOut.up[1];
}

/** The void's keep-outs as they are drawn. */
export function keepOutsIn(laid: LaidVoid): KeepOut[] {
  return laid.keepOut.map((keepOut) => keepOutIn(laid, keepOut));
}

/**
 * A keep-out as it is drawn and told: no farther than its void goes, since one that tells what stands there already may be
 * stated past it. One that lies nowhere in the void stays where it is stated.
 */
export function keepOutIn(laid: LaidVoid, keepOut: KeepOut): KeepOut {
  const sides = widestSides(laid);
  const clip = ([from, to]: [number, number], least: number, most: number): [number, number] =>
    to <= least || from >= most ? [from, to] : [Math.max(from, least), Math.min(to, most)];
  const floor = Math.min(...bottomLine(laid).map(({ y }) => y));
  return {
    ...keepOut,
    along: clip(keepOut.along, 0, laid.length),
    across: clip(keepOut.across, sides.from, sides.to),
    up: clip(keepOut.up, floor, laid.height),
  };
}

/** The void's mark and name as one. */
export function voidTitle(space: { void: string; name: string }): string {
  return space.name ? `${space.void} ${space.name}` : space.void;
}
