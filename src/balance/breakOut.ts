/**
 * Getting bundles out to look at the hull, and back: over all voids or some, and how she floats on the way. They come out
 * in the opposite order to that in which they would go in by the loading sequence with what stays in her from the start:
 * low last, she upright, and what she does at each stand (her list, her marks) is the same on the way out and back. Nothing
 * comes out before what lies on it. It hangs on what is in or out by the record together, so that it stays the same from
 * the first bundle out to the last one back.
 */
import type { Job } from '../job/job.ts';
import { listOf } from '../plan/aboard.ts';
import { addedContents } from '../plan/contents.ts';
import { atMassNow, type WeighedMasses } from '../plan/massNow.ts';
import { voidsUnder } from '../plan/overVoids.ts';
import type { Plan, PlanBundle } from '../plan/plan.ts';
import { type Recorded, recordIn } from '../plan/record.ts';
import { aboardBefore, loadingSequence } from '../plan/sequence.ts';
import { type Weight, weightsByVoid } from './moments.ts';
import { likelyMoment } from './present.ts';
import { meanwhileOf } from './telling.ts';

export interface OutStep {
  /** Its mass is that off the scale where it was weighed. */
  bundle: PlanBundle;
  /** By the record it is out already. */
  isOut: boolean;
  /** Mass of bundles that is left in her when it and all before it are out, kg. */
  left: number;
  /** Moment of all that is then in about the centreline, kg·m, starboard positive. */
  moment: number;
  /** What she then lists, degrees, to starboard positive; null where displacement or GM is not stated. */
  list: number | null;
  /** 1 … 4 where with it that quarter of the mass is out: the time to read her marks. */
  quarter: number | null;
  /** How she floats at that quarter, in a sentence; null at any other step, and where nothing is stated of her. */
  floats: string | null;
  /** Nothing comes out of its void before it. */
  opens: boolean;
  /** Nothing is left in its void after it: of a void all that is in comes out, or nothing. */
  empties: boolean;
}

export interface BreakOut {
  /** The first to come out first; back they go from the last to the first. */
  steps: OutStep[];
  /** kg */
  mass: number;
  /** The greatest list on the way, before the first and after the last among it, without its side; null where not known. */
  listGreatest: number | null;
  /** Voids that stay as they are over some of which bundles come out: those may bar the way. */
  barred: { upper: string; lower: string[] }[];
  /** Marks of what is out although something before it is in: while it is so, what is told of the way is not hers. */
  outOfTurn: string[];
}

/** Of all that is in or out by the record; of `voids` alone where they are named. `weighed` are kg off the scale by bundle. */
export function breakOutOf(
  job: Job,
  plan: Plan,
  record: Recorded,
  weighed: WeighedMasses,
  voids?: readonly string[],
): BreakOut {
  const stateOf = (one: PlanBundle) => recordIn(record, one.bundle).state;
  const bundles = atMassNow(plan.bundles, weighed);
  const isMoved = (one: PlanBundle): boolean => stateOf(one) !== 'not in' && (voids?.includes(one.void) ?? true);
  const moved = { ...plan, bundles: bundles.filter(isMoved) };
  const standing = bundles.filter((one) => stateOf(one) === 'in' && !isMoved(one));
  const present = job.vessel ? likelyMoment(job.vessel) : 0;
  const emptied = aboardBefore(job, plan, { present, standing });
  const mass = moved.bundles.reduce((sum, one) => sum + one.mass, 0);
  const going = loadingSequence(job, moved, { present, standing });
  // What she does after each of them is out is what she did before it went in.
  const stands = [{ ...emptied, list: listOf(emptied) }, ...going].reverse();
  const quarterAt = (left: number, isLast: boolean): number =>
    isLast ? 4 : Math.min(3, Math.floor((4 * (mass - left + emptied.mass)) / mass + 1e-9));
  const floats = floating(job, plan, standing, moved.bundles);
  const order = going.map(({ bundle }) => bundle).reverse();
  const ends = new Map(order.map((one, i) => [one.void, i]));
  const opened = new Set<string>();
  const steps = order.map((bundle, i): OutStep => {
    const [before, after] = [stands[i]!, stands[i + 1]!];
    const now = quarterAt(after.mass, i === order.length - 1);
    const quarter = now > quarterAt(before.mass, false) ? now : null;
    const opens = !opened.has(bundle.void);
    opened.add(bundle.void);
    return {
      bundle,
      isOut: stateOf(bundle) === 'out',
      left: after.mass,
      moment: after.moment,
      list: after.list,
      quarter,
      floats: quarter === null ? null : floats(order.slice(0, i + 1)),
      opens,
      empties: ends.get(bundle.void) === i,
    };
  });
  const lists = stands.flatMap(({ list }) => (list === null ? [] : [Math.abs(list)]));
  return {
    steps,
    mass,
    listGreatest: lists.length === 0 ? null : lists.reduce((p, q) => Math.max(p, q)),
    barred: barredOf(job, plan, standing, moved.bundles),
    outOfTurn: outOfTurn(steps),
  };
}

function outOfTurn(steps: readonly OutStep[]): string[] {
  const first = steps.findIndex(({ isOut }) => !isOut);
  return first < 0 ? [] : steps.slice(first).flatMap(({ isOut, bundle }) => (isOut ? [bundle.bundle] : []));
}

/** How she floats once some of `moved` are out, in a sentence. */
function floating(job: Job, plan: Plan, standing: readonly PlanBundle[], moved: readonly PlanBundle[]) {
  const { vessel } = job;
  const weightsOf = (bundles: PlanBundle[]): Weight[] => [...weightsByVoid(job, { ...plan, bundles }).values()].flat();
  return (out: readonly PlanBundle[]): string | null => {
    if (!vessel) return null;
    const gone = new Set(out);
    const left = [...standing, ...moved.filter((one) => !gone.has(one))];
    const taken = weightsOf([...out]).map((weight) => ({ ...weight, mass: -weight.mass }));
    return meanwhileOf(vessel, [...weightsOf(left), ...addedContents(job)], taken);
  };
}

/** Where bundles of an upper void stay in while some of one under it come out or go in. */
export function barredOf(
  job: Job,
  plan: Plan,
  standing: readonly PlanBundle[],
  moved: readonly PlanBundle[],
): BreakOut['barred'] {
  const opened = new Set(moved.map((one) => one.void));
  const stay = new Set(standing.map((one) => one.void));
  return [...voidsUnder(job, { ...plan, bundles: [...standing, ...moved] })].flatMap(([upper, under]) => {
    const lower = under.filter((name) => opened.has(name));
    return stay.has(upper) && lower.length > 0 ? [{ upper, lower }] : [];
  });
}
