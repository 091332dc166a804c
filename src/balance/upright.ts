/** No list, held against the other aims and against what a plan places: what makes her list, and what would not. */
import type { Job } from '../job/job.ts';
import type { Plan } from '../plan/plan.ts';
import type { Effect } from './float.ts';
import { hydrostaticsOf } from './hydrostatics.ts';
import { sumMoments, trialWeight, type Weight } from './moments.ts';
import { sideWords, tangentOf } from './present.ts';

/** A list within this, degrees, is told as none. */
export const UPRIGHT = 0.5;

/** Said where no list is wanted, and nothing in the aims brings it about. */
export const STEERS_NOTHING =
  '“No list” is wanted, and no centre to starboard or port is asked for: a plan is held against the list, and steered by the centre alone.';

/**
 * What the aims leave her listing by, though no list is wanted: a centre across with which it can not be had, or none
 * asked for; null where they do not, or where nobody can tell.
 * `effect` is that of `ballast` and all that is put in her besides. For no list the centre lies within r of y, where y
 * leaves no moment about the centreline and r = tan(0.5°)·(W + w)·GM′ / ballast.
 */
export function againstUpright(job: Job, ballast: readonly Weight[], effect: Effect): string | null {
  const asked = job.aims.centre?.y;
  const { stability, present, moments } = effect;
  const displacement = job.vessel && hydrostaticsOf(job.vessel).displacement;
  const { mass, acrossMoment } = sumMoments(ballast);
  if (!job.aims.effect?.upright || stability.kind !== 'answer' || !displacement || mass <= 0) return null;
  const rest = moments.acrossMoment - acrossMoment + (present?.moment?.likely ?? 0);
  const middle = -rest / mass;
  const room = (tangentOf(UPRIGHT) * (displacement.likely + moments.mass) * stability.gm.likely) / mass;
  const needed = rangeWords(middle - room, middle + room);
  if (!asked) return `${STEERS_NOTHING} No list takes one ${needed}; “Afloat” puts that into the aims.`;
  if (asked[0] <= middle + room && asked[1] >= middle - room) return null;
  return `“No list” and the centre asked for contradict each other: no list takes a centre ${needed}, and ${rangeWords(...asked)} is asked for. Change the centre, or give up “no list”.`;
}

/** Why a plan that was to leave her upright leaves her listing by `list` degrees, and what would take that out. */
export function listedBecause(job: Job, plan: Plan, list: number): string {
  const helps = list > 0 ? -1 : 1;
  const short = job.voids.filter(
    (space) =>
      helps * trialWeight(space, 1, job.steel.density).y > 0 &&
      plan.cautions.some(({ code, about }) => code === 'void-short' && about === `void ${space.void}`),
  );
  const names = short.map((space) => space.void);
  if (names.length > 0) return `${names.join(', ')} on the other side ${names.length > 1 ? 'are' : 'is'} short`;
  return `more of it ${sideWords(helps)}, or less on the other side, would take that out`;
}

/** `from 0.050 m to port to 0.012 m to starboard`, `0.110 to 0.160 m to starboard`. */
function rangeWords(from: number, to: number): string {
  if (from > 0) return `${from.toFixed(3)} to ${to.toFixed(3)} m to starboard`;
  if (to < 0) return `${(-to).toFixed(3)} to ${(-from).toFixed(3)} m to port`;
  const words = [from, to].map((at) => `${Math.abs(at).toFixed(3)} m ${sideWords(at)}`);
  return `from ${words[0]} to ${words[1]}`;
}
