/**
 * A linear program of lengths. With runs, tiers and ways of cutting bars as they are, each length may be some millimetres
 * more or less:
 *
 *   maximise  Σ worth of a mm · d − what more is scrap at its price            d: change of every length
 *   bars      Σ d of the pieces of a span ≤ what is left of it, kerfs counted
 *   room      Σ d of the runs of a void ≤ what is left of its length
 *   lift      the heaviest bundle of a length keeps the limit of its void
 *
 * Lengths are rounded down: every row asks only that they are not longer.
 */
import type { LinearEngine, LinearModel } from '../linear/model.ts';
import { acrossSize, alongSize, sagOf, upSize } from '../stow/bundle.ts';
import { isPlain, type LaidVoid } from '../stow/laid.ts';
import type { Stack, Tier } from '../stow/stack.ts';
import type { Pattern } from './barPattern.ts';
import { barMass, type Problem, type Space } from './problem.ts';
import { SCRAP_RATE } from './value.ts';

/** No length changes by more than this, mm. */
const MOST_CHANGE = 400;

/** A stack that a run holds, all of it or a share. */
export interface Held {
  space: Space;
  laid: LaidVoid;
  stack: Stack;
  share: number;
  /** What a kilogram more in it is worth, kg. */
  perKg: number;
}

export class LengthProgram implements Disposable {
  protected readonly problem: Problem;
  protected readonly held: Held[];
  protected readonly model: LinearModel;
  /** The column of every length. */
  protected readonly columns = new Map<number, number>();

  /** `held` has every length that pieces are cut to. Lengths in voids that are no plain boxes stay. */
  constructor(problem: Problem, held: Held[], engine: LinearEngine) {
    this.problem = problem;
    this.held = held;
    this.model = engine.create({ sense: 'maximise' });
    for (const length of new Set(held.map(({ stack }) => stack.length))) {
      const own = held.filter(({ stack }) => stack.length === length);
      const [lower, upper] = this.rangeOf(own, length);
      const cost = own.reduce((worth, one) => worth + one.share * one.perKg * this.kgPerMm(one.stack), 0);
      this.columns.set(length, this.model.addColumn({ cost, lower, upper, rows: [], values: [] }));
    }
  }

  /** The mass of a millimetre of all bars of a stack, kg. */
  private kgPerMm({ bars }: Stack): number {
    return this.problem.steels.reduce((sum, { index }) => sum + bars[index]! * this.perMm(index), 0);
  }

  protected perMm(steel: number): number {
    return barMass(this.problem.steels[steel]!, 1);
  }

  /** How far a length may change by itself: within the lift limit and the shortest piece, sizes across and up as they are. */
  private rangeOf(own: Held[], length: number): [number, number] {
    let least = Math.max(-MOST_CHANGE, Math.ceil(this.problem.job.saw.shortestPiece) - length);
    let most = MOST_CHANGE;
    for (const { space, laid, stack } of own) {
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

  protected sumOf(lengths: number[]): [columns: number[], values: number[]] {
    const sums = new Map<number, number>();
    for (const length of lengths) {
      const column = this.columns.get(length)!;
      sums.set(column, (sums.get(column) ?? 0) + 1);
    }
    return [[...sums.keys()], [...sums.values()]];
  }

  /** What is left of a span may be used up; what is scrap of it costs. A remainder that is kept stays one. */
  addBars(bars: { pattern: Pattern; count: number }[]): void {
    const { kerf, keepFrom } = this.problem.job.saw;
    for (const { pattern, count } of bars) {
      const { kind, spans } = pattern;
      kind.spans.forEach(({ from, to }, i) => {
        const pieces = spans[i]!;
        if (pieces.length === 0) return;
        const left = to - from - pieces.reduce((sum, length) => sum + length + kerf, 0);
        const kept = left >= keepFrom;
        const sum = this.sumOf(pieces);
        this.model.addRow(Number.NEGATIVE_INFINITY, kept ? left - keepFrom : left + kerf, ...sum);
        if (kept) return;
        // More scrap than now, which pieces that are longer make less.
        const row = this.model.addRow(Math.min(0, left), Number.POSITIVE_INFINITY, ...sum);
        const cost = (-SCRAP_RATE * count * kind.perMetre) / 1000;
        this.model.addColumn({ cost, lower: -Math.max(0, left), rows: [row], values: [1] });
      });
    }
  }

  /** The runs of a void, as long as these, stay within its length. */
  addRoom(laid: LaidVoid, lengths: number[]): void {
    const { saw, bundle } = this.problem.job;
    const used = lengths.reduce((sum, length) => sum + alongSize(length, saw, bundle) + laid.gap.runs, 0);
    const left = laid.length - 2 * laid.clear.ends + laid.gap.runs - used;
    this.model.addRow(Number.NEGATIVE_INFINITY, Math.floor(left + 1e-9), ...this.sumOf(lengths));
  }

  /** The change of every length, whole mm, and what all is worth more before they are made whole; null where none keeps the rows. */
  solve(): { changes: Map<number, number>; gain: number } | null {
    const solved = this.model.solve();
    if (solved.status !== 'optimal') return null;
    const values = this.model.values();
    const changes = [...this.columns].map(([length, column]) => [length, Math.floor(values[column]! + 1e-6)] as const);
    return { changes: new Map(changes), gain: solved.value };
  }

  [Symbol.dispose](): void {
    this.model.dispose();
  }
}
