/** The demonstration and a quick plan of it with stops free, made once in a process. */
import { readFileSync } from 'node:fs';
import type { Job } from '../../src/job/job.ts';
import { readJob } from '../../src/job/readJob.ts';
import type { Plan } from '../../src/plan/plan.ts';
import { planJob } from '../../src/plan/planner.ts';

export interface Demonstration {
  job: Job;
  digest: string;
  plan: Plan;
}

let known: Promise<Demonstration> | null = null;

/** One that nobody else has, so that a test may change it. */
export async function plannedDemonstration(): Promise<Demonstration> {
  known ??= planDemonstration();
  return structuredClone(await known);
}

async function planDemonstration(): Promise<Demonstration> {
  const read = readJob(readFileSync(new URL('../../fixtures/bogbean.json', import.meta.url)));
  if (!read.ok) throw new Error(JSON.stringify(read.faults));
  const { job, digest } = read.value;
  const result = await planJob(job, { effort: 'quick', seed: 1, stops: 'free', jobDigest: digest });
  if (result.kind !== 'plan') throw new Error('nothing is placed');
  return { job, digest, plan: result.plan };
}
