/** The `highs` engine (WebAssembly): one model kept, columns and rows added to it, each solve warm from the last basis. */
import loadModule, { type Highs, type Model } from 'highs';
import { Defect } from '../fault.ts';
import type {
  Column,
  ColumnBatch,
  Indices,
  LinearEngine,
  LinearModel,
  LinearStatus,
  Numbers,
  Sense,
  Solved,
  SolveOptions,
} from './model.ts';

/** Loads the engine: tens of milliseconds and some 20 MB, so load once and hand it down. Each engine has a memory of its own. */
export async function loadHighs(): Promise<LinearEngine> {
  // The package's types are those of its CommonJS build; as an ES module its default export is the loader itself.
  const load = loadModule as unknown as typeof loadModule.default;
  const highs = await load();
  return { name: 'highs', create: (options) => new HighsModel(highs, options?.sense ?? 'minimise') };
}

const NO_LIMIT = 2 ** 31 - 1;

const noColumns = () => ({
  cost: [] as number[],
  lower: [] as number[],
  upper: [] as number[],
  starts: [] as number[],
  rows: [] as number[],
  values: [] as number[],
});

class HighsModel implements LinearModel {
  private readonly highs: Highs;
  private readonly model: Model;
  private readonly minimise: boolean;
  private rowCount = 0;
  private columnCount = 0;
  /** Columns added since the last were passed on. */
  private fresh = noColumns();
  /** True while some columns are marked as whole numbers. */
  private whole = false;
  private primal: Float64Array | null = null;
  private dual: Float64Array | null = null;

  constructor(highs: Highs, sense: Sense) {
    this.highs = highs;
    this.model = highs.createModel();
    this.minimise = sense === 'minimise';
    this.model.options.set({
      output_flag: false,
      presolve: 'off',
      solver: 'simplex',
      simplex_strategy: 0,
      mip_rel_gap: 0,
    });
    if (!this.minimise) this.model.changeObjectiveSense(highs.constants.objectiveSense.maximize);
  }

  get rows(): number {
    return this.rowCount;
  }

  get columns(): number {
    return this.columnCount;
  }

  addRow(lower: number, upper: number, columns: Indices = [], values: Numbers = []): number {
    if (columns.length > 0) this.takeIn();
    this.model.addRow(lower, upper, { indices: columns, values });
    return this.rowCount++;
  }

  addColumn({ cost, lower = 0, upper = Infinity, rows, values }: Column): number {
    const { fresh } = this;
    fresh.cost.push(cost);
    fresh.lower.push(lower);
    fresh.upper.push(upper);
    fresh.starts.push(fresh.rows.length);
    for (let i = 0; i < rows.length; i++) {
      fresh.rows.push(rows[i]!);
      fresh.values.push(values[i]!);
    }
    return this.columnCount++;
  }

  addColumns(batch: ColumnBatch): number {
    const first = this.columnCount;
    this.takeIn();
    this.pass(batch);
    this.columnCount += batch.cost.length;
    return first;
  }

  /** Passes on the columns that were added one by one: many at once take a fraction of the time. */
  private takeIn(): void {
    this.pass(this.fresh);
    this.fresh = noColumns();
  }

  private pass(batch: ColumnBatch): void {
    const count = batch.cost.length;
    if (count === 0) return;
    this.model.addCols({
      cost: Float64Array.from(batch.cost),
      lower: Float64Array.from(batch.lower),
      upper: Float64Array.from(batch.upper),
      matrix: {
        format: 'csc',
        numRows: this.rowCount,
        numCols: count,
        starts: Int32Array.from({ length: count + 1 }, (_, j) => batch.starts[j] ?? batch.rows.length),
        indices: Int32Array.from(batch.rows),
        values: Float64Array.from(batch.values),
      },
    });
  }

  setCost(column: number, cost: number): void {
    this.takeIn();
    this.model.changeColCost(column, cost);
  }

  setColumnBounds(column: number, lower: number, upper: number): void {
    this.takeIn();
    this.model.changeColBounds(column, lower, upper);
  }

  setRowBounds(row: number, lower: number, upper: number): void {
    this.model.changeRowBounds(row, lower, upper);
  }

  deleteColumns(columns: Indices): void {
    if (columns.length === 0) return;
    this.takeIn();
    this.model.deleteCols({ kind: 'set', indices: columns });
    this.columnCount -= columns.length;
  }

  deleteRows(rows: Indices): void {
    if (rows.length === 0) return;
    this.takeIn();
    this.model.deleteRows({ kind: 'set', indices: rows });
    this.rowCount -= rows.length;
  }

  solve(options: SolveOptions = {}): Solved {
    this.primal = null;
    this.dual = null;
    if (this.columnCount === 0) return this.solveEmpty();
    this.takeIn();
    const whole = options.wholeNumbers !== undefined;
    if (whole) this.markWhole(options);
    try {
      let status = options.central ? this.runCentral(options.shouldStop) : this.run(options.shouldStop);
      if (status === 'failed') {
        // A basis can go bad; a start from nothing settles it where anything does.
        this.model.clearSolver();
        status = this.run(options.shouldStop);
      }
      return this.read(status, whole);
    } finally {
      if (this.whole) this.unmarkWhole();
    }
  }

  values(): Float64Array {
    if (this.primal === null) throw new Defect('no solution to read');
    return this.primal;
  }

  duals(): Float64Array {
    if (this.dual === null) throw new Defect('no duals to read');
    return this.dual;
  }

  dispose(): void {
    this.model.dispose();
  }

  [Symbol.dispose](): void {
    this.dispose();
  }

  private markWhole(options: SolveOptions): void {
    const { integer, continuous } = this.highs.constants.variableType;
    const types = new Int32Array(this.columnCount).fill(options.wholeNumbers === 'all' ? integer : continuous);
    if (options.wholeNumbers !== 'all') for (const column of options.wholeNumbers ?? []) types[column] = integer;
    this.model.changeColsIntegrality({ kind: 'range', from: 0, to: this.columnCount - 1 }, types);
    this.whole = true;
    this.model.options.set({
      presolve: 'choose',
      solver: 'choose',
      mip_max_nodes: options.nodesAtMost ?? NO_LIMIT,
      mip_abs_gap: options.absoluteGap ?? 1e-6,
    });
  }

  private unmarkWhole(): void {
    this.model.clearIntegrality();
    this.whole = false;
    this.model.options.set({ presolve: 'off', solver: 'simplex' });
  }

  /** A program without columns: the rows alone decide. */
  private solveEmpty(): Solved {
    this.primal = new Float64Array(0);
    this.dual = new Float64Array(this.rowCount);
    const { lower, upper } =
      this.rowCount === 0
        ? { lower: [], upper: [] }
        : this.model.getRows({ kind: 'range', from: 0, to: this.rowCount - 1 });
    const feasible = lower.every((low, row) => low <= 0 && (upper[row] ?? 0) >= 0);
    return feasible
      ? { status: 'optimal', value: 0, bound: 0, feasible, steps: 0 }
      : { status: 'infeasible', value: Number.NaN, bound: Number.NaN, feasible, steps: 0 };
  }

  private run(shouldStop: (() => boolean) | undefined): LinearStatus {
    const { callbackType, modelStatus } = this.highs.constants;
    const poll = (event: { interrupt(): void }): undefined => {
      if (shouldStop?.()) event.interrupt();
    };
    try {
      if (shouldStop === undefined) this.model.run();
      else this.model.run({ [callbackType.simplexInterrupt]: poll, [callbackType.mipInterrupt]: poll });
    } catch (error) {
      if (error instanceof this.highs.errors.HighsError) return 'failed';
      throw error;
    }
    switch (this.model.getModelStatus()) {
      case modelStatus.optimal:
        return 'optimal';
      case modelStatus.infeasible:
        return 'infeasible';
      case modelStatus.unbounded:
        return 'unbounded';
      case modelStatus.unboundedOrInfeasible:
        return this.tellApart();
      case modelStatus.iterationLimit:
      case modelStatus.solutionLimit:
      case modelStatus.timeLimit:
      case modelStatus.interrupted:
      case modelStatus.objectiveBound:
      case modelStatus.objectiveTarget:
        return 'stopped';
      default:
        return 'failed';
    }
  }

  /** By interior point, without going on to a corner. */
  private runCentral(shouldStop: (() => boolean) | undefined): LinearStatus {
    this.model.options.set({ solver: 'ipm', run_crossover: 'off' });
    const status = this.run(shouldStop);
    this.model.options.set({ solver: 'simplex', run_crossover: 'on' });
    return status;
  }

  /** Presolve may leave open whether a program is infeasible or unbounded; without presolve it is told. */
  private tellApart(): LinearStatus {
    this.model.options.set('presolve', 'off');
    this.model.run();
    const status = this.model.getModelStatus();
    if (status === this.highs.constants.modelStatus.infeasible) return 'infeasible';
    return status === this.highs.constants.modelStatus.unbounded ? 'unbounded' : 'failed';
  }

  private read(status: LinearStatus, whole: boolean): Solved {
    const steps = Number(this.model.info.get('simplex_iteration_count'));
    const nothing = { status, value: Number.NaN, bound: this.minimise ? -Infinity : Infinity, feasible: false, steps };
    if (status === 'infeasible' || status === 'unbounded' || status === 'failed') return nothing;
    const feasible = this.model.info.get('primal_solution_status') === this.highs.constants.solutionStatus.feasible;
    const value = this.model.getObjectiveValue();
    const bound = whole ? Number(this.model.info.get('mip_dual_bound')) : nothing.bound;
    if (!feasible) return { ...nothing, bound };
    const solution = this.model.getSolution();
    this.primal = solution.colValue;
    if (!whole) this.dual = solution.rowDual;
    return { status, value, bound: status === 'optimal' && !whole ? value : bound, feasible, steps };
  }
}
