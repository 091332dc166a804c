/** From shares of layouts to one layout a void: the runs are settled first, then their tiers, then the caps are kept. */
import type { LinearEngine } from '../linear/model.ts';
import type { Berth } from '../stow/layout.ts';
import type { Pattern } from './barPattern.ts';
import type { Filling } from './caps.ts';
import { Master } from './master.ts';
import type { Problem } from './problem.ts';
import { largestRuns, settleRuns } from './runs.ts';
import { type Dived, settleTiers } from './tiers.ts';
import { fitUnderCaps } from './underCaps.ts';
import { worthBy } from './worth.ts';

export interface DiveOptions {
  engine: LinearEngine;
  lengths: number[][];
  /** Rounds of pricing after each step. */
  rounds: number;
  /** Layouts of the voids that stand as they are; null for the others. */
  standing?: Filling[];
  /** Settles the runs of all voids at once: quicker, where they are divided again later. */
  atOnce?: boolean;
  shouldStop?: () => boolean;
}

/** One layout, or nothing, for every void, under every cap. The master is left free. */
export function dive(problem: Problem, master: Master, berths: Berth[][], options: DiveOptions): Dived {
  const { engine, lengths, rounds, shouldStop } = options;
  const standing = problem.spaces.map((space) => Boolean(options.standing?.[space.index]));
  const settling = { lengths, rounds, standing, shouldStop };
  const skeletons = options.atOnce
    ? largestRuns(problem, master, berths)
    : settleRuns(problem, master, berths, settling);
  const tiers = {
    engine,
    rounds,
    shouldStop,
    ...(options.standing && { standing: options.standing }),
  };
  const dived = settleTiers(problem, patternsOf(master), skeletons, tiers, []);
  fitUnderCaps(problem, dived.fillings, worthBy(problem, master.prices()));
  return dived;
}

/** The patterns of a master. */
function patternsOf(master: Master): Pattern[] {
  return master.columns.flatMap((column) => (column.what === 'pattern' ? [column.pattern] : []));
}

/** The runs of `fillings` filled anew with no more than the pieces of these bars: for layouts that want more than the pile yields. */
export function refill(
  problem: Problem,
  berths: Berth[][],
  fillings: Filling[],
  bars: Pattern[],
  { engine, rounds }: Pick<DiveOptions, 'engine' | 'rounds'>,
): Filling[] {
  const skeletons = problem.spaces.map((space) => {
    const filling = fillings[space.index];
    const ways = berths[space.index]!;
    const berth = ways.find(({ laid }) => laid.axis === filling?.laid.axis) ?? ways[0]!;
    const runs = filling?.runs.map(({ from, stack }) => ({ from, length: stack.length })) ?? [];
    return { space, berth, runs };
  });
  const master = new Master(engine, problem);
  try {
    const dived = settleTiers(problem, [], skeletons, { engine, rounds, bars }, []);
    master.solve();
    fitUnderCaps(problem, dived.fillings, worthBy(problem, master.prices()));
    return dived.fillings;
  } finally {
    master.dispose();
  }
}
