/** Allowing joints is allowing more: a job that is quickly planned is never the worse for it. */
import { expect, test } from 'vitest';
import { type Job, type JobInput, jobSchema } from '../../src/job/job.ts';
import { checkPlan } from '../../src/plan/check.ts';
import type { Plan } from '../../src/plan/plan.ts';
import { type PlanProgress, planJob } from '../../src/plan/planner.ts';
import { throwDice } from '../bench/dice.ts';
import { randomJob } from '../bench/jobs.ts';
import { tinyInput } from './tinyJobs.ts';

const DIGEST = `sha256:${'0'.repeat(64)}`;

/** The job with joints allowed, and without. */
function both(input: JobInput): [Job, Job] {
  const of = (joints: { shortest: number; share: number } | null) =>
    jobSchema.parse({ ...input, bundle: { ...input.bundle, joints } });
  return [of({ shortest: 250, share: 0.3 }), of(null)];
}

async function planned(job: Job, onProgress?: (progress: PlanProgress) => void): Promise<Plan> {
  const result = await planJob(job, {
    effort: 'quick',
    stops: 'free',
    jobDigest: DIGEST,
    ...(onProgress && { onProgress }),
  });
  if (result.kind !== 'plan') throw new Error('nothing was placed');
  return result.plan;
}

/** Planned with joints alone the small one was worth 14.6 % less, the tiny ones as much or more. */
test.each([
  ['small job 34', randomJob(34, { small: true })],
  ['tiny job 5', tinyInput(throwDice(5))],
  ['tiny job 9', tinyInput(throwDice(9))],
])('%s is worth no less where joints are allowed', async (_, input) => {
  const [job, plain] = both(input);
  const told: PlanProgress[] = [];
  const plan = await planned(job, (progress) => told.push(progress));
  expect(plan.bound.value).toBeGreaterThanOrEqual((await planned(plain)).bound.value);
  expect(plan.bound.valueAtMost).toBeGreaterThanOrEqual(plan.bound.value);
  expect(checkPlan(job, plan, DIGEST)).toEqual([]);
  // Both plannings are told as one: its steps go on, its plans are better and better, up to the one that is given.
  told.forEach(({ step }, i) => void expect(step).toBe(i + 1));
  const values = told.flatMap((progress) => (progress.plan ? [progress.plan.bound.value] : []));
  expect(values).toEqual([...new Set(values)].sort((p, q) => p - q));
  expect(values.at(-1)).toBe(plan.bound.value);
});
