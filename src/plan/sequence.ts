/**
 * The order in which the bundles of all voids go aboard. Inside a void the plan's own order is kept, so that nothing is set
 * down before what carries it; of the bundles that are next in their voids, one of the lowest, that which leaves her most
 * upright. So a low bundle may wait for a higher one that comes before it in its void. A heuristic.
 *
 * The list on the way, with W her displacement, GM and KG as stated, w the mass at (x, y, z) of each bundle that is in:
 * list = Σw·y / (W·GM + Σw·(GM + KG − z)) radians, KM held as in the balance; without a stated KG the last sum is left
 * out, which tells of too much list rather than too little where bundles lie low. What counts as in from the start: what
 * lies in her voids already and her figures do not hold, and the list stated of her, a moment of W·GM·list; where none is
 * stated she is taken as upright before.
 */
import type { Job, Vessel } from '../job/job.ts';
import { type LaidVoid, layVoid, vesselPoint } from '../stow/laid.ts';
import { addedContents } from './contents.ts';
import type { Plan, PlanBundle } from './plan.ts';

export interface Loaded {
  bundle: PlanBundle;
  /** Mass in the vessel after this bundle, kg. */
  mass: number;
  /** Moment of all that is in about the centreline, kg·m, starboard positive; with what was in the voids before, and her own list. */
  moment: number;
  /** What she then lists, degrees, to starboard positive; null where displacement or GM is not stated. */
  list: number | null;
  /** 1 … 4 where this bundle completes that quarter of the mass: the time to read her marks. */
  quarter: number | null;
  /** True of the last bundle of those that go in first, where any are left after it. */
  lastOfFirst: boolean;
}

/** Bundles no more than this much higher than the lowest one waiting may go before it, m. */
export const LEVEL = 0.06;

const DEGREES = 180 / Math.PI;

interface Waiting {
  bundle: PlanBundle;
  y: number;
  z: number;
}

/** What is in her: kg, kg·m about the centreline, and kg·m of stiffness (righting moment for a radian), null where unknown. */
interface Aboard {
  mass: number;
  moment: number;
  stiffness: number | null;
}

type Stowed = Pick<Plan, 'bundles' | 'voids'>;

/**
 * `first` says of how many bundles of each void, in its order, all go in before any other: the fixed share of a trial.
 * `present` is the likely moment of the list stated of her, kg·m, for where stated figures do not give it.
 * Where `aims.listMost` is stated, a bundle that would pass it waits as long as any other can go in without passing it.
 */
export function loadingSequence(job: Job, plan: Stowed, first?: ReadonlyMap<string, number>, present = 0): Loaded[] {
  const queues = queuesOf(job, plan);
  if (!first) return load(job, plan, [queues], present);
  const before = queues.map((queue) => queue.slice(0, first.get(queue[0]?.bundle.void ?? '') ?? queue.length));
  const after = queues.map((queue, i) => queue.slice(before[i]!.length));
  return load(job, plan, [before, after], present);
}

/** What she lists before the first bundle goes in, degrees, to starboard positive; null where it is not known. */
export function listAtFirst(job: Job): number | null {
  return listOf(emptyOf(job, 0));
}

function load(job: Job, plan: Stowed, phases: Waiting[][][], present: number): Loaded[] {
  const total = plan.bundles.reduce((sum, bundle) => sum + bundle.mass, 0);
  const sequence: Loaded[] = [];
  let aboard = emptyOf(job, present);
  for (const queues of phases) {
    for (let next = nextOf(queues, aboard, job); next; next = nextOf(queues, aboard, job)) {
      const quarters = Math.floor((4 * aboard.mass) / total + 1e-9);
      aboard = withBundle(aboard, next, job.vessel);
      const { mass, moment } = aboard;
      const isLast = sequence.length === plan.bundles.length - 1;
      const now = isLast ? 4 : Math.min(3, Math.floor((4 * mass) / total + 1e-9));
      const quarter = now > quarters ? now : null;
      sequence.push({ bundle: next.bundle, mass, moment, list: listOf(aboard), quarter, lastOfFirst: false });
    }
    const last = sequence.at(-1);
    if (last && sequence.length < plan.bundles.length) last.lastOfFirst = true;
  }
  return sequence;
}

function emptyOf(job: Job, present: number): Aboard {
  const { displacement, gm } = job.vessel ?? {};
  const stiffness = displacement === undefined || !gm || gm <= 0 ? null : displacement * gm;
  const contents = addedContents(job);
  const listed = stiffness === null ? present : (stiffness * (job.vessel?.list ?? 0)) / DEGREES;
  const aboard = contents.reduce((sum, content) => withWeight(sum, content, job.vessel), {
    mass: 0,
    moment: listed,
    stiffness,
  });
  return { ...aboard, mass: 0 };
}

function withBundle(aboard: Aboard, { bundle, y, z }: Waiting, vessel: Vessel | undefined): Aboard {
  return withWeight(aboard, { mass: bundle.mass, y, z }, vessel);
}

function withWeight(
  { mass, moment, stiffness }: Aboard,
  weight: { mass: number; y: number; z: number },
  vessel: Vessel | undefined,
): Aboard {
  const { gm, vcg } = vessel ?? {};
  const more = gm === undefined || vcg === undefined ? 0 : weight.mass * (gm + vcg - weight.z);
  return {
    mass: mass + weight.mass,
    moment: moment + weight.mass * weight.y,
    stiffness: stiffness === null ? null : stiffness + more,
  };
}

/** Degrees, to starboard positive; null where it is not known, or she would not stand up at all. */
function listOf({ moment, stiffness }: Aboard): number | null {
  return stiffness === null || stiffness <= 0 ? null : (DEGREES * moment) / stiffness;
}

/**
 * Takes the next bundle from its queue: of those near the lowest that wait, the one that leaves her most upright; where
 * all of them would list her too far, the lowest of any that would not, else whichever leaves her most upright.
 */
function nextOf(queues: Waiting[][], aboard: Aboard, job: Job): Waiting | undefined {
  const waiting = queues.filter((queue) => queue.length > 0);
  if (waiting.length === 0) return undefined;
  const lowest = Math.min(...waiting.map((queue) => queue[0]!.z));
  const level = waiting.filter((queue) => queue[0]!.z <= lowest + LEVEL);
  const upright = mostUpright(level, aboard);
  const most = job.aims.listMost;
  const within = (queue: Waiting[]): boolean =>
    most === undefined || Math.abs(listOf(withBundle(aboard, queue[0]!, job.vessel)) ?? 0) <= most;
  if (within(upright)) return upright.shift();
  const others = waiting.filter(within);
  if (others.length === 0) return mostUpright(waiting, aboard).shift();
  return others.reduce((best, queue) => (queue[0]!.z < best[0]!.z ? queue : best)).shift();
}

function mostUpright(queues: Waiting[][], { moment }: Aboard): Waiting[] {
  const after = ([next]: Waiting[]): number => Math.abs(moment + next!.bundle.mass * next!.y);
  return queues.reduce((best, queue) => (after(queue) < after(best) ? queue : best));
}

/** The bundles of each void in their order, with the place of their middles in the vessel, m. */
function queuesOf(job: Job, plan: Stowed): Waiting[][] {
  return job.voids.map((space) => {
    const ways = layVoid(space);
    const axis = plan.voids.find((entry) => entry.void === space.void)?.axis;
    const laid = ways.find((way) => way.axis === axis) ?? ways[0]!;
    return plan.bundles
      .filter((bundle) => bundle.void === space.void)
      .sort((p, q) => p.order - q.order)
      .map((bundle) => ({ bundle, ...middleOf(laid, bundle) }));
  });
}

function middleOf(laid: LaidVoid, bundle: PlanBundle): { y: number; z: number } {
  const { at, size } = bundle;
  return vesselPoint(laid, at.along + size.along / 2, at.across + size.across / 2, at.up + size.up / 2);
}
