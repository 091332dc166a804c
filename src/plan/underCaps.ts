/** Fillings brought under every cap: what is over is taken out, what there turns out to be room for put back, and the rest fitted. */
import { capsOf, type Filling, keepEveryCap, type Taken, type Worth } from './caps.ts';
import { fitCap } from './fitCap.ts';
import type { Problem } from './problem.ts';
import { putBack } from './putBack.ts';

/** Changes `fillings`. */
export function fitUnderCaps(problem: Problem, fillings: Filling[], worth: Worth): void {
  const taken: Taken[] = [];
  keepEveryCap(problem, fillings, worth, taken);
  putBack(problem, fillings, taken);
  for (const space of problem.spaces) for (const cap of capsOf(space)) fitCap(problem, fillings, [space], cap, worth);
  const { ballast } = problem.job.aims;
  if (ballast !== undefined) fitCap(problem, fillings, problem.spaces, { most: ballast, byBundle: true }, worth);
}
