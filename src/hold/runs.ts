/**
 * What lies across or over the runs of a void, and what each then has to hold. A run is stiff bundles side by side, its
 * weight spread evenly over its length. Whatever lies over it only presses: what lifts the run at its middle is balanced only
 * where that middle is between the outermost edges of those, else its other end lifts. They share the weight by their levers
 * as bearers do (`plan/bearing.ts`). Mm and kg.
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
/** Places are written to the millimetre, and the middle of a run may lie on a half. */
const ROUNDED = 0.5;

/** How much of a run it covers, as the two ends of that; null where it does not lie over it. */
export function overlapOf({ at, half }: Placed, run: HeldRun): [number, number] | null {
  const [from, to] = [Math.max(at - half, run.from), Math.min(at + half, run.to)];
  return to - from >= Math.min(LEAST_OVER, 2 * half) ? [from, to] : null;
}

/** Whether the middle of a run lies between the outermost edges of what lies over it, each from one edge to the other. */
export function holdsMiddle(run: HeldRun, over: readonly (readonly [number, number])[]): boolean {
  const middle = middleOf(run);
  return (
    over.length > 0 &&
    middle >= Math.min(...over.map(([from]) => from)) - ROUNDED &&
    middle <= Math.max(...over.map(([, to]) => to)) + ROUNDED
  );
}

export function middleOf({ from, to }: HeldRun): number {
  return (from + to) / 2;
}

/**
 * Of a run's weight, what each of those at `places`, which rise, has to hold down: all of it at most. Where its middle lies
 * beyond the outermost place, and so within the width of that one, all of it is on that one, since another would have to pull
 * the run up. Those at one place share alike.
 */
export function holdShares(run: HeldRun, places: readonly number[]): number[] {
  const apart = [...new Set(places)];
  const middle = middleOf(run);
  const alone = middle <= apart[0]! ? apart[0] : middle >= apart.at(-1)! ? apart.at(-1) : undefined;
  const shares = alone === undefined ? leverShares(run, apart) : apart.map((at) => (at === alone ? 1 : 0));
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
