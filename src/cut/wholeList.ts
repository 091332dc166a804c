/**
 * The program over a list of patterns handed to the solver in whole numbers: good where pieces are many of a kind, where
 * the search of close.ts would try the same bars in every order.
 *
 *     minimise Σ cost_p·x_p   such that   Σ a_ip·x_p ≥ (or =) demand_i,   Σ_{p of type t} x_p ≤ count_t,
 *     Σ (cost_p / target)·x_p ≤ 1 + half a step / target
 */
import type { LinearEngine } from '../linear/model.ts';
import type { Pattern } from './columns.ts';
import type { Meter } from './meter.ts';
import type { Scaled } from './scale.ts';

export interface WholeListOptions {
  target: number;
  /** Costs differ by at least this. */
  step: number;
  nodes: number;
  meter: Meter;
  over: () => boolean;
}

/** Half a step must be this many times the solver's tolerance for its "no plan" to be taken for one. */
const TOLERANCE = 1e-6;
const MARGIN = 10;

/** A plan within the target; `none` where the solver shows, by a clear margin, that there is none; else null. */
export function solveWholeList(
  engine: LinearEngine,
  scaled: Scaled,
  patterns: readonly Pattern[],
  options: WholeListOptions,
): Pattern[] | 'none' | null {
  const { target, step, meter } = options;
  if (target <= 0) return null;
  const model = engine.create();
  try {
    const exactly = scaled.ends.length > 0;
    for (const demand of scaled.demand) model.addRow(demand, exactly ? demand : Infinity);
    for (const { count } of scaled.stocks) model.addRow(-Infinity, count);
    const slack = step / 2 / target;
    const costRow = model.addRow(-Infinity, 1 + slack);
    for (const { rows, counts, stock, cost } of patterns) {
      const upper = Math.max(...rows.map((row, k) => Math.ceil(scaled.demand[row]! / counts[k]!)));
      model.addColumn({
        cost,
        upper,
        rows: [...rows, scaled.sizes.length + stock, costRow],
        values: [...counts, 1, cost / target],
      });
    }
    const solved = model.solve({ wholeNumbers: 'all', nodesAtMost: options.nodes, shouldStop: options.over });
    meter.solved(model.rows, model.columns, solved.steps);
    if (solved.status === 'infeasible') return slack >= MARGIN * TOLERANCE ? 'none' : null;
    if (!solved.feasible) return null;
    const x = model.values();
    const plan = patterns.flatMap((pattern, p) => new Array<Pattern>(Math.round(x[p]!)).fill(pattern));
    return yields(scaled, plan) ? plan : null;
  } finally {
    model.dispose();
  }
}

/** Recounts a plan: everything cut, no more bars than there are. */
function yields(scaled: Scaled, plan: readonly Pattern[]): boolean {
  const made = new Int32Array(scaled.sizes.length);
  const used = new Int32Array(scaled.stocks.length);
  for (const { rows, counts, stock } of plan) {
    used[stock]!++;
    rows.forEach((row, k) => {
      made[row]! += counts[k]!;
    });
  }
  return (
    made.every((count, row) => count >= scaled.demand[row]!) &&
    scaled.stocks.every(({ count }, stock) => used[stock]! <= count)
  );
}
