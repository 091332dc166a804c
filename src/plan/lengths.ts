/** Candidate lengths to begin with: few, and each likely to be of use. */
import { alongSize, longestIn } from '../stow/bundle.ts';
import type { Problem } from './problem.ts';

/** Voids are divided exactly into so many runs at most to begin with. */
const MOST_RUNS = 4;

/** The longest and shortest bundle worth pricing anywhere in the job, whole mm; null where there is none. */
export function lengthRange(problem: Problem): { least: number; most: number } | null {
  const { job } = problem;
  const least = Math.ceil(job.saw.shortestPiece);
  let most = 0;
  for (const space of problem.spaces) {
    for (const laid of space.laid)
      most = Math.max(most, longestIn(laid.length - 2 * laid.clear.ends, job.saw, job.bundle));
  }
  const span = Math.max(0, ...problem.barKinds.flatMap((kind) => kind.spans.map(({ from, to }) => to - from)));
  most = Math.min(most, Math.floor(span));
  return most >= least ? { least, most } : null;
}

/**
 * Lengths by steel, rising: those that divide a void exactly, and a grid of `step` mm.
 */
export function firstLengths(problem: Problem, step: number): number[][] {
  const range = lengthRange(problem);
  if (!range) return problem.steels.map(() => []);
  const { job, spaces, steels } = problem;
  const common = new Set<number>();
  const keep = (set: Set<number>, length: number) => {
    const whole = Math.floor(length + 1e-9);
    if (whole >= range.least && whole <= range.most) set.add(whole);
  };
  for (const space of spaces) {
    for (const laid of space.laid) {
      const room = laid.length - 2 * laid.clear.ends + laid.gap.runs;
      for (let runs = 1; runs <= MOST_RUNS; runs++) {
        if (room / runs - laid.gap.runs < alongSize(range.least, job.saw, job.bundle)) break;
        keep(common, longestIn(room / runs - laid.gap.runs, job.saw, job.bundle));
      }
    }
  }
  for (let length = Math.ceil(range.least / step) * step; length <= range.most; length += step) keep(common, length);
  keep(common, range.least);
  keep(common, range.most);
  return steels.map(() => [...common].sort((a, b) => a - b));
}
