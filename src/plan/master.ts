/**
 * The joint master problem: layouts of voids and cutting patterns of bars, in one linear program that grows by columns.
 *
 *   minimise  Σ cost·pattern − Σ value·layout + shortage and misses at their price
 *   balance   (steel, length):  pieces cut + shortage − bars used − discarded = 0    dual: the worth of a piece
 *   convexity (void):           Σ layouts ≤ 1                                  dual ≤ 0
 *   supply    (bar kind):       Σ patterns ≤ bars                              dual ≤ 0
 *   caps:     ballast, and target and most of each void, on bundle mass        dual ≤ 0
 *   aims:     centre and spread on the moments, missed at a price
 */
import { Defect } from '../fault.ts';
import type { LinearEngine, LinearModel } from '../linear/model.ts';
import { alongSize } from '../stow/bundle.ts';
import type { Layout } from '../stow/layout.ts';
import { evenPattern, type Pattern, patternKey, timesOf } from './barPattern.ts';
import { type Load, loadOf } from './load.ts';
import { type LoadRow, loadRowsOf } from './loadRows.ts';
import { type Prices, worthAt } from './prices.ts';
import { barMass, type MissPrices, type Problem, type Space } from './problem.ts';
import { SCRAP_RATE } from './value.ts';

/** A kilogram over a cap, where what is fixed passes it, costs this many. */
const EXCESS_PRICE = 3;
/** A piece that supply does not yield costs this many times its mass. */
const SHORTAGE_PRICE = 1.1;
/** A bar left out of a run costs this many times what it is worth there. */
const HOLE = 1.01;
/** Patterns of pieces of one length to begin with, at most. */
const MOST_EVEN = 2000;
/** A new length is trimmed from, and to, the lengths so many places away. */
const TRIM_STEPS = [0, 3];

export type MasterColumn =
  | { what: 'pattern'; pattern: Pattern; index: number }
  | { what: 'layout'; group: number; space: Space; layout: Layout; load: Load; use: Use[]; index: number };

export type LayoutColumn = MasterColumn & { what: 'layout' };

/** Bars of one steel and length used by a layout. */
export interface Use {
  steel: number;
  length: number;
  bars: number;
}

export class Master {
  readonly problem: Problem;
  readonly columns: MasterColumn[] = [];
  readonly loadRows: LoadRow[];
  private readonly model: LinearModel;
  private readonly convexity: number[];
  private readonly supply: number[];
  private readonly balance = new Map<number, { row: number; shortage: number }>();
  private readonly lengthsOf: number[][];
  private readonly patternKeys = new Set<string>();
  private readonly banned = new Set<MasterColumn>();
  private readonly missColumns: number[] = [];
  private readonly holes = new Map<string, { space: number; steel: number; length: number; index: number }>();
  private columnsAdded = 0;
  value = 0;

  /** `groups`: the space of each convexity row; a layout of a group may be a part of its void only. */
  constructor(engine: LinearEngine, problem: Problem, groups: Space[] = problem.spaces) {
    this.problem = problem;
    this.model = engine.create({ sense: 'minimise' });
    this.convexity = groups.map(() => this.model.addRow(Number.NEGATIVE_INFINITY, 1));
    this.supply = problem.barKinds.map((kind) => this.model.addRow(Number.NEGATIVE_INFINITY, kind.count));
    this.loadRows = loadRowsOf(problem).map((row) => ({
      ...row,
      row: this.model.addRow(Number.NEGATIVE_INFINITY, row.most),
    }));
    for (const row of this.loadRows) {
      const cost = row.aim ? problem.missPrices[row.aim] : EXCESS_PRICE;
      this.missColumns.push(this.model.addColumn({ cost, rows: [row.row], values: [-1] }));
      this.columnsAdded++;
    }
    this.lengthsOf = problem.steels.map(() => []);
  }

  /** Lengths that have a balance row, rising. */
  lengths(steel: number): number[] {
    return this.lengthsOf[steel]!;
  }

  /** Makes the balance row of a length, with its priced shortage and discard; nothing where it is there. */
  addLength(steel: number, length: number): void {
    const key = balanceKey(steel, length);
    if (this.balance.has(key)) return;
    const row = this.model.addRow(0, 0);
    const cost = SHORTAGE_PRICE * barMass(this.problem.steels[steel]!, length);
    const shortage = this.model.addColumn({ cost, rows: [row], values: [1] });
    const discard = SCRAP_RATE * barMass(this.problem.steels[steel]!, length + this.problem.job.saw.kerf);
    this.model.addColumn({ cost: discard, rows: [row], values: [-1] });
    this.columnsAdded += 2;
    this.balance.set(key, { row, shortage });
    this.addTrims(steel, length, row);
    const list = this.lengthsOf[steel]!;
    let at = list.findIndex((other) => other > length);
    if (at < 0) at = list.length;
    list.splice(at, 0, length);
  }

  /**
   * Columns that cut a piece shorter, at the price of the scrap and a cut. A pattern may always do so at no more than
   * that, so that they change no optimum; they steady the duals.
   */
  private addTrims(steel: number, length: number, row: number): void {
    const list = this.lengthsOf[steel]!;
    const { labour, steels } = this.problem;
    const trim = (longer: number, longerRow: number, shorter: number, shorterRow: number) => {
      const cost = SCRAP_RATE * barMass(steels[steel]!, longer - shorter) + labour.cut;
      this.model.addColumn({ cost, rows: [longerRow, shorterRow], values: [-1, 1] });
      this.columnsAdded++;
    };
    const rowOf = (other: number) => this.balance.get(balanceKey(steel, other))!.row;
    const at = list.findIndex((other) => other > length);
    const above = at < 0 ? list.length : at;
    for (const step of TRIM_STEPS) {
      const longer = list[above + step];
      const shorter = list[above - 1 - step];
      if (longer !== undefined) trim(longer, rowOf(longer), length, row);
      if (shorter !== undefined) trim(length, row, shorter, rowOf(shorter));
    }
  }

  /** Adds a cutting pattern; false where it is there already. */
  addPattern(pattern: Pattern): boolean {
    const key = patternKey(pattern);
    if (this.patternKeys.has(key)) return false;
    this.patternKeys.add(key);
    const { kind } = pattern;
    const counts = new Map<number, number>();
    for (const pieces of pattern.spans) {
      for (const length of pieces) {
        this.addLength(kind.steel, length);
        const { row } = this.balance.get(balanceKey(kind.steel, length))!;
        counts.set(row, (counts.get(row) ?? 0) + 1);
      }
    }
    const rows = [this.supply[kind.index]!, ...counts.keys()];
    const values = [1, ...counts.values()];
    this.register({ what: 'pattern', pattern, index: this.model.addColumn({ cost: pattern.cost, rows, values }) });
    return true;
  }

  /** Adds patterns of pieces of one length, of many lengths that there are: better to begin with than nothing. */
  addEvenPatterns(): void {
    const { barKinds, job, labour } = this.problem;
    const all = barKinds.flatMap((kind) => this.lengths(kind.steel).map((length) => ({ kind, length })));
    const oneIn = Math.ceil(all.length / MOST_EVEN);
    for (const [i, { kind, length }] of all.entries()) {
      const pattern = i % oneIn === 0 ? evenPattern(kind, length, job, labour) : null;
      if (pattern) this.addPattern(pattern);
    }
  }

  /** Adds patterns that are cut for good, one entry a bar. */
  fixPatterns(bars: Pattern[]): void {
    for (const { pattern, count } of timesOf(bars)) {
      this.addPattern(pattern);
      const column = this.columns[this.columns.length - 1]!;
      this.model.setColumnBounds(column.index, count, count);
    }
  }

  /** What a pattern would gain at these prices, its bar paid for, kg. */
  patternGain(pattern: Pattern, prices: Prices): number {
    const { kind } = pattern;
    let gain = -pattern.cost - prices.bars[kind.index]!;
    for (const pieces of pattern.spans) {
      for (const length of pieces) gain += worthAt(prices.pieces[kind.steel]!, length);
    }
    return gain;
  }

  /** What a layout would gain at these prices, its void paid for, kg. */
  layoutGain(group: number, space: Space, layout: Layout, prices: Prices): number {
    const load = this.loadOf(layout);
    let gain = space.weight * load.steel - load.bundles * this.problem.labour.bundle - prices.groups[group]!;
    for (const { steel, length, bars } of useOf(layout)) gain -= bars * worthAt(prices.pieces[steel]!, length);
    this.loadRows.forEach((row, i) => {
      if (row.space === null || row.space === space.index) gain -= prices.loads[i]! * row.of(load);
    });
    return gain;
  }

  private loadOf(layout: Layout): Load {
    const { job, steels } = this.problem;
    const along = (length: number) => alongSize(length, job.saw, job.bundle);
    return loadOf(layout, steels, job.bundle.wrapping, job.vessel?.lcf ?? 0, along);
  }

  /** Adds a layout of a group; without a group it stands for good. */
  addLayout(group: number | null, space: Space, layout: Layout): LayoutColumn {
    const load = this.loadOf(layout);
    const use = useOf(layout);
    const rows = group === null ? [] : [this.convexity[group]!];
    const values = group === null ? [] : [1];
    for (const { steel, length, bars } of use) {
      this.addLength(steel, length);
      rows.push(this.balance.get(balanceKey(steel, length))!.row);
      values.push(-bars);
    }
    for (const row of this.loadRows) {
      if (row.space !== null && row.space !== space.index) continue;
      rows.push(row.row);
      values.push(row.of(load));
    }
    const cost = load.bundles * this.problem.labour.bundle - space.weight * load.steel;
    const lower = group === null ? 1 : 0;
    const upper = group === null ? 1 : Number.POSITIVE_INFINITY;
    const index = this.model.addColumn({ cost, lower, upper, rows, values });
    const column: LayoutColumn = { what: 'layout', group: group ?? -1, space, layout, load, use, index };
    this.register(column);
    return column;
  }

  private register(column: MasterColumn): void {
    this.columnsAdded++;
    if (column.index !== this.columnsAdded - 1) throw new Defect('master columns out of step');
    this.columns.push(column);
  }

  /** Solves the restricted master; its value (to be maximised) is set. */
  solve(): void {
    const solved = this.model.solve();
    if (solved.status !== 'optimal') throw new Defect(`the master problem ended ${solved.status}`);
    this.value = -solved.value;
  }

  /** Share or number of every column of `columns`, in that order. */
  levels(): Float64Array {
    const values = this.model.values();
    return Float64Array.from(this.columns, (column) => values[column.index]!);
  }

  /** Levels of other columns, by their indices. */
  levelsOf(indices: number[]): number[] {
    const values = this.model.values();
    return indices.map((index) => values[index]!);
  }

  /** Pieces short at the last solve, by steel and length. */
  shortages(): Use[] {
    const values = this.model.values();
    const short: Use[] = [];
    for (const [key, { shortage }] of this.balance) {
      if (values[shortage]! > 1e-6) short.push({ ...fromBalanceKey(key), bars: values[shortage]! });
    }
    return short;
  }

  /** By how much load rows are passed at the last solve, in their order. */
  misses(): number[] {
    const values = this.model.values();
    return this.missColumns.map((column) => values[column]!);
  }

  prices(): Prices {
    const duals = this.model.duals();
    const pieces = this.lengthsOf.map((lengths, steel) => ({
      lengths: [...lengths],
      worth: lengths.map((length) => duals[this.balance.get(balanceKey(steel, length))!.row]!),
    }));
    const worth = (rows: number[]) => Float64Array.from(rows, (row) => Math.max(0, -duals[row]!));
    return {
      pieces,
      bars: worth(this.supply),
      groups: worth(this.convexity),
      loads: worth(this.loadRows.map((row) => row.row)),
    };
  }

  /**
   * A column that leaves bars of a length out of a void, at what they are worth there; nothing where it is there. The load
   * rows do not feel it: what is left out may make the lightest bundle lighter by as much. None may be left out until
   * `mostLeftOut` says so.
   */
  addHole(space: Space, steel: number, length: number): void {
    const key = `${space.index}:${balanceKey(steel, length)}`;
    if (this.holes.has(key)) return;
    const cost = HOLE * space.weight * barMass(this.problem.steels[steel]!, length);
    const { row } = this.balance.get(balanceKey(steel, length))!;
    const index = this.model.addColumn({ cost, upper: 0, rows: [row], values: [1] });
    this.columnsAdded++;
    this.holes.set(key, { space: space.index, steel, length, index });
  }

  /** Lets so many bars of a length be left out of a void. */
  mostLeftOut(space: Space, { steel, length, bars }: Use): void {
    const hole = this.holes.get(`${space.index}:${balanceKey(steel, length)}`);
    if (hole) this.model.setColumnBounds(hole.index, 0, bars);
  }

  /** Bars left out of a void at the last solve, by steel and length. */
  leftOut(space: Space): Use[] {
    const values = this.model.values();
    return [...this.holes.values()]
      .map(({ space, steel, length, index }) => ({ space, steel, length, bars: values[index]! }))
      .filter((hole) => hole.space === space.index && hole.bars > 1e-6);
  }

  /** Lets a column have a level between these. */
  bound(column: MasterColumn, lower: number, upper: number): void {
    this.model.setColumnBounds(column.index, lower, upper);
  }

  /** The most that a row may come to, kg. */
  setMost(row: LoadRow, most: number): void {
    row.most = most;
    this.model.setRowBounds(row.row, Number.NEGATIVE_INFINITY, most);
  }

  /** Lets the ballast be passed by the mass of this bundle, the lightest of those that stand. */
  allowBallastOver(lightest: number): void {
    const { ballast } = this.problem.job.aims;
    const row = this.loadRows.find(({ name }) => name === 'ballast');
    if (row && ballast !== undefined) this.setMost(row, ballast + lightest);
  }

  /** True where the job states a centre or a spread, which a plan may miss. */
  get mayMiss(): boolean {
    return this.loadRows.some(({ aim }) => aim !== undefined);
  }

  /** Prices what is missed of the aims anew, here and in the problem. */
  priceMisses(prices: MissPrices): void {
    this.problem.missPrices = prices;
    this.loadRows.forEach((row, i) => {
      if (row.aim === undefined) return;
      this.model.setCost(this.missColumns[i]!, prices[row.aim]);
    });
  }

  /** Lets a group have only the layouts that `fits` says; the others are shut out until it is freed. */
  restrict(group: number, fits: (column: LayoutColumn) => boolean): void {
    for (const column of this.columns) {
      if (column.what !== 'layout' || column.group !== group) continue;
      const open = !this.banned.has(column) && fits(column);
      this.model.setColumnBounds(column.index, 0, open ? Number.POSITIVE_INFINITY : 0);
    }
  }

  /** Takes back what `restrict` did. */
  free(group: number): void {
    this.restrict(group, () => true);
  }

  /** Allows only columns of these lengths, by steel. */
  allow(lengths: Set<number>[]): void {
    this.banned.clear();
    for (const column of this.columns) {
      const steel = column.what === 'pattern' ? column.pattern.kind.steel : 0;
      const fits =
        column.what === 'pattern'
          ? column.pattern.spans.every((pieces) => pieces.every((length) => lengths[steel]!.has(length)))
          : column.use.every((use) => lengths[use.steel]!.has(use.length));
      if (!fits) this.banned.add(column);
      this.model.setColumnBounds(column.index, 0, fits ? Number.POSITIVE_INFINITY : 0);
    }
  }

  dispose(): void {
    this.model.dispose();
  }
}

/** The bars of each steel and length in a layout. */
export function useOf(layout: Layout): Use[] {
  const uses = new Map<number, Use>();
  for (const { stack } of layout.runs) {
    stack.bars.forEach((bars, steel) => {
      if (bars === 0) return;
      const key = balanceKey(steel, stack.length);
      const use = uses.get(key) ?? { steel, length: stack.length, bars: 0 };
      use.bars += bars;
      uses.set(key, use);
    });
  }
  return [...uses.values()];
}

const STEEL_STRIDE = 200_000;

function balanceKey(steel: number, length: number): number {
  return steel * STEEL_STRIDE + length;
}

function fromBalanceKey(key: number): { steel: number; length: number } {
  return { steel: Math.floor(key / STEEL_STRIDE), length: key % STEEL_STRIDE };
}
