/** What must come out to get at a keep-out: a keel bolt to draw, a seacock to service. Mm in the void's own frame. */
import type { Job, KeepOut } from '../job/job.ts';
import { type LaidVoid, layVoid } from '../stow/laid.ts';
import type { Room } from './chockRoom.ts';
import { type Chock, chocksOf, roomOf } from './chocks.ts';
import { openingsOf } from './order.ts';
import type { Plan, PlanBundle } from './plan.ts';

/** What comes out, the first first. */
export interface ComesOut {
  bundles: PlanBundle[];
  chocks: Chock[];
}

/** One access card: what comes out for one keep-out, and what its bundles weigh in all, kg. */
export interface Access extends ComesOut {
  laid: LaidVoid;
  keepOut: KeepOut;
  /** Its number among those of its void. */
  number: number;
  mass: number;
}

/** A card for every keep-out of every void, with `room` mm to work in on every side of it. */
export function accessOf(job: Job, plan: Plan, room: number): Access[] {
  return job.voids.flatMap((space) => {
    const ways = layVoid(space);
    const axis = plan.voids.find((told) => told.void === space.void)?.axis;
    const laid = ways.find((way) => way.axis === axis) ?? ways[0]!;
    const chocks = laid.keepOut.length === 0 ? [] : chocksOf(laid, plan);
    return laid.keepOut.map((keepOut, number) => {
      const out = breakingOut(plan, chocks, laid, keepOut, room);
      return { laid, keepOut, number, ...out, mass: out.bundles.reduce((sum, bundle) => sum + bundle.mass, 0) };
    });
  });
}

/** A bundle or a chock where it lies; a chock goes in between the bundle of its `after` and the next. */
interface Lying {
  place: Room;
  turn: number;
  bundle?: PlanBundle;
  chock?: Chock;
}

/**
 * What to lift out, in breaking-out order: bundles and `chocks` whose plan lies within `room` mm of the keep-out, all that
 * lie on them, one on another, and all bundles that stand in their way to the opening. `keepOut` is in the frame of `laid`.
 */
export function breakingOut(
  plan: Pick<Plan, 'bundles'>,
  chocks: readonly Chock[],
  laid: LaidVoid,
  keepOut: KeepOut,
  room: number,
): ComesOut {
  const own = plan.bundles.filter((bundle) => bundle.void === laid.void);
  const all = [
    ...own.map((bundle): Lying => ({ place: placeOf(bundle), turn: bundle.order, bundle })),
    ...chocks.map((chock): Lying => ({ place: roomOf(chock), turn: chock.after + 0.5, chock })),
  ].sort((p, q) => p.turn - q.turn);
  const near = ({ place }: Lying): boolean =>
    (['along', 'across'] as const).every(
      (way) => place[way].from < keepOut[way][1] + room && place[way].to > keepOut[way][0] - room,
    );
  const out = new Set(all.filter(near));
  // In stowing order every bundle comes after what carries it and after what it stands in the way of, so that one pass
  // reaches whatever must come out before the first ones.
  for (const one of all)
    if ([...out].some((other) => isOver(one.place, other.place) || barsOut(one, other, laid))) out.add(one);
  const last = [...out].sort((p, q) => q.turn - p.turn);
  return {
    bundles: last.flatMap(({ bundle }) => (bundle ? [bundle] : [])),
    chocks: last.flatMap(({ chock }) => (chock ? [chock] : [])),
  };
}

function placeOf({ at, size }: PlanBundle): Room {
  const over = (way: keyof Room) => ({ from: at[way], to: at[way] + size[way] });
  return { along: over('along'), across: over('across'), up: over('up') };
}

function barsOut(other: Lying, one: Lying, laid: LaidVoid): boolean {
  return other.bundle !== undefined && one.bundle !== undefined && bars(other.bundle, one.bundle, laid);
}

/** Resting is told to so many mm. */
const RESTING = 2;

function isOver(upper: Room, lower: Room): boolean {
  return (
    upper.up.from >= lower.up.to - RESTING &&
    (['along', 'across'] as const).every((way) => upper[way].from < lower[way].to && lower[way].from < upper[way].to)
  );
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
  return upper !== lower && isOver(placeOf(upper), placeOf(lower));
}
