/**
 * A lift is a route: quay to deck, deck to cabin, cabin to void. Each leg has a guide of its own, and the least of them
 * decides.
 */
import type { Handling } from '../job/handling.ts';
import type { Job, Void } from '../job/job.ts';
import { type Grip, guideLift, type Lift, type LiftGuide } from './equation.ts';

/** One leg and its guide; null where reach, start or end is not stated. `tested` is the person's own figure, kg. */
export interface LegGuide {
  leg: string;
  guide: LiftGuide | null;
  tested: number | undefined;
}

/** What the legs of a void's route say together. */
export interface RouteGuide {
  legs: LegGuide[];
  /** The least guide over the legs that the method covers, kg; null where it covers none. */
  guide: number | null;
  /** Every leg is stated and covered by the method: `guide` may be called one. */
  applies: boolean;
}

/** The name of the last leg, which the void states itself. */
export const LAST_LEG = 'into the void';

/** The guides along the way into a void: its shared legs in order, then its own handling. A void with neither has no legs. */
export function guideRoute(job: Job, space: Void): RouteGuide {
  const shared = new Map((job.lift?.legs ?? []).map((leg) => [leg.leg, leg]));
  const legs: LegGuide[] = [];
  for (const name of space.route ?? []) {
    const leg = shared.get(name);
    if (leg) legs.push(guideLeg(job, name, leg));
  }
  if (space.handling) legs.push(guideLeg(job, LAST_LEG, space.handling));
  const covered = legs.flatMap(({ guide }) => (guide?.applies ? [guide.guide] : []));
  return {
    legs,
    guide: covered.length > 0 ? Math.min(...covered) : null,
    applies: legs.length > 0 && covered.length === legs.length,
  };
}

function guideLeg(job: Job, leg: string, handling: Handling): LegGuide {
  const lift = liftOf(job, handling);
  return { leg, guide: lift && guideLift(lift), tested: handling.tested };
}

/** The lift that a leg states; null where reach, start or end is missing. */
export function liftOf(job: Job, handling: Handling): Lift | null {
  const { reach, start, end } = handling;
  if (reach === undefined || start === undefined || end === undefined) return null;
  return { ...handling, reach, start, end, grip: handling.grip ?? bundleGrip(job) };
}

/** Where no grip is stated: a tied bundle has sharp ends, which is a poor grip unless its becket has a sleeve. */
function bundleGrip(job: Job): Grip {
  return job.bundle.becket?.sleeve ? 'fair' : 'poor';
}
