/** Every void divided into runs, with what its relaxation says of them. */
import type { Layout, Run } from '../stow/layout.ts';
import type { Pattern } from './barPattern.ts';
import type { Prices } from './prices.ts';
import type { Skeleton } from './pricing.ts';
import type { Space } from './problem.ts';

/** Every void divided into runs. */
export interface Division {
  skeletons: Skeleton[];
  /** The same for runs of the same lengths at the same places. */
  key: string;
  /** What it is worth with bars and stacks as shares, the labour of stops paid for, kg. */
  worth: number;
  prices: Prices;
  /** The stacks of each run with their shares, by space and run. */
  shares: Share[][][];
  /** Patterns with the bars, whole or shares, that are cut so. */
  cuts: { pattern: Pattern; count: number }[];
  /** Patterns that are of use for it. */
  patterns: Pattern[];
  /** The lightest bundle of all shares, kg. */
  lightest: number;
}

/** A run with a stack, and the share of it. */
export interface Share {
  run: Run;
  share: number;
}

/** Runs are about as long, mm. */
const ALIKE = 8;

/** The lengths of the runs of a division, rising. */
export function lengthsIn(skeletons: (Skeleton | null)[]): number[] {
  return rising(skeletons.flatMap((skeleton) => skeleton?.runs.map(({ length }) => length) ?? []));
}

/** The same for runs of the same lengths at the same places. */
export function keyOf(skeletons: Skeleton[]): string {
  return skeletons
    .map(({ berth, runs }) => `${berth.laid.axis}${runs.map(({ from, length }) => `${from}:${length}`).join('+')}`)
    .join('|');
}

/** True where a layout is divided as a void is. */
export function sameRuns({ laid, runs }: Layout, { berth, runs: own }: Skeleton): boolean {
  return (
    laid === berth.laid &&
    runs.length === own.length &&
    runs.every(({ from, stack }, i) => from === own[i]!.from && stack.length === own[i]!.length)
  );
}

/** A division without the runs that have no shares. */
export function heldOf(skeletons: Skeleton[], shares: Share[][][]): Pick<Division, 'skeletons' | 'shares'> {
  return {
    skeletons: skeletons.map((skeleton, i) => ({
      ...skeleton,
      runs: skeleton.runs.filter((_, run) => shares[i]![run]!.length > 0),
    })),
    shares: shares.map((own) => own.filter((run) => run.length > 0)),
  };
}

/** True where both have as many runs in every void, laid alike and about as long. */
export function areAlike(p: Division, q: Division): boolean {
  return p.skeletons.every(({ berth, runs }, i) => {
    const other = q.skeletons[i]!;
    return (
      berth === other.berth &&
      runs.length === other.runs.length &&
      runs.every(({ length }, run) => Math.abs(length - other.runs[run]!.length) <= ALIKE)
    );
  });
}

/** Whole layouts of a void, of which shares come to those of its runs: the shares of every run laid end to end and cut where one of them ends. */
export function coupled({ skeletons, shares }: Division, { index }: Space): Layout[] {
  const ends = new Set<number>();
  const runs = shares[index]!.map((own) => {
    let end = 0;
    return own.map(({ run, share }) => {
      end = Math.round((end + share) * 1e9) / 1e9;
      ends.add(end);
      return { run, end };
    });
  });
  const { laid } = skeletons[index]!.berth;
  return [...ends].map((end) => ({
    laid,
    runs: runs.flatMap((own) => own.find((one) => one.end >= end)?.run ?? []),
  }));
}

/** Each once, rising. */
export function rising(lengths: number[]): number[] {
  return [...new Set(lengths)].sort((a, b) => a - b);
}
