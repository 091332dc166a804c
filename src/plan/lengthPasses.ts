/** Passes over every whole millimetre: the bound of all lengths, and those of them that are worth having. */
import type { LinearEngine } from '../linear/model.ts';
import { boundAnywhere, leastAnywhere } from './anywhere.ts';
import { Bounder } from './bound.ts';
import type { Work } from './effort.ts';
import { type LeastBoundOptions, leastBound } from './everyLength.ts';
import { MOST_ROWS, takeIn } from './lengths.ts';
import type { Master } from './master.ts';
import type { Prices } from './prices.ts';
import type { Problem } from './problem.ts';
import type { BoundOf } from './toldBound.ts';

export interface LengthPassOptions {
  engine: LinearEngine;
  problem: Problem;
  master: Master;
  work: Work;
  /** By steel, mm; those that the bound uses are taken in. */
  lengths: number[][];
  /** Adds the lengths to the master. */
  addLengths: () => void;
  /** Prices of the master over the lengths, after the effort's rounds or so many. */
  generate: (rounds: number) => Prices;
  /** A bound that holds, stops left out. */
  told: (value: number, of?: BoundOf) => void;
  onStep: () => void;
  shouldStop: () => boolean;
}

export class LengthPasses {
  private readonly options: LengthPassOptions;
  /** Null before the first pass. */
  bounder: Bounder | null = null;
  prices: Prices | null = null;

  constructor(options: LengthPassOptions) {
    this.options = options;
  }

  /** As many passes as the effort has, until one takes in no length. */
  pass(): void {
    const { engine, problem, master, work, lengths, told, shouldStop } = this.options;
    const bounder = new Bounder(problem);
    this.bounder = bounder;
    let from = this.options.generate(work.rounds);
    for (let pass = 0; pass < work.passes && !shouldStop(); pass++) {
      const least = leastBound(engine, problem, bounder, master, from, this.boundOptions(told));
      if (master.mayMiss) told(boundAnywhere(problem, bounder, master, least.prices, least.value), 'any');
      const added = takeIn(lengths, least.lengths);
      this.options.addLengths();
      if (shouldStop()) return;
      this.prices = work.again ? this.options.generate(Math.ceil(work.rounds / 2)) : least.prices;
      if (added === 0) return;
      from = this.prices;
    }
  }

  /** Prices that keep aims say little of plans that miss them: their bound is sought anew. */
  boundMissed(): void {
    const { bounder, prices } = this;
    const { engine, problem, master, told, shouldStop } = this.options;
    if (prices && bounder && !shouldStop())
      told(leastAnywhere(engine, problem, bounder, master, prices, this.boundOptions()), 'any');
  }

  /** `onBound` as leastBound has it. */
  private boundOptions(onBound?: (value: number) => void): LeastBoundOptions {
    const { problem, work, lengths, onStep, shouldStop } = this.options;
    return {
      knots: lengths,
      mostLengths: Math.max(4, Math.floor(MOST_ROWS / problem.steels.length / 2)),
      rounds: work.boundRounds,
      tolerance: work.tolerance,
      shouldStop,
      onStep,
      onBound,
    };
  }
}
