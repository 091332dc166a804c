/** What is tried next while a plan is improved: which voids are planned again, with which lengths. */
import { bundleMasses, type Filling } from './caps.ts';
import type { Dice } from './dice.ts';
import type { Problem } from './problem.ts';
import { usesOf } from './short.ts';

export interface Neighbour {
  /** Voids to plan again. */
  open: boolean[];
  /** The lengths that they may have, by steel. */
  lengths: number[][];
  /** No bundle lighter than this in them, kg; 0 for none. */
  leastBundle: number;
}

/** Every so often voids are planned again without their lightest bundles. */
const LIGHT_EVERY = 8;

/** Lengths beside its own when a division is bettered; others are suggested. */
const MORE_LENGTHS = 3;

/** The tries of one planning, one after the other. */
export class Neighbours {
  private readonly problem: Problem;
  private readonly dice: Dice;
  private readonly more: number;
  private tries = 0;
  private divided = 0;

  /** `more`: lengths in each try beside those of the plan. */
  constructor(problem: Problem, dice: Dice, more: number) {
    this.problem = problem;
    this.dice = dice;
    this.more = more;
  }

  /** The next try from a plan; `lengths`: all that there are to choose from, by steel. */
  next(fillings: Filling[], lengths: number[][]): Neighbour {
    const turn = this.tries++;
    const leastBundle = turn % LIGHT_EVERY === LIGHT_EVERY - 1 ? this.floorFor(fillings) : 0;
    const open = leastBundle > 0 ? this.lighterThan(fillings, leastBundle) : this.someVoids(turn);
    const kept = usesOf(fillings).map(({ length }) => length);
    return { open, lengths: this.someOf(lengths, kept, this.more), leastBundle };
  }

  /** The next try from a division of these lengths. */
  divide(kept: number[], lengths: number[][]): Neighbour {
    return {
      open: this.someVoids(this.divided++),
      lengths: this.someOf(lengths, kept, MORE_LENGTHS),
      leastBundle: 0,
    };
  }

  /** The next try from a division as limited in its lengths: the voids that have one of them, by turns, and do without it. */
  without(used: number[][], lengths: number[][]): Neighbour {
    const kept = [...new Set(used.flat())].sort((a, b) => a - b);
    const dropped = kept[this.divided++ % kept.length];
    const open = used.map((own) => dropped === undefined || own.length === 0 || own.includes(dropped));
    const some = this.someOf(lengths, kept, MORE_LENGTHS);
    return { open, lengths: some.map((own) => own.filter((length) => length !== dropped)), leastBundle: 0 };
  }

  /**
   * A mass to do without lighter bundles, where the ballast asked for is reached: it may be passed by less than the
   * lightest bundle, so that heavier ones let more in. 0 where that is no use.
   */
  private floorFor(fillings: Filling[]): number {
    const { ballast } = this.problem.job.aims;
    const masses = bundleMasses(this.problem, fillings).sort((a, b) => a - b);
    const total = masses.reduce((sum, mass) => sum + mass, 0);
    if (ballast === undefined || total < ballast) return 0;
    const heavier = masses.filter((mass) => mass > masses[0]! + 0.05);
    return heavier[Math.min(heavier.length - 1, this.dice.below(6))] ?? 0;
  }

  /** The voids with a bundle lighter than that, and one more. */
  private lighterThan(fillings: Filling[], least: number): boolean[] {
    const other = this.dice.below(this.problem.spaces.length);
    return fillings.map(
      (filling, i) => i === other || bundleMasses(this.problem, [filling]).some((mass) => mass < least - 0.02),
    );
  }

  /** One void after the other, by turns with one or two others. */
  private someVoids(turn: number): boolean[] {
    const count = this.problem.spaces.length;
    const open = this.problem.spaces.map((_, i) => i === turn % count);
    for (let others = this.dice.below(3); others > 0; others--) open[this.dice.below(count)] = true;
    return open;
  }

  /** Those of the plan, and some more. */
  private someOf(lengths: number[][], own: number[], more: number): number[][] {
    const all = [...new Set(lengths.flat())];
    const kept = new Set(own);
    const most = Math.min(all.length, kept.size + more);
    for (let tries = 4 * most; kept.size < most && tries > 0; tries--) kept.add(all[this.dice.below(all.length)]!);
    return lengths.map((own) => own.filter((length) => kept.has(length)));
  }
}
