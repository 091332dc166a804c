/** Judging fillings by a rough cutting, before the careful one. */
import type { Berth } from '../stow/layout.ts';
import type { Filling } from './caps.ts';
import { cutUses } from './cutting.ts';
import { refill } from './dive.ts';
import { cutFillings, type Making, worthOf } from './finish.ts';
import { barMass, type Problem } from './problem.ts';
import { usesOf } from './short.ts';

/** Counted work of a rough cutting of each steel. */
const ROUGH = 3;
/** What falls short is much where it is this share of the steel cut up. */
const MUCH = 0.01;
const REFILL_ROUNDS = 6;

/** What fillings are worth once cut roughly, kg. Changes nothing. */
function roughWorth(problem: Problem, making: Making, fillings: Filling[]): number {
  const own = [...fillings];
  return worthOf(problem, own, cutFillings(problem, own, { ...making, cuttingEffort: ROUGH }));
}

/**
 * A copy of the fillings, or where the pile yields much less than they want, the same runs filled by what it does yield, if
 * that is worth more.
 */
export function withinPile(problem: Problem, making: Making, berths: Berth[][], fillings: Filling[]): Filling[] {
  const { engine, known } = making;
  const { bars, short } = cutUses(problem, usesOf(fillings), { engine, effort: ROUGH, ...(known && { known }) });
  const lacking = short.reduce(
    (sum, { steel, length, bars }) => sum + bars * barMass(problem.steels[steel]!, length),
    0,
  );
  const cut = bars.reduce((sum, { kind }) => sum + (kind.perMetre * kind.length) / 1000, 0);
  if (lacking < MUCH * cut) return [...fillings];
  const other = refill(problem, berths, fillings, bars, { engine, rounds: REFILL_ROUNDS });
  return roughWorth(problem, making, other) > roughWorth(problem, making, fillings) ? other : [...fillings];
}
