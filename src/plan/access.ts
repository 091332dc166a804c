/** What must come out to get at a keep-out: a keel bolt to draw, a seacock to service. Mm in the void's own frame. */
import type { Job, KeepOut } from '../job/job.ts';
import { type LaidVoid, layVoid } from '../stow/laid.ts';
import { openingsOf } from './order.ts';
import type { Plan, PlanBundle } from './plan.ts';

/** One access card: what comes out for one keep-out, the first first, and what it weighs in all, kg. */
export interface Access {
  laid: LaidVoid;
  keepOut: KeepOut;
  /** Its number among those of its void. */
  number: number;
  bundles: PlanBundle[];
  mass: number;
}

/** A card for every keep-out of every void, with `room` mm to work in on every side of it. */
export function accessOf(job: Job, plan: Plan, room: number): Access[] {
  return job.voids.flatMap((space) => {
    const ways = layVoid(space);
    const axis = plan.voids.find((told) => told.void === space.void)?.axis;
    const laid = ways.find((way) => way.axis === axis) ?? ways[0]!;
    return laid.keepOut.map((keepOut, number) => {
      const bundles = breakingOut(plan, laid, keepOut, room);
      return { laid, keepOut, number, bundles, mass: bundles.reduce((sum, bundle) => sum + bundle.mass, 0) };
    });
  });
}

/**
 * Bundles to lift out, in breaking-out order: those whose plan lies within `room` mm of the keep-out, all that rest on
 * them, one on another, and all that stand in their way to the opening. `keepOut` is in the frame of `laid`.
 */
export function breakingOut(plan: Pick<Plan, 'bundles'>, laid: LaidVoid, keepOut: KeepOut, room: number): PlanBundle[] {
  const bundles = plan.bundles.filter((bundle) => bundle.void === laid.void).sort((p, q) => p.order - q.order);
  const near = (bundle: PlanBundle): boolean =>
    bundle.at.along < keepOut.along[1] + room &&
    bundle.at.along + bundle.size.along > keepOut.along[0] - room &&
    bundle.at.across < keepOut.across[1] + room &&
    bundle.at.across + bundle.size.across > keepOut.across[0] - room;
  const out = new Set(bundles.filter(near));
  // In stowing order every bundle comes after what carries it and after what it stands in the way of, so that one pass
  // reaches whatever must come out before the first ones.
  for (const bundle of bundles) {
    if ([...out].some((other) => liesOver(bundle, other) || bars(bundle, other, laid))) out.add(bundle);
  }
  return [...out].sort((p, q) => q.order - p.order);
}

/**
 * Whether `other` stands in the way of `bundle` to the nearest opening of its void: between the two, over the bundle's
 * breadth, and too high for the bundle to be passed over it under the deck. Nothing bars a void that is open all over.
 */
function bars(other: PlanBundle, bundle: PlanBundle, laid: LaidVoid): boolean {
  return other.order >= bundle.order && standsInWay(other, bundle, laid);
}

/** The same, whichever of the two goes in first. */
export function standsInWay(other: PlanBundle, bundle: PlanBundle, laid: LaidVoid): boolean {
  if (other.run === bundle.run) return false;
  const middle = bundle.at.along + bundle.size.along / 2;
  const places = openingsOf(laid).map((opening) => opening.along);
  if (places.length === 0) return false;
  const opening = places.reduce((p, q) => (Math.abs(q - middle) < Math.abs(p - middle) ? q : p));
  const [from, to] =
    opening < bundle.at.along
      ? [opening, bundle.at.along]
      : [bundle.at.along + bundle.size.along, Math.max(opening, bundle.at.along + bundle.size.along)];
  return (
    other.at.along < to &&
    other.at.along + other.size.along > from &&
    other.at.across < bundle.at.across + bundle.size.across &&
    bundle.at.across < other.at.across + other.size.across &&
    laid.height - (other.at.up + other.size.up) < bundle.size.up
  );
}

/** Whether `upper` lies over `lower` by any part of its plan and no lower than its top, within the 2 mm of resting. */
export function liesOver(upper: PlanBundle, lower: PlanBundle): boolean {
  return (
    upper !== lower &&
    upper.at.up >= lower.at.up + lower.size.up - 2 &&
    upper.at.along < lower.at.along + lower.size.along &&
    lower.at.along < upper.at.along + upper.size.along &&
    upper.at.across < lower.at.across + lower.size.across &&
    lower.at.across < upper.at.across + upper.size.across
  );
}
