/** The plans that a search has found, and which of them is given. */

import { missOf } from './misses.ts';
import type { Plan } from './plan.ts';
import type { Problem } from './problem.ts';
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

/** The worthiest; null where there is none. */
export function bestOf(found: Found[]): Found | null {
  return found.reduce<Found | null>((best, next) => (best && best.score >= next.score ? best : next), null);
}

/** All plans of a search. */
export class Finds {
  /** The most stops that a plan to give may have. */
  private readonly most: number;
  /** Whether how many stops is to be chosen. */
  private readonly chooses: boolean;
  private readonly found: Found[] = [];
  /** Those whose choice of stops is told, where these were not found for one. */
  choices: Finds = this;

  constructor(most: number, chooses: boolean) {
    this.most = most;
    this.chooses = chooses;
  }

  add(found: Found): void {
    this.found.push(found);
  }

  /** The plans that may be given: within the stops allowed, and worth anything. */
  able(): Found[] {
    return this.found.filter(({ plan }) => plan.totals.stops <= this.most && plan.bound.value > 0);
  }

  /** The worthiest of all; null where there is none. */
  best(): Found | null {
    return bestOf(this.found);
  }

  /** The worthiest that may be given; null where there is none. */
  bestAble(): Found | null {
    return bestOf(this.able());
  }

  /** The greatest value of those that may be given, kg; 0 where there is none. */
  mostAble(): number {
    return Math.max(0, ...this.able().map(({ plan }) => plan.bound.value));
  }

  /** The one to give: the worthiest that may be, or where stops are to be chosen the one of fewest; null where there is none. */
  chosen(): Found | null {
    return this.chooses ? this.fewest() : this.bestAble();
  }

  /** Of those that may be given and are near enough to the worthiest the one of fewest stops; null where there is none. */
  fewest(): Found | null {
    const best = this.bestAble();
    if (!best) return null;
    const near = this.able().filter(({ score }) => score >= NEAR_BEST * best.score);
    return near.reduce((a, b) => {
      const fewer = b.plan.totals.stops - a.plan.totals.stops;
      return fewer < 0 || (fewer === 0 && b.score > a.score) ? b : a;
    }, best);
  }

  /** Forgets a plan where one may be given that is better, but where it is worth more than that and misses the aims by no more. */
  leaveWorse(plan: Found): void {
    const other = bestOf(this.able().filter((found) => found !== plan));
    const at = this.found.indexOf(plan);
    if (!other || at < 0) return;
    if (plan.score <= other.score || plan.plan.bound.value <= other.plan.bound.value) this.found.splice(at, 1);
  }

  /** The best for each number of stops that no plan with fewer beats, fewest first, and the one to give. */
  choice(chosen: Plan): NonNullable<Plan['choice']> {
    return choiceOf(this.choices.found, chosen);
  }
}

/** The best plan found for each number of stops that no plan with fewer beats, fewest first. */
function choiceOf(found: Found[], chosen: Plan): NonNullable<Plan['choice']> {
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
