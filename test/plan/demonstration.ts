/** The demonstration and quick plans of it with stops free, each made once in a process. */
import { readFileSync } from 'node:fs';
import type { Job } from '../../src/job/job.ts';
import { readJob } from '../../src/job/readJob.ts';
import type { Plan } from '../../src/plan/plan.ts';
import { planJob } from '../../src/plan/planner.ts';
import type { Done } from '../../src/plan/workLeft.ts';

/** All is cut, nothing is stowed or found otherwise. */
export const ALL_CUT: Done = {
  by: 'plan 7',
  stowed: new Set(),
  unfinished: new Set(),
  cut: { by: 'all' },
  found: new Map(),
  weighed: new Map(),
};

export interface Demonstration {
  job: Job;
  digest: string;
  plan: Plan;
}

/** `first`: the first plan found, where it is like any other in what is asked of it; better ones take ten times as long. */
export type Which = 'first' | 'best';

const known = new Map<Which, Promise<Demonstration>>();

/** One that nobody else has, so that a test may change it. */
export async function plannedDemonstration(which: Which): Promise<Demonstration> {
  const planned = known.get(which) ?? planDemonstration(which);
  known.set(which, planned);
  return structuredClone(await planned);
}

async function planDemonstration(which: Which): Promise<Demonstration> {
  const read = readJob(readFileSync(new URL('../../fixtures/bogbean.json', import.meta.url)));
  if (!read.ok) throw new Error(JSON.stringify(read.faults));
  const { job, digest } = read.value;
  return { job, digest, plan: await planOf(job, digest, which) };
}

/** A quick plan of a job with stops free. */
export async function planOf(job: Job, digest: string, which: Which): Promise<Plan> {
  let found = false;
  const result = await planJob(job, {
    effort: 'quick',
    seed: 1,
    stops: 'free',
    jobDigest: digest,
    onProgress: (progress) => {
      found ||= Boolean(progress.plan);
    },
    shouldStop: () => which === 'first' && found,
  });
  if (result.kind !== 'plan') throw new Error('nothing is placed');
  return result.plan;
}
