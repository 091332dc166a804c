import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { aimsFor, type Wanted } from '../../src/balance/aims.ts';
import { missOf } from '../../src/balance/miss.ts';
import type { JobInput } from '../../src/job/job.ts';
import { readJobValue } from '../../src/job/readJob.ts';
import { planJob } from '../../src/plan/planner.ts';

const bogbean = JSON.parse(readFileSync(new URL('../../fixtures/bogbean.json', import.meta.url), 'utf8')) as JobInput;

/** Plans the Bogbean, with some of her voids, for an effect that is turned into aims first. */
async function planFor(wanted: Wanted, voids: readonly string[]) {
  const { ballast, centre, impossible } = aimsFor(bogbean.vessel!, wanted);
  expect(impossible).toEqual([]);
  const raw: JobInput = {
    ...bogbean,
    voids: bogbean.voids.filter((place) => voids.includes(place.void)),
    aims: { ballast: Math.round(ballast!), centre, kgPerHour: 5 },
  };
  const read = readJobValue(raw);
  if (!read.ok) throw new Error(JSON.stringify(read.faults));
  const { job, digest } = read.value;
  const result = await planJob(job, { effort: 'quick', seed: 1, stops: 'free', jobDigest: digest });
  if (result.kind !== 'plan') throw new Error(JSON.stringify(result.reasons));
  return { miss: missOf(job, result.plan, wanted)!, plan: result.plan };
}

describe('an effect wanted of the Bogbean', () => {
  test('where her voids allow it: the designed marks within 1 cm, and no list', async () => {
    const wanted = { down: { forward: 3.2, aft: 2.8 }, upright: true, within: 1 };
    const { miss } = await planFor(wanted, ['V2', 'V3P', 'V3S', 'V4', 'V6']);
    expect(Math.abs(miss.forward!)).toBeLessThanOrEqual(1);
    expect(Math.abs(miss.aft!)).toBeLessThanOrEqual(1);
    expect(Math.abs(miss.list!)).toBeLessThanOrEqual(0.5);
    expect(miss.prevents).toBeNull();
  });

  test('where they do not: the miss in centimetres, and the void that prevents it', async () => {
    const wanted = { down: { forward: -1, aft: 4 }, upright: true, within: 1 };
    const { miss, plan } = await planFor(wanted, ['V2', 'V3P', 'V3S', 'V4']);
    expect(miss.forward!).toBeGreaterThan(1);
    expect(miss.prevents).toMatchObject({ void: 'V4', why: expect.stringContaining('furthest aft') });
    expect(plan.cautions.map((caution) => caution.code)).toContain('centre-missed');
  });
});
