/** Candidate lengths to begin with: few, and each likely to be of use. */
import { alongSize, longestIn } from '../stow/bundle.ts';
import type { Problem, Space } from './problem.ts';

/** Voids are divided exactly into so many runs at most to begin with. */
const MOST_RUNS = 4;

/** Candidate lengths begin with every so many millimetres. */
export const GRID = 150;

/** A length of a steel is a row of the master: so many are quickly solved, and a large job begins with no more. */
export const MOST_ROWS = 500;
/** But with so many lengths at least. */
const LEAST_LENGTHS = 12;

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

/** The longest whole lengths of which so many runs and fewer lie in a void one after the other, none under `least`; mm. */
export function dividingLengths({ job }: Problem, space: Space, least: number, mostRuns: number): number[] {
  return space.laid.flatMap((laid) => {
    const room = laid.length - 2 * laid.clear.ends + laid.gap.runs;
    const lengths = Array.from({ length: mostRuns }, (_, i) =>
      longestIn(room / (i + 1) - laid.gap.runs, job.saw, job.bundle),
    );
    return lengths.filter((length) => length >= least);
  });
}

/**
 * Lengths by steel, rising: those that divide a void exactly, and a grid of `step` mm.
 */
export function firstLengths(problem: Problem, step: number): number[][] {
  const range = lengthRange(problem);
  if (!range) return problem.steels.map(() => []);
  const { spaces, steels } = problem;
  const common = new Set<number>();
  const keep = (set: Set<number>, length: number) => {
    const whole = Math.floor(length + 1e-9);
    if (whole >= range.least && whole <= range.most) set.add(whole);
  };
  for (const space of spaces)
    for (const length of dividingLengths(problem, space, range.least, MOST_RUNS)) keep(common, length);
  for (let length = Math.ceil(range.least / step) * step; length <= range.most; length += step) keep(common, length);
  keep(common, range.least);
  keep(common, range.most);
  const most = Math.max(LEAST_LENGTHS, Math.floor(MOST_ROWS / steels.length));
  const all = [...common].sort((a, b) => a - b);
  const chosen = all.length <= most ? all : fewThatFill(problem, all, most);
  return steels.map(() => [...chosen]);
}

/**
 * So many of the lengths that runs of one length fill every void as well as may be: the one that adds most is taken, again
 * and again (within 1 − 1/e of the best choice). Cost: chosen × lengths × voids.
 */
export function fewThatFill(problem: Problem, lengths: number[], most: number): number[] {
  const { job, spaces } = problem;
  const ways = spaces.flatMap((space) => space.laid);
  const filled = lengths.map((length) =>
    ways.map((laid) => {
      const room = laid.length - 2 * laid.clear.ends + laid.gap.runs;
      const size = alongSize(length, job.saw, job.bundle) + laid.gap.runs;
      return (Math.floor(room / size + 1e-9) * size) / room;
    }),
  );
  const best = ways.map(() => 0);
  const chosen = new Set<number>();
  while (chosen.size < most) {
    const gains = filled.map((shares, i) =>
      chosen.has(i) ? -1 : shares.reduce((sum, share, way) => sum + Math.max(0, share - best[way]!), 0),
    );
    const next = gains.indexOf(Math.max(...gains));
    chosen.add(next);
    filled[next]!.forEach((share, way) => {
      best[way] = Math.max(best[way]!, share);
    });
  }
  return [...chosen].sort((a, b) => a - b).map((i) => lengths[i]!);
}

/** Takes lengths found into those that there are, by steel; returns how many were new. */
export function takeIn(lengths: number[][], found: Set<number>[]): number {
  let added = 0;
  found.forEach((own, steel) => {
    for (const length of own) {
      if (lengths[steel]!.includes(length)) continue;
      lengths[steel]!.push(length);
      added++;
    }
  });
  return added;
}
