/**
 * Improving what lies in the runs of a plan: two or three runs are emptied at a time and filled anew where that makes the
 * whole worth more. To begin with bars are shares, left to the relaxation, which moves them all at once; then they are
 * whole, and a few of them are cut anew with every try. Between the voids that are open a choice is made by branching, the
 * largest share first, cut off by what the relaxation says.
 */
import type { LinearEngine } from '../linear/model.ts';
import type { Berth, Layout } from '../stow/layout.ts';
import { bestStack, type Stack, stackOf } from '../stow/stack.ts';
import { type Pattern, patternOf } from './barPattern.ts';
import type { Filling } from './caps.ts';
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

/** A void of which some runs are open: those of the layout that it held. */
interface Open {
  place: Place;
  base: Layout;
  runs: number[];
}

const IMPROVES = 1e-6;
/** What is not worth this much more, kg, is no better. */
const BETTER = 0.01;
/** Rounds of pricing to begin with, once something is opened, and after each branch. */
const FIRST_ROUNDS = 40;
const ROUNDS = 8;
const BRANCH_ROUNDS = 2;
/** Branches tried of a void, and solves of one try. */
const BRANCHES = 2;
const MOST_SOLVES = 24;
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

class Exchange implements Disposable {
  private readonly problem: Problem;
  private readonly options: ExchangeOptions;
  private readonly master: Master;
  private readonly places: Places;
  private readonly bars: WholeBars;
  private worth = Number.NEGATIVE_INFINITY;
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
    const { master, places } = this;
    const { dice, shouldStop } = this.options;
    for (let i = 0; i < tries && !shouldStop?.(); i++) this.tryOpen(this.someRuns(i, 2 + dice.below(2)), null);
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
  private value(): number {
    return this.master.value - this.places.lengths().length * this.problem.labour.stop;
  }

  /** Runs to open: one after the other, with others. */
  private someRuns(turn: number, count: number): Open[] {
    const { dice } = this.options;
    const all = this.places.all.flatMap((place) => (place.held?.layout.runs ?? []).map((_, run) => ({ place, run })));
    if (all.length === 0) return [];
    const chosen = new Set([all[turn % all.length]!]);
    for (let tries = 0; tries < 4 && chosen.size < count; tries++) chosen.add(all[dice.below(all.length)]!);
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
    const found = this.branch(open, kinds, ROUNDS);
    for (const { place } of open) {
      if (!found) place.held = place.before;
      places.close(place);
    }
    if (places.allowOver()) master.solve();
    return found;
  }

  /** Prices, then settles one void of those that are open, then the others; true where the whole is worth more then. */
  private branch(open: Open[], kinds: number[] | null, rounds: number): boolean {
    const { places } = this;
    for (let round = 0; round < rounds; round++) if (!this.price(open, kinds)) break;
    if (this.value() <= this.worth + BETTER) return false;
    if (open.length === 0) return kinds ? this.roundBars(kinds) : this.isBetter();
    const ranked = open.map((one) => ({ one, ways: places.waysOf(one.place) }));
    ranked.sort((p, q) => q.ways[0]!.share - p.ways[0]!.share);
    const { one, ways } = ranked[0]!;
    const left = open.filter((other) => other !== one);
    for (const { column } of ways.slice(0, BRANCHES)) {
      if (this.solves > MOST_SOLVES) break;
      one.place.held = column;
      places.close(one.place);
      this.solve();
      if (this.branch(left, kinds, BRANCH_ROUNDS)) return true;
    }
    places.free(one.place);
    return false;
  }

  /** True where all is worth more than before once the caps are kept, by the lightest bundle of what is held. */
  private isBetter(): boolean {
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
      for (let round = 0; round < BRANCH_ROUNDS && this.price([], kinds); round++);
      if (this.value() > this.worth + BETTER && this.solves <= MOST_SOLVES) continue;
      bars.restore(before, kinds);
      return false;
    }
    bars.close(kinds);
    if (this.isBetter()) return true;
    bars.restore(before, kinds);
    return false;
  }

  private solve(): void {
    this.master.solve();
    this.solves++;
  }

  /** A round of pricing over the open voids and patterns; false where nothing improves. The master is left solved. */
  private price(open: Open[], kinds: number[] | null): boolean {
    const { master, problem, places } = this;
    const prices = master.prices();
    const lengths = problem.steels.map(() => this.lengths);
    let added = false;
    for (const { kind, spans, worth } of pricePatterns(problem, prices, lengths, { kinds })) {
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
  private refilled({ space, berths }: Place, base: Layout, open: number[], prices: Prices): Layout {
    const berth = berthOf(berths, base);
    const runs = base.runs.map((run, i) =>
      open.includes(i) ? { from: run.from, stack: this.bestStackAt(space, berth, run, prices) } : run,
    );
    return { laid: base.laid, runs };
  }

  private bestStackAt(
    space: Place['space'],
    berth: Berth,
    { from, stack }: Layout['runs'][number],
    prices: Prices,
  ): Stack {
    const { problem, master } = this;
    const run = berth.space(from, stack.length);
    const priced = layoutPrices(problem, master.loadRows, prices, space, berth.laid, [stack.length]);
    const best = bestStack(run, berth.pricesAt(priced, 0, from + run.along / 2), problem.steels.length);
    return best?.stack ?? stackOf(stack.length, [], problem.steels.length);
  }

  [Symbol.dispose](): void {
    this.master.dispose();
  }
}
