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

/** A pattern and the part of one bar that the relaxation uses beyond whole ones. */
interface Fraction {
  pattern: Pattern;
  part: number;
}

/** Rounds of pricing at one node. */
const NODE_ROUNDS = 60;

export class Dive {
  nodes = 0;
  private readonly relax: Relaxation;
  private readonly incumbent: Incumbent;
  private readonly limits: DiveLimits;
  private readonly banned = new Set<Pattern>();
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

  private explore(demand: Int32Array, counts: Float64Array, discrepancies: number): void {
    const { relax } = this;
    this.nodes++;
    relax.setResidual(demand, counts);
    relax.allowFitting(this.banned);
    const solved = relax.solve({ cutoff: this.cutoff(), rounds: NODE_ROUNDS, shouldStop: this.limits.over });
    if (solved.status === 'failed' || solved.status === 'bounded') return;
    const fractions: Fraction[] = [];
    const restore = { fixed: this.fixed.length, cost: this.fixedCost };
    const restDemand = Int32Array.from(demand);
    const restCounts = Float64Array.from(counts);
    relax.master.patterns.forEach((pattern, j) => {
      const x = relax.master.x[j] ?? 0;
      const times = Math.floor(x + 1e-6);
      for (let n = 0; n < times; n++) this.fix(pattern, restDemand, restCounts);
      if (x - times > 1e-6) fractions.push({ pattern, part: x - times });
    });
    this.complete(restDemand, restCounts);
    if (!this.done()) this.branch(fractions, restDemand, restCounts, discrepancies);
    this.undo(restore);
  }

  private branch(fractions: Fraction[], demand: Int32Array, counts: Float64Array, discrepancies: number): void {
    fractions.sort((a, b) => b.part - a.part);
    const banned: Pattern[] = [];
    for (const { pattern } of fractions.slice(0, discrepancies + 1)) {
      const restore = { fixed: this.fixed.length, cost: this.fixedCost };
      const restDemand = Int32Array.from(demand);
      const restCounts = Float64Array.from(counts);
      this.fix(pattern, restDemand, restCounts);
      this.explore(restDemand, restCounts, discrepancies - banned.length);
      this.undo(restore);
      if (this.done()) break;
      this.banned.add(pattern);
      banned.push(pattern);
    }
    for (const pattern of banned) this.banned.delete(pattern);
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
