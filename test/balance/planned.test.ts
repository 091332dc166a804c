/** An effect wanted, turned into aims, planned, and held against the plan: where the voids allow it, and where they do not. */
import { describe, expect, test, vi } from 'vitest';
import { aimsFor, type Wanted } from '../../src/balance/aims.ts';
import { missLines, missOf } from '../../src/balance/miss.ts';
import type { JobInput } from '../../src/job/job.ts';
import { readJobValue } from '../../src/job/readJob.ts';
import { planJob } from '../../src/plan/planner.ts';

/** A plan takes its time where other tests run beside it. */
vi.setConfig({ testTimeout: 120_000 });

/** A small dayboat with a void forward, one amidships and one aft. */
const VOIDS: JobInput['voids'] = [
  { void: 'fore', length: 600, width: 200, height: 110, origin: { x: 3.1, y: 0, z: 0.15 } },
  { void: 'mid', length: 600, width: 200, height: 110, origin: { x: 2.2, y: 0, z: 0.12 } },
  { void: 'aft', length: 600, width: 200, height: 110, origin: { x: 1.2, y: 0, z: 0.15 } },
];
const VESSEL = {
  displacement: 900,
  waterlineLength: 5,
  beam: 1.8,
  lcf: 2.4,
  vcg: 0.5,
  gm: 0.5,
  kgPerCm: 40,
  kgmPerCm: 9,
};

/** Plans for an effect that is turned into aims first. */
async function planFor(wanted: Wanted, voids: JobInput['voids']) {
  const { ballast, centre, impossible } = aimsFor(VESSEL, wanted);
  expect(impossible).toEqual([]);
  const read = readJobValue({
    format: 'kentledge-job/1',
    name: 'Marks wanted',
    pile: [{ lot: 'A', section: { shape: 'square', side: 25 }, length: 2900, count: 14 }],
    bundle: { limit: 6 },
    voids,
    vessel: VESSEL,
    aims: { ballast: Math.round(ballast!), centre, kgPerHour: 0, effect: wanted },
  });
  if (!read.ok) throw new Error(JSON.stringify(read.faults));
  const { job, digest } = read.value;
  const result = await planJob(job, { effort: 'quick', seed: 1, stops: 'free', jobDigest: digest });
  if (result.kind !== 'plan') throw new Error(JSON.stringify(result.reasons));
  return { miss: missOf(job, result.plan, wanted)!, plan: result.plan, told: missLines(job, result.plan) };
}

describe('an effect wanted', () => {
  test('where her voids allow it: the designed marks within 1 cm, and no list', async () => {
    const wanted = { down: { forward: 3.2, aft: 2.6 }, upright: true, within: 1 };
    const { miss, told } = await planFor(wanted, VOIDS);
    expect(Math.abs(miss.forward!)).toBeLessThanOrEqual(1);
    expect(Math.abs(miss.aft!)).toBeLessThanOrEqual(1);
    expect(Math.abs(miss.list!)).toBeLessThanOrEqual(0.5);
    expect(miss.prevents).toBeNull();
    expect(told[0]).toMatch(
      /^The marks wanted are met within 1 cm: 0\.\d cm too (deep|high) forward and 0\.\d cm too (deep|high) aft\.$/,
    );
    expect(told[1]).toMatch(/^No list was wanted: 0\.\d°\.$/);
  });

  test('where they do not: the miss in centimetres, and the void that prevents it', async () => {
    const wanted = { down: { forward: -3, aft: 8 }, upright: true, within: 1 };
    const { miss, plan, told } = await planFor(wanted, VOIDS.with(2, { ...VOIDS[2]!, most: 12 }));
    expect(miss.forward!).toBeGreaterThan(1);
    expect(miss.prevents).toMatchObject({
      void: 'aft',
      why: expect.stringContaining('of the 12 kg that it was allowed'),
    });
    expect(told[0]).toMatch(/are missed: \d+\.\d cm too deep forward and .* aft prevents it\. It lies furthest aft/);
    expect(plan.cautions.map((caution) => caution.code)).toContain('centre-missed');
  });
});
