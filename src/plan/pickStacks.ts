/**
 * Whole stacks for all runs of a division at once, bars as shares. What all is worth is concave in what the runs hold, so
 * that the prices at each choice that was solved bound every other (choices.ts): the one that they allow most is solved next,
 * until none is allowed more than the best.
 */
import type { Berth, Run } from '../stow/layout.ts';
import { stackKey } from '../stow/stack.ts';
import type { Filling } from './caps.ts';
import type { Division, Share } from './division.ts';
import { BETTER, Exchange, type ExchangeOptions, MOST_STACKS, type Open, type OpenRun } from './exchange.ts';
import { Picks } from './picks.ts';
import type { Problem } from './problem.ts';
import type { Dived } from './tiers.ts';

/** Choices that are solved at most. */
const MOST_SOLVES = 30;
/** Stacks are left out that lose more than this share of what a division is worth. */
const FAR = 0.03;

/** Whole stacks for the runs of a division, begun from those that have most shares; each run has a share. */
export function pickStacks(problem: Problem, berths: Berth[][], division: Division, options: ExchangeOptions): Dived {
  const fillings = division.skeletons.map(({ berth, runs }, space): Filling => {
    const held = runs.map((_, run) => largest(division.shares[space]![run]!));
    return held.length > 0 ? { laid: berth.laid, runs: held } : null;
  });
  using work = new StackPicks(problem, berths, { fillings, patterns: division.patterns }, options);
  work.pick(division);
  return work.found();
}

function largest(shares: Share[]): Run {
  return shares.reduce((most, one) => (one.share > most.share ? one : most)).run;
}

class StackPicks extends Exchange {
  pick(division: Division): void {
    const { places, master, problem } = this;
    const { dice, shouldStop } = this.options;
    const { open, runs } = this.openAll(division);
    const picks = new Picks(
      runs.map(({ stacks }) => stacks.length),
      dice,
    );
    picks.relaxed(division.worth, this.gainsOf(runs, division.prices));
    let held = runs.map(({ one, run, stacks }) => {
      const own = stackKey(one.base.runs[run]!.stack);
      return stacks.findIndex((stack) => stackKey(stack) === own);
    });
    picks.tried(held, this.worth, this.gainsOf(runs, master.prices()));
    let best = places.fillings();
    for (let n = 0; n < MOST_SOLVES && !shouldStop?.(); n++) {
      problem.poll();
      const next = picks.near(held, this.worth + BETTER);
      if (!next) break;
      for (const one of open) this.hold(one, runs, next);
      this.solve();
      this.price([], null);
      picks.tried(next, this.value(), this.gainsOf(runs, master.prices()));
      if (this.value() <= this.worth + BETTER || !this.isBetter()) continue;
      held = next;
      best = places.fillings();
    }
    places.hold(best);
    places.allowOver();
    master.solve();
    this.worth = this.value();
  }

  /** All runs, with what each may hold: near stacks at the prices of the division, and what it has shares of. */
  private openAll({ prices, worth, shares }: Division): { open: Open[]; runs: OpenRun[] } {
    const open = this.places.all.flatMap((place): Open[] => {
      const base = place.held?.layout;
      return base ? [{ place, base, runs: base.runs.map((_, i) => i) }] : [];
    });
    const slack = Math.min(Math.max(worth - this.worth, 1), FAR * Math.abs(worth));
    const runs = open.flatMap((one) =>
      one.runs.map((run) => {
        const near = this.stacksOf({ one, run, stacks: [] }, prices, slack, MOST_STACKS);
        const shared = shares[one.place.space.index]![run]!.map((share) => share.run.stack);
        const stacks = new Map([...near, ...shared].map((stack) => [stackKey(stack), stack]));
        return { one, run, stacks: [...stacks.values()] };
      }),
    );
    return { open, runs };
  }
}
