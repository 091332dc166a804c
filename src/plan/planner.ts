/** The planner: from a job to the best plan found for it, checked. */
import type { Job } from '../job/job.ts';
import { loadHighs } from '../linear/highs.ts';
import type { LinearEngine } from '../linear/model.ts';
import type { Berth } from '../stow/layout.ts';
import { VERSION } from '../version.ts';
import { Bounder } from './bound.ts';
import { dive } from './dive.ts';
import { cutFillings, type Making, makePlan } from './finish.ts';
import { generate } from './generate.ts';
import { firstLengths } from './lengths.ts';
import { Master } from './master.ts';
import { type Nothing, whyNothing } from './nothing.ts';
import type { Effort, Plan } from './plan.ts';
import { berthsOf } from './pricing.ts';
import { type Problem, problemOf } from './problem.ts';

/** What is told while planning. `value` and `bound` are kilograms as in the plan format; `plan` is there when a better one was found, and it is checked. */
export interface PlanProgress {
  phase: string;
  step: number;
  value: number | null;
  bound: number | null;
  plan?: Plan;
}

export interface PlanOptions {
  effort?: Effort;
  seed?: number;
  /** At most so many stop settings; 'free': as many as pay; absent: the fewest within 3 % of the free plan's value. */
  stops?: number | 'free';
  /** SHA-256 of the job as written, `sha256:…` (see `job/digest.ts`). */
  jobDigest: string;
  onProgress?: (progress: PlanProgress) => void;
  /** Polled between steps; true stops with the best plan so far. */
  shouldStop?: () => boolean;
}

export type PlanResult = { kind: 'plan'; plan: Plan } | { kind: 'nothing'; reasons: Nothing[] };

/**
 * Plans `job`. The same job, effort, seed and stops give the same plan. Never throws for a job that was read by
 * `readJob`; a plan that the checker faults is a Defect and is thrown.
 */
export async function planJob(job: Job, options: PlanOptions): Promise<PlanResult> {
  const engine = await loadHighs();
  const problem = problemOf(job);
  const search = new Search(problem, engine, options);
  try {
    return search.run();
  } finally {
    search.dispose();
  }
}

class Search {
  private readonly problem: Problem;
  private readonly options: PlanOptions;
  private readonly making: Making;
  private readonly master: Master;
  private readonly berths: Berth[][];
  private readonly lengths: number[][];
  private best: Plan | null = null;
  private bound = Number.POSITIVE_INFINITY;
  private step = 0;

  constructor(problem: Problem, engine: LinearEngine, options: PlanOptions) {
    this.problem = problem;
    this.options = options;
    this.making = {
      engine,
      version: VERSION,
      jobDigest: options.jobDigest,
      effort: options.effort ?? 'steady',
      seed: options.seed ?? 1,
      cuttingEffort: 100,
      shouldStop: options.shouldStop,
    };
    this.master = new Master(engine, problem);
    this.berths = berthsOf(problem);
    this.lengths = firstLengths(problem, 100);
  }

  run(): PlanResult {
    this.addLengths();
    this.generate(1e-3, 200);
    this.offer('first plan', 3);
    const bounder = new Bounder(this.problem);
    for (let pass = 0; pass < 8; pass++) {
      const { uses, value } = bounder.at(this.master.loadRows, this.generate(1e-3, 200));
      this.bound = Math.min(this.bound, value);
      let added = 0;
      uses.forEach((lengths, steel) => {
        for (const length of lengths) {
          if (this.lengths[steel]!.includes(length)) continue;
          this.lengths[steel]!.push(length);
          added++;
        }
      });
      if (added === 0) break;
      this.addLengths();
    }
    this.generate(1e-3, 200);
    this.offer('plan', 25);
    return this.best ? { kind: 'plan', plan: this.best } : { kind: 'nothing', reasons: whyNothing(this.problem) };
  }

  private addLengths(): void {
    this.lengths.forEach((lengths, steel) => {
      lengths.sort((a, b) => a - b);
      for (const length of lengths) this.master.addLength(steel, length);
    });
  }

  private generate(tolerance: number, rounds: number) {
    const { lengths } = this;
    const { shouldStop } = this.options;
    return generate(this.problem, this.master, this.berths, { lengths, rounds, tolerance, shouldStop }).prices;
  }

  private offer(phase: string, rounds: number): void {
    const fillings = dive(this.problem, this.master, this.berths, {
      engine: this.making.engine,
      lengths: this.lengths,
      rounds,
    });
    const cutting = cutFillings(this.problem, fillings, this.making);
    const plan = makePlan(this.problem, fillings, cutting, this.making);
    const better = plan !== null && plan.bound.value > Math.max(0, this.best?.bound.value ?? 0);
    if (better) this.best = plan;
    this.options.onProgress?.({
      phase,
      step: ++this.step,
      value: this.best?.bound.value ?? null,
      bound: Number.isFinite(this.bound) ? this.bound : null,
      ...(better ? { plan } : {}),
    });
  }

  dispose(): void {
    this.master.dispose();
  }
}
