/**
 * One planning in a process of its own, so that its peak memory is its own: sent a request, it answers with a report.
 * `planApart` is called from outside; as a forked child this file plans and answers.
 */
import { fork } from 'node:child_process';
import { fileURLToPath } from 'node:url';
import type { JobInput } from '../../src/job/job.ts';
import { readJobValue } from '../../src/job/readJob.ts';
import { checkPlan } from '../../src/plan/check.ts';
import type { Effort, Plan } from '../../src/plan/plan.ts';
import { planJob } from '../../src/plan/planner.ts';

export interface PlanRequest {
  job: JobInput;
  effort: Effort;
  stops: number | 'free' | null;
}

export interface PlanReport {
  /** Milliseconds to the first plan that was told, and to the last word. */
  first: number | null;
  whole: number;
  /** Peak resident memory of the process, MiB, and what it was before planning. */
  peak: number;
  before: number;
  plan: Plan | null;
  /** What the checker says of it, and what was thrown. */
  faults: string[];
}

const CHILD = 'kentledge-bench-child';

/** Plans in a child process. */
export function planApart(request: PlanRequest): Promise<PlanReport> {
  return new Promise((resolve, reject) => {
    const child = fork(fileURLToPath(import.meta.url), [CHILD], { serialization: 'advanced' });
    let report: PlanReport | null = null;
    child.on('message', (message) => {
      report = message as PlanReport;
    });
    child.on('exit', (code) => (report ? resolve(report) : reject(new Error(`a planning ended with ${code}`))));
    child.send(request);
  });
}

async function planHere({ job: input, effort, stops }: PlanRequest): Promise<PlanReport> {
  const read = readJobValue(input);
  if (!read.ok) throw new Error(`the job was refused: ${JSON.stringify(read.faults)}`);
  const { job, digest } = read.value;
  const before = Math.round(process.resourceUsage().maxRSS / 1024);
  const start = performance.now();
  let first: number | null = null;
  let plan: Plan | null = null;
  const faults: string[] = [];
  try {
    const result = await planJob(job, {
      effort,
      seed: 1,
      ...(stops === null ? {} : { stops }),
      jobDigest: digest,
      onProgress: (progress) => {
        if (progress.plan) first ??= performance.now() - start;
      },
    });
    if (result.kind === 'plan') plan = result.plan;
  } catch (error) {
    faults.push(`thrown: ${error instanceof Error ? error.message.slice(0, 300) : String(error)}`);
  }
  const whole = performance.now() - start;
  if (plan) faults.push(...checkPlan(job, plan, digest).map((fault) => `${fault.code}: ${fault.text}`));
  return { first, whole, peak: Math.round(process.resourceUsage().maxRSS / 1024), before, plan, faults };
}

if (process.argv[2] === CHILD && process.send) {
  process.once('message', async (message) => {
    process.send!(await planHere(message as PlanRequest), () => process.disconnect());
  });
}
