import { expect, test } from 'vitest';
import { jobSchema } from '../../src/job/job.ts';
import { checkPlan } from '../../src/plan/check.ts';
import { planJob } from '../../src/plan/planner.ts';
import { throwDice } from '../bench/dice.ts';
import { tinyInput } from './tinyJobs.ts';

const DIGEST = `sha256:${'0'.repeat(64)}`;

test('a pile of one bar that yields a bundle without joints is not told as nothing where joints are allowed', async () => {
  const input = tinyInput(throwDice(45));
  const joints = { shortest: 100, share: 0.5 };
  const job = jobSchema.parse({ ...input, bundle: { ...input.bundle, joints } });
  const result = await planJob(job, { effort: 'quick', stops: 'free', jobDigest: DIGEST });
  if (result.kind !== 'plan') throw new Error('nothing was placed');
  expect(result.plan.bound.value).toBeGreaterThan(3.9);
  // A plan worth 4.08 kg is known.
  expect(result.plan.bound.valueAtMost).toBeGreaterThanOrEqual(4.08);
  expect(checkPlan(job, result.plan, DIGEST)).toEqual([]);
});
