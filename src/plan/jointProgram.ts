/**
 * The cutting of one steel as a linear program in which bars may also be butted from pieces:
 *
 *   minimise  Σ cost·pattern + price·short + scrap of what is discarded + what jointed bars lack
 *   balance   (length):  pieces cut + bars jointed − pieces in joints + short − discarded = bars wanted
 *   supply    (bar kind): Σ patterns ≤ bars
 *   room      (length):  Σ bars jointed ≤ bars that may be jointed
 *
 * Patterns are priced until none improves it. Its duals say which split of which length would pay.
 */
import { Defect } from '../fault.ts';
import type { LinearEngine, LinearModel } from '../linear/model.ts';
import { bestPattern, FillTable, type Pattern, patternKey, patternOf } from './barPattern.ts';
import type { Use } from './master.ts';
import { type BarKind, barMass, type Problem } from './problem.ts';
import { SCRAP_RATE } from './value.ts';

/** A bar that the pile does not yield costs this many times its mass. */
const SHORTAGE_PRICE = 1.1;
const IMPROVES = 1e-6;

/** A length, and the pieces that together make a bar of it. */
export interface Split {
  length: number;
  parts: number[];
}

export class JointProgram {
  private readonly problem: Problem;
  private readonly steel: number;
  private readonly kinds: BarKind[];
  private readonly model: LinearModel;
  private readonly balance = new Map<number, number>();
  private readonly supply = new Map<number, number>();
  private readonly roomRows = new Map<number, number>();
  private readonly known = new Set<string>();
  private readonly splits: { split: Split; column: number }[] = [];
  /** Value of the program at the last solve, kg; to be as low as can be. */
  cost = 0;

  /** `room`: how many bars of each length may be jointed; `patterns`: to begin with. */
  constructor(
    engine: LinearEngine,
    problem: Problem,
    steel: number,
    wanted: Use[],
    room: Map<number, number>,
    patterns: Pattern[],
  ) {
    this.problem = problem;
    this.steel = steel;
    this.kinds = problem.barKinds.filter((kind) => kind.steel === steel);
    this.model = engine.create({ sense: 'minimise' });
    for (const { length, bars } of wanted) this.addLength(length, bars);
    for (const kind of this.kinds) this.supply.set(kind.index, this.model.addRow(Number.NEGATIVE_INFINITY, kind.count));
    for (const [length, most] of room) this.roomRows.set(length, this.model.addRow(Number.NEGATIVE_INFINITY, most));
    for (const pattern of patterns) this.addPattern(pattern);
  }

  private addLength(length: number, bars: number): void {
    if (this.balance.has(length)) return;
    const row = this.model.addRow(bars, bars);
    this.balance.set(length, row);
    const steel = this.problem.steels[this.steel]!;
    const discard = SCRAP_RATE * barMass(steel, length + this.problem.job.saw.kerf);
    this.model.addColumn({ cost: discard, rows: [row], values: [-1] });
    if (bars > 0) this.model.addColumn({ cost: SHORTAGE_PRICE * barMass(steel, length), rows: [row], values: [1] });
  }

  private addPattern(pattern: Pattern): boolean {
    const key = patternKey(pattern);
    if (this.known.has(key)) return false;
    this.known.add(key);
    const counts = new Map<number, number>([[this.supply.get(pattern.kind.index)!, 1]]);
    for (const length of pattern.spans.flat()) {
      const row = this.balance.get(length)!;
      counts.set(row, (counts.get(row) ?? 0) + 1);
    }
    this.model.addColumn({ cost: pattern.cost, rows: [...counts.keys()], values: [...counts.values()] });
    return true;
  }

  /** Lets bars be jointed so; returns a handle for `forbid`. */
  addSplit(split: Split): number {
    for (const part of split.parts) this.addLength(part, 0);
    const entries = new Map<number, number>([
      [this.balance.get(split.length)!, 1],
      [this.roomRows.get(split.length)!, 1],
    ]);
    let lacking = split.length;
    for (const part of split.parts) {
      const row = this.balance.get(part)!;
      entries.set(row, (entries.get(row) ?? 0) - 1);
      lacking -= part;
    }
    const cost = barMass(this.problem.steels[this.steel]!, lacking);
    const column = this.model.addColumn({ cost, rows: [...entries.keys()], values: [...entries.values()] });
    this.splits.push({ split, column });
    return column;
  }

  /** Lets no more bars be jointed by the split of that handle. */
  forbid(column: number): void {
    this.model.setColumnBounds(column, 0, 0);
  }

  /** Solves, pricing patterns until none improves or for so many rounds. */
  solve(rounds: number): void {
    this.solveOnce();
    for (let round = 0; round < rounds && this.price(); round++) this.solveOnce();
  }

  private solveOnce(): void {
    const solved = this.model.solve();
    if (solved.status !== 'optimal') throw new Defect(`the program of joints ended ${solved.status}`);
    this.cost = solved.value;
  }

  /** Adds the best pattern of every bar kind; false where none improves. */
  private price(): boolean {
    const { job, labour } = this.problem;
    const duals = this.model.duals();
    const table = this.tableAt(duals);
    let added = false;
    for (const kind of this.kinds) {
      const best = bestPattern(table, kind, job, labour);
      if (!best || best.worth + duals[this.supply.get(kind.index)!]! <= IMPROVES) continue;
      added = this.addPattern(patternOf(kind, best.spans, job, labour)) || added;
    }
    return added;
  }

  private tableAt(duals: Float64Array): FillTable {
    const { job, labour, steels } = this.problem;
    const lengths = [...this.balance.keys()].sort((a, b) => a - b);
    const worth = lengths.map((length) => duals[this.balance.get(length)!]!);
    const longest = Math.max(0, ...this.kinds.flatMap((kind) => kind.spans.map((span) => span.to - span.from)));
    return new FillTable(longest, job.saw.kerf, steels[this.steel]!.heaviest, { lengths, worth }, labour, 'patterns');
  }

  /** At the last duals: what one more bar of a wanted length is worth, and what one more piece of any length costs, kg. */
  prices(longest: number): { worth: (length: number) => number; piece: Float64Array } {
    const { job, labour } = this.problem;
    const duals = this.model.duals();
    const table = this.tableAt(duals);
    const piece = new Float64Array(longest + 1).fill(Number.POSITIVE_INFINITY);
    for (const kind of this.kinds) {
      const besides = table.besides(kind.perMetre, job.saw.keepFrom);
      const own = kind.spans.map((span) => table.bestOfSpan(span, kind.length, kind.perMetre, job, labour).worth);
      const whole = own.reduce((sum, worth) => sum + worth, 0);
      kind.spans.forEach((span, i) => {
        const cuts = labour.cut * (span.from > 0.01 ? 2 : 1);
        const paid = cuts - duals[this.supply.get(kind.index)!]! - (whole - own[i]!);
        const size = span.to - span.from;
        for (let length = 1; length <= Math.min(longest, size); length++)
          piece[length] = Math.min(piece[length]!, paid - besides(size - length));
      });
    }
    const worth = (length: number) =>
      duals[this.balance.get(length)!]! + (this.roomRows.has(length) ? duals[this.roomRows.get(length)!]! : 0);
    return { worth, piece };
  }

  /** Bars jointed by each split at the last solve. */
  levels(): { split: Split; bars: number }[] {
    const values = this.model.values();
    return this.splits.map(({ split, column }) => ({ split, bars: values[column]! }));
  }

  dispose(): void {
    this.model.dispose();
  }
}
