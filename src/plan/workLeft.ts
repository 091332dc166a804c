/**
 * What is left of a job once some of its bundles are stowed as planned, or some of its bars cut: a job of its own, so that what was wrong in it can
 * be put right and the rest planned anew round what stands.
 */
import type { Job, JobInput, Void } from '../job/job.ts';
import { LEAST_BALLAST } from '../job/jobFaults.ts';
import { CENTRE } from '../job/wrongUnit.ts';
import { jobSince, massesSince } from './jobSince.ts';
import type { WeighedMasses } from './massNow.ts';
import { isAnyCut, pileLeft, type Sawn } from './pileLeft.ts';
import type { Plan, PlanBundle } from './plan.ts';
import { overHeight, type Point, type Standing, standingOf, standsAs, stretchesKept, toHundredth } from './standing.ts';

export interface Done extends Sawn {
  /** Marks of the bundles that are in. A run of which one is in stands as a whole: what lacks of it is stowed by this plan. */
  stowed: ReadonlySet<string>;
  /** Marks of bundles that are tied and not in yet, and go in by this plan all the same: each with its whole run. */
  kept?: ReadonlySet<string>;
  /** Marks of bundles that are bent, dropped or lost: their pieces are cut, and steel no more. They are neither in nor kept. */
  lost?: ReadonlySet<string>;
  /** Voids whose begun runs are not finished: they stand as they are, and what lacks of them is left. */
  unfinished: ReadonlySet<string>;
  /** kg off the scale, by bundle, where that is known. */
  weighed: WeighedMasses;
  /** The job as it stands now, where it was corrected since it was planned: what was changed in it comes along. */
  now?: Job;
}

/** Where no more than this share of the ballast is left, no place is asked of it. */
const LEAST_REST = 0.02;

/**
 * The job of what is left; null where nothing is stowed, cut, lost or found otherwise, or no steel is left.
 *
 * - what was changed in the job since it was planned comes along, where that is given: see `jobSince`, `massesSince`;
 * - pile: see `pileLeft`;
 * - voids: those whose runs all stand take nothing more, and hold a weight where the plan has their centre; those of which
 *   some runs stand keep off the stretches of these, with the weight of each, and take what is left of their caps;
 * - aims: `ballast`, `centre` and `spread` are what the rest must come to, so that the whole comes to what was asked; where
 *   hardly anything is left no place is asked of it.
 */
export function workLeft(job: Job, planned: Plan, done: Done): JobInput | null {
  const { now = job, kept = NONE, lost = NONE } = done;
  const plan = withoutLost(planned, lost);
  const since = jobSince(job, now, plan, new Set([...done.stowed, ...kept]));
  const weighed = massesSince(job, now, plan, done.weighed);
  const standing = standingOf(since, plan, done.stowed, weighed, done.unfinished, kept);
  const stowed = new Set(standing.flatMap(({ bundles }) => bundles.map(({ bundle }) => bundle)));
  const runs = standing.flatMap((own) => own.runs);
  const marksOf = (bundles: PlanBundle[]) => new Set(bundles.map(({ bundle }) => bundle));
  const lacking = marksOf(runs.flatMap((run) => run.lacking));
  const tied = marksOf(runs.flatMap((run) => (run.isKept ? run.bundles : [])));
  const gone = new Set([...stowed, ...lost]);
  const pile = pileLeft(job, planned, gone, { ...done, lacking, tied }, now);
  const isBegun = standing.length > 0 || lost.size > 0 || done.found.size > 0 || isAnyCut(planned, stowed, done.cut);
  if (!isBegun || pile.length === 0) return null;
  const mass = standing.reduce((sum, own) => sum + own.mass, 0);
  const names = new Set(since.voids.map((stated) => stated.void));
  return {
    ...since,
    name: nameLeft(since.name),
    pile,
    voids: since.voids.map((stated) => {
      const own = standing.find((one) => one.void === stated.void);
      if (!own) return stated;
      return own.isWhole ? asStowed(stated, own, done.by) : stretchesKept(stated, plan, own, names, done.by);
    }),
    aims: aimsLeft(since, planned, standing, mass),
  };
}

const NONE: ReadonlySet<string> = new Set();

/** The plan as what stands is told by it, had it never had these bundles. */
export function withoutLost(plan: Plan, lost: ReadonlySet<string>): Plan {
  if (lost.size === 0) return plan;
  const lacks = new Set(plan.bundles.flatMap((own) => (lost.has(own.bundle) ? [own.void] : [])));
  return {
    ...plan,
    bundles: plan.bundles.filter(({ bundle }) => !lost.has(bundle)),
    voids: plan.voids.map((told) => (lacks.has(told.void) ? { ...told, centre: null } : told)),
  };
}

/** How the name of a job of what is left ends. */
const LEFT = /, what is left( \d+)?$/;

/** `Bogbean, what is left`, and of what is left of that `Bogbean, what is left 2`. */
function nameLeft(name: string): string {
  const [end, number] = LEFT.exec(name) ?? [''];
  const base = name.slice(0, name.length - end.length).slice(0, 180);
  return `${base}, what is left${end === '' ? '' : ` ${Number(number ?? 1) + 1}`}`;
}

/** A void that takes nothing more, what is stowed in it as a weight where its centre is. */
function asStowed(stated: Void, { mass, centre, runs, bundles }: Standing, by: string): Void {
  const { target: _, ...rest } = stated;
  const { x, y, z } = stated.origin;
  const [forward, starboard] = [(centre.x - x) * 1000, (centre.y - y) * 1000];
  const [along, across] = stated.axis === 'athwartships' ? [starboard, forward] : [forward, starboard];
  const weight = {
    what:
      standsAs(
        `bundles of ${by}`,
        bundles,
        runs.flatMap(({ lacking }) => lacking),
        runs.flatMap(({ leftOut }) => leftOut),
      ) + overHeight(stated.height, bundles),
    along: about(along, Math.min(along, stated.length - along)),
    across: about(across, stated.width / 2 - Math.abs(across)),
    up: about((centre.z - z) * 1000, Math.min((centre.z - z) * 1000, stated.height - (centre.z - z) * 1000)),
    access: false,
    mass: toHundredth(mass),
    bears: true,
  };
  return { ...rest, most: 0, keepOut: [...stated.keepOut, weight] };
}

/** So much to either side, a millimetre at least. */
function about(middle: number, half: number): [number, number] {
  const side = Math.max(1, half);
  return [toHundredth(middle - side), toHundredth(middle + side)];
}

/** What the rest must come to where all together must come to the aims; ranges as for the ballast asked for, or as planned. */
function aimsLeft({ aims, vessel }: Job, plan: Plan, standing: Standing[], mass: number): Job['aims'] {
  if (standing.length === 0) return aims;
  const { ballast, centre, spread } = aims;
  const all = ballast ?? plan.voids.reduce((sum, told) => sum + told.mass, 0);
  const rest = all - mass;
  const asked = rest < LEAST_BALLAST ? 0 : toHundredth(rest);
  const left = { ...aims, ...(ballast !== undefined && { ballast: asked }) };
  // So little can not bring the whole to a place, and would be asked to lie far outside her.
  if (rest < LEAST_REST * all) return { ...left, centre: undefined, spread: undefined };
  const sumOf = (of: (at: Point) => number) => standing.reduce((sum, own) => sum + own.mass * of(own.centre), 0);
  const shifted = (axis: keyof Point): [number, number] | undefined => {
    const range = centre?.[axis];
    if (!range) return undefined;
    const moment = sumOf((at) => at[axis]);
    const [least, most] = [(range[0] * all - moment) / rest, (range[1] * all - moment) / rest];
    // No vessel reaches there: a job that asked for it would be refused.
    if (Math.max(-least, most) > CENTRE[axis].greatest) return undefined;
    return [toTenthOfMm(least), toTenthOfMm(most)];
  };
  const lcf = vessel?.lcf ?? 0;
  const squares = spread === undefined ? 0 : (spread ** 2 * all - sumOf(({ x }) => (x - lcf) ** 2)) / rest;
  return {
    ...left,
    ...(centre && { centre: { x: shifted('x'), y: shifted('y'), z: shifted('z') } }),
    ...(spread !== undefined && { spread: toTenthOfMm(Math.sqrt(Math.max(squares, 1e-4))) }),
  };
}

/** A place or distance in m. */
function toTenthOfMm(metres: number): number {
  return Math.round(metres * 10_000) / 10_000;
}
