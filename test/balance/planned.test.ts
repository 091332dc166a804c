/** An effect wanted, turned into aims, planned, and held against the plan: where the voids allow it, and where they do not. */
import { describe, expect, test, vi } from 'vitest';
import { aimsFor, type Wanted } from '../../src/balance/aims.ts';
import { missLines, missOf } from '../../src/balance/miss.ts';
import type { JobInput } from '../../src/job/job.ts';
import { readJobValue } from '../../src/job/readJob.ts';
import { checkPlan } from '../../src/plan/check.ts';
import { planJob } from '../../src/plan/planner.ts';
import { listAtFirst, loadingSequence } from '../../src/plan/sequence.ts';

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
    expect(told[1]).toMatch(/^No list was wanted: met, 0\.\d°\.$/);
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

describe('no list wanted of a vessel that lists 1° to port now', () => {
  // 900 kg × 0.5 m × tan 1° = 7.855 kg·m, made up for by 60 kg at 0.131 m to starboard.
  const vessel = { ...VESSEL, list: -1 };
  const voids: JobInput['voids'] = [
    { void: 'port', length: 900, width: 200, height: 110, origin: { x: 2, y: -0.3, z: 0.12 } },
    { void: 'starboard', length: 900, width: 200, height: 110, origin: { x: 2, y: 0.3, z: 0.12 } },
  ];
  const wanted = { upright: true };
  const { centre } = aimsFor(vessel, { ...wanted, ballast: 60 });

  /** The same plan aims, with the list stated or not. */
  async function planned(list: number | undefined, aimed: typeof centre) {
    const read = readJobValue({
      format: 'kentledge-job/1',
      name: 'She lists',
      pile: [{ lot: 'A', section: { shape: 'square', side: 25 }, length: 2900, count: 8 }],
      bundle: { limit: 6 },
      voids,
      vessel: list === undefined ? VESSEL : { ...VESSEL, list },
      aims: { ballast: 60, centre: aimed, kgPerHour: 0, effect: wanted, listMost: 0.8 },
    });
    if (!read.ok) throw new Error(JSON.stringify(read.faults));
    const { job, digest } = read.value;
    const result = await planJob(job, { effort: 'quick', seed: 1, stops: 'free', jobDigest: digest });
    if (result.kind !== 'plan') throw new Error(JSON.stringify(result.reasons));
    return { job, plan: result.plan, faults: checkPlan(job, result.plan, digest) };
  }

  test('more goes to starboard, she ends upright, and the checker agrees', async () => {
    expect((centre.y![0] + centre.y![1]) / 2).toBeCloseTo(0.131, 3);
    const { job, plan, faults } = await planned(-1, centre);
    expect(faults).toEqual([]);
    const [port, starboard] = plan.voids.map((space) => space.mass) as [number, number];
    expect(starboard).toBeGreaterThan(port + 15);
    expect(Math.abs(missOf(job, plan, wanted)!.list!)).toBeLessThanOrEqual(0.5);
    expect(missLines(job, plan)).toEqual([expect.stringMatching(/^No list was wanted: met, 0\.\d°\.$/)]);
    const lists = loadingSequence(job, plan).map((step) => step.list!);
    expect(listAtFirst(job)).toBeCloseTo(-1, 9);
    expect(Math.max(...lists.map(Math.abs))).toBeLessThan(1);
    // The moments by hand, as small angles: 900 × 0.5 rad of list, and what the first bundle brings.
    const [first] = loadingSequence(job, plan);
    const side = first!.bundle.void === 'starboard' ? 1 : -1;
    expect(side).toBe(1);
    const { at, size, mass } = first!.bundle;
    const y = 0.3 + (at.across + size.across / 2) / 1000;
    expect(first!.moment).toBeCloseTo(-7.854 + mass * y, 3);
    expect(plan.cautions.find((caution) => caution.code === 'list-passed')?.text).toContain(
      'She lists about 1.0° to port before the first bundle goes in; 0.8° was asked for.',
    );
  });

  test('the planner follows the aims alone: with the list or without it the same bundles lie in the same places', async () => {
    const [stated, left] = [await planned(-1, centre), await planned(undefined, centre)];
    const lying = ({ plan }: typeof stated) => [plan.bars, plan.bundles, plan.runs, plan.bound];
    expect(lying(stated)).toEqual(lying(left));
    expect(Math.abs(missOf(left.job, left.plan, wanted)!.list!)).toBeGreaterThan(0.5);
  });
});
