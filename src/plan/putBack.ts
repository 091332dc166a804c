/** Putting back what was taken out to reach a share, where caps and aims turn out to have room for it. */
import { alongSize } from '../stow/bundle.ts';
import { isBorne } from '../stow/rest.ts';
import { bundleMasses, capsOf, excess, type Filling, type Taken } from './caps.ts';
import { addLoad, type Load, loadOf, noLoad } from './load.ts';
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
      if (keepsCaps(problem, tried) && missOf(problem, tried) <= miss + MISS_SLACK) best = { space: index, gain };
    }
    if (!best) return;
    fillings[best.space] = trails[best.space]!.pop()!.before;
  }
}

function massOf(problem: Problem, fillings: Filling[]): number {
  return bundleMasses(problem, fillings).reduce((sum, mass) => sum + mass, 0);
}

/** True where every cap of the job is kept, and nothing weighs on bearers more than they bear. */
export function keepsCaps(problem: Problem, fillings: Filling[]): boolean {
  const { steels, job } = problem;
  const { ballast } = job.aims;
  if (ballast !== undefined && excess(bundleMasses(problem, fillings), { most: ballast, byBundle: true }) > 0)
    return false;
  return problem.spaces.every((space) => {
    const filling = fillings[space.index];
    if (!filling) return true;
    const along = (length: number) => alongSize(length, job.saw, job.bundle);
    if (!isBorne(filling, steels, job.bundle.wrapping, along)) return false;
    const masses = bundleMasses(problem, [filling]);
    return capsOf(space).every((cap) => excess(masses, cap) <= 0);
  });
}

/** The load of all fillings. */
export function totalLoad(problem: Problem, fillings: Filling[]): Load {
  const sum = noLoad();
  for (const filling of fillings) addLoad(sum, loadOfFilling(problem, filling));
  return sum;
}

/** The load of one. */
export function loadOfFilling({ job, steels }: Problem, filling: Filling): Load {
  const along = (length: number) => alongSize(length, job.saw, job.bundle);
  return filling ? loadOf(filling, steels, job.bundle.wrapping, job.vessel?.lcf ?? 0, along) : noLoad();
}

/** What missing the centre and spread aims costs, kg of value. */
export function missOf(problem: Problem, fillings: Filling[]): number {
  const { centre, spread } = problem.job.aims;
  if (!centre && spread === undefined) return 0;
  return missOfLoad(problem, totalLoad(problem, fillings));
}

/** The same of the load of all fillings. */
export function missOfLoad(problem: Problem, load: Load): number {
  const { centre, spread } = problem.job.aims;
  let miss = 0;
  for (const axis of ['x', 'y', 'z'] as const) {
    const range = centre?.[axis];
    if (!range) continue;
    const past = Math.max(0, load[axis] - range[1] * load.mass) + Math.max(0, range[0] * load.mass - load[axis]);
    miss += problem.missPrices[axis] * past;
  }
  if (spread !== undefined) {
    miss += problem.missPrices.spread * Math.max(0, load.xx - spread * spread * load.mass);
  }
  return miss;
}
