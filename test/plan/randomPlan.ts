/** Plans one random job and holds it against everything that can be known of it without its planner. */
import { expect } from 'vitest';
import { readJobValue } from '../../src/job/readJob.ts';
import { checkPlan } from '../../src/plan/check.ts';
import { planJob } from '../../src/plan/planner.ts';
import { randomJob } from '../bench/jobs.ts';
import { bestOfOneBar } from '../bench/oneBundle.ts';

/** At effort quick: no fault, value above nought and never over the bound, or nothing where nothing pays. */
export async function planRandomJob(seed: number): Promise<void> {
  const read = readJobValue(randomJob(seed, { small: true }));
  if (!read.ok) throw new Error(JSON.stringify(read.faults));
  const { job, digest } = read.value;
  const result = await planJob(job, { effort: 'quick', seed: 1, stops: 'free', jobDigest: digest });
  if (result.kind === 'nothing') {
    expect(result.reasons.length).toBeGreaterThan(0);
    expect(bestOfOneBar(job) ?? 0).toBeLessThanOrEqual(0.01);
    return;
  }
  expect(checkPlan(job, result.plan, digest)).toEqual([]);
  const { value, valueAtMost } = result.plan.bound;
  expect(value).toBeGreaterThan(0);
  expect(value).toBeGreaterThanOrEqual((bestOfOneBar(job) ?? 0) - 0.01);
  if (valueAtMost !== null) expect(value).toBeLessThanOrEqual(valueAtMost + 0.01);
}
