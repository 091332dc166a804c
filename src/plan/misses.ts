/** The load of fillings, and what it costs that they miss the centre and the spread asked for. */
import { alongSize } from '../stow/bundle.ts';
import type { Filling } from './caps.ts';
import { addLoad, type Load, loadOf, noLoad } from './load.ts';
import type { Problem } from './problem.ts';

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
