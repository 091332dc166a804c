/**
 * The master program and its columns.
 *
 *     minimise  Σ_j cost_j·x_j + Σ_i dear_i·s_i
 *     such that Σ_j a_ij·x_j + s_i ≥ demand_i            for every size i        (dual π_i ≥ 0)
 *     (= demand_i, and π_i of either sign, where the ends of a bar cost: cutting too much could save scrap)
 *               Σ_{j of type t} x_j ≤ count_t            for limited types t     (dual σ_t ≤ 0)
 *
 * s is what is short; `dear` makes it a last resort. Columns are ways to fill a bar; they are made by pricing.
 */
import type { LinearEngine, LinearModel, LinearStatus } from '../linear/model.ts';
import type { Meter } from './meter.ts';
import type { Fill } from './pattern.ts';
import type { Scaled } from './scale.ts';

/** A way to fill a bar of one stock type. */
export interface Pattern {
  stock: number;
  /** What is cut from each span. */
  fills: Fill[];
  /** The same for the whole bar: rows rising, and counts. */
  rows: number[];
  counts: number[];
  cost: number;
}

/** Makes the pattern of `fills`, one for each span of the stock type. */
export function makePattern(scaled: Scaled, stock: number, fills: Fill[]): Pattern {
  const type = scaled.stocks[stock]!;
  let cost = type.price;
  const sum = new Map<number, number>();
  fills.forEach((fill, s) => {
    const end = scaled.ends[type.ends[s]!];
    if (end !== undefined) cost += end.of(fill.left) + (fill.rows.length > 0 ? end.start : 0);
    fill.rows.forEach((row, k) => {
      sum.set(row, (sum.get(row) ?? 0) + fill.counts[k]!);
      cost += fill.counts[k]! * scaled.perPiece;
    });
  });
  const rows = [...sum.keys()].sort((a, b) => a - b);
  return { stock, fills, rows, counts: rows.map((row) => sum.get(row)!), cost };
}

/** The pattern without the pieces that pass `demand`; the pattern itself where none does. */
export function trimPattern(scaled: Scaled, pattern: Pattern, demand: ArrayLike<number>): Pattern {
  if (pattern.rows.every((row, k) => pattern.counts[k]! <= demand[row]!)) return pattern;
  const left = new Map(pattern.rows.map((row) => [row, demand[row]!]));
  const fills = pattern.fills.map((fill) => {
    const trimmed: Fill = { rows: [], counts: [], left: fill.left, value: 0 };
    fill.rows.forEach((row, k) => {
      const count = Math.min(fill.counts[k]!, left.get(row)!);
      left.set(row, left.get(row)! - count);
      trimmed.left += (fill.counts[k]! - count) * scaled.sizes[row]!;
      if (count === 0) return;
      trimmed.rows.push(row);
      trimmed.counts.push(count);
    });
    return trimmed;
  });
  return makePattern(scaled, pattern.stock, fills);
}

/** The patterns of a plan without the pieces beyond `demand`, and without those left with none. */
export function trimPlan(scaled: Scaled, plan: readonly Pattern[], demand: ArrayLike<number>): Pattern[] {
  const left = Int32Array.from(demand);
  const trimmed = plan.map((pattern) => {
    const taken = trimPattern(scaled, pattern, left);
    taken.rows.forEach((row, k) => {
      left[row]! -= taken.counts[k]!;
    });
    return taken;
  });
  return trimmed.filter(({ rows }) => rows.length > 0);
}

function keyOf({ stock, fills }: Pattern): string {
  return `${stock}|${fills.map((fill) => `${fill.rows},${fill.counts}`).join('|')}`;
}

export class Master {
  /** They move up when some are dropped: hold on to patterns, not to their places. */
  readonly patterns: Pattern[] = [];
  private readonly model: LinearModel;
  private readonly meter: Meter;
  private readonly known = new Set<string>();
  private readonly stockRow: Int32Array;
  /** Columns before the first pattern: what is short of each size. */
  private readonly offset: number;
  private open: boolean[] = [];
  private readonly exactly: boolean;
  /** At the last solve: what is used of each pattern, what is short, and the duals. */
  x: Float64Array = new Float64Array(0);
  short: Float64Array = new Float64Array(0);
  pi: Float64Array = new Float64Array(0);
  /** Dual of every stock type, 0 for unlimited ones. */
  sigma: Float64Array = new Float64Array(0);
  value = 0;

  constructor(engine: LinearEngine, scaled: Scaled, dear: Float64Array, meter: Meter) {
    this.meter = meter;
    this.model = engine.create();
    const count = scaled.sizes.length;
    this.exactly = scaled.ends.length > 0;
    for (let i = 0; i < count; i++) this.model.addRow(scaled.demand[i]!, this.exactly ? scaled.demand[i]! : Infinity);
    this.stockRow = new Int32Array(scaled.stocks.length).fill(-1);
    scaled.stocks.forEach((stock, t) => {
      if (Number.isFinite(stock.count)) this.stockRow[t] = this.model.addRow(-Infinity, stock.count);
    });
    for (let i = 0; i < count; i++) this.model.addColumn({ cost: dear[i]!, rows: [i], values: [1] });
    this.offset = count;
  }

  /** Adds a pattern; false where it is there already. */
  add(pattern: Pattern): boolean {
    const key = keyOf(pattern);
    if (this.known.has(key)) return false;
    this.known.add(key);
    const { rows, counts, stock, cost } = pattern;
    const stockRow = this.stockRow[stock]!;
    if (stockRow < 0) this.model.addColumn({ cost, rows, values: counts });
    else this.model.addColumn({ cost, rows: [...rows, stockRow], values: [...counts, 1] });
    this.patterns.push(pattern);
    this.open.push(true);
    return true;
  }

  /** After a solve: drops the patterns that are furthest from use, so that about `keep` stay. */
  drop(keep: number): void {
    const reduced = this.patterns.map((pattern) => this.reducedCost(pattern));
    const unused = this.patterns.map((_, j) => j).filter((j) => this.x[j] === 0 && Math.abs(reduced[j]!) > 1e-6);
    const worth = (j: number): number => (this.open[j] ? reduced[j]! : Infinity);
    unused.sort((a, b) => worth(b) - worth(a) || a - b);
    const gone = new Set(unused.slice(0, Math.max(0, this.patterns.length - keep)));
    if (gone.size === 0) return;
    this.model.deleteColumns([...gone].sort((a, b) => a - b).map((j) => this.offset + j));
    for (const j of gone) this.known.delete(keyOf(this.patterns[j]!));
    const stays = <T>(_: T, j: number): boolean => !gone.has(j);
    this.x = this.x.filter(stays);
    this.open = this.open.filter(stays);
    this.patterns.splice(0, this.patterns.length, ...this.patterns.filter(stays));
  }

  private reducedCost({ rows, counts, stock, cost }: Pattern): number {
    let reduced = cost - this.sigma[stock]!;
    for (let k = 0; k < rows.length; k++) reduced -= counts[k]! * this.pi[rows[k]!]!;
    return reduced;
  }

  /** Lets a pattern be used, or not. */
  allow(index: number, allowed: boolean): void {
    if (this.open[index] === allowed) return;
    this.open[index] = allowed;
    this.model.setColumnBounds(this.offset + index, 0, allowed ? Infinity : 0);
  }

  setDemand(row: number, demand: number): void {
    this.model.setRowBounds(row, demand, this.exactly ? demand : Infinity);
  }

  setStockCount(stock: number, count: number): void {
    const row = this.stockRow[stock]!;
    if (row >= 0) this.model.setRowBounds(row, -Infinity, count);
  }

  /** Solves; `central`: with duals from the middle of the optimal ones, and x near the optimum only. */
  solve(central = false): LinearStatus {
    const solved = this.model.solve({ central });
    this.meter.solved(this.model.rows, this.model.columns, solved.steps);
    if (!solved.feasible || solved.status !== 'optimal') return solved.status === 'optimal' ? 'failed' : solved.status;
    const values = this.model.values();
    this.x = values.subarray(this.offset);
    this.short = values.subarray(0, this.offset);
    const duals = this.model.duals();
    this.pi = duals.subarray(0, this.offset);
    this.sigma = Float64Array.from(this.stockRow, (row) => (row < 0 ? 0 : Math.min(0, duals[row]!)));
    this.value = solved.value;
    return 'optimal';
  }

  dispose(): void {
    this.model.dispose();
  }
}
