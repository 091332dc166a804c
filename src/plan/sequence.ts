/**
 * The order in which the bundles of all voids go aboard. Inside a void the plan's own order is kept, so that nothing is set
 * down before what carries it, and a void that lies over another waits until that one is full; over all voids they take
 * turns (`turns.ts`), low first and she upright.
 */
import type { Job } from '../job/job.ts';
import { layVoid, middlePoint } from '../stow/laid.ts';
import { type Aboard, emptyOf, listOf, type Placed, withWeight } from './aboard.ts';
import { massNow, type WeighedMasses } from './massNow.ts';
import { voidsUnder } from './overVoids.ts';
import type { Plan, PlanBundle } from './plan.ts';
import { takeTurns } from './turns.ts';

export interface Loaded {
  bundle: PlanBundle;
  /** Mass of bundles in the vessel after this one, kg. */
  mass: number;
  /** Moment of all that is in about the centreline, kg·m, starboard positive; with what was in the voids before, and her own list. */
  moment: number;
  /** What she then lists, degrees, to starboard positive; null where displacement or GM is not stated. */
  list: number | null;
  /** 1 … 4 where this bundle completes that quarter of the mass that goes in: the time to read her marks. */
  quarter: number | null;
  /** True of the last bundle of those that go in first, where any are left after it. */
  lastOfFirst: boolean;
}

interface Waiting extends Placed {
  bundle: PlanBundle;
}

type Stowed = Pick<Plan, 'bundles' | 'voids'>;

export interface LoadingOptions {
  /** Of how many bundles of each void, in its order, all go in before any other: the fixed share of a trial. */
  first?: ReadonlyMap<string, number>;
  /** The likely moment of the list stated of her, kg·m, for where stated figures do not give it. */
  present?: number;
  /** What is in already and stays. */
  standing?: readonly PlanBundle[];
}

/** All bundles of `plan`. Where `aims.listMost` is stated, she never lists more on the way where another order keeps it. */
export function loadingSequence(job: Job, plan: Stowed, options: LoadingOptions = {}): Loaded[] {
  const { first } = options;
  const queues = queuesOf(job, plan, plan.bundles);
  const start = aboardBefore(job, plan, options);
  if (!first) return load(job, plan, [queues], start);
  const before = queues.map((queue) => queue.slice(0, first.get(queue[0]?.bundle.void ?? '') ?? queue.length));
  const after = queues.map((queue, i) => queue.slice(before[i]!.length));
  return load(job, plan, [before, after], start);
}

/**
 * The same sequence with what its bundles weigh now: what is in her, its moment, her list. Order and quarters stay those
 * planned, so that what was printed before a bundle was weighed numbers it as what is printed after.
 */
export function sequenceNow(
  job: Job,
  plan: Stowed,
  sequence: readonly Loaded[],
  weighed: WeighedMasses,
  options: LoadingOptions = {},
): Loaded[] {
  const placed = new Map(
    queuesOf(job, plan, plan.bundles)
      .flat()
      .map((one) => [one.bundle.bundle, one]),
  );
  let aboard = aboardBefore(job, plan, options);
  return sequence.map((step) => {
    const bundle = { ...step.bundle, mass: massNow(step.bundle, weighed) };
    aboard = withWeight(aboard, { ...placed.get(bundle.bundle)!, mass: bundle.mass }, job.vessel);
    return { ...step, bundle, mass: aboard.mass, moment: aboard.moment, list: listOf(aboard) };
  });
}

/** What is aboard before the first bundle of a sequence goes in. */
export function aboardBefore(
  job: Job,
  plan: Pick<Plan, 'voids'>,
  { present = 0, standing = [] }: LoadingOptions,
): Aboard {
  return queuesOf(job, plan, standing)
    .flat()
    .reduce((sum, bundle) => withWeight(sum, bundle, job.vessel), emptyOf(job, present));
}

/** What she lists before the first bundle goes in, degrees, to starboard positive; null where it is not known. */
export function listAtFirst(job: Job): number | null {
  return listOf(emptyOf(job, 0));
}

function load(job: Job, plan: Stowed, phases: Waiting[][][], start: Aboard): Loaded[] {
  const total = plan.bundles.reduce((sum, bundle) => sum + bundle.mass, 0);
  const quartersAt = (mass: number): number => Math.floor((4 * (mass - start.mass)) / total + 1e-9);
  const lower = voidsUnder(job, plan);
  const numbers = new Map(job.voids.map((space, n) => [space.void, n]));
  const under = job.voids.map((space) => (lower.get(space.void) ?? []).map((name) => numbers.get(name)!));
  const sequence: Loaded[] = [];
  let aboard = start;
  for (const queues of phases) {
    for (const turn of takeTurns({ queues, under }, aboard, job)) {
      const quarters = quartersAt(aboard.mass);
      aboard = turn.aboard;
      const { mass, moment } = aboard;
      const isLast = sequence.length === plan.bundles.length - 1;
      const now = isLast ? 4 : Math.min(3, quartersAt(mass));
      const quarter = now > quarters ? now : null;
      sequence.push({ bundle: turn.next.bundle, mass, moment, list: listOf(aboard), quarter, lastOfFirst: false });
    }
    const last = sequence.at(-1);
    if (last && sequence.length < plan.bundles.length) last.lastOfFirst = true;
  }
  return sequence;
}

/** The bundles of each void in their order, with the place of their middles in the vessel, m. */
function queuesOf(job: Job, plan: Pick<Plan, 'voids'>, bundles: readonly PlanBundle[]): Waiting[][] {
  return job.voids.map((space) => {
    const ways = layVoid(space);
    const axis = plan.voids.find((entry) => entry.void === space.void)?.axis;
    const laid = ways.find((way) => way.axis === axis) ?? ways[0]!;
    return bundles
      .filter((bundle) => bundle.void === space.void)
      .sort((p, q) => p.order - q.order)
      .map((bundle) => {
        const { y, z } = middlePoint(laid, bundle);
        return { bundle, mass: bundle.mass, y, z };
      });
  });
}
