/**
 * Lengths of a division fitted to its shares, by a linear program of them (lengthProgram.ts): all of them at once by some
 * millimetres, so that its patterns leave less scrap and its stacks hold more. With the same shares of the same patterns
 * and stacks it is worth so much more, and no less once it is solved again.
 */
import type { LinearEngine } from '../linear/model.ts';
import { vesselPoint } from '../stow/laid.ts';
import type { Division } from './division.ts';
import { type Held, LengthProgram } from './lengthProgram.ts';
import { loadRowsOf } from './loadRows.ts';
import { perKgAt } from './pricing.ts';
import type { Problem } from './problem.ts';

/** The change of every length, whole mm, and what it gains, kg, as long as load rows are paid for at their prices; null where there is none. */
export function fitShares(
  problem: Problem,
  division: Division,
  engine: LinearEngine,
): { changes: Map<number, number>; gain: number } | null {
  using program = new LengthProgram(problem, heldBy(problem, division), engine);
  program.addBars(division.cuts);
  for (const { berth, runs } of division.skeletons) {
    program.addRoom(
      berth.laid,
      runs.map(({ length }) => length),
    );
  }
  return program.solve();
}

function heldBy(problem: Problem, { skeletons, shares, prices }: Division): Held[] {
  const rows = loadRowsOf(problem);
  const lcf = problem.job.vessel?.lcf ?? 0;
  return skeletons.flatMap(({ space, berth: { laid }, runs }) =>
    runs.flatMap(({ from, length }, run) => {
      const middle = vesselPoint(laid, from + length / 2, 0, 0);
      const perKg = space.weight + perKgAt(rows, prices.loads, space, middle, lcf);
      return shares[space.index]![run]!.map((own): Held => {
        return { space, laid, stack: own.run.stack, share: own.share, perKg };
      });
    }),
  );
}
