/** How far a plan is from the marks wanted, in centimetres, and which void keeps it from them. */
import type { Job } from '../job/job.ts';
import type { Plan } from '../plan/plan.ts';
import type { Wanted } from './aims.ts';
import { effectOf, type Marks } from './float.ts';
import { sumMoments, weightsByVoid } from './moments.ts';

/** Misses are what she has more than was wanted: cm down, degrees to starboard. Null where not asked or not known. */
export interface Miss {
  forward: number | null;
  aft: number | null;
  list: number | null;
  /** The void that keeps her from the trim wanted; null where the marks are within the tolerance. */
  prevents: { void: string; why: string } | null;
}

/** Measures `plan` against what was wanted, at the likely values of whatever is estimated; null without vessel data. */
export function missOf(job: Job, plan: Plan, wanted: Wanted): Miss | null {
  if (!job.vessel) return null;
  const byVoid = weightsByVoid(job, plan);
  const effect = effectOf(job.vessel, [...byVoid.values()].flat());
  const list = wanted.upright && effect.stability.kind === 'answer' ? effect.stability.list.likely : null;
  if (effect.marks.kind !== 'answer') return { forward: null, aft: null, list, prevents: null };
  const { forward, aft } = offMarks(effect.marks, wanted);
  const within = wanted.within ?? 1;
  if (forward === null || aft === null) return { forward, aft, list, prevents: null };
  const hit = Math.abs(forward) <= within && Math.abs(aft) <= within;
  return { forward, aft, list, prevents: hit ? null : preventing(job, byVoid, forward - aft) };
}

function offMarks(marks: Marks, wanted: Wanted): { forward: number | null; aft: number | null } {
  if (wanted.down) {
    return { forward: marks.forward.likely - wanted.down.forward, aft: marks.aft.likely - wanted.down.aft };
  }
  if (wanted.trim === undefined) return { forward: null, aft: null };
  // Only the trim was asked: the miss is shared as a change of trim shares itself over the two ends.
  const over = marks.trim.likely - wanted.trim;
  const span = marks.forward.likely - marks.aft.likely;
  const share = span === 0 ? 0.5 : (marks.forward.likely - marks.sinkage.likely) / span;
  return { forward: over * share, aft: -over * (1 - share) };
}

/**
 * Too far by the head: the weight must go aft, so the void that prevents it is the one forward of the ballast's centre
 * that outweighs the rest, or, where all lies on one side, the aftermost that is as full as it may be.
 */
function preventing(
  job: Job,
  byVoid: ReturnType<typeof weightsByVoid>,
  headMiss: number,
): { void: string; why: string } | null {
  const lcf = job.vessel?.lcf ?? (job.vessel?.waterlineLength ?? 0) * 0.48;
  const end = headMiss > 0 ? 'aft' : 'forward';
  const sign = headMiss > 0 ? -1 : 1;
  const helping = job.voids
    .map((place) => ({ place, arm: sign * (midshipsOf(job, place.void) - lcf), mass: massIn(byVoid, place.void) }))
    .filter(({ arm }) => arm > 0)
    .sort((p, q) => q.arm - p.arm);
  const best = helping[0];
  if (!best) {
    return { void: job.voids[0]!.void, why: `No void lies ${end} of the centre of flotation, where weight is wanted.` };
  }
  const cap = Math.min(best.place.most ?? Number.POSITIVE_INFINITY, best.place.target ?? Number.POSITIVE_INFINITY);
  const why =
    best.mass >= cap * 0.97
      ? `It lies furthest ${end} and holds the ${cap} kg that it was allowed.`
      : `It lies furthest ${end}, where weight is wanted, and takes no more than the ${best.mass.toFixed(0)} kg in it.`;
  return { void: best.place.void, why };
}

function massIn(byVoid: ReturnType<typeof weightsByVoid>, name: string): number {
  return sumMoments(byVoid.get(name) ?? []).mass;
}

function midshipsOf(job: Job, name: string): number {
  const place = job.voids.find((candidate) => candidate.void === name)!;
  return place.origin.x + (place.axis === 'athwartships' ? 0 : place.length / 2000);
}
