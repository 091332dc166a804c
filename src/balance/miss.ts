/** How far a plan is from the marks wanted, in centimetres, and which void keeps it from them. */
import type { Job } from '../job/job.ts';
import type { Plan } from '../plan/plan.ts';
import type { Wanted } from './aims.ts';
import { effectOf, type Marks, rollingOf } from './float.ts';
import { GM_SHARE, PERIOD_SHARE, toleranceOf } from './heightAims.ts';
import { sumMoments, weightsAboard, weightsByVoid } from './moments.ts';
import { againstUpright, listedBecause, UPRIGHT } from './upright.ts';

/** Misses are what she has more than was wanted: cm down, degrees to starboard. Null where not asked or not known. */
export interface Miss {
  forward: number | null;
  aft: number | null;
  list: number | null;
  /** GM less the one wanted, m, and the roll period less the one wanted, s. */
  gm: number | null;
  period: number | null;
  /** The void that keeps her from the trim wanted; null where the marks are within the tolerance. */
  prevents: { void: string; why: string } | null;
}

/** Measures `plan` against what was wanted, at the likely values of whatever is estimated; null without vessel data. */
export function missOf(job: Job, plan: Plan, wanted: Wanted): Miss | null {
  if (!job.vessel) return null;
  const effect = effectOf(job.vessel, weightsAboard(job, plan));
  const rolls = effect.stability.kind === 'answer' ? effect.stability : null;
  const stiffness = {
    list: wanted.upright && rolls ? rolls.list.likely : null,
    gm: wanted.gm !== undefined && rolls ? rolls.gm.likely - wanted.gm : null,
    period:
      wanted.period !== undefined && wanted.gm === undefined && rolls ? rolls.period.likely - wanted.period : null,
  };
  if (effect.marks.kind !== 'answer') return { forward: null, aft: null, ...stiffness, prevents: null };
  const { forward, aft } = offMarks(effect.marks, wanted);
  if (forward === null || aft === null) return { forward, aft, ...stiffness, prevents: null };
  const within = wanted.within ?? WITHIN;
  const hit = Math.abs(forward) <= within && Math.abs(aft) <= within;
  const prevents = hit ? null : preventing(job, weightsByVoid(job, plan), forward - aft);
  return { forward, aft, ...stiffness, prevents };
}

/** Marks within this of those wanted are met, cm, where nothing else is said. */
const WITHIN = 1;

/** The effect wanted in the job's aims and how near a plan comes to it, in sentences; none where none was stated. */
export function missLines(job: Job, plan: Plan): string[] {
  const wanted = job.aims.effect;
  const miss = wanted && missOf(job, plan, wanted);
  if (!wanted || !miss) return [];
  const within = wanted.within ?? WITHIN;
  const lines: string[] = [];
  if (miss.forward !== null && miss.aft !== null) {
    const hit = Math.abs(miss.forward) <= within && Math.abs(miss.aft) <= within;
    const off = `${offWords(miss.forward)} forward and ${offWords(miss.aft)} aft`;
    lines.push(
      hit
        ? `The marks wanted are met within ${within} cm: ${off}.`
        : `The marks wanted are missed: ${off}. ${miss.prevents ? `${miss.prevents.void} prevents it. ${miss.prevents.why}` : ''}`.trim(),
    );
  }
  if (miss.list !== null) lines.push(listLine(job, plan, miss.list));
  else if (wanted.upright && job.vessel?.list)
    lines.push('No list was wanted, and she lists now: what she lists with the ballast in can not be told.');
  const before = job.vessel && rollingOf(job.vessel)?.([]);
  if (miss.gm !== null && wanted.gm !== undefined)
    lines.push(wantedLine(`A GM of ${wanted.gm} m`, 'm', wanted.gm, miss.gm, before?.gm, GM_SHARE));
  if (miss.period !== null && wanted.period !== undefined)
    lines.push(
      wantedLine(`A roll of ${wanted.period} s`, 's', wanted.period, miss.period, before?.period, PERIOD_SHARE),
    );
  return lines;
}

/** What was wanted, what it comes to, and what she had before. */
function wantedLine(
  what: string,
  unit: string,
  wanted: number,
  miss: number,
  before: number | null | undefined,
  share: number,
): string {
  const met = Math.abs(miss) <= toleranceOf(wanted, before ?? wanted, share);
  const now = before === null || before === undefined ? '' : `, ${before.toFixed(2)} ${unit} before`;
  return `${what} was wanted: ${met ? 'met' : 'missed'}, ${(wanted + miss).toFixed(2)} ${unit}${now}.`;
}

function listLine(job: Job, plan: Plan, miss: number): string {
  const list = Math.abs(miss).toFixed(1);
  if (Math.abs(miss) <= UPRIGHT) return `No list was wanted: met, ${list}°.`;
  const ballast = [...weightsByVoid(job, plan).values()].flat();
  const against = againstUpright(job, ballast, effectOf(job.vessel!, weightsAboard(job, plan)));
  const she = `No list was wanted, and she lists ${list}° to ${miss > 0 ? 'starboard' : 'port'}`;
  return against ? `${she}. ${against}` : `${she}: ${listedBecause(job, plan, miss)}.`;
}

function offWords(cm: number): string {
  return `${Math.abs(cm).toFixed(1)} cm too ${cm > 0 ? 'deep' : 'high'}`;
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
 * Too far by the head: the weight must go aft, so the void that prevents it is the aftermost one abaft the centre of
 * flotation, which takes no more; the other way round too far by the stern.
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
  const bundles = [...byVoid.values()].flat().map((weight) => weight.mass);
  const lightest = Math.min(...bundles, cap);
  // A cap binds where not even the lightest bundle would still go under it.
  const why =
    best.mass + lightest > cap
      ? `It lies furthest ${end} and holds ${best.mass.toFixed(0)} kg of the ${cap} kg that it was allowed.`
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
