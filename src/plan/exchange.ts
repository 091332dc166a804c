/**
 * Improving what lies in the runs of a plan: two or three runs are emptied at a time and filled anew where that makes the
 * whole worth more. To begin with bars are shares, left to the relaxation, which moves them all at once; then they are
 * whole, and a few of them are cut anew with every try. Of the stacks that the open runs may hold all are looked through
 * that the prices let be worth enough (choices.ts).
 */
import type { LinearEngine } from '../linear/model.ts';
import type { Berth, Layout, Run } from '../stow/layout.ts';
import { nearStacks } from '../stow/nearStacks.ts';
import type { RunSpace } from '../stow/runSpace.ts';
import { bestStack, type Stack, type StackPrices, stackKey, stackOf, stackValue } from '../stow/stack.ts';
import { type Pattern, patternOf } from './barPattern.ts';
import type { Filling } from './caps.ts';
import { Choices } from './choices.ts';
import type { Dice } from './dice.ts';
import { Master } from './master.ts';
import { berthOf, type Place, Places } from './places.ts';
import type { Prices } from './prices.ts';
import { layoutPrices, pricePatterns } from './pricing.ts';
import type { Problem } from './problem.ts';
import type { Dived } from './tiers.ts';
import { WholeBars } from './wholeBars.ts';

export interface ExchangeOptions {
  engine: LinearEngine;
  dice: Dice;
  shouldStop?: () => boolean;
}

/** Layouts, and the bars that are cut for them, one entry a bar: a few pieces may be too many, and one or two may lack. */
export interface Whole {
  fillings: Filling[];
  bars: Pattern[];
}

/** An open run, and what it may hold. */
export interface OpenRun {
  one: Open;
  run: number;
  stacks: Stack[];
}

/** A void of which some runs are open: those of the layout that it held. */
export interface Open {
  place: Place;
  base: Layout;
  runs: number[];
}

const IMPROVES = 1e-6;
/** What is not worth this much more, kg, is no better. */
export const BETTER = 0.01;
/** Rounds of pricing to begin with, and once something is opened. */
const FIRST_ROUNDS = 40;
const ROUNDS = 8;
/** Stacks that one of two open runs may hold at most, and one of more. */
export const MOST_STACKS = 200;
const FEW_STACKS = 80;
/** Choices tried for open runs, and solves of one try with whole bars. */
const MOST_CHOICES = 6;
const MOST_SOLVES = 24;
/** Shares are left as they are once so many times as many tries as there are runs were in vain. */
const VAIN = 2;
/** With whole bars, what is left out is taken out in earnest after so many tries, in so many rounds at most. */
const TAKE_OUT_EVERY = 50;
const TAKE_OUT_ROUNDS = 4;

type Start = Pick<Dived, 'fillings' | 'patterns'>;

/** Better layouts than those, of the same runs, bars as shares: some runs at a time are opened, so many times. */
export function exchangeRuns(
  problem: Problem,
  berths: Berth[][],
  start: Start,
  tries: number,
  options: ExchangeOptions,
): Dived {
  using work = new Exchange(problem, berths, start, options);
  return work.shares(tries);
}

/**
 * Whole bars for layouts, and better layouts of the same runs: runs and bars are opened so many times. It begins from
 * `bars`, or from the patterns of the relaxation made whole, whichever is worth more.
 */
export function exchangeBars(
  problem: Problem,
  berths: Berth[][],
  start: Start,
  bars: Pattern[],
  tries: number,
  options: ExchangeOptions,
): Whole {
  using work = new Exchange(problem, berths, start, options);
  return work.whole(bars, tries);
}

/** Runs and bars of one plan, in one master. */
export class Exchange implements Disposable {
  protected readonly problem: Problem;
  protected readonly options: ExchangeOptions;
  protected readonly master: Master;
  protected readonly places: Places;
  private readonly bars: WholeBars;
  protected worth = Number.NEGATIVE_INFINITY;
  private solves = 0;
  /** The lengths of the runs. */
  private readonly lengths: number[];

  constructor(problem: Problem, berths: Berth[][], { fillings, patterns }: Start, options: ExchangeOptions) {
    this.problem = problem;
    this.options = options;
    this.master = new Master(options.engine, problem);
    this.bars = new WholeBars(this.master);
    this.places = new Places(this.master, berths, fillings);
    this.lengths = this.places.lengths();
    for (const length of this.lengths) for (const { index } of problem.steels) this.master.addLength(index, length);
    for (const pattern of patterns) this.master.addPattern(pattern);
    this.places.allowOver();
    this.master.solve();
    for (let round = 0; round < FIRST_ROUNDS && this.price([], null); round++);
    this.worth = this.value();
  }

  shares(tries: number): Dived {
    const { places } = this;
    const { dice, shouldStop } = this.options;
    let vain = 0;
    for (let i = 0; i < tries && vain < VAIN * places.runs() && !shouldStop?.(); i++)
      vain = this.tryOpen(this.someRuns(i, 2 + dice.below(2)), null) ? 0 : vain + 1;
    return this.found();
  }

  /** What is held, and the patterns that there are shares of. */
  found(): Dived {
    const { master, places } = this;
    master.solve();
    const levels = master.levels();
    const patterns = master.columns.flatMap((column, i) =>
      column.what === 'pattern' && levels[i]! > 1e-6 ? [column.pattern] : [],
    );
    return { fillings: places.fillings(), patterns, worth: this.worth };
  }

  whole(bars: Pattern[], tries: number): Whole {
    this.cutWhole(bars);
    let best = this.takeOut();
    for (let i = 1; i <= tries && !this.options.shouldStop?.(); i++) {
      this.tryWhole(i);
      if (i % TAKE_OUT_EVERY !== 0 && i !== tries) continue;
      const next = this.takeOut();
      if (next.worth > best.worth) best = next;
    }
    return best;
  }

  /** Takes what is left out of what is held in earnest, and what can not be cut whole then. */
  private takeOut(): Whole & { worth: number } {
    const { places, bars } = this;
    for (const place of places.all) places.close(place);
    this.master.solve();
    for (let round = 0; round < TAKE_OUT_ROUNDS && places.takeOut(); round++);
    this.worth = this.value();
    return { fillings: places.fillings(), bars: bars.bars(), worth: this.worth };
  }

  /** What the master is worth, the labour of stops of what is held paid for. */
  protected value(): number {
    return this.master.value - this.places.lengths().length * this.problem.labour.stop;
  }

  /** Runs to open: one after the other, with others. */
  private someRuns(turn: number, count: number): Open[] {
    const { dice } = this.options;
    const all = this.places.all.flatMap((place) => (place.held?.layout.runs ?? []).map((_, run) => ({ place, run })));
    if (all.length === 0) return [];
    const chosen = new Set([all[turn % all.length]!]);
    for (let tries = 0; tries < 12 && chosen.size < count; tries++) chosen.add(all[dice.below(all.length)]!);
    const open: Open[] = [];
    for (const { place, run } of chosen) {
      const one = open.find((other) => other.place === place);
      if (one) one.runs.push(run);
      else open.push({ place, base: place.held!.layout, runs: [run] });
    }
    return open;
  }

  /** Fills what is opened anew, if that makes the whole worth more; `kinds`: of which bars are open, null for all bars. */
  private tryOpen(open: Open[], kinds: number[] | null): boolean {
    const { places, master } = this;
    for (const { place } of open) places.open(place);
    this.solves = 0;
    master.solve();
    const found = this.settle(open, kinds);
    for (const { place } of open) {
      if (!found) place.held = place.before;
      places.close(place);
    }
    if (places.allowOver()) master.solve();
    return found;
  }

  /** Prices, then looks through what the open runs may hold; true where the whole is worth more then. */
  private settle(open: Open[], kinds: number[] | null): boolean {
    this.problem.poll();
    for (let round = 0; round < ROUNDS; round++) if (!this.price(open, kinds)) break;
    const most = this.value();
    if (most <= this.worth + BETTER) return false;
    if (open.length === 0) return kinds ? this.roundBars(kinds) : this.isBetter();
    return this.choose(open, kinds, most);
  }

  /**
   * Tries what the open runs may hold: of all ways that the prices so far let be worth more, the one that they let be worth
   * most, until there is none. `most`: what the relaxation is worth while the runs are open.
   */
  private choose(open: Open[], kinds: number[] | null, most: number): boolean {
    const runs = open.flatMap((one) => one.runs.map((run): OpenRun => ({ one, run, stacks: [] })));
    const prices = this.master.prices();
    const each = runs.length > 2 ? FEW_STACKS : MOST_STACKS;
    for (const own of runs) own.stacks = this.stacksOf(own, prices, most - this.worth, each);
    const choices = new Choices(runs.map(({ stacks }) => stacks.length));
    choices.relaxed(most, this.gainsOf(runs, prices));
    for (let tries = 0; tries < MOST_CHOICES; tries++) {
      const picks = choices.next(this.worth + BETTER);
      if (!picks) break;
      for (const one of open) this.hold(one, runs, picks);
      this.solve();
      const value = this.value();
      choices.tried(picks, value, this.gainsOf(runs, this.master.prices()));
      if (value > this.worth + BETTER && (kinds ? this.roundBars(kinds) : this.isBetter())) return true;
    }
    return false;
  }

  /** Lets a void hold its layout with the stacks picked for its open runs. */
  protected hold(one: Open, runs: OpenRun[], picks: number[]): void {
    const layout = { laid: one.base.laid, runs: [...one.base.runs] };
    runs.forEach(({ one: other, run, stacks }, r) => {
      if (other === one) layout.runs[run] = { from: one.base.runs[run]!.from, stack: stacks[picks[r]!]! };
    });
    one.place.held = this.places.take(one.place, layout);
    this.places.close(one.place);
  }

  /** What an open run may hold: what it holds, what it was priced to hold, and what is worth almost as much as the best. */
  protected stacksOf({ one: { place, base }, run }: OpenRun, prices: Prices, slack: number, most: number): Stack[] {
    const own = base.runs[run]!;
    const { space, at } = this.pricedRun(place, base, own, prices);
    const priced = place.columns.flatMap(({ layout }) => {
      const same = layout.laid === base.laid && layout.runs.length === base.runs.length ? layout.runs[run]! : null;
      return same && same.from === own.from && same.stack.length === own.stack.length ? [same.stack] : [];
    });
    const near = nearStacks(space, at, this.problem.steels.length, slack, most);
    const stacks = new Map([own.stack, ...near, ...priced.slice(-most)].map((stack) => [stackKey(stack), stack]));
    return [...stacks.values()];
  }

  /** What each stack of the open runs is worth at these prices, less nothing for the rest. */
  protected gainsOf(runs: OpenRun[], prices: Prices): Float64Array[] {
    return runs.map(({ one: { place, base }, run, stacks }) => {
      const { at } = this.pricedRun(place, base, base.runs[run]!, prices);
      return Float64Array.from(stacks, (stack) => stackValue(stack, at));
    });
  }

  /** True where all is worth more than before once the caps are kept, by the lightest bundle of what is held. */
  protected isBetter(): boolean {
    const { places } = this;
    if (places.allowOver()) {
      this.solve();
      const fillings = places.fillings();
      if (this.value() <= this.worth + BETTER) places.keepCaps();
      if (this.value() <= this.worth + BETTER) places.hold(fillings);
    }
    if (this.value() <= this.worth + BETTER) return false;
    this.worth = this.value();
    return true;
  }

  /** These bars, or whole ones for the shares of the relaxation. */
  private cutWhole(given: Pattern[]): void {
    const { bars, master } = this;
    this.worth = Number.NEGATIVE_INFINITY;
    this.solves = Number.NEGATIVE_INFINITY;
    master.solve();
    this.roundBars(this.problem.barKinds.map(({ index }) => index));
    const rounded = bars.bars();
    bars.cut(given);
    master.solve();
    if (this.value() > this.worth) this.worth = this.value();
    else bars.cut(rounded);
  }

  /** Opens a run or two and a few bars that are cut for the first. */
  private tryWhole(turn: number): void {
    const { bars, problem } = this;
    const { dice } = this.options;
    const open = this.someRuns(turn, 1 + dice.below(2));
    if (open.length === 0) return;
    const { base, runs } = open[0]!;
    const near = bars.kindsOf(base.runs[runs[0]!]!.stack.length);
    const kinds = new Set<number>();
    const count = 1 + dice.below(2);
    for (let n = 0; n < 8 && kinds.size < count; n++) {
      const any = near.length === 0 || n >= 4;
      kinds.add(any ? dice.below(problem.barKinds.length) : near[dice.below(near.length)]!);
    }
    const before = bars.kept();
    for (const kind of kinds) bars.free(kind, 1 + dice.below(3), dice);
    if (!this.tryOpen(open, [...kinds])) bars.restore(before, []);
    bars.close([...kinds]);
  }

  /** Makes bars of these kinds whole; true where the whole is worth more then. Else they are free again. */
  private roundBars(kinds: number[]): boolean {
    const { bars } = this;
    const before = bars.kept();
    while (bars.fixMore(kinds)) {
      this.solve();
      if (this.value() > this.worth + BETTER && this.solves <= MOST_SOLVES) continue;
      bars.restore(before, kinds);
      return false;
    }
    bars.close(kinds);
    if (this.isBetter()) return true;
    bars.restore(before, kinds);
    return false;
  }

  protected solve(): void {
    this.master.solve();
    this.solves++;
  }

  /** A round of pricing over the open voids and patterns; false where nothing improves. The master is left solved. */
  protected price(open: Open[], kinds: number[] | null): boolean {
    const { master, problem, places } = this;
    const prices = master.prices();
    const lengths = problem.steels.map(() => this.lengths);
    let added = false;
    for (const { kind, spans, worth } of pricePatterns(problem, prices, lengths, { kinds, least: prices.bars })) {
      if (worth - prices.bars[kind.index]! <= IMPROVES) continue;
      if (master.addPattern(patternOf(kind, spans, problem.job, problem.labour))) added = true;
    }
    for (const { place, base, runs } of open) {
      const layout = this.refilled(place, base, runs, prices);
      const lighter = places.lighter(place, layout, open.length === 1);
      for (const one of lighter ? [layout, lighter] : [layout]) {
        if (master.layoutGain(place.space.index, place.space, one, prices) <= IMPROVES) continue;
        if (places.add(place, one)) added = true;
      }
    }
    if (added) this.solve();
    return added;
  }

  /** A layout of a void with some of its runs filled as is best. */
  private refilled(place: Place, base: Layout, open: number[], prices: Prices): Layout {
    const steels = this.problem.steels.length;
    const runs = base.runs.map((run, i) => {
      if (!open.includes(i)) return run;
      const { space, at } = this.pricedRun(place, base, run, prices);
      return { from: run.from, stack: bestStack(space, at, steels)?.stack ?? stackOf(run.stack.length, [], steels) };
    });
    return { laid: base.laid, runs };
  }

  /** The space of a run, and what a bar and a bundle are worth in it. */
  private pricedRun(
    { space, berths }: Place,
    base: Layout,
    { from, stack }: Run,
    prices: Prices,
  ): { space: RunSpace; at: StackPrices } {
    const { problem, master } = this;
    const berth = berthOf(berths, base);
    const run = berth.space(from, stack.length);
    const priced = layoutPrices(problem, master.loadRows, prices, space, berth.laid, [stack.length]);
    return { space: run, at: berth.pricesAt(priced, 0, from + run.along / 2) };
  }

  [Symbol.dispose](): void {
    this.master.dispose();
  }
}
