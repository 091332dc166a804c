/**
 * Lengths fitted to a whole plan. With its runs, tiers and ways of cutting bars as they are, each length may be some
 * millimetres more or less; a linear program says which are worth most:
 *
 *   maximise  Σ weight · bars · kg/m · d − scrap at its price − misses at theirs      d: change of every length
 *   bars      Σ d of the pieces of a span ≤ what is left of it, kerfs counted
 *   room      Σ d of the runs of a void ≤ what is left of its length
 *   lift      the heaviest bundle of a length keeps the limit of its void
 *   caps      most, target and ballast, on the masses
 *   aims      centre and spread, by how they change near the plan
 *
 * The lengths are rounded down: but for the aims, which are judged again, every row asks only that they are not longer.
 */
import type { LinearEngine, LinearModel } from '../linear/model.ts';
import { acrossSize, alongSize, sagOf, upSize } from '../stow/bundle.ts';
import { isPlain, type LaidVoid } from '../stow/laid.ts';
import type { Layout } from '../stow/layout.ts';
import { type Stack, stackOf, type Tier } from '../stow/stack.ts';
import { type Pattern, patternOf, timesOf } from './barPattern.ts';
import { type Cap, capsOf, type Filling } from './caps.ts';
import type { Cutting } from './cutting.ts';
import { worthOf } from './finish.ts';
import type { Load } from './load.ts';
import { loadRowsOf } from './loadRows.ts';
import { barMass, type Problem, type Space } from './problem.ts';
import { keepsCaps, totalLoad } from './putBack.ts';
import { SCRAP_RATE } from './value.ts';

/** No length changes by more than this, mm. */
const MOST_CHANGE = 400;
/** Less is no gain, kg. */
const GAIN = 1e-6;
/** Caps are kept by so much, kg. */
const SLACK = 1e-5;

interface Fitted {
  fillings: Filling[];
  cutting: Cutting;
}

/**
 * The same runs, cut in the same ways, in the lengths that are worth most; null where that is as it is, where fillings that
 * keep every cap are worth no more so, or where no lengths keep the caps. The cutting yields just what the fillings hold,
 * without joints. Lengths in voids that are no plain boxes stay.
 */
export function fitLengths(
  problem: Problem,
  fillings: Filling[],
  cutting: Cutting,
  engine: LinearEngine,
): Fitted | null {
  const changes = changesOf(problem, fillings, cutting.bars, engine);
  if (!changes || [...changes.values()].every((change) => change === 0)) return null;
  const fitted = fittedTo(problem, fillings, cutting, (length) => length + changes.get(length)!);
  if (!keepsCaps(problem, fillings)) return fitted;
  const gain = worthOf(problem, fitted.fillings, fitted.cutting) - worthOf(problem, fillings, cutting);
  return gain > GAIN ? fitted : null;
}

function fittedTo(
  problem: Problem,
  fillings: Filling[],
  cutting: Cutting,
  lengthOf: (length: number) => number,
): Fitted {
  const bars = cutting.bars.map(({ kind, spans }) => {
    const pieces = spans.map((own) => own.map(lengthOf));
    return patternOf(kind, pieces, problem.job, problem.labour);
  });
  const cost = bars.reduce((sum, pattern) => sum + pattern.cost, 0);
  return { fillings: withLengths(problem, fillings, lengthOf), cutting: { ...cutting, bars, cost } };
}

/** The change of every length, whole mm. */
function changesOf(
  problem: Problem,
  fillings: Filling[],
  bars: Pattern[],
  engine: LinearEngine,
): Map<number, number> | null {
  using program = new LengthProgram(problem, fillings, engine);
  program.addBars(bars);
  program.addRooms();
  program.addCaps();
  program.addAims();
  return program.solve();
}

/** A run that a void holds. */
interface Held {
  space: Space;
  laid: LaidVoid;
  stack: Stack;
}

class LengthProgram implements Disposable {
  private readonly problem: Problem;
  private readonly fillings: Filling[];
  private readonly model: LinearModel;
  /** The column of every length. */
  private readonly columns = new Map<number, number>();

  constructor(problem: Problem, fillings: Filling[], engine: LinearEngine) {
    this.problem = problem;
    this.fillings = fillings;
    this.model = engine.create({ sense: 'maximise' });
    for (const length of new Set(this.stacks().map(({ stack }) => stack.length))) {
      const [lower, upper] = this.rangeOf(length);
      const cost = this.worthOfMm(length);
      this.columns.set(length, this.model.addColumn({ cost, lower, upper, rows: [], values: [] }));
    }
  }

  private stacks(spaces = this.problem.spaces): Held[] {
    return spaces.flatMap((space) => {
      const filling = this.fillings[space.index];
      return filling ? filling.runs.map(({ stack }) => ({ space, laid: filling.laid, stack })) : [];
    });
  }

  /** What a millimetre more of a length is worth, kg. */
  private worthOfMm(length: number): number {
    let worth = 0;
    for (const { space, stack } of this.stacks()) {
      if (stack.length !== length) continue;
      for (const { index } of this.problem.steels) worth += space.weight * stack.bars[index]! * this.perMm(index);
    }
    return worth;
  }

  private perMm(steel: number): number {
    return barMass(this.problem.steels[steel]!, 1);
  }

  /** How far a length may change by itself: within the lift limit and the shortest piece, sizes across and up as they are. */
  private rangeOf(length: number): [number, number] {
    let least = Math.max(-MOST_CHANGE, Math.ceil(this.problem.job.saw.shortestPiece) - length);
    let most = MOST_CHANGE;
    for (const { space, laid, stack } of this.stacks()) {
      if (stack.length !== length) continue;
      if (!isPlain(laid)) return [0, 0];
      for (const tier of stack.tiers) {
        const sizes = this.sizesAt(tier, length);
        most = Math.min(most, this.lightEnough(space, tier) - length);
        while (most > 0 && this.sizesAt(tier, length + most) !== sizes) most--;
        while (least < 0 && this.sizesAt(tier, length + least) !== sizes) least++;
      }
    }
    return [Math.min(0, least), Math.max(0, most)];
  }

  /** The longest that the heaviest bundle of a tier may be, mm. */
  private lightEnough({ limit }: Space, { kind, lying }: Tier): number {
    const bars = Math.max(...lying.map(({ tie }) => tie.bars));
    return Math.floor((limit - this.problem.job.bundle.wrapping) / (bars * this.perMm(kind.steel)) + 1e-9);
  }

  /** The sizes of the bundles of a tier were they of a length, as text. */
  private sizesAt({ kind, lying }: Tier, length: number): string {
    const { steels, job } = this.problem;
    const sag = sagOf(steels[kind.steel]!.bow, length);
    const up = upSize(kind.section, kind.onEdge, kind.rows, job.bundle, sag);
    return [up, ...lying.map(({ tie }) => acrossSize(kind.section, kind.onEdge, tie.widest, job.bundle, sag))].join();
  }

  private sumOf(lengths: number[]): [columns: number[], values: number[]] {
    const sums = new Map<number, number>();
    for (const length of lengths) {
      const column = this.columns.get(length)!;
      sums.set(column, (sums.get(column) ?? 0) + 1);
    }
    return [[...sums.keys()], [...sums.values()]];
  }

  /** What is left of a span may be used up; what is scrap of it costs. A remainder that is kept stays one. */
  addBars(bars: Pattern[]): void {
    const { kerf, keepFrom } = this.problem.job.saw;
    for (const { pattern, count } of timesOf(bars)) {
      const { kind, spans } = pattern;
      kind.spans.forEach(({ from, to }, i) => {
        const pieces = spans[i]!;
        if (pieces.length === 0) return;
        const left = to - from - pieces.reduce((sum, length) => sum + length + kerf, 0);
        const kept = left >= keepFrom;
        const sum = this.sumOf(pieces);
        this.model.addRow(Number.NEGATIVE_INFINITY, kept ? left - keepFrom : left + kerf, ...sum);
        if (kept) return;
        const cost = (-SCRAP_RATE * count * kind.perMetre) / 1000;
        this.model.addColumn({ cost, rows: [this.model.addRow(left, Number.POSITIVE_INFINITY, ...sum)], values: [1] });
      });
    }
  }

  /** The runs of a void stay within its length. */
  addRooms(): void {
    const { saw, bundle } = this.problem.job;
    for (const filling of this.fillings) {
      if (!filling || !isPlain(filling.laid)) continue;
      const { laid, runs } = filling;
      const lengths = runs.map(({ stack }) => stack.length);
      const used = lengths.reduce((sum, length) => sum + alongSize(length, saw, bundle) + laid.gap.runs, 0);
      const left = laid.length - 2 * laid.clear.ends + laid.gap.runs - used;
      this.model.addRow(Number.NEGATIVE_INFINITY, Math.floor(left + 1e-9), ...this.sumOf(lengths));
    }
  }

  /** Most, target and ballast. */
  addCaps(): void {
    const { spaces, job } = this.problem;
    for (const space of spaces) for (const cap of capsOf(space)) this.addCap(cap, this.stacks([space]));
    if (job.aims.ballast !== undefined) this.addCap({ most: job.aims.ballast, byBundle: true }, this.stacks(spaces));
  }

  /** A cap on the masses of some runs; where the lightest bundle counts, less any one of them. */
  private addCap({ most, byBundle }: Cap, runs: Held[]): void {
    const { wrapping } = this.problem.job.bundle;
    const perMm = new Map<number, number>();
    const bundles = new Map<string, { length: number; perMm: number }>();
    let total = 0;
    for (const { stack } of runs) {
      for (const { kind, lying } of stack.tiers) {
        for (const { tie } of lying) {
          const own = tie.bars * this.perMm(kind.steel);
          total += own * stack.length + wrapping;
          perMm.set(stack.length, (perMm.get(stack.length) ?? 0) + own);
          bundles.set(`${stack.length}:${own}`, { length: stack.length, perMm: own });
        }
      }
    }
    for (const one of byBundle ? bundles.values() : [null]) {
      const less = one ? one.perMm * one.length + wrapping : 0;
      const entries = [...perMm].map(([length, own]) => own - (one?.length === length ? one.perMm : 0));
      const columns = [...perMm.keys()].map((length) => this.columns.get(length)!);
      this.model.addRow(Number.NEGATIVE_INFINITY, most - total + less - SLACK, columns, entries);
    }
  }

  /** Centre and spread, by how a millimetre more of each length changes them; missed at a price. */
  addAims(): void {
    const { problem, fillings } = this;
    const rows = loadRowsOf(problem).filter(({ aim }) => aim !== undefined);
    if (rows.length === 0) return;
    const now = totalLoad(problem, fillings);
    const longer = [...this.columns.keys()].map((one) =>
      totalLoad(
        problem,
        withLengths(problem, fillings, (length) => (length === one ? length + 1 : length)),
      ),
    );
    for (const row of rows) {
      const changes = longer.map((load: Load) => row.of(load) - row.of(now));
      const left = row.most - row.of(now);
      const index = this.model.addRow(Number.NEGATIVE_INFINITY, left, [...this.columns.values()], changes);
      this.model.addColumn({ cost: -problem.missPrices[row.aim!], rows: [index], values: [-1] });
    }
  }

  solve(): Map<number, number> | null {
    if (this.model.solve().status !== 'optimal') return null;
    const values = this.model.values();
    return new Map([...this.columns].map(([length, column]) => [length, Math.floor(values[column]! + 1e-6)]));
  }

  [Symbol.dispose](): void {
    this.model.dispose();
  }
}

/** Fillings with other lengths: runs begin where they did, farther on where those before them are longer, nearer where they would pass the end. */
function withLengths(problem: Problem, fillings: Filling[], lengthOf: (length: number) => number): Filling[] {
  return fillings.map((filling) => filling && layoutWith(problem, filling, lengthOf));
}

function layoutWith({ steels, job }: Problem, { laid, runs }: Layout, lengthOf: (length: number) => number): Layout {
  const along = (length: number) => alongSize(length, job.saw, job.bundle);
  let shift = 0;
  const moved = runs.map(({ from, stack }) => {
    const next = { from: from + shift, stack: stackOf(lengthOf(stack.length), stack.tiers, steels.length) };
    shift += along(next.stack.length) - along(stack.length);
    return next;
  });
  let end = laid.length - laid.clear.ends;
  for (const run of moved.toReversed()) {
    run.from = Math.min(run.from, end - along(run.stack.length));
    end = run.from - laid.gap.runs;
  }
  return { laid, runs: moved };
}
