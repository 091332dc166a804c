/**
 * The `javascript-lp-solver` engine, for programs of tens of rows and columns and as a second opinion. The program is
 * kept as plain lists and built anew for each solve; duals come from solving the dual program.
 */
import solver, { type Model as Definition } from 'javascript-lp-solver';
import { Defect } from '../fault.ts';
import type {
  Column,
  ColumnBatch,
  Indices,
  LinearEngine,
  LinearModel,
  Numbers,
  Sense,
  Solved,
  SolveOptions,
} from './model.ts';

// The package's types are those of its CommonJS build; as an ES module its default export is the solver itself.
const jsSolver = solver as unknown as typeof solver.default;

/** Loads the engine. Limits and `shouldStop` are not heeded: give it small programs only. */
export async function loadSmall(): Promise<LinearEngine> {
  return { name: 'small', create: (options) => new SmallModel(options?.sense ?? 'minimise') };
}

interface Kept {
  cost: number;
  lower: number;
  upper: number;
  entries: Map<number, number>;
}

interface Range {
  lower: number;
  upper: number;
}

class SmallModel implements LinearModel {
  private readonly minimise: boolean;
  private readonly rowList: Range[] = [];
  private readonly columnList: Kept[] = [];
  private primal: Float64Array | null = null;
  private continuous = false;

  constructor(sense: Sense) {
    this.minimise = sense === 'minimise';
  }

  get rows(): number {
    return this.rowList.length;
  }

  get columns(): number {
    return this.columnList.length;
  }

  addRow(lower: number, upper: number, columns: Indices = [], values: Numbers = []): number {
    const row = this.rowList.push({ lower, upper }) - 1;
    columns.forEach((column: number, k: number) => {
      this.column(column).entries.set(row, values[k] ?? 0);
    });
    return row;
  }

  addColumn({ cost, lower = 0, upper = Infinity, rows, values }: Column): number {
    const entries = new Map<number, number>();
    rows.forEach((row: number, k: number) => {
      entries.set(row, values[k] ?? 0);
    });
    return this.columnList.push({ cost, lower, upper, entries }) - 1;
  }

  addColumns(batch: ColumnBatch): number {
    const first = this.columns;
    for (let j = 0; j < batch.cost.length; j++) {
      const from = batch.starts[j] ?? 0;
      const to = batch.starts[j + 1] ?? batch.rows.length;
      const [cost, lower, upper] = [batch.cost[j] ?? 0, batch.lower[j] ?? 0, batch.upper[j] ?? Infinity];
      this.addColumn({ cost, lower, upper, rows: batch.rows.slice(from, to), values: batch.values.slice(from, to) });
    }
    return first;
  }

  setCost(column: number, cost: number): void {
    this.column(column).cost = cost;
  }

  setColumnBounds(column: number, lower: number, upper: number): void {
    Object.assign(this.column(column), { lower, upper });
  }

  setRowBounds(row: number, lower: number, upper: number): void {
    this.rowList[row] = { lower, upper };
  }

  deleteColumns(columns: Indices): void {
    for (const column of [...columns].reverse()) this.columnList.splice(column, 1);
  }

  deleteRows(rows: Indices): void {
    for (const row of [...rows].reverse()) {
      this.rowList.splice(row, 1);
      for (const column of this.columnList) {
        const kept = [...column.entries].filter(([r]) => r !== row);
        column.entries = new Map(kept.map(([r, value]) => [r > row ? r - 1 : r, value]));
      }
    }
  }

  solve(options: SolveOptions = {}): Solved {
    const whole = options.wholeNumbers === 'all' ? this.columnList.map((_, j) => j) : (options.wholeNumbers ?? []);
    this.continuous = options.wholeNumbers === undefined;
    const solved = solveProgram(this.rowList, this.columnList, this.minimise, [...whole]);
    this.primal = solved.values;
    const { status, value } = solved;
    return { status, value, bound: value, feasible: status === 'optimal', steps: 0 };
  }

  values(): Float64Array {
    if (this.primal === null) throw new Defect('no solution to read');
    return this.primal;
  }

  duals(): Float64Array {
    if (this.primal === null || !this.continuous) throw new Defect('no duals to read');
    return solveDual(this.rowList, this.columnList, this.minimise);
  }

  dispose(): void {
    this.rowList.length = 0;
    this.columnList.length = 0;
  }

  [Symbol.dispose](): void {
    this.dispose();
  }

  private column(index: number): Kept {
    const column = this.columnList[index];
    if (column === undefined) throw new Defect(`no column ${index}`);
    return column;
  }
}

/** Solves the program with every finite lower bound shifted to 0; columns without one are unrestricted. */
function solveProgram(rows: Range[], columns: Kept[], minimise: boolean, whole: number[]) {
  const failed = (status: 'infeasible' | 'unbounded' | 'failed') => ({ status, value: Number.NaN, values: null });
  const shifts = columns.map(({ lower }) => (Number.isFinite(lower) ? lower : 0));
  const shifted = new Float64Array(rows.length);
  columns.forEach(({ entries }, j) => {
    const shift = shifts[j] ?? 0;
    for (const [row, value] of entries) shifted[row] = (shifted[row] ?? 0) + value * shift;
  });
  const definition: Definition = {
    optimize: 'cost',
    opType: minimise ? 'min' : 'max',
    constraints: {},
    variables: {},
    ints: {},
    unrestricted: {},
  };
  const filled = new Set(columns.flatMap(({ entries }) => [...entries].filter(([, v]) => v !== 0).map(([r]) => r)));
  for (const [row, { lower, upper }] of rows.entries()) {
    const [low, high] = [lower - (shifted[row] ?? 0), upper - (shifted[row] ?? 0)];
    if (low > high + 1e-9 || (!filled.has(row) && (low > 1e-9 || high < -1e-9))) return failed('infeasible');
    if (filled.has(row)) addRange(definition, `r${row}`, low, high);
  }
  for (const [j, { cost, lower, upper, entries }] of columns.entries()) {
    if (lower > upper) return failed('infeasible');
    const variable: Record<string, number> = { cost };
    for (const [row, value] of entries) if (value !== 0) variable[`r${row}`] = value;
    if (Number.isFinite(upper)) {
      variable[`c${j}`] = 1;
      definition.constraints[`c${j}`] = { max: upper - (shifts[j] ?? 0) };
    }
    definition.variables[`x${j}`] = variable;
    if (!Number.isFinite(lower)) Object.assign(definition.unrestricted ?? {}, { [`x${j}`]: 1 });
  }
  for (const j of whole) {
    if (!Number.isInteger(shifts[j] ?? 0)) throw new Defect('a whole-number column needs whole bounds');
    Object.assign(definition.ints ?? {}, { [`x${j}`]: 1 });
  }
  const answer = jsSolver.Solve(definition) as Record<string, number | boolean | undefined>;
  if (answer.bounded === false) return failed('unbounded');
  if (answer.feasible !== true) return failed('infeasible');
  const values = Float64Array.from(columns, (_, j) => Number(answer[`x${j}`] ?? 0) + (shifts[j] ?? 0));
  let value = 0;
  columns.forEach(({ cost }, j) => {
    value += cost * (values[j] ?? 0);
  });
  return { status: 'optimal' as const, value, values };
}

function addRange(definition: Definition, name: string, low: number, high: number): void {
  if (low === high) definition.constraints[name] = { equal: low };
  else if (Number.isFinite(low) && Number.isFinite(high)) definition.constraints[name] = { min: low, max: high };
  else if (Number.isFinite(low)) definition.constraints[name] = { min: low };
  else if (Number.isFinite(high)) definition.constraints[name] = { max: high };
}

/**
 * Solves  maximise Σ rowLower·p − rowUpper·q + lower·s − upper·t  over p, q, s, t ≥ 0  with  Aᵀ(p − q) + s − t = c,
 * leaving out what belongs to an infinite bound; the duals are p − q. A program that is maximised is turned about first.
 */
function solveDual(rows: Range[], columns: Kept[], minimise: boolean): Float64Array {
  const sign = minimise ? 1 : -1;
  const equalities: Range[] = columns.map(({ cost }) => ({ lower: sign * cost, upper: sign * cost }));
  const parts: Kept[] = [];
  const owners: { row: number; sign: number }[] = [];
  const add = (bound: number, direction: number, row: number, entries: Map<number, number>): void => {
    if (!Number.isFinite(bound)) return;
    parts.push({ cost: direction * bound, lower: 0, upper: Infinity, entries });
    owners.push({ row, sign: direction });
  };
  rows.forEach(({ lower, upper }, row) => {
    for (const [bound, direction] of [[lower, 1] as const, [upper, -1] as const]) {
      const entries = new Map<number, number>();
      for (const [j, column] of columns.entries()) {
        const value = column.entries.get(row);
        if (value !== undefined) entries.set(j, direction * value);
      }
      add(bound, direction, row, entries);
    }
  });
  columns.forEach(({ lower, upper }, j) => {
    add(lower, 1, -1, new Map([[j, 1]]));
    add(upper, -1, -1, new Map([[j, -1]]));
  });
  const solved = solveProgram(equalities, parts, false, []);
  if (solved.values === null) throw new Defect(`the dual program is ${solved.status}`);
  const duals = new Float64Array(rows.length);
  owners.forEach(({ row, sign: direction }, k) => {
    if (row >= 0) duals[row] = (duals[row] ?? 0) + sign * direction * (solved.values?.[k] ?? 0);
  });
  return duals;
}
