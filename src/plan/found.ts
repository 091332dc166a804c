/** The plans that a search has found, and which of them is given. */
import type { Plan } from './plan.ts';
import type { Problem } from './problem.ts';
import { missOf } from './putBack.ts';
import type { Dived } from './tiers.ts';

/** The default plan is the one with the fewest stops that is worth this share of the best. */
export const NEAR_BEST = 0.97;

/** A whole plan, and the layouts that it was made from. */
export interface Found extends Dived {
  plan: Plan;
  /** Its value, less a price on what it misses of centre and spread: what plans are compared by. */
  score: number;
}

/** What plans are compared by, kg, at the prices of misses that the problem has at the time. */
export function scoreOf(problem: Problem, plan: Plan, fillings: Found['fillings']): number {
  return plan.bound.value - missOf(problem, fillings);
}

/** Leaves a plan out of those found but where it is worth more than `other` and misses the aims by no more. Changes `found`. */
export function leaveWorse(found: Found[], plan: Found, other: Found): void {
  const at = found.indexOf(plan);
  if (at >= 0 && (plan.score <= other.score || plan.plan.bound.value <= other.plan.bound.value)) found.splice(at, 1);
}

/** The worthiest; null where there is none. */
export function bestOf(found: Found[]): Found | null {
  return found.reduce<Found | null>((best, next) => (best && best.score >= next.score ? best : next), null);
}

/** The greatest value, kg; 0 where there is none. */
export function mostOf(found: Found[]): number {
  return Math.max(0, ...found.map(({ plan }) => plan.bound.value));
}

/** Of the plans near enough to the best, the worthiest with the fewest stops. */
export function fewestNearBest(found: Found[], best: Found): Found {
  const near = found.filter(({ score }) => score >= NEAR_BEST * best.score);
  return near.reduce((a, b) => {
    const fewer = b.plan.totals.stops - a.plan.totals.stops;
    return fewer < 0 || (fewer === 0 && b.score > a.score) ? b : a;
  }, best);
}

/** The best plan found for each number of stops that no plan with fewer beats, fewest first. */
export function choiceOf(found: Found[], chosen: Plan): NonNullable<Plan['choice']> {
  const best = new Map<number, Plan>();
  for (const { plan } of [...found].sort((a, b) => b.score - a.score)) {
    if (plan.bound.value > 0 && !best.has(plan.totals.stops)) best.set(plan.totals.stops, plan);
  }
  best.set(chosen.totals.stops, chosen);
  const rising = [...best.values()].sort((a, b) => a.totals.stops - b.totals.stops);
  let record = Number.NEGATIVE_INFINITY;
  return rising
    .filter((plan) => {
      const better = plan.bound.value > record || plan === chosen;
      record = Math.max(record, plan.bound.value);
      return better;
    })
    .map((plan) => ({
      stops: plan.totals.stops,
      value: plan.bound.value,
      placedMass: plan.totals.placedMass,
      scrapMass: plan.totals.scrapMass,
      minutes: plan.totals.minutes,
      chosen: plan === chosen,
    }));
}

/** The lengths of a plan, those that carry most steel first. */
export function lengthsByMass(plan: Plan): number[] {
  const masses = new Map<number, number>();
  for (const { length, mass } of plan.bundles) masses.set(length, (masses.get(length) ?? 0) + mass);
  return [...masses].sort(([a, p], [b, q]) => q - p || a - b).map(([length]) => length);
}

/** The lengths of a plan but for the `drop` that carry least steel. */
export function lengthsWithout(plan: Plan, drop: number): Set<number> {
  const sorted = lengthsByMass(plan);
  return new Set(sorted.slice(0, Math.max(1, sorted.length - drop)));
}
