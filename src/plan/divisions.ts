/**
 * How the voids are divided into runs. A division is worth what the relaxation makes of it with bars and stacks as shares:
 * so it is known within a moment, and divisions are told apart by far less than whole stacks come out by. Others are found
 * by a change or two of one that is known, of which the most hopeful is solved, or by dividing a few voids again at the
 * prices of the relaxation. Whole stacks are sought for the best divisions only.
 */
import type { LinearEngine } from '../linear/model.ts';
import type { Berth } from '../stow/layout.ts';
import type { SomeLengths } from '../stow/pileCeiling.ts';
import type { Pattern } from './barPattern.ts';
import type { Bounder } from './bound.ts';
import { ColumnPool, OF_USE } from './columnPool.ts';
import type { Dice } from './dice.ts';
import { coupled, type Division, heldOf, keyOf, lengthsIn, rising, type Share, sameRuns } from './division.ts';
import { DivisionBounds } from './divisionBounds.ts';
import { DivisionMoves } from './divisionMoves.ts';
import { fitShares } from './fitShares.ts';
import { generate, type Part } from './generate.ts';
import { Master } from './master.ts';
import type { Neighbour } from './neighbours.ts';
import type { Prices } from './prices.ts';
import type { Skeleton } from './pricing.ts';
import { barMass, type Problem } from './problem.ts';
import { chooseWay, largestRuns, skeletonOf, waysOf } from './runs.ts';

export interface DivisionOptions {
  engine: LinearEngine;
  /** Prices to begin near: those of the joint master. */
  prices: Prices;
  /** Asked for lengths that would be worth having in the voids that are divided again. */
  bounder: Bounder;
  /** So many different lengths are allowed, Infinity for no limit; which of them are tried is thrown with `dice`. */
  mostLengths: number;
  dice: Dice;
  shouldStop?: () => boolean;
}

/** Divisions like another of which the most hopeful is solved. */
const LOOKED_AT = 120;
/** Throws for them: where few lengths are allowed most have too many. */
const MOST_THROWN = 2000;
/** And of divisions with fewer lengths: where voids are no boxes each takes longer. */
const FEWER_LOOKED_AT = { boxes: 400, shapes: 200 };
/** Lengths are fitted where that gains this share of the worth: less is lost among shares that are not quite the best. */
const FITS = 1e-3;
const SHARE = 1e-7;
const LARGE_SHARE = 0.3;
/** Sides of a throw that stands for any share. */
const FINE = 1_000_000;
/** Rounds of pricing before and after lengths are suggested, after a void is settled, and for what a division is worth. */
const ROUNDS = 10;
const SETTLE_ROUNDS = 8;
const WEIGH_ROUNDS = 40;

export class Divisions {
  private readonly problem: Problem;
  private readonly berths: Berth[][];
  private readonly options: DivisionOptions;
  private readonly pool: ColumnPool;
  private readonly bounds: DivisionBounds;
  private readonly moves: DivisionMoves;
  /** Keys of what was solved. */
  private readonly weighed = new Set<string>();

  /** `pool`: columns of other divisions of the same voids, which take in those of these. */
  constructor(
    problem: Problem,
    berths: Berth[][],
    options: DivisionOptions,
    pool: ColumnPool = new ColumnPool(problem, berths),
  ) {
    this.problem = problem;
    this.berths = berths;
    this.options = options;
    this.pool = pool;
    this.bounds = new DivisionBounds(problem);
    this.moves = new DivisionMoves(problem, berths, options.dice);
  }

  /** True where not every length may be had. */
  get isLimited(): boolean {
    return Number.isFinite(this.options.mostLengths);
  }

  /** The division that has most shares in a joint master, void by void; where that has more lengths than are allowed, with those that hold most only. */
  begin(master: Master, mostLengths = this.options.mostLengths): Division {
    const { problem, berths } = this;
    let skeletons = largestRuns(problem, master, berths);
    this.pool.take(master);
    if (lengthsIn(skeletons).length > mostLengths) {
      const held = [...this.heldBy(master)].sort(([, p], [, q]) => q - p);
      const few = rising(held.slice(0, mostLengths).map(([length]) => length));
      const lengths = problem.steels.map(() => few);
      master.allow(lengths.map((own) => new Set(own)));
      generate(problem, master, berths, { lengths, rounds: WEIGH_ROUNDS, tolerance: 1e-3 });
      skeletons = largestRuns(problem, master, berths);
    }
    return this.weigh(skeletons, Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY);
  }

  /**
   * A division like another: of many tries the one that may be worth most by prices known so far, solved; null where it is
   * worth no more than `least`, or none may be.
   */
  near(now: Division, least: number, mostLengths = this.options.mostLengths): Division | null {
    const { shouldStop } = this.options;
    let best: Skeleton[] | null = null;
    let most = least;
    for (let i = 0, thrown = 0; i < LOOKED_AT && thrown < MOST_THROWN && !shouldStop?.(); thrown++) {
      const next = this.moves.next(now.skeletons);
      const own = next && lengthsIn(next);
      if (own && own.length > mostLengths) continue;
      i++;
      if (!next) continue;
      const worth = this.bounds.most(next, own!, most);
      if (worth <= most || this.weighed.has(keyOf(next))) continue;
      best = next;
      most = worth;
    }
    if (!best) return null;
    const next = this.weigh(best, now.lightest, least);
    return next.worth > least ? next : null;
  }

  /** A division like another with no more than so many of its lengths: of many the one that may be worth most, solved; null where none is new. */
  fewer(now: Division, most: number): Division | null {
    let best: Skeleton[] | null = null;
    let worth = Number.NEGATIVE_INFINITY;
    const { boxes, shapes } = FEWER_LOOKED_AT;
    const tries = this.berths.every((own) => own.every(({ uniform }) => uniform)) ? boxes : shapes;
    for (let i = 0; i < tries && !this.options.shouldStop?.(); i++) {
      let next: Skeleton[] | null = now.skeletons;
      while (next && lengthsIn(next).length > most) next = this.moves.fewer(next);
      if (!next || this.weighed.has(keyOf(next))) continue;
      const may = this.bounds.most(next, lengthsIn(next), worth);
      if (may <= worth) continue;
      best = next;
      worth = may;
    }
    return best && this.weigh(best, now.lightest, Number.NEGATIVE_INFINITY);
  }

  /** A division with its lengths fitted to its shares, solved; null where that gains too little, or it is worth no more than `least`. */
  fitted(now: Division, least: number): Division | null {
    const fitted = fitShares(this.problem, now, this.options.engine);
    if (!fitted || fitted.gain < FITS * now.worth || now.worth + fitted.gain <= least) return null;
    const skeletons = this.moves.changed(now.skeletons, fitted.changes);
    if (!skeletons || this.weighed.has(keyOf(skeletons))) return null;
    const next = this.weigh(skeletons, now.lightest, least);
    return next.worth > least ? next : null;
  }

  /** What a division is worth; less than it is where that is no more than `least`. */
  private weigh(skeletons: Skeleton[], lightest: number, least: number): Division {
    const { problem } = this;
    this.weighed.add(keyOf(skeletons));
    const lengths = lengthsIn(skeletons);
    const stops = lengths.length * problem.labour.stop;
    const { master, parts } = this.masterOf(skeletons, lengths, lightest);
    try {
      const own = problem.steels.map(() => lengths);
      const settling = { lengths: own, rounds: WEIGH_ROUNDS, tolerance: 3e-4, parts, least: least + stops };
      const { prices: best } = generate(problem, master, this.berths, settling);
      this.bounds.take(best, master.loadRows);
      const { skeletons: held, shares } = heldOf(skeletons, this.sharesOf(master, parts, skeletons));
      const light = lightestOf(master);
      const worth = master.value - lengthsIn(held).length * problem.labour.stop;
      const prices = master.prices();
      return {
        skeletons: held,
        key: keyOf(held),
        worth,
        prices,
        shares,
        cuts: cutsOf(master),
        patterns: patternsOf(master, prices),
        lightest: Number.isFinite(light) ? light : lightest,
      };
    } finally {
      this.pool.take(master);
      master.dispose();
    }
  }

  private sharesOf(master: Master, parts: Part[], skeletons: Skeleton[]): Share[][][] {
    const levels = master.levels();
    const shares: Share[][][] = skeletons.map(({ runs }) => runs.map(() => []));
    const first = this.problem.spaces.map((space) => parts.findIndex((part) => part.space === space));
    master.columns.forEach((column, i) => {
      if (column.what !== 'layout' || levels[i]! <= SHARE) return;
      const { space, group, layout } = column;
      shares[space.index]![group - first[space.index]!]!.push({ run: layout.runs[0]!, share: levels[i]! });
    });
    return shares;
  }

  /** A division with some voids divided again; null where it is the same, or worth no more than `least`. */
  again(now: Division, { open, lengths: some }: Neighbour, suggested: SomeLengths, least: number): Division | null {
    const { problem, berths } = this;
    const { bounder, shouldStop } = this.options;
    const skeletons = now.skeletons.map((skeleton, i) => (open[i] ? null : skeleton));
    const kept = lengthsIn(skeletons);
    const lengths = some.map(() => rising([...kept, ...some.flat()]));
    const { master, parts } = this.masterOf(skeletons, lengths[0]!, now.lightest, now);
    const stops = kept.length * problem.labour.stop;
    const settling = { rounds: ROUNDS, tolerance: 1e-3, parts, least: least + stops, shouldStop };
    try {
      const { prices } = generate(problem, master, berths, { ...settling, lengths, from: this.options.prices });
      bounder.suggest(master.loadRows, prices, open, suggested).forEach((found, steel) => {
        lengths[steel] = rising([...lengths[steel]!, ...found]);
      });
      generate(problem, master, berths, { ...settling, lengths, from: prices });
      if (master.value - stops <= least) return null;
      const few = this.fewOf(master, kept, lengths);
      if (few) {
        lengths.fill(few);
        master.allow(lengths.map((own) => new Set(own)));
        generate(problem, master, berths, { ...settling, lengths, from: prices });
        if (master.value - stops <= least) return null;
      }
      const settled = this.settle(master, parts, now.skeletons, lengths);
      if (keyOf(settled) === now.key) return null;
      const next = this.weigh(settled, now.lightest, least);
      return next.worth > least ? next : null;
    } finally {
      this.pool.take(master);
      master.dispose();
    }
  }

  /** The lengths kept and as many more as are allowed, thrown by the steel that open voids hold of each; null where all are. */
  private fewOf(master: Master, kept: number[], lengths: number[][]): number[] | null {
    const { mostLengths, dice } = this.options;
    if (rising([...kept, ...lengths.flat()]).length <= mostLengths) return null;
    const few = [...kept];
    const held = this.heldBy(master);
    for (const length of kept) held.delete(length);
    while (few.length < mostLengths && held.size > 0) {
      const next = thrown(held, dice);
      few.push(next);
      held.delete(next);
    }
    return rising(few);
  }

  /** The steel that the shares of a master hold of each length, kg. */
  private heldBy(master: Master): Map<number, number> {
    const held = new Map<number, number>();
    const levels = master.levels();
    master.columns.forEach((column, i) => {
      if (column.what !== 'layout' || levels[i]! <= SHARE) return;
      for (const { steel, length, bars } of column.use) {
        const mass = levels[i]! * bars * barMass(this.problem.steels[steel]!, length);
        held.set(length, (held.get(length) ?? 0) + mass);
      }
    });
    return held;
  }

  /** Settles the runs of the voids that are open, the surest first, one of them otherwise than now; the others are as now. Changes `parts`. */
  private settle(master: Master, parts: Part[], now: Skeleton[], lengths: number[][]): Skeleton[] {
    const { problem, berths } = this;
    const settled = [...now];
    for (;;) {
      const open = parts
        .filter(({ skeleton }) => skeleton === null)
        .map((part) => ({ part, ways: waysOf(master, part.group) }))
        .sort((p, q) => (q.ways[0]?.share ?? 1) - (p.ways[0]?.share ?? 1));
      const surest = open[0];
      if (!surest) return settled;
      const { part, ways } = surest;
      const before = now[part.space.index]!;
      const others = settled.some((one, i) => one !== now[i])
        ? ways
        : ways.filter(({ column }) => !sameRuns(column.layout, before));
      const way = chooseWay(master, part.group, others.length > 0 ? others : ways);
      part.skeleton = skeletonOf(part.space, berths[part.space.index]!, way?.column.layout ?? null);
      settled[part.space.index] = part.skeleton;
      if (open.length > 1)
        generate(problem, master, berths, { lengths, rounds: SETTLE_ROUNDS, tolerance: 1e-3, parts });
    }
  }

  /** A master of these lengths, a group for each settled run and for each open void; of `now`, what the open voids held is among its columns. */
  private masterOf(
    skeletons: (Skeleton | null)[],
    lengths: number[],
    lightest: number,
    now: Division | null = null,
  ): { master: Master; parts: Part[] } {
    const { problem } = this;
    const parts: Part[] = [];
    problem.spaces.forEach((space) => {
      const skeleton = skeletons[space.index];
      const own = skeleton ? skeleton.runs.map((run) => ({ ...skeleton, runs: [run] })) : [null];
      for (const one of own) parts.push({ group: parts.length, space, skeleton: one });
    });
    const spaces = parts.map(({ space }) => space);
    const master = new Master(this.options.engine, problem, spaces);
    for (const { index } of problem.steels) for (const length of lengths) master.addLength(index, length);
    if (Number.isFinite(lightest)) master.allowBallastOver(lightest);
    for (const { group, space, skeleton } of parts)
      if (now && !skeleton) for (const layout of coupled(now, space)) master.addLayout(group, space, layout);
    this.pool.seed(master, parts, new Set(lengths));
    return { master, parts };
  }
}

/** One of the lengths, the surer the more it holds. */
function thrown(held: Map<number, number>, dice: Dice): number {
  const all = [...held].sort(([p], [q]) => p - q);
  let left = (dice.below(FINE) / FINE) * all.reduce((sum, [, mass]) => sum + mass, 0);
  for (const [length, mass] of all) {
    left -= mass;
    if (left < 0) return length;
  }
  return all[0]![0];
}

/** Patterns of a master that are of use at its prices. */
function patternsOf(master: Master, prices: Prices): Pattern[] {
  return master.columns.flatMap((column) =>
    column.what === 'pattern' && master.patternGain(column.pattern, prices) > -OF_USE ? [column.pattern] : [],
  );
}

/** Patterns of a master with the bars that it has cut so. */
function cutsOf(master: Master): Division['cuts'] {
  const levels = master.levels();
  return master.columns.flatMap((column, i) =>
    column.what === 'pattern' && levels[i]! > SHARE ? [{ pattern: column.pattern, count: levels[i]! }] : [],
  );
}

/** The lightest bundle of all that a master has shares of, kg. */
function lightestOf(master: Master): number {
  const levels = master.levels();
  return master.columns.reduce(
    (least, column, i) =>
      column.what === 'layout' && levels[i]! > LARGE_SHARE ? Math.min(least, column.load.lightest) : least,
    Number.POSITIVE_INFINITY,
  );
}
