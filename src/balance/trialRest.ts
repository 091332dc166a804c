/**
 * Where the rest of a plan goes after the trial. What a weight w at (x, y) does to the marks and the list is linear in w,
 * w·x and w·y, so each bundle moves a point (down forward, down aft, list as a change of trim; cm) by a fixed step. Steps
 * are summed once for each void in loading order; a trial of some bundles more or less is then a sum of two or three.
 */
import type { Job, Vessel } from '../job/job.ts';
import { addedContents } from '../plan/contents.ts';
import type { Plan } from '../plan/plan.ts';
import { marksOf } from './float.ts';
import { hydrostaticsOf } from './hydrostatics.ts';
import { type Moments, sumMoments } from './moments.ts';
import { likelyMoment } from './present.ts';
import type { Range } from './range.ts';
import { weightsInOrder } from './trial.ts';

/** How far she is from what is wanted, cm: too deep at each end, and a list counted as the same moment of trim. */
export interface Miss {
  forward: number;
  aft: number;
  list: number;
}

/** Her marks read with so many bundles of each void in her, in loading order: how far they were from those wanted, cm too deep. */
export interface MarksRead {
  counts: ReadonlyMap<string, number>;
  forward: number;
  aft: number;
}

/** The most combinations that are tried one by one. */
const TRIES = 2000;
/** What is no nearer by more than this, cm², is no nearer. */
const NEARER = 1e-9;

/**
 * Which of the bundles not yet stowed to put in so that she comes nearest to `down` (cm at each end, counted from her own
 * figures: what lies in the voids beside them does its part), with no list, for which `besides` counts, the moment of what
 * lists her besides them, kg·m (the list stated of her, unless one was read since): a number of bundles for each void, in loading
 * order and never fewer than `stowed`. Where her marks were `read` with some of it in her, they are what is gone by, and only
 * what goes in or comes out after is reckoned. Exact where the combinations are few, else by steps in one or two voids until
 * nothing improves. Nothing is cut anew. Null where her hydrostatics are not known. Cost: a pass over the bundles, and for
 * each step the square of the number of voids.
 */
export function placeRest(
  job: Job,
  plan: Plan,
  vessel: Vessel,
  stowed: ReadonlyMap<string, number>,
  down: { forward: number; aft: number },
  besides: number = likelyMoment(vessel),
  read: MarksRead | null = null,
): { counts: Map<string, number>; forward: number; aft: number } | null {
  const moved = missBy(vessel);
  if (!moved) return null;
  const weights = weightsInOrder(job, plan);
  const names = [...stowed.keys()];
  const sums = names.map((name) => runningSums((weights.get(name) ?? []).map((weight) => moved(sumMoments([weight])))));
  const least = names.map((name, n) => Math.min(stowed.get(name)!, sums[n]!.length - 1));
  const contents = moved(sumMoments(addedContents(job)));
  const listing = moved({ mass: 0, alongMoment: 0, acrossMoment: besides, heightMoment: 0 });
  const forecast = add(add(contents, listing), { forward: -down.forward, aft: -down.aft, list: 0 });
  const start = read ? startFrom(read, forecast, names, sums) : forecast;
  const missed = (counts: number[]): Miss => counts.reduce((sum, count, n) => add(sum, sums[n]![count]!), start);
  const combinations = sums.reduce((product, own, n) => product * (own.length - least[n]!), 1);
  const best = combinations <= TRIES ? tryAll(least, sums, missed) : byTurns(least, sums, missed);
  const { forward, aft } = missed(best);
  return { counts: new Map(names.map((name, n) => [name, best[n]!])), forward, aft };
}

/** So that with what was in her then she is as far from the marks wanted as was read; her list stays as it is reckoned. */
function startFrom({ counts, forward, aft }: MarksRead, { list }: Miss, names: string[], sums: Miss[][]): Miss {
  const then = names.map((name, n) => sums[n]![Math.min(counts.get(name) ?? 0, sums[n]!.length - 1)]!);
  const placed = then.reduce(add, { forward: 0, aft: 0, list: 0 });
  return { forward: forward - placed.forward, aft: aft - placed.aft, list };
}

/** What moments change; null where her hydrostatics are not known. */
export function missBy(vessel: Vessel): ((moments: Moments) => Miss) | null {
  const hydro = hydrostaticsOf(vessel);
  const one = (mass: number, alongMoment: number) =>
    marksOf(hydro, { mass, alongMoment, acrossMoment: 0, heightMoment: 0 });
  const [byMass, byMoment] = [one(1, 0), one(0, 1)];
  if (byMass.kind !== 'answer' || byMoment.kind !== 'answer') return null;
  const trimPerCm = hydro.kgmPerCm!.likely;
  return ({ mass, alongMoment, acrossMoment }) => ({
    forward: mass * byMass.forward.likely + alongMoment * byMoment.forward.likely,
    aft: mass * byMass.aft.likely + alongMoment * byMoment.aft.likely,
    // A moment of list counts like the same moment of trim: nothing is gained at one by giving up the other.
    list: acrossMoment / trimPerCm,
  });
}

/** How her marks change by moments, cm, down positive; null where her hydrostatics are not known. */
export function marksAfter(vessel: Vessel, change: Moments): { forward: Range; aft: Range } | null {
  const marks = marksOf(hydrostaticsOf(vessel), change);
  return marks.kind === 'answer' ? marks : null;
}

/** What the first 0, 1, 2 … of the steps come to. */
function runningSums(steps: Miss[]): Miss[] {
  const sums: Miss[] = [{ forward: 0, aft: 0, list: 0 }];
  for (const step of steps) sums.push(add(sums.at(-1)!, step));
  return sums;
}

function add(p: Miss, q: Miss): Miss {
  return { forward: p.forward + q.forward, aft: p.aft + q.aft, list: p.list + q.list };
}

function less(p: Miss, q: Miss): Miss {
  return { forward: p.forward - q.forward, aft: p.aft - q.aft, list: p.list - q.list };
}

function scoreOf({ forward, aft, list }: Miss): number {
  return forward ** 2 + aft ** 2 + list ** 2;
}

function tryAll(least: number[], sums: Miss[][], missed: (counts: number[]) => Miss): number[] {
  let best = [...least];
  let bestScore = scoreOf(missed(best));
  const counts = [...least];
  for (;;) {
    let n = 0;
    while (n < counts.length && counts[n] === sums[n]!.length - 1) {
      counts[n] = least[n]!;
      n += 1;
    }
    if (n === counts.length) return best;
    counts[n]! += 1;
    const score = scoreOf(missed(counts));
    if (score < bestScore - NEARER) [best, bestScore] = [[...counts], score];
  }
}

/** One bundle more or less in the void of this index, and what that changes. */
interface Step {
  of: number;
  more: 1 | -1;
  change: Miss;
}

/** Changes one void or two at once, the best change first, until none is better: a pair keeps her upright. */
function byTurns(least: number[], sums: Miss[][], missed: (counts: number[]) => Miss): number[] {
  const counts = [...least];
  for (;;) {
    const here = missed(counts);
    const steps = stepsFrom(counts, least, sums);
    let best: Step[] = [];
    let bestScore = scoreOf(here) - NEARER;
    const tryThese = (made: Miss, these: Step[]) => {
      const score = scoreOf(made);
      if (score < bestScore) [best, bestScore] = [these, score - NEARER];
    };
    steps.forEach((first, i) => {
      const after = add(here, first.change);
      tryThese(after, [first]);
      for (const second of steps.slice(i + 1))
        if (second.of !== first.of) tryThese(add(after, second.change), [first, second]);
    });
    if (best.length === 0) return counts;
    for (const { of, more } of best) counts[of]! += more;
  }
}

function stepsFrom(counts: number[], least: number[], sums: Miss[][]): Step[] {
  return counts.flatMap((count, of): Step[] => {
    const own = sums[of]!;
    const put = count + 1 < own.length ? [{ of, more: 1 as const, change: less(own[count + 1]!, own[count]!) }] : [];
    const out = count > least[of]! ? [{ of, more: -1 as const, change: less(own[count - 1]!, own[count]!) }] : [];
    return [...put, ...out];
  });
}
