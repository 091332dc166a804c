/** Caps let out a little, for plans that are over them until their lengths are fitted (fitLengths.ts). */
import { bundleMasses, type Filling } from './caps.ts';
import type { Problem } from './problem.ts';

/** A cap is near where this share of it is held. */
const NEAR = 0.9;

/** The problem with every cap that is near let out by a share of the heaviest bundle that it counts; null where none is near. */
export function looser(problem: Problem, fillings: Filling[], share: number): Problem | null {
  let any = false;
  const more = (most: number | undefined, counted: Filling[]) => {
    const masses = bundleMasses(problem, counted);
    const total = masses.reduce((sum, mass) => sum + mass, 0);
    if (most === undefined || total === 0 || total < NEAR * most) return most;
    any = true;
    return most + share * Math.max(...masses);
  };
  const { aims } = problem.job;
  const ballast = more(aims.ballast, fillings);
  const spaces = problem.spaces.map((space) => {
    const own = [fillings[space.index] ?? null];
    const stated = { ...space.stated, most: more(space.stated.most, own), target: more(space.stated.target, own) };
    return { ...space, stated };
  });
  return any ? { ...problem, job: { ...problem.job, aims: { ...aims, ballast } }, spaces } : null;
}
