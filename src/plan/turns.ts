/**
 * Which void is next, bundle by bundle, while all voids are loaded, each in its own order: of the bundles that wait at the
 * heads of their queues one of the lowest, that which leaves her most upright. So a low bundle may wait for a higher one
 * that comes before it in its void, and what lies over another queue waits until that one is in. A heuristic.
 *
 * Where she may list so much at most and this passes it, other turns are tried, those that it likes best first, until one
 * never passes it. No stand (so many gone from each queue) is gone on from twice, since what she lists then does not hang
 * on the way there: an order that keeps the most is found wherever there is one, as far as {@link STANDS} go.
 */

import type { Job } from '../job/job.ts';
import { type Aboard, listOf, type Placed, withWeight } from './aboard.ts';

/** Bundles no more than this much higher than the lowest one waiting may go before it, m. */
export const LEVEL = 0.06;

/** Stands gone on from before the search for an order that keeps the most list is given up. */
const STANDS = 20_000;

/** The order in which all of the queues go in, and what is aboard after each. */
export interface Turn<T extends Placed> {
  next: T;
  aboard: Aboard;
}

/** Queues that go in by turns, each in its own order. */
export interface Queues<T extends Placed> {
  queues: readonly T[][];
  /** Of each queue, the numbers of those that must be in before any of it; none waits for itself, round about either. */
  under: readonly (readonly number[])[];
}

export function takeTurns<T extends Placed>(queues: Queues<T>, aboard: Aboard, job: Job): Turn<T>[] {
  const most = job.aims.listMost;
  const turns = takeUpright(queues, aboard, job);
  const passes = ({ aboard: then }: Turn<T>): boolean => most !== undefined && Math.abs(listOf(then) ?? 0) > most;
  // What she lists once all are in is the same in every order: where that passes the most, none keeps it.
  const last = turns.at(-1);
  if (!last || passes(last) || !turns.some(passes)) return turns;
  return takeWithin(queues, aboard, job, passes) ?? turns;
}

function takeUpright<T extends Placed>(all: Queues<T>, start: Aboard, job: Job): Turn<T>[] {
  const turns: Turn<T>[] = [];
  const gone = all.queues.map(() => 0);
  let aboard = start;
  for (let at = nextOf(all, gone, aboard, job); at !== null; at = nextOf(all, gone, aboard, job)) {
    const next = all.queues[at]![gone[at]!]!;
    gone[at]! += 1;
    aboard = withWeight(aboard, next, job.vessel);
    turns.push({ next, aboard });
  }
  return turns;
}

/**
 * The queue to take from: of those whose heads are near the lowest the one that leaves her most upright; where all of them
 * would list her too far, the lowest of any that would not, else whichever leaves her most upright. Null where all are gone.
 */
function nextOf<T extends Placed>(all: Queues<T>, gone: readonly number[], aboard: Aboard, job: Job): number | null {
  const waiting = headsOf(all, gone, aboard, job);
  if (waiting.length === 0) return null;
  const level = levelOf(waiting);
  const upright = mostUpright(level);
  const most = job.aims.listMost;
  const within = ({ list }: Head): boolean => most === undefined || Math.abs(list ?? 0) <= most;
  if (within(upright)) return upright.queue;
  const others = waiting.filter(within);
  if (others.length === 0) return mostUpright(waiting).queue;
  return others.reduce((best, head) => (head.z < best.z ? head : best)).queue;
}

/** The head of a queue: its height, and what she does once it is in. */
interface Head {
  queue: number;
  z: number;
  moment: number;
  list: number | null;
}

function headsOf<T extends Placed>(
  { queues, under }: Queues<T>,
  gone: readonly number[],
  aboard: Aboard,
  job: Job,
): Head[] {
  const isIn = (n: number): boolean => gone[n]! >= queues[n]!.length;
  return queues.flatMap((queue, n) => {
    const next = queue[gone[n]!];
    if (!next || !(under[n] ?? []).every(isIn)) return [];
    const { moment, stiffness } = withWeight(aboard, next, job.vessel);
    return [{ queue: n, z: next.z, moment: Math.abs(moment), list: listOf({ moment, stiffness }) }];
  });
}

function levelOf(waiting: readonly Head[]): Head[] {
  const lowest = Math.min(...waiting.map(({ z }) => z));
  return waiting.filter(({ z }) => z <= lowest + LEVEL);
}

function mostUpright(heads: readonly Head[]): Head {
  return heads.reduce((best, head) => (head.moment < best.moment ? head : best));
}

/** An order after each of which nothing `passes`; null where there is none, or none was found. */
function takeWithin<T extends Placed>(
  all: Queues<T>,
  start: Aboard,
  job: Job,
  passes: (turn: Turn<T>) => boolean,
): Turn<T>[] | null {
  const { queues } = all;
  const gone = queues.map(() => 0);
  const count = queues.reduce((sum, queue) => sum + queue.length, 0);
  const turns: Turn<T>[] = [];
  const taken: number[] = [];
  const dead = new Set<string>();
  const openOf = (aboard: Aboard): number[] => likedOf(headsOf(all, gone, aboard, job));
  const open: number[][] = [openOf(start)];
  while (turns.length < count) {
    const queue = open.at(-1)!.shift();
    if (queue === undefined) {
      dead.add(gone.join());
      const back = taken.pop();
      if (back === undefined || dead.size >= STANDS) return null;
      gone[back]! -= 1;
      open.pop();
      turns.pop();
      continue;
    }
    const next = queues[queue]![gone[queue]!]!;
    const turn = { next, aboard: withWeight(turns.at(-1)?.aboard ?? start, next, job.vessel) };
    if (passes(turn)) continue;
    gone[queue]! += 1;
    if (dead.has(gone.join())) {
      gone[queue]! -= 1;
      continue;
    }
    turns.push(turn);
    taken.push(queue);
    open.push(openOf(turn.aboard));
  }
  return turns;
}

/** Queues, those near the lowest from the most upright on, then the others from the lowest on. */
function likedOf(waiting: readonly Head[]): number[] {
  const level = new Set(waiting.length === 0 ? [] : levelOf(waiting));
  const far = (head: Head): number => (level.has(head) ? 0 : 1);
  return [...waiting]
    .sort((p, q) => far(p) - far(q) || (level.has(p) ? p.moment - q.moment : p.z - q.z))
    .map(({ queue }) => queue);
}
