/** The planner: from a job to the best plan found for it, checked. */
import type { Job } from '../job/job.ts';
import { loadHighs } from '../linear/highs.ts';
import type { LinearEngine } from '../linear/model.ts';
import { isLarge, isQuick, sizeOf } from './effort.ts';
import type { Nothing } from './nothing.ts';
import type { Effort, Plan } from './plan.ts';
import { problemOf } from './problem.ts';
import { Search } from './search.ts';

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
    find(job, engine, options, search);
    if (typeof options.stops === 'number' && !isLarge(sizeOf(problem))) findChoosing(job, engine, options, search);
    return search.give();
  } finally {
    search.dispose();
  }
}

function find(job: Job, engine: LinearEngine, options: PlanOptions, search: Search): void {
  search.find();
  if (job.bundle.joints && (isQuick(sizeOf(problemOf(job))) || search.cameToNothing))
    findWithoutJoints(job, engine, options, search);
}

/**
 * So many stops at most may be one of the choice that a planning without that number told: it is planned so too, beside, and
 * the better plan is given. So none is worth less than was told of it. Large jobs would take twice the memory as well.
 */
function findChoosing(job: Job, engine: LinearEngine, { stops: _, ...options }: PlanOptions, search: Search): void {
  const choosing = new Search(problemOf(job), engine, options, search);
  try {
    find(job, engine, options, choosing);
    search.choiceOf(choosing);
  } finally {
    choosing.dispose();
  }
}

/**
 * What is found without joints is a plan of the job too, under the bound with them: a small pile that joints were to
 * stretch may come to nothing whole, and chance alone may make the plan with joints the worse one.
 */
function findWithoutJoints(job: Job, engine: LinearEngine, options: PlanOptions, search: Search): void {
  const plain = new Search(problemOf({ ...job, bundle: { ...job.bundle, joints: null } }), engine, options, search);
  try {
    plain.find();
    search.takeBestOf(plain);
  } finally {
    plain.dispose();
  }
}
