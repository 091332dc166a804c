/**
 * Closing the last gap: when the bound is so near that every pattern a better plan could use can be listed, the rest is
 * one program in whole numbers over that list. It finds a better plan or shows that there is none.
 *
 *     minimise  Σ cost_j·x_j + Σ dear_i·s_i
 *     such that Σ a_ij·x_j + s_i ≥ (or =) demand_i,   Σ_{j of type t} x_j ≤ count_t,   cost ≤ target
 *
 * s, what is left out, is there only where leaving out is what is minimised. That there is no plan rests on the solver's
 * branch and cut, in floating arithmetic over small whole coefficients; a plan it finds is recounted.
 */
import type { LinearEngine } from '../linear/model.ts';
import type { Pattern } from './columns.ts';
import type { Scaled } from './scale.ts';

export interface Closed {
  /** `best`: the cheapest plan, no dearer than the target. `better`: one no dearer than it. `none`: there is none. `open`: not decided. */
  kind: 'best' | 'better' | 'none' | 'open';
  patterns: Pattern[];
  /** Simplex steps, for the reckoning of work. */
  steps: number;
}

/**
 * Looks for a plan of `patterns` that costs no more than `target`, for at most so many branching nodes. `dear` is given
 * where pieces may be left out at that cost.
 */
export function closeGap(
  engine: LinearEngine,
  scaled: Scaled,
  patterns: readonly Pattern[],
  target: number,
  dear: Float64Array | null,
  limits: { nodes: number; shouldStop: () => boolean },
): Closed {
  using model = engine.create();
  const exactly = scaled.ends.length > 0;
  for (const demand of scaled.demand) model.addRow(demand, exactly ? demand : Infinity);
  const stockRow = scaled.stocks.map((stock) =>
    Number.isFinite(stock.count) ? model.addRow(-Infinity, stock.count) : -1,
  );
  const costRow = model.addRow(-Infinity, target + 1e-9 * Math.max(1, Math.abs(target)));
  const batch = { cost: [] as number[], lower: [] as number[], upper: [] as number[], starts: [] as number[] };
  const rows: number[] = [];
  const values: number[] = [];
  for (const pattern of patterns) {
    batch.starts.push(rows.length);
    batch.cost.push(pattern.cost);
    batch.lower.push(0);
    batch.upper.push(Math.max(...pattern.rows.map((row, k) => Math.ceil(scaled.demand[row]! / pattern.counts[k]!))));
    rows.push(...pattern.rows);
    values.push(...pattern.counts);
    const limit = stockRow[pattern.stock]!;
    if (limit >= 0) {
      rows.push(limit);
      values.push(1);
    }
    rows.push(costRow);
    values.push(pattern.cost);
  }
  model.addColumns({ ...batch, rows, values });
  dear?.forEach((cost, row) => {
    model.addColumn({ cost, upper: scaled.demand[row]!, rows: [row, costRow], values: [1, cost] });
  });
  const solved = model.solve({ wholeNumbers: 'all', nodesAtMost: limits.nodes, shouldStop: limits.shouldStop });
  const { steps } = solved;
  if (solved.status === 'infeasible') return { kind: 'none', patterns: [], steps };
  if (!solved.feasible) return { kind: 'open', patterns: [], steps };
  const x = model.values();
  const plan = patterns.flatMap((pattern, j) => new Array<Pattern>(Math.round(x[j]!)).fill(pattern));
  if (!keepsCounts(scaled, plan)) return { kind: 'open', patterns: [], steps };
  return { kind: solved.status === 'optimal' ? 'best' : 'better', patterns: plan, steps };
}

function keepsCounts(scaled: Scaled, plan: readonly Pattern[]): boolean {
  return scaled.stocks.every((stock, t) => plan.filter((pattern) => pattern.stock === t).length <= stock.count);
}
