/**
 * The one door to linear programming: what the rest of kentledge asks of a solver.
 *
 *     minimise (or maximise)  c·x   subject to   rowLower ≤ A·x ≤ rowUpper,   lower ≤ x ≤ upper
 *
 * Two engines stand behind it: `highs.ts` carries the masters, `small.ts` the programs of tens of variables and the
 * second opinion in the tests.
 */

export type Sense = 'minimise' | 'maximise';

/** A list of indices or of numbers; typed arrays are taken as they are. */
export type Numbers = readonly number[] | Float64Array;
export type Indices = readonly number[] | Int32Array;

/** One column: its cost, its bounds (±Infinity for none) and its entries, at most one for a row. */
export interface Column {
  cost: number;
  /** 0 when absent. */
  lower?: number;
  /** Infinity when absent. */
  upper?: number;
  rows: Indices;
  values: Numbers;
}

/** Many columns at once: the entries of column j are `rows` and `values` from `starts[j]` to before `starts[j + 1]`, the last to the end. */
export interface ColumnBatch {
  cost: Numbers;
  lower: Numbers;
  upper: Numbers;
  starts: Indices;
  rows: Indices;
  values: Numbers;
}

/**
 * How a solve ended. `stopped`: a limit or `shouldStop` ended it early, the values are the best found where `feasible`
 * says so. `failed`: the solver gave up on numerical grounds, also when started afresh; nothing may be read from it.
 */
export type LinearStatus = 'optimal' | 'infeasible' | 'unbounded' | 'stopped' | 'failed';

export interface Solved {
  status: LinearStatus;
  /** Value of the objective; NaN where there is no feasible point. */
  value: number;
  /** No point is better than this (a program in whole numbers that was stopped); equal to `value` when optimal. */
  bound: number;
  /** True where `values()` may be read. */
  feasible: boolean;
  /** Simplex steps taken; 0 where the engine does not count them. */
  steps: number;
}

export interface SolveOptions {
  /** Columns that must take whole numbers, or `all`. Without it the program is continuous and starts from the last basis. */
  wholeNumbers?: Indices | 'all';
  /**
   * For a continuous program with many optima: duals from their middle rather than from a corner, near the optimum by the
   * solver's tolerance only. An engine may not heed it. The next solve starts afresh.
   */
  central?: boolean;
  /** Branching nodes at most, for whole numbers; no limit when absent. Counted, so the same on every machine. */
  nodesAtMost?: number;
  /** For whole numbers: stop when value and bound are this close, absolutely; 1e-6 when absent. */
  absoluteGap?: number;
  /** Polled by the solver; true ends the solve as `stopped`. Only a cap: it makes the answer depend on the clock. */
  shouldStop?: () => boolean;
}

/**
 * A program that is kept, changed and solved again, each continuous solve starting from the last basis. It owns memory
 * outside the garbage collector: always `dispose()` it (or declare it with `using`).
 */
export interface LinearModel extends Disposable {
  readonly rows: number;
  readonly columns: number;
  /** Adds a row, with entries for columns that are there already; returns its index. */
  addRow(lower: number, upper: number, columns?: Indices, values?: Numbers): number;
  /** Adds a column; returns its index. */
  addColumn(column: Column): number;
  /** Adds columns; returns the index of the first. */
  addColumns(batch: ColumnBatch): number;
  setCost(column: number, cost: number): void;
  setColumnBounds(column: number, lower: number, upper: number): void;
  setRowBounds(row: number, lower: number, upper: number): void;
  /** Deletes columns, listed in rising order; the columns after them move down. */
  deleteColumns(columns: Indices): void;
  /** Deletes rows, listed in rising order; the rows after them move down. */
  deleteRows(rows: Indices): void;
  solve(options?: SolveOptions): Solved;
  /** Value of every column at the last solve. A copy. */
  values(): Float64Array;
  /**
   * Dual of every row at the last continuous solve: the change of the objective's value for one unit more of the bound
   * that binds. Minimising, a binding lower bound has a dual ≥ 0 and a binding upper bound one ≤ 0; maximising, the
   * other way round. The reduced cost of a column is cost − Σ dual × entry. A copy.
   */
  duals(): Float64Array;
  dispose(): void;
}

export interface LinearEngine {
  readonly name: string;
  create(options?: { sense?: Sense }): LinearModel;
}
