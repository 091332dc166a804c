/**
 * The order in which the bundles of all voids go aboard: lowest first, port and starboard turn about, so that she does not
 * list on the way. A heuristic; inside a void the plan's own order is kept, so that nothing is set down before what
 * carries it.
 */
import type { Job } from '../job/job.ts';
import { type LaidVoid, layVoid, vesselPoint } from '../stow/laid.ts';
import type { Plan, PlanBundle } from './plan.ts';

export interface Loaded {
  bundle: PlanBundle;
  /** Mass in the vessel after this bundle, kg. */
  mass: number;
  /** Moment of all that is in about the centreline, kg·m, starboard positive. */
  moment: number;
  /** 1 … 4 where this bundle completes that quarter of the mass: the time to read her marks. */
  quarter: number | null;
  /** True of the last bundle of those that go in first, where any are left after it. */
  lastOfFirst: boolean;
}

/** Bundles no more than this much higher than the lowest one waiting may go before it, m. */
const LEVEL = 0.06;

interface Waiting {
  bundle: PlanBundle;
  y: number;
  z: number;
}

/** `first` says of how many bundles of each void, in its order, all go in before any other: the fixed share of a trial. */
export function loadingSequence(job: Job, plan: Plan, first?: ReadonlyMap<string, number>): Loaded[] {
  const queues = queuesOf(job, plan);
  if (!first) return load(plan, [queues]);
  const before = queues.map((queue) => queue.slice(0, first.get(queue[0]?.bundle.void ?? '') ?? queue.length));
  const after = queues.map((queue, i) => queue.slice(before[i]!.length));
  return load(plan, [before, after]);
}

function load(plan: Plan, phases: Waiting[][][]): Loaded[] {
  const total = plan.bundles.reduce((sum, bundle) => sum + bundle.mass, 0);
  const sequence: Loaded[] = [];
  let mass = 0;
  let moment = 0;
  for (const queues of phases) {
    for (let next = nextOf(queues, moment); next; next = nextOf(queues, moment)) {
      const quarters = Math.floor((4 * mass) / total + 1e-9);
      mass += next.bundle.mass;
      moment += next.bundle.mass * next.y;
      const isLast = sequence.length === plan.bundles.length - 1;
      const now = isLast ? 4 : Math.min(3, Math.floor((4 * mass) / total + 1e-9));
      const quarter = now > quarters ? now : null;
      sequence.push({ bundle: next.bundle, mass, moment, quarter, lastOfFirst: false });
    }
    const last = sequence.at(-1);
    if (last && sequence.length < plan.bundles.length) last.lastOfFirst = true;
  }
  return sequence;
}

/** Takes the next bundle from its queue: of those near the lowest that wait, the one that leaves her most upright. */
function nextOf(queues: Waiting[][], moment: number): Waiting | undefined {
  const waiting = queues.filter((queue) => queue.length > 0);
  if (waiting.length === 0) return undefined;
  const lowest = Math.min(...waiting.map((queue) => queue[0]!.z));
  const level = waiting.filter((queue) => queue[0]!.z <= lowest + LEVEL);
  return level.reduce((best, queue) => (listAfter(queue, moment) < listAfter(best, moment) ? queue : best)).shift();
}

function listAfter(queue: Waiting[], moment: number): number {
  const { bundle, y } = queue[0]!;
  return Math.abs(moment + bundle.mass * y);
}

/** The bundles of each void in their order, with the place of their middles in the vessel, m. */
function queuesOf(job: Job, plan: Plan): Waiting[][] {
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
