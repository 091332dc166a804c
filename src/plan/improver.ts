/** The ways in which a search betters a plan: voids planned again, what runs hold exchanged, bars made whole. */
import type { Berth } from '../stow/layout.ts';
import type { SomeLengths } from '../stow/pileCeiling.ts';
import type { Bounder } from './bound.ts';
import { areCapsKept, keepEveryCap } from './caps.ts';
import { ColumnPool } from './columnPool.ts';
import { type Cutting, cutFrom, cutUses } from './cutting.ts';
import { Dice } from './dice.ts';
import { type Division, lengthsIn } from './division.ts';
import { DivisionSearch, NEAR_DIVISION } from './divisionSearch.ts';
import { Divisions } from './divisions.ts';
import type { Work } from './effort.ts';
import { type ExchangeOptions, exchangeBars, exchangeRuns } from './exchange.ts';
import { type Making, worthOf } from './finish.ts';
import { fitLengths } from './fitLengths.ts';
import { NEAR_BEST } from './found.ts';
import { replan } from './improve.ts';
import { looser } from './looser.ts';
import { Neighbours } from './neighbours.ts';
import { pickStacks } from './pickStacks.ts';
import type { Prices } from './prices.ts';
import type { Problem } from './problem.ts';
import { takeShort, usesOf } from './short.ts';
import type { Dived } from './tiers.ts';

/** Of so many tries one divides voids again at the prices of the relaxation; the others change a division that is known. */
const AGAIN_EVERY = 5;
/** While improving, one length in so many millimetres may be suggested at a time. */
const SUGGESTED = 4;
/** Voids planned again are looked at more closely where they are worth this share of what they were. */
const NEAR = 0.99;
/** Caps are let out by such shares of a bundle, so many of them as the effort has it. */
const LOOSER = [0.2, 1, 0.5, 1.75];
/** What whole bars do not yield is taken out in so many tries. */
const SHORT_TRIES = 3;

/** Layouts with their bars; the cutting is null where the pile does not yield them. */
export interface Whole {
  dived: Dived;
  cutting: Cutting | null;
}

export class Improver {
  private readonly problem: Problem;
  private readonly berths: Berth[][];
  private readonly making: Making;
  private readonly work: Work;
  private readonly neighbours: Neighbours;
  private readonly exchanging: ExchangeOptions;
  private readonly pool: ColumnPool;
  /** Tries of dividing voids again so far. */
  private turn = 0;

  constructor(problem: Problem, berths: Berth[][], making: Making, work: Work) {
    this.problem = problem;
    this.berths = berths;
    this.making = making;
    this.work = work;
    const dice = new Dice(making.seed);
    this.neighbours = new Neighbours(problem, dice, work.replanLengths);
    this.exchanging = { engine: making.engine, dice, shouldStop: making.shouldStop };
    this.pool = new ColumnPool(problem, berths);
  }

  /** Better layouts of the same runs, bars as shares; `share` of the usual tries. */
  runs(start: Dived, share = 1): Dived {
    const { problem, berths, work, exchanging } = this;
    return exchangeRuns(problem, berths, start, Math.floor(work.runTries * share), exchanging);
  }

  /** Ways of dividing all voids into runs of at most so many lengths, from the prices of the relaxation. */
  divisions(prices: Prices, bounder: Bounder, mostLengths: number): Divisions {
    const { engine, seed, shouldStop } = this.making;
    const options = { engine, prices, bounder, mostLengths, dice: new Dice(seed), shouldStop };
    return new Divisions(this.problem, this.berths, options, this.pool);
  }

  /** A search that begins with one division; `tell` is called at every step. */
  divided(divisions: Divisions, first: Division, lengths: number[][], tell: () => void): DivisionSearch {
    return new DivisionSearch(divisions, first, this.work, {
      divide: (now) => this.division(divisions, now, lengths),
      fill: (division) => pickStacks(this.problem, this.berths, division, this.exchanging),
      exchange: (dived) => this.runs(dived),
      shouldStop: this.making.shouldStop,
      tell,
    });
  }

  /** Lengths that a bounder may suggest: chance keeps them from going with the turns of the voids. */
  private suggested(): SomeLengths {
    return { step: SUGGESTED, rest: this.exchanging.dice.below(SUGGESTED) };
  }

  /** Some voids divided again; null where nothing about as good comes of it. */
  private division(divisions: Divisions, now: Division, lengths: number[][]): Division | null {
    const least = NEAR_DIVISION * now.worth;
    if (this.turn++ % AGAIN_EVERY > 0) return divisions.near(now, least);
    const used = now.skeletons.map((skeleton) => lengthsIn([skeleton]));
    const next = divisions.isLimited
      ? this.neighbours.without(used, lengths)
      : this.neighbours.divide(lengthsIn(now.skeletons), lengths);
    return divisions.again(now, next, this.suggested(), least);
  }

  /** Some voids planned again and their runs exchanged; the same where nothing better comes of it. */
  voids(now: Dived, lengths: number[][], bounder: Bounder | null): Dived {
    const other = this.someVoids(this.problem, now, lengths, bounder);
    const next = other && this.runs(other, 0.25);
    return next && next.worth > now.worth ? next : now;
  }

  /** Some voids planned again from a pile; null where nothing comes of it that is worth about as much. */
  someVoids(pile: Problem, { fillings, worth }: Dived, lengths: number[][], bounder: Bounder | null): Dived | null {
    const { open, leastBundle, lengths: some } = this.neighbours.next(fillings, lengths);
    return replan(pile, this.berths, fillings, open, {
      engine: this.making.engine,
      lengths: some,
      rounds: this.work.replanRounds,
      leastBundle,
      least: worth * NEAR,
      bounder,
      some: this.suggested(),
      shouldStop: this.making.shouldStop,
    });
  }

  /** The voids planned again that have other lengths than these; null where that costs too much. */
  without({ fillings, worth }: Dived, kept: Set<number>): Dived | null {
    const own = [...kept].sort((a, b) => a - b);
    const open = fillings.map((filling) => usesOf([filling]).some(({ length }) => !kept.has(length)));
    const dived = replan(this.problem, this.berths, fillings, open, {
      engine: this.making.engine,
      lengths: this.problem.steels.map(() => own),
      rounds: this.work.replanRounds,
      leastBundle: 0,
      least: NEAR_BEST * worth,
      bounder: null,
      some: this.suggested(),
      shouldStop: this.making.shouldStop,
    });
    return dived && this.runs(dived, 0.5);
  }

  /**
   * Whole bars for layouts, which change with them, and lengths fitted to those; tried also with caps let out, where shorter
   * lengths keep them. The cutting is null where the bars do not yield the layouts after all. `rounded`: from the patterns
   * of the relaxation alone, which spares the first plan a fifth to a half of its time.
   */
  whole(relaxed: Dived, tries: number, rounded = false): Whole {
    const { problem, making, work, exchanging } = this;
    let best = this.cut(problem, relaxed, rounded ? [] : this.barsOf(relaxed), tries, exchanging);
    for (const share of tries > 0 ? LOOSER.slice(0, work.looserTries) : []) {
      const loose = looser(problem, best.dived.fillings, share);
      if (!loose || making.shouldStop?.()) break;
      // Dice of its own: what is tried besides does not change what comes after.
      const next = this.cut(loose, relaxed, this.barsOf(relaxed), tries, {
        ...exchanging,
        dice: new Dice(making.seed),
      });
      if (areCapsKept(problem, next.dived.fillings) && worthOfWhole(problem, next) > worthOfWhole(problem, best))
        best = next;
    }
    return best;
  }

  /** The bars that the cutting engine cuts for layouts. */
  private barsOf({ fillings }: Dived): Cutting['bars'] {
    const { engine, known, cuttingEffort: effort } = this.making;
    return cutUses(this.problem, usesOf(fillings), { engine, effort, worth: false, ...(known && { known }) }).bars;
  }

  /** Whole bars for layouts under the caps of `problem`, lengths fitted to the caps as they are. */
  private cut(
    problem: Problem,
    relaxed: Dived,
    cut: Cutting['bars'],
    tries: number,
    exchanging: ExchangeOptions,
  ): Whole {
    const { berths, making } = this;
    const { fillings, bars } = exchangeBars(problem, berths, relaxed, cut, tries, exchanging);
    let cutting = cutFrom(problem, usesOf(fillings), bars);
    for (let i = 0; i < SHORT_TRIES && cutting.short.length > 0; i++) {
      takeShort(problem, fillings, cutting.short);
      keepEveryCap(problem, fillings, (space) => space.weight);
      cutting = cutFrom(problem, usesOf(fillings), bars);
    }
    if (cutting.short.length > 0) return { dived: { ...relaxed, fillings }, cutting: null };
    const fitted = fitLengths(this.problem, fillings, cutting, making.engine) ?? { fillings, cutting };
    return { dived: { ...relaxed, fillings: fitted.fillings }, cutting: fitted.cutting };
  }
}

function worthOfWhole(problem: Problem, { dived, cutting }: Whole): number {
  return cutting ? worthOf(problem, dived.fillings, cutting) : Number.NEGATIVE_INFINITY;
}
