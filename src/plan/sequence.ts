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
}

/** Bundles no more than this much higher than the lowest one waiting may go before it, m. */
const LEVEL = 0.06;

interface Waiting {
  bundle: PlanBundle;
  y: number;
  z: number;
}

export function loadingSequence(job: Job, plan: Plan): Loaded[] {
  const queues = queuesOf(job, plan);
  const total = plan.bundles.reduce((sum, bundle) => sum + bundle.mass, 0);
  const sequence: Loaded[] = [];
  let mass = 0;
  let moment = 0;
  for (let n = 0; n < plan.bundles.length; n += 1) {
    const next = queues.filter((queue) => queue.length > 0);
    const lowest = Math.min(...next.map((queue) => queue[0]!.z));
    const level = next.filter((queue) => queue[0]!.z <= lowest + LEVEL);
    const chosen = level.reduce((best, queue) => (listAfter(queue, moment) < listAfter(best, moment) ? queue : best));
    const { bundle, y } = chosen.shift()!;
    const before = Math.floor((4 * mass) / total + 1e-9);
    mass += bundle.mass;
    moment += bundle.mass * y;
    const after = n === plan.bundles.length - 1 ? 4 : Math.min(3, Math.floor((4 * mass) / total + 1e-9));
    sequence.push({ bundle, mass, moment, quarter: after > before ? after : null });
  }
  return sequence;
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
