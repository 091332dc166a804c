/** The voids of a job as a plan laid them, and what of them is kept clear. */
import type { KeepOut, Void } from '../job/job.ts';
import type { Plan } from '../plan/plan.ts';
import { type LaidVoid, layVoid } from '../stow/laid.ts';

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

/** The void's mark and name as one. */
export function voidTitle(space: { void: string; name: string }): string {
  return space.name ? `${space.void} ${space.name}` : space.void;
}
