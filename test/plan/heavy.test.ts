import { describe, expect, it } from 'vitest';
import { type Job, jobSchema } from '../../src/job/job.ts';
import { suggestLimit } from '../../src/lift/limit.ts';
import type { Plan } from '../../src/plan/plan.ts';
import { planJob } from '../../src/plan/planner.ts';

function jobWith(reach: number, lift: object | undefined, limit: number): Job {
  return jobSchema.parse({
    format: 'kentledge-job/1',
    name: 'Reach',
    pile: [{ lot: 'A', section: { shape: 'square', side: 25 }, length: 3000, count: 4 }],
    bundle: { limit, becket: { cord: 8, grip: 150 } },
    voids: [{ void: 'V1', length: 700, width: 200, height: 100, handling: { reach, start: 750, end: 200 } }],
    ...(lift && { lift }),
  });
}

async function planned(job: Job): Promise<Plan> {
  const result = await planJob(job, { effort: 'quick', jobDigest: `sha256:${'0'.repeat(64)}` });
  if (result.kind !== 'plan') throw new Error('nothing was placed');
  return result.plan;
}

const heaviest = (plan: Plan) => Math.max(...plan.bundles.map((bundle) => bundle.mass));

describe('bundles over the guide', () => {
  it('are cautioned of where the limit allows them', async () => {
    const plan = await planned(jobWith(600, undefined, 20));
    expect(heaviest(plan)).toBeGreaterThan(8);
    expect(plan.cautions.map((caution) => caution.code)).toContain('over-guide');
  });

  it('are cautioned of where they are over what the person has tested, or over the reference mass, though under the guide', async () => {
    const told = async (own: object, lift: object) => {
      const job = jobWith(300, { legs: [], ...lift }, 9);
      Object.assign(job.voids[0]!.handling!, own);
      const plan = await planned(job);
      expect(heaviest(plan)).toBeGreaterThan(6);
      return plan.cautions.find((caution) => caution.code === 'over-guide')?.text;
    };
    expect(await told({}, {})).toBeUndefined();
    expect(await told({ tested: 5 }, { referenceMass: 7 })).toContain('is over your own figure of 5 kg');
    expect(await told({}, { referenceMass: 6 })).toContain('is over the reference mass of 6 kg');
  });

  it('are not made where the job forbids them', async () => {
    const job = jobWith(600, { forbidHeavy: true }, 20);
    const { limit } = suggestLimit(job, job.voids[0]!);
    const plan = await planned(job);
    expect(heaviest(plan)).toBeLessThanOrEqual(limit!);
    expect(plan.bundles.every((bundle) => bundle.limit === 20 && bundle.becket! > 0)).toBe(true);
    expect(plan.cautions.map((caution) => caution.code)).not.toContain('over-guide');
  });

  it('are gone when the reach grows from 300 to 600 mm and the suggestion is taken again', async () => {
    const near = jobWith(300, undefined, 20);
    const far = jobWith(600, undefined, 20);
    const [before, after] = [near, far].map((job) => suggestLimit(job, job.voids[0]!).limit!);
    expect(after).toBeLessThan(before!);
    expect(heaviest(await planned(jobWith(300, undefined, before!)))).toBeGreaterThan(after!);
    expect(heaviest(await planned(jobWith(600, undefined, after!)))).toBeLessThanOrEqual(after!);
  });
});
