/** What is left of a job once some voids are stowed: nothing lost, nothing twice, and the whole comes to what was asked. */
import { readFileSync } from 'node:fs';
import { beforeAll, describe, expect, test } from 'vitest';
import type { Job } from '../../src/job/job.ts';
import { pileMass } from '../../src/job/lot.ts';
import { readJob, readJobValue } from '../../src/job/readJob.ts';
import { checkPlan } from '../../src/plan/check.ts';
import type { Plan } from '../../src/plan/plan.ts';
import { planJob } from '../../src/plan/planner.ts';
import { workLeft } from '../../src/plan/workLeft.ts';

const NONE = new Map<string, number>();
let job: Job;
let plan: Plan;

async function planOf(digest: string, of: Job): Promise<Plan> {
  const result = await planJob(of, { effort: 'quick', stops: 'free', jobDigest: digest });
  if (result.kind !== 'plan') throw new Error('nothing is placed');
  return result.plan;
}

/** The job of what is left, read as every job is. */
function read(stowed: string[], allCut: boolean, weighed: ReadonlyMap<string, number> = NONE) {
  const left = workLeft(job, plan, { stowed: new Set(stowed), allCut, weighed });
  if (!left) throw new Error('nothing is left');
  const result = readJobValue(JSON.parse(JSON.stringify(left)));
  if (!result.ok) throw new Error(JSON.stringify(result.faults));
  return result.value;
}

beforeAll(async () => {
  const result = readJob(readFileSync(new URL('../../fixtures/bogbean.json', import.meta.url)));
  if (!result.ok) throw new Error('the demonstration does not read');
  job = result.value.job;
  plan = await planOf(result.value.digest, job);
}, 30_000);

/** Mass of the steel of the bundles of some voids, kg. */
function steelIn(stowed: string[], of: Plan): number {
  return of.bundles
    .filter((bundle) => stowed.includes(bundle.void))
    .reduce((sum, bundle) => sum + bundle.mass - job.bundle.wrapping, 0);
}

describe('the work left', () => {
  test('has all steel that is neither stowed nor lost to the saw, once', () => {
    const { scrapMass, kerfMass, squaringMass, spoiledMass } = plan.totals;
    const lost = scrapMass + kerfMass + squaringMass + spoiledMass;
    expect(pileMass(read(['V4', 'V1'], true).job)).toBeCloseTo(pileMass(job) - lost - steelIn(['V4', 'V1'], plan), 0);
    const some = pileMass(read(['V4', 'V1'], false).job);
    expect(some).toBeLessThanOrEqual(pileMass(job) - steelIn(['V4', 'V1'], plan) + 0.1);
    expect(some).toBeGreaterThanOrEqual(pileMass(read(['V4', 'V1'], true).job) - 0.1);
  });

  test('is planned anew: nothing more in what is stowed, and cut pieces are used as they are', async () => {
    const { job: left, digest } = read(['V4', 'V1'], true);
    const next = await planOf(digest, left);
    expect(checkPlan(left, next, digest)).toEqual([]);
    expect(next.bundles.filter((bundle) => ['V4', 'V1'].includes(bundle.void))).toEqual([]);
    const asTheyAre = next.bars.filter(
      (bar) => bar.lot.endsWith(' cut') && bar.pieces[0]!.to - bar.pieces[0]!.from > bar.length - 0.1,
    );
    expect(asTheyAre.length).toBeGreaterThan(20);
    const placed = (of: Plan) => of.bundles.reduce((sum, { mass }) => sum + mass, 0);
    const stowed = plan.bundles.filter((bundle) => ['V4', 'V1'].includes(bundle.void));
    expect(placed(next)).toBeLessThan(left.aims.ballast! + 15);
    expect(placed(next) + stowed.reduce((sum, { mass }) => sum + mass, 0)).toBeGreaterThan(0.9 * placed(plan));
  }, 30_000);

  test('asks of the rest what makes the whole come to the aims', () => {
    const { job: left } = read(['V4'], true);
    const told = plan.voids.find((own) => own.void === 'V4')!;
    const ballast = job.aims.ballast!;
    expect(left.aims.ballast).toBeCloseTo(ballast - told.mass, 0);
    const [least, most] = left.aims.centre!.x!;
    const whole = (x: number) => (x * (ballast - told.mass) + told.centre!.x * told.mass) / ballast;
    expect(whole(least)).toBeCloseTo(job.aims.centre!.x![0], 2);
    expect(whole(most)).toBeCloseTo(job.aims.centre!.x![1], 2);
    const weight = left.voids.find((own) => own.void === 'V4')!.keepOut.at(-1)!;
    expect(weight.mass).toBeCloseTo(told.mass, 1);
    const v4 = job.voids.find((own) => own.void === 'V4')!;
    expect(v4.origin.x + (weight.along[0] + weight.along[1]) / 2000).toBeCloseTo(told.centre!.x, 3);
    expect(v4.origin.y + (weight.across[0] + weight.across[1]) / 2000).toBeCloseTo(told.centre!.y, 3);
    expect(v4.origin.z + (weight.up[0] + weight.up[1]) / 2000).toBeCloseTo(told.centre!.z, 3);
  });

  test('asks no place of a rest that could not bring the whole to it', () => {
    const most = job.voids.map((own) => own.void).filter((name) => name !== 'V1');
    const heavy = new Map(plan.bundles.map(({ bundle, mass }) => [bundle, 1.2 * mass]));
    const { aims } = read(most, true, heavy).job;
    expect(aims.ballast).toBe(0);
    expect(aims.centre).toBeUndefined();
    expect(aims.spread).toBeUndefined();
  });

  test('takes the mass off the scale where there is one', () => {
    const { bundle, mass } = plan.bundles.find((own) => own.void === 'V4')!;
    const { job: left } = read(['V4'], true, new Map([[bundle, mass + 1]]));
    expect(read(['V4'], true).job.aims.ballast! - left.aims.ballast!).toBeCloseTo(1, 6);
  });

  test('is none where nothing is stowed, or where all steel is', () => {
    expect(workLeft(job, plan, { stowed: new Set(), allCut: true, weighed: NONE })).toBeNull();
    const all = new Set(job.voids.map((own) => own.void));
    const noRest = { ...plan, bars: plan.bars.map((bar) => ({ ...bar, remainders: [] })) };
    const used = new Set(plan.bars.map((bar) => bar.lot));
    const onlyUsed = {
      ...job,
      pile: job.pile
        .filter(({ lot }) => used.has(lot))
        .map((lot) => ({
          ...lot,
          length: undefined,
          count: undefined,
          lengths: plan.bars.filter((bar) => bar.lot === lot.lot).map(({ length }) => length),
        })),
    };
    expect(workLeft(onlyUsed, noRest, { stowed: all, allCut: true, weighed: NONE })).toBeNull();
  });
});
