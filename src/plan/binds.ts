/** What keeps the value of a plan from being greater, in words: from the plan itself, and from the prices of the master. */
import { barLengths } from '../job/lot.ts';
import type { Plan } from './plan.ts';
import type { Prices } from './prices.ts';
import type { Problem } from './problem.ts';

/** A price under this many kilograms is not worth a sentence. */
const LEAST = 0.05;

/** Sentences, the most pressing first: caps reached, voids that are full, lots that run out, the lift limit where it is small. */
export function bindsOf(problem: Problem, plan: Plan, prices: Prices | null): string[] {
  const { job } = problem;
  const sentences: string[] = [];
  const total = plan.voids.reduce((sum, filled) => sum + filled.mass, 0);
  const { ballast } = job.aims;
  if (ballast !== undefined && total >= ballast) sentences.push(`The ballast asked for, ${ballast} kg, is reached.`);
  const capped = new Set<string>();
  for (const { stated } of problem.spaces) {
    const mass = plan.voids.find((filled) => filled.void === stated.void)?.mass ?? 0;
    const name = stated.void;
    if (stated.target !== undefined && mass >= stated.target)
      sentences.push(`${name} has its target of ${stated.target} kg.`);
    else if (stated.most !== undefined && mass > 0 && stated.most - mass < problem.spaces[0]!.limit)
      sentences.push(`${name} may carry no more than ${stated.most} kg.`);
    else continue;
    capped.add(name);
  }
  if (prices) {
    const rooms = problem.spaces
      .map((space) => ({ name: space.stated.void, worth: prices.groups[space.index] ?? 0 }))
      .filter(({ name, worth }) => worth > LEAST && !capped.has(name))
      .sort((p, q) => q.worth - p.worth);
    if (rooms.length > 0)
      sentences.push(
        `Room binds in ${rooms.map(({ name }) => name).join(', ')}: more height, width or length would take more steel.`,
      );
  }
  for (const lot of job.pile) {
    const used = plan.bars.filter((bar) => bar.lot === lot.lot).length;
    if (used === barLengths(lot).length) sentences.push(`Every bar of lot ${lot.lot} is cut.`);
  }
  return sentences;
}
