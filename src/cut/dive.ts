/**
 * From the relaxation to whole numbers: a depth-first dive with limited discrepancy. At each node the whole parts of the
 * relaxation are fixed and one fraction is rounded up, what is left is priced again, and a node whose safe bound can't
 * beat the best plan is left at once. At every node the rest is also filled greedily.
 */
import { type Pattern, trimPattern } from './columns.ts';
import { costOfShort, fitBest, type Short } from './greedy.ts';
import type { Relaxation } from './relax.ts';

/** The best whole plan so far. */
export interface Incumbent {
  /** With what is short at its dear price. */
  cost: number;
  patterns: Pattern[];
  short: Short[];
}

export interface DiveLimits {
  /** Global lower bound: a plan of this cost is the best there is. */
  bound: number;
  /** Two costs are never closer than this, unless equal. */
  step: number;
  /** True when time or work is up. */
  over: () => boolean;
  /** Called with each better plan. */
  onBetter: () => void;
}

/** Rounds of pricing at one node. */
const NODE_ROUNDS = 60;

export class Dive {
  nodes = 0;
  private readonly relax: Relaxation;
  private readonly incumbent: Incumbent;
  private readonly limits: DiveLimits;
  private readonly banned = new Set<number>();
  private readonly fixed: Pattern[] = [];
  private fixedCost = 0;

  constructor(relax: Relaxation, incumbent: Incumbent, limits: DiveLimits) {
    this.relax = relax;
    this.incumbent = incumbent;
    this.limits = limits;
  }

  /** Dives from the whole problem with so many departures from the first choice in all. True when the search is over. */
  run(discrepancies: number): boolean {
    const { scaled } = this.relax;
    this.explore(
      Int32Array.from(scaled.demand),
      Float64Array.from(scaled.stocks, (s) => s.count),
      discrepancies,
      0,
    );
    return this.done();
  }

  private done(): boolean {
    return this.incumbent.cost <= this.limits.bound + 1e-9 || this.limits.over();
  }

  /** The most that may be spent on what is left for a plan that is better than the best. */
  private cutoff(): number {
    return this.incumbent.cost - this.fixedCost - this.limits.step + 1e-9;
  }

  private explore(demand: Int32Array, counts: Float64Array, discrepancies: number, depth: number): void {
    const { relax } = this;
    this.nodes++;
    relax.setResidual(demand, counts);
    relax.allowFitting(this.banned);
    const solved = relax.solve({ cutoff: this.cutoff(), rounds: NODE_ROUNDS, shouldStop: this.limits.over });
    if (solved.status === 'failed' || solved.status === 'bounded') return;
    const x = Float64Array.from(relax.master.x);
    const restore = { fixed: this.fixed.length, cost: this.fixedCost };
    const restDemand = Int32Array.from(demand);
    const restCounts = Float64Array.from(counts);
    for (let j = 0; j < x.length; j++) {
      const times = Math.floor(x[j]! + 1e-6);
      for (let n = 0; n < times; n++) this.fix(relax.master.patterns[j]!, restDemand, restCounts);
      x[j]! -= times;
    }
    this.complete(restDemand, restCounts);
    if (!this.done()) this.branch(x, restDemand, restCounts, discrepancies, depth);
    this.undo(restore);
  }

  private branch(
    x: Float64Array,
    demand: Int32Array,
    counts: Float64Array,
    discrepancies: number,
    depth: number,
  ): void {
    const choices: { j: number; rank: number }[] = [];
    for (let j = 0; j < x.length; j++) if (x[j]! > 1e-6) choices.push({ j, rank: x[j]! });
    choices.sort((a, b) => b.rank - a.rank || a.j - b.j);
    const banned: number[] = [];
    for (let d = 0; d <= discrepancies && d < choices.length; d++) {
      const { j } = choices[d]!;
      const restore = { fixed: this.fixed.length, cost: this.fixedCost };
      const restDemand = Int32Array.from(demand);
      const restCounts = Float64Array.from(counts);
      this.fix(this.relax.master.patterns[j]!, restDemand, restCounts);
      this.explore(restDemand, restCounts, discrepancies - d, depth + 1);
      this.undo(restore);
      if (this.done()) break;
      this.banned.add(j);
      banned.push(j);
    }
    for (const j of banned) this.banned.delete(j);
  }

  /** Takes a pattern into the plan, without the pieces beyond what is left. */
  private fix(pattern: Pattern, demand: Int32Array, counts: Float64Array): void {
    const taken = trimPattern(this.relax.scaled, pattern, demand);
    taken.rows.forEach((row, k) => {
      demand[row]! -= taken.counts[k]!;
    });
    counts[taken.stock]!--;
    this.fixed.push(taken);
    this.fixedCost += taken.cost;
  }

  private undo(to: { fixed: number; cost: number }): void {
    this.fixed.length = to.fixed;
    this.fixedCost = to.cost;
  }

  /** Fills what is left greedily and keeps the plan if it is the best. */
  private complete(demand: Int32Array, counts: Float64Array): void {
    const rest = fitBest(this.relax.scaled, demand, counts);
    const cost = this.fixedCost + rest.cost + costOfShort(rest.short, this.relax.dear);
    if (cost >= this.incumbent.cost - 1e-9) return;
    this.incumbent.cost = cost;
    this.incumbent.patterns = [...this.fixed, ...rest.patterns];
    this.incumbent.short = rest.short;
    this.limits.onBetter();
  }
}
