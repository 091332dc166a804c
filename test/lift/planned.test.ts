import { readFileSync } from 'node:fs';
import { describe, expect, test, vi } from 'vitest';
import type { JobInput } from '../../src/job/job.ts';
import { readJobValue } from '../../src/job/readJob.ts';
import { suggestLimit } from '../../src/lift/limit.ts';
import { guideRoute } from '../../src/lift/route.ts';
import { checkPlan } from '../../src/plan/check.ts';
import { planJob } from '../../src/plan/planner.ts';

/** A plan takes its time where other tests run beside it. */
vi.setConfig({ testTimeout: 120_000 });

const bogbean = JSON.parse(readFileSync(new URL('../../fixtures/bogbean.json', import.meta.url), 'utf8')) as JobInput;

function jobOf(raw: JobInput) {
  const read = readJobValue(raw);
  if (!read.ok) throw new Error(JSON.stringify(read.faults));
  return read.value;
}

/** A void lifted into while standing, no own figure set; `more` is what was accepted of the suggestion. */
function standing(reach: number, more: object): JobInput {
  return {
    format: 'kentledge-job/1',
    name: 'Reach',
    pile: [{ lot: 'A', section: { shape: 'square', side: 30 }, length: 3000, count: 5 }],
    bundle: { limit: 20 },
    voids: [{ void: 'V1', length: 700, width: 240, height: 120, handling: { reach, start: 750, end: 200 }, ...more }],
  };
}

async function planned(raw: JobInput) {
  const { job, digest } = jobOf(raw);
  const result = await planJob(job, { effort: 'quick', seed: 1, jobDigest: digest });
  if (result.kind !== 'plan') throw new Error(JSON.stringify(result.reasons));
  expect(checkPlan(job, result.plan)).toEqual([]);
  const guide = guideRoute(job, job.voids[0]!).guide!;
  return { guide, heaviest: Math.max(...result.plan.bundles.map((bundle) => bundle.mass)) };
}

describe('the suggestion accepted', () => {
  test('a reach changed from 300 to 600 mm and planned again leaves no bundle over the new, lower guide', async () => {
    const { job } = jobOf(standing(300, {}));
    const accepted = { limit: suggestLimit(job, job.voids[0]!).limit!, limitByGuide: true };
    const near = await planned(standing(300, accepted));
    const far = await planned(standing(600, accepted));
    expect(far.guide).toBeLessThan(near.guide);
    expect(near.heaviest).toBeLessThanOrEqual(near.guide);
    expect(near.heaviest).toBeGreaterThan(far.guide);
    expect(far.heaviest).toBeLessThanOrEqual(far.guide);
  });

  test('a reach beyond the method leaves its void empty, with the reason and what to change', async () => {
    const accepted = standing(640, { limit: 12, limitByGuide: true });
    const { job: alone, digest } = jobOf(accepted);
    const nothing = await planJob(alone, { effort: 'quick', seed: 1, jobDigest: digest });
    if (nothing.kind !== 'nothing') throw new Error('something was placed');
    const [reason] = nothing.reasons;
    expect(reason!.why).toContain('leaves no load');
    expect(reason!.remedy).toContain('Come nearer');

    const { voids, ...rest } = accepted;
    const beside = { void: 'V2', length: 700, width: 240, height: 120 };
    const { job, digest: own } = jobOf({ ...rest, voids: [...voids, beside] });
    const result = await planJob(job, { effort: 'quick', seed: 1, jobDigest: own });
    if (result.kind !== 'plan') throw new Error(JSON.stringify(result.reasons));
    expect(checkPlan(job, result.plan)).toEqual([]);
    expect(new Set(result.plan.bundles.map((bundle) => bundle.void))).toEqual(new Set(['V2']));
    const short = result.plan.cautions.find(({ code }) => code === 'void-short')!;
    expect(short.about).toBe('void V1');
    expect(short.text).toMatch(/the guide that the job holds to leaves no load\. Come nearer/);
  });

  test('the reference mass alone caps every bundle, and a piece over it is told as over the guide', async () => {
    const capped = (kg: number) => {
      const { handling, ...space } = standing(300, { limit: 12, limitByGuide: true }).voids[0]!;
      return jobOf({ ...standing(300, {}), voids: [space], lift: { referenceMass: kg } });
    };
    const { job, digest } = capped(5);
    const result = await planJob(job, { effort: 'quick', seed: 1, jobDigest: digest });
    if (result.kind !== 'plan') throw new Error(JSON.stringify(result.reasons));
    expect(Math.max(...result.plan.bundles.map((bundle) => bundle.mass))).toBeLessThanOrEqual(5);
    const small = capped(0.5);
    const none = await planJob(small.job, { effort: 'quick', seed: 1, jobDigest: small.digest });
    expect(none.kind === 'nothing' && none.reasons[0]!.why).toContain('over the 0.5 kg that the guide leaves');
  });

  test('not accepted, the limit stays the person’s own, and the bundles over the guide are there', async () => {
    const far = await planned(standing(600, { limit: 12 }));
    expect(far.heaviest).toBeGreaterThan(far.guide);
  });
});

test('the demonstration job carries a route and a lift for every void, and each has a limit suggested', () => {
  const { job } = jobOf(bogbean);
  for (const space of job.voids) {
    expect(space.route!.length).toBeGreaterThan(0);
    expect(guideRoute(job, space).legs.every((leg) => leg.guide !== null)).toBe(true);
    expect(suggestLimit(job, space).limit).not.toBeNull();
  }
});
