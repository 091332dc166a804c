/**
 * The fixed share and the trial: most of the plan is stowed, she goes afloat, marks are read and the roll is timed; the
 * forecast is compared, her figures are corrected, and the rest is placed by what was read.
 */
import type { Job, Vessel } from '../job/job.ts';
import type { Plan } from '../plan/plan.ts';
import { effectOf } from './float.ts';
import { figuresFromMarks, type MarkFigures } from './markFigures.ts';
import { centreOf, type Weight, weightsByVoid } from './moments.ts';
import { likelyMoment } from './present.ts';
import { known } from './range.ts';
import { correctFromMarks, type Draughts, TRIM_ERROR_CM } from './readings.ts';
import { gmFromPeriod } from './roll.ts';

function inOrder(plan: Plan, name: string): Plan['bundles'] {
  return plan.bundles.filter((bundle) => bundle.void === name).sort((p, q) => p.order - q.order);
}

/** The weights of the first `counts` bundles of each void. */
export function stowedWeights(job: Job, plan: Plan, counts: ReadonlyMap<string, number>): Weight[] {
  const first = { ...plan, bundles: [...counts].flatMap(([name, count]) => inOrder(plan, name).slice(0, count)) };
  return [...weightsByVoid(job, first).values()].flat();
}

/** What was read afloat: draughts m, period s. */
export interface TrialReadings {
  before: Draughts;
  after: Draughts;
  period?: number;
}

/**
 * Forecast less what was read, cm and s; null where one of the two is missing. `vessel` is corrected from the readings
 * by `figures`, those of her figures that the marks moved enough to tell.
 */
export interface TrialResult {
  forward: number | null;
  aft: number | null;
  period: number | null;
  vessel: Vessel;
  figures: MarkFigures;
  corrections: string[];
}

export function compareTrial(vessel: Vessel, stowed: readonly Weight[], readings: TrialReadings): TrialResult {
  const effect = effectOf(vessel, stowed);
  const read = {
    forward: (readings.after.forward - readings.before.forward) * 100,
    aft: (readings.after.aft - readings.before.aft) * 100,
  };
  const marks = effect.marks.kind === 'answer' ? effect.marks : null;
  const stability = effect.stability.kind === 'answer' ? effect.stability : null;
  const corrections: string[] = [];
  const figures: MarkFigures = {};
  const centre = centreOf(stowed);
  const { lcf, waterlineLength } = vessel;
  if (centre && lcf !== undefined && waterlineLength !== undefined) {
    const found = correctFromMarks(centre.mass, centre.x, readings.before, readings.after, lcf, waterlineLength);
    // Where these weights hardly trim her, what was read comes of something else.
    const trims = marks === null || Math.abs(marks.trim.likely) >= TRIM_ERROR_CM;
    const told = figuresFromMarks({ ...found, ...(trims ? {} : { kgmPerCm: null }) });
    Object.assign(figures, told.figures);
    corrections.push(...told.lines);
  }
  if (readings.period !== undefined && vessel.beam !== undefined) {
    const gm = gmFromPeriod(known(readings.period), known(vessel.beam));
    corrections.push(
      `GM with this much in her, from the roll: ${gm.low.toFixed(2)} to ${gm.high.toFixed(2)} m (likely ${gm.likely.toFixed(2)}).`,
    );
  }
  return {
    forward: marks ? marks.forward.likely - read.forward : null,
    aft: marks ? marks.aft.likely - read.aft : null,
    period: stability && readings.period !== undefined ? stability.period.likely - readings.period : null,
    vessel: { ...vessel, ...figures },
    figures,
    corrections,
  };
}

/** The most combinations that are tried one by one. */
const TRIES = 2000;

/**
 * Which of the bundles not yet stowed to put in so that she comes nearest to `down` (cm at each end, counted from before
 * the trial), with no list: a number of bundles for each void, in loading order and never fewer than `stowed`. Exact
 * where the combinations are few, else by steps in one or two voids until nothing improves. Nothing is cut anew.
 */
export function placeRest(
  job: Job,
  plan: Plan,
  vessel: Vessel,
  stowed: ReadonlyMap<string, number>,
  down: { forward: number; aft: number },
): { counts: Map<string, number>; forward: number; aft: number } | null {
  const names = [...stowed.keys()];
  const most = names.map((name) => inOrder(plan, name).length);
  const least = names.map((name) => stowed.get(name) ?? 0);
  const present = likelyMoment(vessel);
  const miss = (counts: number[]): { score: number; forward: number; aft: number } | null => {
    const weights = stowedWeights(job, plan, new Map(names.map((name, n) => [name, counts[n]!])));
    const { marks } = effectOf(vessel, weights);
    if (marks.kind !== 'answer') return null;
    const centre = centreOf(weights);
    const forward = marks.forward.likely - down.forward;
    const aft = marks.aft.likely - down.aft;
    // A moment of list counts like the same moment of trim: nothing is gained at one by giving up the other.
    const list = vessel.kgmPerCm && centre ? (present + centre.mass * centre.y) / vessel.kgmPerCm : 0;
    return { score: forward ** 2 + aft ** 2 + list ** 2, forward, aft };
  };
  const combinations = most.reduce((product, top, n) => product * (top - least[n]! + 1), 1);
  let best = [...least];
  if (combinations <= TRIES) best = tryAll(least, most, (counts) => miss(counts)?.score ?? 0);
  else best = byTurns(least, most, (counts) => miss(counts)?.score ?? 0);
  const found = miss(best);
  return found && { counts: new Map(names.map((name, n) => [name, best[n]!])), forward: found.forward, aft: found.aft };
}

function tryAll(least: number[], most: number[], score: (counts: number[]) => number): number[] {
  let best = [...least];
  let bestScore = score(best);
  const counts = [...least];
  for (;;) {
    let n = 0;
    while (n < counts.length && counts[n] === most[n]) {
      counts[n] = least[n]!;
      n += 1;
    }
    if (n === counts.length) return best;
    counts[n]! += 1;
    const value = score(counts);
    if (value < bestScore) [best, bestScore] = [[...counts], value];
  }
}

/** Changes one void or two at once, the best change first, until none is better: a pair keeps her upright. */
function byTurns(least: number[], most: number[], score: (counts: number[]) => number): number[] {
  let counts = [...least];
  let bestScore = score(counts);
  for (;;) {
    let best = counts;
    for (let n = 0; n < counts.length; n++) {
      for (let m = n; m < counts.length; m++) {
        for (const [stepN, stepM] of n === m ? SINGLE_STEPS : PAIR_STEPS) {
          const trial = counts.with(n, counts[n]! + stepN);
          trial[m] = trial[m]! + stepM;
          if (trial[n]! < least[n]! || trial[n]! > most[n]! || trial[m]! < least[m]! || trial[m]! > most[m]!) continue;
          const value = score(trial);
          if (value < bestScore - 1e-9) [best, bestScore] = [trial, value];
        }
      }
    }
    if (best === counts) return counts;
    counts = best;
  }
}

const SINGLE_STEPS: readonly (readonly [number, number])[] = [
  [1, 0],
  [-1, 0],
];
const PAIR_STEPS: readonly (readonly [number, number])[] = [
  [1, 1],
  [1, -1],
  [-1, 1],
  [-1, -1],
];
