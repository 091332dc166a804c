/**
 * What lies across or over the runs of a void, and what each then has to hold. A run is stiff bundles side by side, its
 * weight spread evenly over its length; whatever lies over it holds it only where its middle is between the outermost, else
 * its other end lifts. They share the weight by their levers as bearers do (`plan/bearing.ts`). Mm and kg.
 */
import { leverShares } from '../plan/bearing.ts';
import type { Plan, PlanBundle } from '../plan/plan.ts';
import { uppermost } from './tops.ts';

export interface HeldRun {
  run: number;
  from: number;
  to: number;
  mass: number;
  /** How far across the void its uppermost bundles reach, from side to side; absent where that is not known. */
  wide?: number;
  /** Where across the void its weight has its middle; absent where that is not known. */
  centre?: number;
}

/** The runs of a void from along 0 on, as their bundles lie. */
export function runsOf(plan: Pick<Plan, 'bundles'>, name: string): HeldRun[] {
  const runs = new Map<number, PlanBundle[]>();
  for (const bundle of plan.bundles)
    if (bundle.void === name) runs.set(bundle.run, [...(runs.get(bundle.run) ?? []), bundle]);
  return [...runs].map(([run, bundles]) => runOf(run, bundles)).sort((p, q) => p.run - q.run);
}

function runOf(run: number, bundles: readonly PlanBundle[]): HeldRun {
  const from = Math.min(...bundles.map(({ at }) => at.along));
  const to = Math.max(...bundles.map(({ at, size }) => at.along + size.along));
  const top = uppermost(bundles, from, to);
  const wide =
    Math.max(...top.map(({ at, size }) => at.across + size.across)) - Math.min(...top.map(({ at }) => at.across));
  const mass = bundles.reduce((sum, one) => sum + one.mass, 0);
  const moment = bundles.reduce((sum, one) => sum + one.mass * (one.at.across + one.size.across / 2), 0);
  return { run, from, to, mass, wide, centre: mass > 0 ? moment / mass : 0 };
}

/** What lies with its middle at `at` and reaches `half` to either side. */
export interface Placed {
  at: number;
  half: number;
}

/** A bar across that covers less of a run than this, mm, does not lie over it. */
const LEAST_OVER = 10;
/** The middle of a run may lie so much of its length past what holds it: an allowance of ours. */
export const PAST_MIDDLE = 0.1;

/** How much of a run it covers, as the two ends of that; null where it does not lie over it. */
export function overlapOf({ at, half }: Placed, run: HeldRun): [number, number] | null {
  const [from, to] = [Math.max(at - half, run.from), Math.min(at + half, run.to)];
  return to - from >= Math.min(LEAST_OVER, 2 * half) ? [from, to] : null;
}

/** Whether the middle of a run lies between the outermost of what lies over it. */
export function holdsMiddle(run: HeldRun, over: readonly (readonly [number, number])[]): boolean {
  const past = PAST_MIDDLE * (run.to - run.from);
  const middle = (run.from + run.to) / 2;
  return (
    over.length > 0 &&
    middle >= Math.min(...over.map(([from]) => from)) - past &&
    middle <= Math.max(...over.map(([, to]) => to)) + past
  );
}

/**
 * Of a run's weight, what each of those at `places`, which rise, has to hold down: all of it at most, since its middle lies
 * between them but for the allowance. Those at one place share alike.
 */
export function holdShares(run: HeldRun, places: readonly number[]): number[] {
  const apart = [...new Set(places)];
  const shares = leverShares(run, apart);
  return places.map((at) => {
    const alike = places.filter((other) => other === at).length;
    return Math.min(1, Math.max(0, shares[apart.indexOf(at)]!)) / alike;
  });
}

/**
 * How many of `count` alike go over each run so that the one that has most to hold has least: one for each run, and every
 * further one where a single one has most. Null where there are fewer than runs.
 */
export function spreadOver(runs: readonly HeldRun[], count: number): number[] | null {
  if (count < runs.length) return null;
  const numbers = runs.map(() => 1);
  for (let left = count - runs.length; left > 0; left -= 1) {
    const loads = runs.map(({ mass }, i) => mass / numbers[i]!);
    numbers[loads.indexOf(Math.max(...loads))]! += 1;
  }
  return numbers;
}

/** Places of `count` spread evenly over a run. */
export function evenPlaces(run: HeldRun, count: number): number[] {
  return Array.from({ length: count }, (_, i) => run.from + ((i + 0.5) / count) * (run.to - run.from));
}
