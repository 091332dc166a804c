/**
 * The program over a list of patterns, some of them fixed and some shut out, with its relaxation and safe bound:
 *
 *     minimise  Σ_p cost_p·x_p + Σ_i dear_i·s_i
 *     such that Σ_p a_ip·x_p + s_i ≥ (= where ends cost) what is still wanted of piece i,
 *               Σ_{p of type t} x_p ≤ bars left of t,   and the cuts of oddSets.ts
 *
 * s, what is left out, keeps the relaxation solvable; in a plan it may be used only where leaving out is what is minimised.
 */
import type { LinearEngine, LinearModel } from '../linear/model.ts';
import { type BoundStock, lagrangianBound, stretchedMost } from './bound.ts';
import type { Pattern } from './columns.ts';
import type { Meter } from './meter.ts';
import { violatedOddSets } from './oddSets.ts';
import type { Scaled } from './scale.ts';

const CUTS_A_ROUND = 40;
const MOST_CUTS = 300;

export class ListProgram {
  /** What is still wanted of each piece and, after those, of each cut (that may sink below 0). */
  readonly demand: number[];
  readonly patterns: readonly Pattern[];
  /** True where pieces may be left out, at their dear price. */
  readonly shorting: boolean;
  private readonly dear: Float64Array;
  /** Indices of the patterns fixed, and their cost with that of what is left out. */
  readonly fixed: number[] = [];
  fixedCost = 0;
  private readonly model: LinearModel;
  private readonly meter: Meter;
  private readonly scaled: Scaled;
  private readonly unit: number;
  private readonly exactly: boolean;
  private readonly pieces: number;
  private readonly modelRow: number[];
  /** For each pattern its cuts, as rows of `demand`, and its coefficients. */
  private readonly cuts: { rows: number[]; counts: number[] }[];
  private readonly cutSets: (readonly number[])[] = [];
  private readonly known = new Set<string>();
  /** Above 0: shut out. */
  private readonly shut: Int32Array;
  private readonly counts: Float64Array;
  private readonly leftOut: Int32Array;

  constructor(
    engine: LinearEngine,
    scaled: Scaled,
    patterns: readonly Pattern[],
    unit: number,
    dear: Float64Array,
    shorting: boolean,
    meter: Meter,
  ) {
    this.meter = meter;
    this.scaled = scaled;
    this.patterns = patterns;
    this.unit = unit;
    this.dear = dear;
    this.shorting = shorting;
    this.exactly = scaled.ends.length > 0;
    this.pieces = scaled.sizes.length;
    this.demand = [...scaled.demand];
    this.counts = Float64Array.from(scaled.stocks, (stock) => stock.count);
    this.leftOut = new Int32Array(this.pieces);
    this.shut = new Int32Array(patterns.length);
    this.cuts = patterns.map(() => ({ rows: [], counts: [] }));
    this.model = engine.create();
    this.modelRow = this.demand.map((wanted) => this.model.addRow(wanted, this.exactly ? wanted : Infinity));
    for (const { count } of scaled.stocks) this.model.addRow(-Infinity, count);
    for (const { rows, counts, stock, cost } of patterns) {
      this.model.addColumn({ cost, rows: [...rows, this.pieces + stock], values: [...counts, 1] });
    }
    dear.forEach((cost, row) => {
      this.model.addColumn({ cost, rows: [row], values: [1] });
    });
  }

  dispose(): void {
    this.model.dispose();
  }

  usable(p: number): boolean {
    if (this.shut[p]! > 0) return false;
    const { rows, counts, stock } = this.patterns[p]!;
    if (this.counts[stock]! <= 0) return false;
    return !this.exactly || rows.every((row, k) => counts[k]! <= this.demand[row]!);
  }

  /** Solves the relaxation of what is left; it always has a solution. False when the solver failed. */
  solve(): boolean {
    const { status, steps } = this.model.solve();
    this.meter.solved(this.model.rows, this.model.columns, steps);
    return status === 'optimal';
  }

  /** The relaxation at the last solve: what is used of each pattern. */
  x(): Float64Array {
    return this.model.values().subarray(0, this.patterns.length);
  }

  /** Adds cuts that the relaxation fails. False when there are none. */
  addCuts(): boolean {
    if (this.cutSets.length >= MOST_CUTS) return false;
    const x = this.model.values().slice(0, this.patterns.length);
    for (const p of this.fixed) x[p]!++;
    const sets = violatedOddSets(this.patterns, this.scaled.demand, x, CUTS_A_ROUND, this.known);
    for (const set of sets) {
      const row = this.demand.length;
      set.patterns.forEach((p, k) => {
        this.cuts[p]!.rows.push(row);
        this.cuts[p]!.counts.push(set.coefficients[k]!);
      });
      const met = this.fixed.reduce(
        (sum, p) => sum + (this.cuts[p]!.rows.at(-1) === row ? this.cuts[p]!.counts.at(-1)! : 0),
        0,
      );
      this.demand.push(set.least - met - set.rows.reduce((sum, i) => sum + this.leftOut[i]!, 0));
      this.cutSets.push(set.rows);
      const out = set.rows.map((i) => this.patterns.length + i);
      const values = [...set.coefficients, ...out.map(() => 1)];
      this.modelRow.push(this.model.addRow(this.demand[row]!, Infinity, [...set.patterns, ...out], values));
    }
    return sets.length > 0;
  }

  /** Fixes one of pattern p; returns what undoes it. */
  use(p: number): () => void {
    const { rows, counts, stock, cost } = this.patterns[p]!;
    const before = rows.map((row) => this.demand[row]!);
    rows.forEach((row, k) => {
      this.want(row, Math.max(0, before[k]! - counts[k]!));
    });
    this.shift(p, -1);
    this.fixed.push(p);
    this.fixedCost += cost;
    this.setCount(stock, this.counts[stock]! - 1);
    return () => {
      this.setCount(stock, this.counts[stock]! + 1);
      this.fixedCost -= cost;
      this.fixed.pop();
      this.shift(p, 1);
      rows.forEach((row, k) => {
        this.want(row, before[k]!);
      });
    };
  }

  /** Leaves out what is still wanted of a piece; returns what undoes it. */
  leaveOut(row: number): () => void {
    const count = this.demand[row]!;
    const cost = count * this.dear[row]!;
    const shift = (by: number): void => {
      this.leftOut[row]! += by;
      this.cutSets.forEach((set, c) => {
        if (set.includes(row)) this.want(this.pieces + c, this.demand[this.pieces + c]! - by);
      });
      this.fixedCost += by > 0 ? cost : -cost;
      this.want(row, this.demand[row]! - by);
    };
    shift(count);
    return () => shift(-count);
  }

  close(p: number): void {
    if (this.shut[p]!++ === 0) this.model.setColumnBounds(p, 0, 0);
  }

  open(p: number): void {
    if (--this.shut[p]! === 0) this.model.setColumnBounds(p, 0, Infinity);
  }

  /**
   * Makes a safe bound of the duals and shuts out every pattern that can't be in a plan within `target`; returns those, or
   * null where there is no such plan.
   */
  shutOutLosers(target: number): number[] | null {
    const { patterns, unit } = this;
    const values = this.wholeValues();
    const worths = new Float64Array(patterns.length);
    const stocks = this.boundStocks();
    patterns.forEach((pattern, p) => {
      if (!this.usable(p)) return;
      const worth = this.worthOf(p, values);
      const stock = stocks[pattern.stock]!;
      worths[p] = worth;
      stock.most = Math.max(stock.most, worth);
    });
    const { bound, theta } = lagrangianBound(values, this.demand, stocks, this.stretch());
    const room = (target - this.fixedCost + 1e-9 * Math.max(1, target)) * unit - bound;
    if (room < 0) return null;
    if (theta !== 1) for (let i = 0; i < values.length; i++) values[i] = Math.floor(values[i]! * theta);
    const bests = stocks.map(({ price, most }) => Math.max(price, stretchedMost(theta, price, most)));
    const losers: number[] = [];
    patterns.forEach((pattern, p) => {
      if (!this.usable(p)) return;
      const worth = theta === 1 ? worths[p]! : this.worthOf(p, values);
      if (bests[pattern.stock]! - worth > room) losers.push(p);
    });
    for (const p of losers) this.close(p);
    return losers;
  }

  /** Prices are one for a type where only they count; else patterns have costs of their own, and worths are less those. */
  private boundStocks(): BoundStock[] {
    let pieces = 0;
    for (let row = 0; row < this.pieces; row++) pieces += this.demand[row]!;
    return this.scaled.stocks.map(({ price }, t) =>
      this.stretch()
        ? { price: Math.floor(price * this.unit), count: this.counts[t]!, most: 0 }
        : { price: 0, count: Math.min(this.counts[t]!, pieces), most: 0 },
    );
  }

  private stretch(): boolean {
    return !this.exactly && !this.shorting;
  }

  private worthOf(p: number, values: Float64Array): number {
    const { rows, counts, cost } = this.patterns[p]!;
    let worth = this.stretch() ? 0 : -Math.floor(cost * this.unit);
    for (let k = 0; k < rows.length; k++) worth += counts[k]! * values[rows[k]!]!;
    const cuts = this.cuts[p]!;
    for (let k = 0; k < cuts.rows.length; k++) worth += cuts.counts[k]! * values[cuts.rows[k]!]!;
    return worth;
  }

  /** Duals as whole values; where pieces may be left out, no set of values may pass what that costs. */
  private wholeValues(): Float64Array {
    const duals = this.model.duals();
    const values = Float64Array.from(this.modelRow, (row, i) => {
      const dual = duals[row]!;
      return Math.floor((this.exactly && i < this.pieces ? dual : Math.max(0, dual)) * this.unit);
    });
    if (!this.shorting) return values;
    const room = this.dear.map((cost) => Math.floor(cost * this.unit));
    for (let i = values.length - 1; i >= 0; i--) {
      const rows = i < this.pieces ? [i] : this.cutSets[i - this.pieces]!;
      values[i] = Math.min(values[i]!, ...rows.map((row) => room[row]!));
      for (const row of rows) room[row]! -= values[i]!;
    }
    return values;
  }

  private shift(p: number, sign: number): void {
    const { rows, counts } = this.cuts[p]!;
    rows.forEach((row, k) => {
      this.want(row, this.demand[row]! + sign * counts[k]!);
    });
  }

  private want(row: number, wanted: number): void {
    this.demand[row] = wanted;
    const equal = this.exactly && row < this.pieces;
    this.model.setRowBounds(this.modelRow[row]!, wanted, equal ? wanted : Infinity);
  }

  private setCount(stock: number, count: number): void {
    this.counts[stock] = count;
    this.model.setRowBounds(this.pieces + stock, -Infinity, count);
  }
}
