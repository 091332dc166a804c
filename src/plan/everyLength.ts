/**
 * The relaxation over every whole-millimetre length. Prices are sought that are linear between some lengths, the *knots*;
 * in the program that means that a piece of any length counts as parts of the two knots beside it:
 *
 *   minimise  Σ cost·pattern − Σ value·layout   over patterns and ceilings of every length
 *   balance (steel, knot):  Σ share of its pieces cut − Σ share of its bars used = 0
 *
 * and supply, convexity and load rows as in the joint master. Its columns come from the bound itself, priced over every
 * millimetre, so that its value falls to the least bound that such prices give; more knots make it less.
 */
import type { LinearEngine, LinearModel } from '../linear/model.ts';
import { patternOf } from './barPattern.ts';
import type { Bounded, Bounder } from './bound.ts';
import { between } from './generate.ts';
import { longestJoints } from './jointBound.ts';
import { partRules } from './jointChoice.ts';
import type { Load } from './load.ts';
import type { LoadRow } from './loadRows.ts';
import type { Master, Use } from './master.ts';
import type { Prices } from './prices.ts';
import { type BarKind, barMass, type Problem, type Space } from './problem.ts';
import { SCRAP_RATE } from './value.ts';

export interface LeastBoundOptions {
  /** Lengths by steel, rising, between which prices are linear. */
  knots: number[][];
  /** Of the lengths that the bound uses, so many are told for a steel. */
  mostLengths: number;
  /** Rounds in which every length is priced; more while the best bound is much over the least that the knots allow, and bounds still fall. */
  rounds: number;
  /** When the bound is this near to the least that the knots allow, relative to it, the lengths that it uses become knots. */
  tolerance: number;
  shouldStop?: () => boolean;
  /** Told that a step is done. */
  onStep?: () => void;
  /** Told of every better bound. */
  onBound?: (value: number) => void;
}

/** In a round every length is priced once, one in so many at the same prices: that settles prices far sooner than a bound would. */
const STEP = 12;
/** Prices are so much those of the step before: those of one solve leap about. */
const SMOOTHING = 0.8;
/** A bound is reckoned at the start, every so many rounds and after the last. */
const EVERY = 3;
/** While the best is this share over what it may come to and no two bounds in a row came out worse, so many times as many rounds are gone as asked. */
const MUCH = 0.02;
const MOST_WORSE = 1;
const MOST_OFTEN = 3;

/**
 * The least bound over every length, sought from the prices and the columns of a master whose lengths are the knots; with
 * the prices that give it, and the lengths by steel that it would use.
 */
export function leastBound(
  engine: LinearEngine,
  problem: Problem,
  bounder: Bounder,
  master: Master,
  from: Prices,
  options: LeastBoundOptions,
): { value: number; prices: Prices; lengths: Set<number>[] } {
  const { rounds, tolerance, mostLengths, shouldStop, onStep, onBound } = options;
  const taken: Bounded[] = [];
  const programOf = (knots: number[][]) => {
    const every = new EveryLength(engine, problem, master.loadRows, knots);
    every.takeMaster(master);
    for (const bounded of taken) every.take(bounded);
    every.solve();
    return every;
  };
  // The prices told keep them: the caller's own lists may grow.
  let knots = options.knots.map((own) => [...own]);
  let every = programOf(knots);
  let at = from;
  const take = (bounded: Bounded) => {
    taken.push(bounded);
    every.take(bounded);
    return every.solve();
  };
  try {
    let best = { value: Number.POSITIVE_INFINITY, prices: from };
    let over = Number.POSITIVE_INFINITY;
    let worse = 0;
    const last = (round: number) => round >= (over > MUCH && worse <= MOST_WORSE ? MOST_OFTEN * rounds : rounds);
    for (let round = 0; !shouldStop?.(); round++) {
      for (let rest = 0; rest < STEP && round > 0 && !shouldStop?.(); rest++) {
        take(bounder.at(master.loadRows, at, { step: STEP, rest }));
        at = between(every.prices(), at, SMOOTHING);
        onStep?.();
      }
      if (round % EVERY !== 0 && round < rounds) continue;
      const bounded = bounder.at(master.loadRows, at);
      worse = bounded.value < best.value ? 0 : worse + 1;
      if (worse === 0) {
        best = { value: bounded.value, prices: at };
        onBound?.(best.value);
      }
      over = (best.value - take(bounded)) / Math.abs(best.value);
      if (last(round)) break;
      if (over >= tolerance) continue;
      const more = withMore(knots, every.lengthsUsed(mostLengths));
      if (more === knots) break;
      knots = more;
      every.dispose();
      every = programOf(knots);
    }
    return { ...best, lengths: every.lengthsUsed(mostLengths) };
  } finally {
    every.dispose();
  }
}

/** The knots and those lengths; the very knots where none is new. */
function withMore(knots: number[][], lengths: Set<number>[]): number[][] {
  if (knots.every((own, steel) => [...lengths[steel]!].every((length) => own.includes(length)))) return knots;
  return knots.map((own, steel) => [...new Set([...own, ...lengths[steel]!])].sort((a, b) => a - b));
}

/** A piece that costs this many times its mass is cut by nothing. */
const SHORTAGE_PRICE = 1.1;

class EveryLength {
  private readonly problem: Problem;
  private readonly rows: LoadRow[];
  private readonly knots: number[][];
  /** The longest bars of each steel that may be jointed, mm. */
  private readonly longest: number[];
  private readonly model: LinearModel;
  private readonly convexity: number[];
  private readonly supply: number[];
  private readonly loadRows: number[];
  private readonly balance: number[][];
  /** What every column cuts and stows, by its index; null for those that are neither. */
  private readonly uses: (Use[] | null)[] = [];

  /** `knots`: lengths by steel, rising; the prices of others lie on the line between them. */
  constructor(engine: LinearEngine, problem: Problem, rows: LoadRow[], knots: number[][]) {
    this.problem = problem;
    this.rows = rows;
    this.knots = knots;
    this.longest = longestJoints(problem);
    this.model = engine.create({ sense: 'minimise' });
    this.convexity = problem.spaces.map(() => this.model.addRow(Number.NEGATIVE_INFINITY, 1));
    this.supply = problem.barKinds.map((kind) => this.model.addRow(Number.NEGATIVE_INFINITY, kind.count));
    this.loadRows = rows.map((row) => this.model.addRow(Number.NEGATIVE_INFINITY, row.most));
    this.balance = knots.map((lengths) => lengths.map(() => this.model.addRow(0, 0)));
    rows.forEach((row, i) => {
      this.add(row.aim ? problem.missPrices[row.aim] : 3, [[this.loadRows[i]!, -1]], null);
    });
    knots.forEach((lengths, steel) => {
      for (let i = 0; i < lengths.length; i++) this.steady(steel, lengths, i);
    });
  }

  /** Shortage and discard of a knot, and trims to the next: they keep the prices in order. */
  private steady(steel: number, lengths: number[], i: number): void {
    const { steels, labour, job } = this.problem;
    const length = lengths[i]!;
    const rows = this.balance[steel]!;
    this.add(SHORTAGE_PRICE * barMass(steels[steel]!, length), [[rows[i]!, 1]], null);
    this.add(SCRAP_RATE * barMass(steels[steel]!, length + job.saw.kerf), [[rows[i]!, -1]], null);
    this.joint(steel, lengths, i);
    const longer = lengths[i + 1];
    if (longer === undefined) return;
    const cost = SCRAP_RATE * barMass(steels[steel]!, longer - length) + labour.cut;
    this.add(
      cost,
      [
        [rows[i + 1]!, -1],
        [rows[i]!, 1],
      ],
      null,
    );
  }

  /** A knot as the part that it makes of every longer one that it may be jointed to: the bound prices parts so. */
  private joint(steel: number, lengths: number[], i: number): void {
    const { least } = partRules(this.problem);
    const length = lengths[i]!;
    if (length < least) return;
    const rows = this.balance[steel]!;
    for (let j = i + 1; j < lengths.length && lengths[j]! <= this.longest[steel]!; j++) {
      if (lengths[j]! < length + least) continue;
      this.add(
        0,
        [
          [rows[i]!, -1],
          [rows[j]!, length / lengths[j]!],
        ],
        null,
      );
    }
  }

  private add(cost: number, entries: [number, number][], use: Use[] | null): void {
    const sums = new Map<number, number>();
    for (const [row, value] of entries) sums.set(row, (sums.get(row) ?? 0) + value);
    this.model.addColumn({ cost, rows: [...sums.keys()], values: [...sums.values()] });
    this.uses.push(use);
  }

  /** The shares of knots that a length counts as. */
  private shares(steel: number, length: number, count: number): [number, number][] {
    const knots = this.knots[steel]!;
    const rows = this.balance[steel]!;
    const last = knots.length - 1;
    const above = knots.findIndex((knot) => knot >= length);
    if (above < 0) return [[rows[last]!, (count * length) / knots[last]!]];
    if (above === 0 || knots[above] === length) return [[rows[above]!, (count * length) / knots[above]!]];
    const share = (length - knots[above - 1]!) / (knots[above]! - knots[above - 1]!);
    return [
      [rows[above - 1]!, count * (1 - share)],
      [rows[above]!, count * share],
    ];
  }

  private addLayout(space: Space, use: Use[], load: Load): void {
    const entries: [number, number][] = [[this.convexity[space.index]!, 1]];
    for (const { steel, length, bars } of use) entries.push(...this.shares(steel, length, -bars));
    this.rows.forEach((row, i) => {
      if (row.space === null || row.space === space.index) entries.push([this.loadRows[i]!, row.of(load)]);
    });
    this.add(load.bundles * this.problem.labour.bundle - space.weight * load.steel, entries, use);
  }

  private addPattern(kind: BarKind, cut: Use[], cost: number): void {
    const entries: [number, number][] = [[this.supply[kind.index]!, 1]];
    for (const { steel, length, bars } of cut) entries.push(...this.shares(steel, length, bars));
    this.add(cost, entries, cut);
  }

  /** Takes in what the bound at some prices is reckoned from. */
  take({ patterns, ceilings }: Bounded): void {
    const { job, labour } = this.problem;
    for (const { kind, spans, cut } of patterns) this.addPattern(kind, cut, patternOf(kind, spans, job, labour).cost);
    for (const { space, value, use, load } of ceilings) if (value > 0) this.addLayout(space, use, load);
  }

  /** Takes in the columns of a master whose lengths are all knots. */
  takeMaster(master: Master): void {
    for (const column of master.columns) {
      if (column.what === 'layout') this.addLayout(column.space, column.use, column.load);
      else {
        const { kind, spans, cost } = column.pattern;
        const cut = spans.flat().map((length) => ({ steel: kind.steel, length, bars: 1 }));
        this.addPattern(kind, cut, cost);
      }
    }
  }

  solve(): number {
    return -this.model.solve().value;
  }

  prices(): Prices {
    const duals = this.model.duals();
    const worth = (rows: number[]) => Float64Array.from(rows, (row) => Math.max(0, -duals[row]!));
    return {
      pieces: this.knots.map((lengths, steel) => ({
        lengths,
        worth: lengths.map((_, i) => duals[this.balance[steel]![i]!]!),
      })),
      bars: worth(this.supply),
      groups: worth(this.convexity),
      loads: worth(this.loadRows),
    };
  }

  /** Lengths by steel that are cut or stowed at the last solve: those of which most steel is, at most `most` of a steel. */
  lengthsUsed(most: number): Set<number>[] {
    const values = this.model.values();
    const sums = this.problem.steels.map(() => new Map<number, number>());
    this.uses.forEach((uses, i) => {
      if (!uses || values[i]! < 1e-6) return;
      for (const { steel, length, bars } of uses) {
        const sum = sums[steel]!;
        sum.set(length, (sum.get(length) ?? 0) + values[i]! * bars * length);
      }
    });
    return sums.map((sum) => {
      const sorted = [...sum].sort(([a, p], [b, q]) => q - p || a - b);
      return new Set(sorted.slice(0, most).map(([length]) => length));
    });
  }

  dispose(): void {
    this.model.dispose();
  }
}
