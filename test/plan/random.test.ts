import { describe, expect, test } from 'vitest';
import { readJobValue } from '../../src/job/readJob.ts';
import { checkPlan } from '../../src/plan/check.ts';
import { planJob } from '../../src/plan/planner.ts';
import { randomJob } from '../bench/jobs.ts';
import { bestOfOneBar } from '../bench/oneBundle.ts';

const SEEDS = Array.from({ length: 60 }, (_, n) => n + 1);

describe('sixty random jobs, any shape of section, any field a box job may have', () => {
  test.each(SEEDS)('job %i is planned at effort quick without a fault', async (seed) => {
    const read = readJobValue(randomJob(seed));
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
    if (valueAtMost !== null) expect(value).toBeLessThanOrEqual(valueAtMost + 0.01);
  });
});
