/**
 * What a division of the voids may be worth, without a solve. Its relaxation is worth no more than any prices let it be: what
 * the best stacks of its runs are worth at them, and of every bar the best pattern of its lengths. The prices at which one
 * division was solved are near those of others like it, so that a few of them tell within a moment which deserve a solve.
 * It is a guess: kerfs are rounded, and of voids with caps what passes them is taken out as the search itself does it.
 */
import { stackValue } from '../stow/stack.ts';
import { BarsWorth } from './barsWorth.ts';
import { capsOf, withinCaps } from './caps.ts';
import type { LoadRow } from './loadRows.ts';
import type { Prices } from './prices.ts';
import { layoutPrices, loadAllowance, type Skeleton } from './pricing.ts';
import type { Problem } from './problem.ts';
import { worthBy } from './worth.ts';

/** Prices, and what was found at them. */
interface Known {
  prices: Prices;
  rows: LoadRow[];
  allowance: number;
  /** What the best stack of a run is worth, by space, axis, length, and place where that counts. */
  stacks: Map<string, number>;
  /** What the bars are worth, by lengths. */
  bars: Map<string, number>;
}

/** So many prices are kept, the last that told something. */
const MOST_KNOWN = 8;

export class DivisionBounds {
  private readonly problem: Problem;
  private readonly bars: BarsWorth;
  private readonly known: Known[] = [];
  private readonly placed: boolean;

  constructor(problem: Problem) {
    this.problem = problem;
    this.bars = new BarsWorth(problem);
    const { centre, spread } = problem.job.aims;
    this.placed = centre !== undefined || spread !== undefined;
  }

  /** Takes in the prices of a division that was solved, with the load rows as they were. */
  take(prices: Prices, rows: LoadRow[]): void {
    const allowance = loadAllowance(rows, prices);
    const own = rows.map((row) => ({ ...row }));
    this.known.unshift({ prices, rows: own, allowance, stacks: new Map(), bars: new Map() });
    if (this.known.length > MOST_KNOWN) this.known.pop();
  }

  /** What known prices let a division of these lengths be worth at most, the labour of stops paid for, kg; more or less no more than `least` where it is no more. */
  most(skeletons: Skeleton[], lengths: number[], least: number): number {
    const stops = lengths.length * this.problem.labour.stop;
    let most = Number.POSITIVE_INFINITY;
    for (const [i, known] of this.known.entries()) {
      most = Math.min(most, this.worth(known, skeletons, lengths) - stops);
      if (most > least) continue;
      // What told most of the last is asked first of the next.
      this.known.splice(i, 1);
      this.known.unshift(known);
      break;
    }
    return most;
  }

  private worth(known: Known, skeletons: Skeleton[], lengths: number[]): number {
    let sum = known.allowance;
    for (const skeleton of skeletons) for (const run of skeleton.runs) sum += this.ofRun(known, skeleton, run);
    const key = lengths.join();
    let bars = known.bars.get(key);
    if (bars === undefined) {
      bars = this.bars.of(known.prices, lengths);
      known.bars.set(key, bars);
    }
    return sum + bars;
  }

  private ofRun(known: Known, skeleton: Skeleton, run: Skeleton['runs'][number]): number {
    const { space, berth } = skeleton;
    const place = this.placed || !berth.uniform ? `@${run.from}` : '';
    const key = `${space.index}${berth.laid.axis}${run.length}${place}`;
    let worth = known.stacks.get(key);
    if (worth === undefined) {
      worth = this.stackWorth(known, skeleton, run);
      known.stacks.set(key, worth);
    }
    return worth;
  }

  private stackWorth({ prices, rows }: Known, { space, berth }: Skeleton, run: Skeleton['runs'][number]): number {
    const { problem } = this;
    const { from, length } = run;
    const priced = layoutPrices(problem, rows, prices, space, berth.laid, [length]);
    if (capsOf(space).length === 0) return berth.worthOf(from, priced);
    const layout = berth.fill([run], priced);
    const stack = layout && withinCaps(problem, space, layout, worthBy(problem, prices))?.runs[0]?.stack;
    return stack ? stackValue(stack, berth.pricesAt(priced, 0, from + berth.space(from, length).along / 2)) : 0;
  }
}
