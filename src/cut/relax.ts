/**
 * Column generation: the continuous relaxation of what is still to cut, solved by turns of master and pricing, with a safe
 * lower bound at every turn. It stops as soon as bound and value round to the same cost, or the bound reaches `cutoff`.
 */
import type { LinearEngine } from '../linear/model.ts';
import { type BoundStock, chooseUnit, lagrangianBound, roundBoundUp, stretchedMost } from './bound.ts';
import { Master, makePattern, type Pattern } from './columns.ts';
import { Meter } from './meter.ts';
import { type Fill, PatternTable } from './pattern.ts';
import type { Scaled } from './scale.ts';

export interface Relaxed {
  /** `bounded`: no cheaper than the cutoff. `stopped`: rounds or `shouldStop` ended it early; the bound holds. */
  status: 'solved' | 'bounded' | 'stopped' | 'failed';
  /** Lower bound on the cost of what is still to cut, rounded up where costs allow. */
  bound: number;
  /** Value of the restricted master. */
  value: number;
}

/** Values with which the bound of a solve holds; see bound.ts. */
export interface Proof {
  /** In 1/unit of cost. */
  bound: number;
  theta: number;
  values: Float64Array;
  stocks: BoundStock[];
}

export interface RelaxLimits {
  /** Stop when the bound reaches this. */
  cutoff: number;
  rounds: number;
  /** Go on until no column is missing, beyond what the rounded bound needs. */
  converge?: boolean;
  shouldStop?: (() => boolean) | undefined;
}

/** The best bound of a solve, in 1/unit. */
interface Best {
  bound: number;
}

/** Patterns kept when some are dropped: so many for each row, and so many more. */
const KEPT_A_ROW = 3;
const KEPT = 100;

const CENTRAL_ROUNDS = 40;

/** Nodes of one search for a pattern where the table does not decide by itself. */
const SEARCH_NODES = 300_000;
/** Beside the best pattern, the best with each piece not covered yet, if it reaches this share of the best's profit; nodes for each. */
const KEEN = 0.3;
const COVER_NODES = 2000;
/** Search nodes allowed for each pattern that may be enumerated. */
const SEARCH_FACTOR = 100;

export class Relaxation {
  readonly scaled: Scaled;
  readonly master: Master;
  readonly unit: number;
  /** What is still to cut, and the bars left of each type. */
  readonly demand: Int32Array;
  readonly counts: Float64Array;
  readonly meter = new Meter();
  readonly dear: Float64Array;
  /** The duals of the best bound of the last solve. */
  proof: Proof | null = null;
  private readonly stretch: boolean;
  private readonly tables: PatternTable[];
  private readonly prices: Float64Array;
  private readonly starts: Float64Array;
  private readonly perPiece: number;
  /** Patterns in the master before some are dropped. */
  private limit: number;

  /**
   * `dear`: what leaving out a piece of each row costs; where `shorting` that is the objective, and the bound counts it,
   * else the bound is for plans that leave nothing out.
   */
  constructor(engine: LinearEngine, scaled: Scaled, dear: Float64Array, shorting = false) {
    this.scaled = scaled;
    this.dear = dear;
    this.stretch = !shorting && scaled.ends.length === 0;
    this.master = new Master(engine, scaled, dear, this.meter);
    this.demand = Int32Array.from(scaled.demand);
    this.counts = Float64Array.from(scaled.stocks, (stock) => stock.count);
    const pieces = scaled.demand.reduce((sum, d) => sum + d, 0);
    const dearest = Math.max(...dear, ...scaled.stocks.map((stock) => stock.price));
    this.unit = chooseUnit(pieces, dearest);
    this.prices = Float64Array.from(scaled.stocks, (stock) => Math.floor(stock.price * this.unit));
    this.starts = Float64Array.from(scaled.ends, (end) => Math.floor(end.start * this.unit));
    this.perPiece = Math.floor(scaled.perPiece * this.unit);
    const most = (end: number): number =>
      Math.max(0, ...scaled.stocks.flatMap((s) => s.capacities.filter((_, k) => s.ends[k] === end)));
    this.limit = 2 * (KEPT_A_ROW * scaled.sizes.length + KEPT);
    const plain = scaled.ends.length === 0;
    this.tables = plain
      ? [new PatternTable(scaled.sizes, most(-1))]
      : scaled.ends.map(
          (end, e) => new PatternTable(scaled.sizes, most(e), (left) => -Math.floor(end.of(left) * this.unit)),
        );
  }

  /** Sets what is still to cut and the bars left; patterns that would cut more of a size than is left are shut out. */
  setResidual(demand: ArrayLike<number>, counts: ArrayLike<number>): void {
    for (let i = 0; i < this.demand.length; i++) {
      if (this.demand[i] === demand[i]) continue;
      this.demand[i] = demand[i]!;
      this.master.setDemand(i, demand[i]!);
    }
    for (let t = 0; t < this.counts.length; t++) {
      if (this.counts[t] === counts[t]) continue;
      this.counts[t] = counts[t]!;
      this.master.setStockCount(t, counts[t]!);
    }
  }

  /** Lets every pattern that fits what is left be used, save those in `banned`. */
  allowFitting(banned: ReadonlySet<Pattern>): void {
    this.master.patterns.forEach((pattern, j) => {
      this.master.allow(j, !banned.has(pattern) && this.fits(pattern));
    });
  }

  fits(pattern: Pattern): boolean {
    return pattern.fills.every(({ rows, counts }) => rows.every((row, k) => counts[k]! <= this.demand[row]!));
  }

  solve(limits: RelaxLimits): Relaxed {
    const { master } = this;
    const best: Best = { bound: -Infinity };
    for (let round = 0; ; round++) {
      if (master.solve() !== 'optimal') return { status: 'failed', bound: this.rounded(best.bound), value: Infinity };
      const { value } = master;
      const values = this.wholeValues(master.pi);
      const stocks = this.price(values);
      this.improve(best, values, stocks);
      const bound = this.rounded(best.bound);
      if (bound >= limits.cutoff) return { status: 'bounded', bound, value };
      if (!limits.converge && bound >= value - 1e-9 * Math.max(1, value)) return { status: 'solved', bound, value };
      if (round >= limits.rounds || limits.shouldStop?.()) return { status: 'stopped', bound, value };
      this.dropSome();
      if (!this.addColumns(values, stocks)) return { status: 'solved', bound, value };
    }
  }

  /**
   * Replaces the proof of a converged solve by one from the middle of the optimal duals: it shuts out more patterns, for a
   * bound that is hardly less. Some rounds of pricing make it hold.
   */
  centre(shouldStop: () => boolean): void {
    const best: Best = { bound: -Infinity };
    for (let round = 0; round < CENTRAL_ROUNDS && !shouldStop(); round++) {
      if (this.master.solve(true) !== 'optimal') return;
      const values = this.wholeValues(this.master.pi);
      const stocks = this.price(values);
      this.improve(best, values, stocks);
      if (!this.addColumns(values, stocks)) return;
    }
  }

  /** Keeps the master small: it is solved far faster. The limit grows each time, so that this comes to an end. */
  private dropSome(): void {
    if (this.master.patterns.length <= this.limit) return;
    this.master.drop(KEPT_A_ROW * this.scaled.sizes.length + KEPT);
    this.limit = Math.max(this.limit * 1.02, this.master.patterns.length * 2);
  }

  /** Takes the bound that these values give if it is the best. */
  private improve(best: Best, values: Float64Array, stocks: BoundStock[]): void {
    const { bound, theta } = lagrangianBound(values, this.demand, stocks, this.stretch);
    const whole = bound + this.perPiece * this.demand.reduce((sum, count) => sum + count, 0);
    if (whole <= best.bound) return;
    best.bound = whole;
    this.proof = { bound: whole, theta, values, stocks };
  }

  private rounded(bound: number): number {
    return roundBoundUp(bound, this.unit, this.scaled.costStep);
  }

  /** Duals as whole values, rounded down; at least 0 where more than the demand may be cut. */
  private wholeValues(pi: Float64Array): Float64Array {
    const least = this.scaled.ends.length > 0 ? -Infinity : 0;
    return pi.map((dual, i) => Math.floor(Math.max(least, Math.min(dual, this.dear[i]!)) * this.unit) - this.perPiece);
  }

  /** Fills the tables and finds for every type the most that a bar can hold. */
  private price(values: Float64Array): BoundStock[] {
    for (const table of this.tables) this.meter.priced(table.fill(values, this.demand));
    return this.scaled.stocks.map((stock, t) => {
      const floor = this.floorOf(t);
      let most = 0;
      for (let s = 0; s < stock.capacities.length; s++) most += this.mostIn(t, s, floor);
      return { price: this.prices[t]!, count: this.countOf(t), most };
    });
  }

  /** Bars of type t at most: where the dual can't be stretched, no more than there are pieces. */
  private countOf(t: number): number {
    if (this.stretch) return this.counts[t]!;
    const pieces = this.demand.reduce((sum, count) => sum + count, 0);
    return Math.min(this.counts[t]!, pieces);
  }

  /** What a bar of type t must be worth more than to be added. */
  private floorOf(t: number): number {
    return this.prices[t]! - Math.floor(this.master.sigma[t]! * this.unit) + 1;
  }

  /** No filling of the span is worth more. Sharp where the table is exact, or it is the only span of its bar. */
  private mostIn(t: number, s: number, floor: number): number {
    const capacity = this.scaled.stocks[t]!.capacities[s]!;
    const table = this.tableFor(t, s);
    const start = this.startOf(t, s);
    let most = table.atMost(capacity);
    if (table.scale > 1 && this.scaled.stocks[t]!.capacities.length === 1 && most > floor + start) {
      const { fill, exhausted } = table.best(capacity, floor + start, SEARCH_NODES);
      if (!exhausted) most = fill?.value ?? floor + start;
    }
    return Math.max(this.emptyValue(t, s), most - start);
  }

  private emptyValue(t: number, s: number): number {
    const stock = this.scaled.stocks[t]!;
    const end = this.scaled.ends[stock.ends[s]!];
    return end === undefined ? 0 : -Math.floor(end.of(stock.capacities[s]!) * this.unit);
  }

  /** Adds the patterns that are worth more than they cost. False when there are none. */
  private addColumns(values: Float64Array, stocks: BoundStock[]): boolean {
    let added = false;
    for (let t = 0; t < stocks.length; t++) {
      if (this.counts[t]! <= 0) continue;
      const floor = this.floorOf(t);
      if (stocks[t]!.most > floor) added = this.addBest(t, values, floor) || added;
    }
    return added;
  }

  /** Adds the best pattern of type t, and a few others that are nearly as good and use other pieces. */
  private addBest(t: number, values: Float64Array, floor: number): boolean {
    const capacities = this.scaled.stocks[t]!.capacities;
    const best = capacities.map((_, s) => this.bestFill(t, s));
    const worth = best.reduce((sum, fill) => sum + fill.value, 0);
    if (worth <= floor) return false;
    let added = this.add(t, best);
    if (capacities.length > 1) return this.addSpread(t, values, floor) || added;
    const covered = new Uint8Array(this.demand.length);
    for (const row of best[0]!.rows) covered[row] = 1;
    const start = this.startOf(t, 0);
    const keen = floor + start + (worth - floor) * KEEN;
    for (const other of this.tableFor(t, 0).bestWithEach(capacities[0]!, keen, COVER_NODES, covered)) {
      added = this.add(t, [{ ...other, value: other.value - start }]) || added;
    }
    return added;
  }

  /** Of a bar with several spans: the pattern got by filling one span after the other with what the others leave. */
  private addSpread(t: number, values: Float64Array, floor: number): boolean {
    const left = Int32Array.from(this.demand);
    let worth = 0;
    const fills = this.scaled.stocks[t]!.capacities.map((_, s) => {
      this.meter.priced(this.tableFor(t, s).fill(values, left));
      const fill = this.bestFill(t, s);
      fill.rows.forEach((row, k) => {
        left[row]! -= fill.counts[k]!;
      });
      worth += fill.value;
      return fill;
    });
    for (const table of this.tables) this.meter.priced(table.fill(values, this.demand));
    return worth > floor && this.add(t, fills);
  }

  /** The best filling of one span, its start cut taken off; empty where nothing pays. */
  private bestFill(t: number, s: number): Fill {
    const capacity = this.scaled.stocks[t]!.capacities[s]!;
    const empty = this.emptyValue(t, s);
    const start = this.startOf(t, s);
    const { fill } = this.tableFor(t, s).best(capacity, empty + start, SEARCH_NODES);
    if (fill === null) return { rows: [], counts: [], left: capacity, value: empty };
    return { ...fill, value: fill.value - start };
  }

  private tableFor(t: number, s: number): PatternTable {
    return this.tables[Math.max(0, this.scaled.stocks[t]!.ends[s]!)]!;
  }

  /** Value of the cut at the start of a used span. */
  private startOf(t: number, s: number): number {
    return this.starts[this.scaled.stocks[t]!.ends[s]!] ?? 0;
  }

  /**
   * Every pattern that a plan costing no more than `target` can use, by the bound's own reckoning: a plan costs at least
   * the bound plus what each of its patterns loses against the best of its type. Null when there are more than `most`.
   */
  enumerate(target: number, most: number): Pattern[] | null {
    const { proof, scaled, unit } = this;
    if (proof === null) return null;
    const slack = Math.floor(target * unit) + 1 - proof.bound;
    const values = proof.values.map((value) => (proof.theta === 1 ? value : Math.floor(value * proof.theta)));
    for (const table of this.tables) this.meter.priced(table.fill(values, this.demand));
    const patterns: Pattern[] = [];
    for (const [t, stock] of scaled.stocks.entries()) {
      if (this.counts[t]! <= 0) continue;
      const { price, most: held } = proof.stocks[t]!;
      const best = Math.max(price, stretchedMost(proof.theta, price, held));
      const bests = stock.capacities.map((capacity, s) =>
        Math.max(this.emptyValue(t, s), this.tableFor(t, s).atMost(capacity) - this.startOf(t, s)),
      );
      const found = this.enumerateBar(t, best - slack - 1, bests, most - patterns.length);
      if (found === null) return null;
      patterns.push(...found);
    }
    return patterns;
  }

  /** The patterns of type t worth more than `floor`; `bests` is the most each span can hold. */
  private enumerateBar(t: number, floor: number, bests: number[], most: number): Pattern[] | null {
    const { scaled } = this;
    const stock = scaled.stocks[t]!;
    let partial: { fills: Fill[]; worth: number }[] = [{ fills: [], worth: 0 }];
    let rest = bests.reduce((sum, best) => sum + best, 0);
    for (const [s, capacity] of stock.capacities.entries()) {
      rest -= bests[s]!;
      const table = this.tableFor(t, s);
      const start = this.startOf(t, s);
      const empty = this.emptyValue(t, s);
      const next: typeof partial = [];
      for (const { fills, worth } of partial) {
        const need = floor - worth - rest;
        const fillings = table.all(capacity, need + start, most * SEARCH_FACTOR, most + 1);
        if (fillings === null) return null;
        for (const fill of fillings) {
          if (fill.rows.length > 0) next.push({ fills: [...fills, fill], worth: worth + fill.value - start });
        }
        if (empty > need) {
          next.push({
            fills: [...fills, { rows: [], counts: [], left: capacity, value: empty }],
            worth: worth + empty,
          });
        }
        if (next.length > most) return null;
      }
      partial = next;
    }
    const patterns: Pattern[] = [];
    for (const { fills } of partial) {
      const pattern = makePattern(scaled, t, fills);
      if (pattern.rows.length === 0 || pattern.rows.some((row, k) => pattern.counts[k]! > this.demand[row]!)) continue;
      if (scaled.ends.length > 0 || !this.canTakeMore(pattern)) patterns.push(pattern);
    }
    return patterns;
  }

  /** True where another piece still fits: the pattern with it costs the same and cuts more. */
  private canTakeMore(pattern: Pattern): boolean {
    const widest = Math.max(...pattern.fills.map((fill) => fill.left));
    const { sizes } = this.scaled;
    for (let row = sizes.length - 1; row >= 0 && sizes[row]! <= widest; row--) {
      const at = pattern.rows.indexOf(row);
      if ((at < 0 ? 0 : pattern.counts[at]!) < this.demand[row]!) return true;
    }
    return false;
  }

  /** Adds a pattern; true where it is new. */
  private add(t: number, fills: Fill[]): boolean {
    if (fills.every((fill) => fill.rows.length === 0)) return false;
    return this.master.add(makePattern(this.scaled, t, fills));
  }

  dispose(): void {
    this.master.dispose();
  }
}
