/** From shares of layouts to one layout a void: the runs are settled first, then their tiers, then the caps are kept. */
import type { LinearEngine } from '../linear/model.ts';
import type { Berth } from '../stow/layout.ts';
import { capsOf, type Filling, keepCap, type Taken } from './caps.ts';
import type { Master } from './master.ts';
import type { Problem } from './problem.ts';
import { putBack } from './putBack.ts';
import { settleRuns } from './runs.ts';
import { settleTiers } from './tiers.ts';
import { worthBy } from './worth.ts';

export interface DiveOptions {
  engine: LinearEngine;
  lengths: number[][];
  /** Rounds of pricing after each step. */
  rounds: number;
  shouldStop?: () => boolean;
}

/** One layout, or nothing, for every void, under every cap. The master is left free. */
export function dive(problem: Problem, master: Master, berths: Berth[][], options: DiveOptions): Filling[] {
  const skeletons = settleRuns(problem, master, berths, options);
  const taken: Taken[] = [];
  const fillings = settleTiers(problem, master, skeletons, options, taken);
  const worth = worthBy(problem, master.prices());
  for (const space of problem.spaces) for (const cap of capsOf(space)) keepCap(problem, fillings, [space], cap, worth);
  const { ballast } = problem.job.aims;
  const whole: Taken[] = [];
  if (ballast !== undefined) {
    keepCap(problem, fillings, problem.spaces, { most: ballast, byBundle: true }, worth, whole);
  }
  putBack(problem, fillings, whole);
  return fillings;
}
