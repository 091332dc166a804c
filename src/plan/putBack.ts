/** Putting back what was taken out to reach a share, where caps and aims turn out to have room for it. */
import { areCapsKept, bundleMasses, type Filling, type Taken } from './caps.ts';
import { missOf } from './misses.ts';
import type { Problem } from './problem.ts';

/** What the misses cost may grow by this much, kg, when something is put back. */
const MISS_SLACK = 1e-6;

/** Undoes steps of taking out, heaviest gain first, while every cap is kept and no aim is missed by more. Changes `fillings`. */
export function putBack(problem: Problem, fillings: Filling[], taken: Taken[]): void {
  const trails = problem.spaces.map((space) => taken.filter((step) => step.space === space));
  for (;;) {
    const miss = missOf(problem, fillings);
    let best: { space: number; gain: number } | null = null;
    for (const { index } of problem.spaces) {
      const step = trails[index]!.at(-1);
      if (!step) continue;
      const tried = [...fillings];
      tried[index] = step.before;
      const gain = massOf(problem, tried) - massOf(problem, fillings);
      if (gain <= (best?.gain ?? -1e-9)) continue;
      if (areCapsKept(problem, tried) && missOf(problem, tried) <= miss + MISS_SLACK) best = { space: index, gain };
    }
    if (!best) return;
    fillings[best.space] = trails[best.space]!.pop()!.before;
  }
}

function massOf(problem: Problem, fillings: Filling[]): number {
  return bundleMasses(problem, fillings).reduce((sum, mass) => sum + mass, 0);
}
