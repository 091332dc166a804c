/** The search for a whole plan: a greedy start, the relaxation, then dives with more and more discrepancy. */
import { materialBound } from './bound.ts';
import { closeGap } from './close.ts';
import { type Pattern, trimPlan } from './columns.ts';
import { Dive, type Incumbent } from './dive.ts';
import { costOfShort, fillFull, fitBest, type GreedyPlan, type Short } from './greedy.ts';
import type { CutOptions, Work } from './problem.ts';
import { Relaxation } from './relax.ts';
import type { Scaled } from './scale.ts';
import { solveWholeList } from './wholeList.ts';

export interface SearchOptions extends CutOptions {
  effort: number;
  /** What leaving out a piece of each row costs. */
  dear: Float64Array;
  /** True where leaving pieces out is what is minimised. */
  shorting: boolean;
  /** Patterns of a whole plan to begin with. */
  start?: Pattern[];
}

export interface Outcome {
  cost: number;
  patterns: Pattern[];
  short: Short[];
  bound: number;
  ended: 'proven' | 'exhausted' | 'stopped';
  work: Work;
}

/** Searches until the bound is met, the work is used up, or `shouldStop`. Frees what it took. */
export function searchWhole(scaled: Scaled, options: SearchOptions): Outcome {
  if (scaled.sizes.length === 0) return nothingToCut();
  const relax = new Relaxation(options.engine, scaled, options.dear, options.shorting);
  try {
    return new Search(relax, options).run();
  } finally {
    relax.dispose();
  }
}

function nothingToCut(): Outcome {
  const work: Work = { linearSolves: 0, pricings: 0, columns: 0, nodes: 0, units: 0, pricingUnits: 0 };
  return { cost: 0, patterns: [], short: [], bound: 0, ended: 'proven', work };
}

/** Patterns listed at most for closing the gap, the share of the effort spent on it, and dives before it is tried. */
const LISTED = 4000;
const CLOSING_SHARE = 0.3;
const EARLY_DIVES = 2;
/** Patterns at most for the program in whole numbers, the effort there must be for each, and branching nodes for a unit of effort. */
const WHOLE_LIST = 300;
const EFFORT_A_PATTERN = 5;
const WHOLE_NODES = 0.25;
/** Discrepancies at most, beyond one for each size. */
const DISCREPANCIES = 40;

class Search {
  private readonly relax: Relaxation;
  private readonly options: SearchOptions;
  private readonly incumbent: Incumbent = { cost: Infinity, patterns: [], short: [] };
  private bound = 0;
  private nodes = 0;
  private halted = false;

  constructor(relax: Relaxation, options: SearchOptions) {
    this.relax = relax;
    this.options = options;
  }

  run(): Outcome {
    this.begin();
    if (!this.options.shorting) this.raiseBound(materialBound(this.relax.scaled));
    if (this.done()) return this.outcome();
    if (!this.relaxWhole(false) || this.cannotYield()) return this.outcome();
    for (let discrepancies = 0; !this.done(); discrepancies++) {
      if (discrepancies === EARLY_DIVES) {
        if (this.leavesOut()) break;
        if (this.relaxWhole(true)) this.close();
        if (this.done()) break;
      }
      this.dive(discrepancies);
      if (discrepancies > this.relax.scaled.sizes.length + DISCREPANCIES) break;
    }
    return this.outcome();
  }

  /** Solves the relaxation of the whole problem. False when the solver failed. */
  private relaxWhole(converge: boolean): boolean {
    const { relax } = this;
    relax.setResidual(
      relax.scaled.demand,
      relax.scaled.stocks.map((stock) => stock.count),
    );
    relax.allowFitting(new Set());
    const cutoff = converge ? Infinity : this.incumbent.cost;
    const solved = relax.solve({ cutoff, rounds: Infinity, converge, shouldStop: () => this.over() });
    this.raiseBound(solved.bound);
    return solved.status !== 'failed';
  }

  private dive(discrepancies: number): void {
    const dive = new Dive(this.relax, this.incumbent, {
      bound: this.bound,
      step: this.step(),
      over: () => this.over(),
      onBetter: () => this.tell(),
    });
    dive.run(discrepancies);
    this.nodes += dive.nodes;
  }

  /** Lists every pattern that a better plan could use and solves over them; with a nearer target when there are too many. */
  private close(): void {
    const { relax, options } = this;
    const step = this.step();
    const most = relax.meter.units + options.effort * CLOSING_SHARE;
    let centred = false;
    for (let tries = 0, target = this.incumbent.cost - step; tries < 8 && !this.done(); tries++) {
      const patterns = relax.enumerate(target, LISTED);
      if (patterns === null) {
        if (target <= this.bound) {
          if (centred) return;
          relax.centre(() => this.over());
          centred = true;
          continue;
        }
        const nearer = this.bound + (target - this.bound) / 3;
        target = step === 0 ? nearer : Math.max(this.bound, Math.floor(nearer / step + 1e-9) * step);
        continue;
      }
      const closed = closeGap(options.engine, relax.scaled, patterns, {
        target,
        unit: relax.unit,
        dear: relax.dear,
        shorting: options.shorting,
        meter: relax.meter,
        over: () => this.over() || relax.meter.units > most,
      });
      if (closed.kind === 'open' && !this.closeWhole(patterns, target)) return;
      if (closed.kind === 'none') this.raiseBound(target + step);
      else if (closed.kind === 'better') this.take(closed.plan);
      target = this.incumbent.cost - step;
    }
  }

  /** The same list as one program in whole numbers. False where that settles nothing. */
  private closeWhole(patterns: Pattern[], target: number): boolean {
    const { relax, options } = this;
    if (options.shorting || patterns.length > Math.min(WHOLE_LIST, options.effort / EFFORT_A_PATTERN) || this.done())
      return false;
    const plan = solveWholeList(options.engine, relax.scaled, patterns, {
      target,
      step: this.step(),
      nodes: Math.ceil(options.effort * WHOLE_NODES),
      meter: relax.meter,
      over: () => this.options.shouldStop?.() ?? false,
    });
    if (plan === null) return false;
    if (plan === 'none') this.raiseBound(target + this.step());
    else this.take(plan);
    return true;
  }

  /** Keeps a plan got from the whole-number program if it is the best; what it cuts too much is left out of it. */
  private take(plan: Pattern[]): void {
    const { scaled, dear } = this.relax;
    const patterns = trimPlan(scaled, plan, scaled.demand);
    const left = Int32Array.from(scaled.demand);
    for (const { rows, counts } of patterns) {
      rows.forEach((row, k) => {
        left[row]! -= counts[k]!;
      });
    }
    const short: Short[] = [];
    left.forEach((count, row) => {
      if (count > 0) short.push({ row, count });
    });
    const cost = patterns.reduce((sum, pattern) => sum + pattern.cost, 0) + costOfShort(short, dear);
    if (cost >= this.incumbent.cost) return;
    Object.assign(this.incumbent, { cost, patterns, short });
    this.tell();
  }

  /** The greedy plan, or the one handed in, is the first to beat; its patterns are the first columns. */
  private begin(): void {
    const { scaled, counts, master, dear } = this.relax;
    const { start } = this.options;
    const greedy = fitBest(scaled, scaled.demand, counts);
    const plans: GreedyPlan[] = [greedy];
    if (!this.isFull(greedy)) {
      const full = fillFull(scaled, greedy.patterns.length, () => this.over());
      if (full !== null) plans.push(full);
    }
    if (start !== undefined)
      plans.push({ patterns: start, cost: start.reduce((sum, { cost }) => sum + cost, 0), short: [] });
    for (const { patterns, cost, short } of plans) {
      for (const pattern of patterns) master.add(pattern);
      const whole = cost + costOfShort(short, dear);
      if (whole < this.incumbent.cost) Object.assign(this.incumbent, { cost: whole, patterns, short });
    }
    this.tell();
  }

  /** True where one bar less could not hold all that the plan cuts, whatever way it is cut. */
  private isFull({ patterns, short }: GreedyPlan): boolean {
    const { sizes } = this.relax.scaled;
    if (short.length > 0) return false;
    const held = patterns.reduce((sum, { fills }) => sum + fills.reduce((all, { left }) => all + left, 0), 0);
    const least = Math.min(
      ...this.relax.scaled.stocks.map(({ capacities }) => capacities.reduce((sum, c) => sum + c, 0)),
    );
    return held < least || sizes.length === 0;
  }

  /** True where the relaxation itself leaves pieces out although that is dear: the stock can't yield all. */
  private cannotYield(): boolean {
    return this.leavesOut() && this.relax.master.short.some((s) => s > 1e-6);
  }

  /** True where the best plan leaves pieces out although that is not what is minimised. */
  private leavesOut(): boolean {
    return !this.options.shorting && this.incumbent.short.length > 0;
  }

  /** Two costs are no closer than this unless they count as equal. */
  private step(): number {
    return this.relax.scaled.costStep || 1e-6 * Math.max(1, Math.abs(this.incumbent.cost));
  }

  private done(): boolean {
    return this.incumbent.cost < this.bound + this.step() * 0.999 || this.over();
  }

  private over(): boolean {
    if (this.halted) return true;
    this.halted = this.relax.meter.units >= this.options.effort || (this.options.shouldStop?.() ?? false);
    return this.halted;
  }

  private raiseBound(bound: number): void {
    bound = Math.min(bound, this.incumbent.cost);
    if (bound <= this.bound) return;
    this.bound = bound;
    this.tell();
  }

  private tell(): void {
    const short = this.incumbent.short.reduce((sum, { count }) => sum + count, 0);
    this.options.onProgress?.({ cost: this.incumbent.cost, bound: this.bound, short, nodes: this.nodes });
  }

  private outcome(): Outcome {
    const { master, meter } = this.relax;
    const { cost, patterns, short } = this.incumbent;
    const proven = cost < this.bound + this.step() * 0.999;
    return {
      cost,
      patterns,
      short,
      bound: this.bound,
      ended: proven ? 'proven' : this.options.shouldStop?.() ? 'stopped' : 'exhausted',
      work: {
        linearSolves: meter.linearSolves,
        pricings: meter.pricings,
        columns: master.patterns.length,
        nodes: this.nodes,
        units: meter.units,
        pricingUnits: meter.pricingUnits,
      },
    };
  }
}
