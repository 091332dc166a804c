/** Bundles that are bent, dropped or lost: steel no more, standing nowhere, and made up for by the rest. */
import { beforeAll, describe, expect, test } from 'vitest';
import type { Job } from '../../src/job/job.ts';
import { pileMass } from '../../src/job/lot.ts';
import { readJobValue } from '../../src/job/readJob.ts';
import { contentsOf } from '../../src/plan/contents.ts';
import type { Plan, PlanBundle } from '../../src/plan/plan.ts';
import { type Done, withoutLost, workLeft } from '../../src/plan/workLeft.ts';
import { ALL_CUT, plannedDemonstration } from './demonstration.ts';

let job: Job;
let plan: Plan;
let inV4: PlanBundle[];
beforeAll(async () => {
  ({ job, plan } = await plannedDemonstration('first'));
  inV4 = plan.bundles.filter((bundle) => bundle.void === 'V4');
});

function leftBy(done: Partial<Done>): Job {
  const read = readJobValue(JSON.parse(JSON.stringify(workLeft(job, plan, { ...ALL_CUT, ...done }))));
  if (!read.ok) throw new Error(JSON.stringify(read.faults));
  return read.value.job;
}

const steelOf = (bundles: PlanBundle[]) => bundles.reduce((sum, { mass }) => sum + mass - job.bundle.wrapping, 0);
const standing = (of: Job) => contentsOf(of).reduce((sum, { mass }) => sum + mass, 0);
const marks = (bundles: PlanBundle[]) => new Set(bundles.map(({ bundle }) => bundle));

describe('a bundle that is no use', () => {
  test('is taken off the steel that is left, whether the saw was said to have come there or not', () => {
    const lost = inV4.slice(0, 2);
    const [all, less] = [leftBy({}), leftBy({ lost: marks(lost) })].map(pileMass) as [number, number];
    expect(all - less).toBeCloseTo(steelOf(lost), 1);
    const uncut = pileMass(
      leftBy({ cut: { by: 'stops', stop: Number.POSITIVE_INFINITY, next: new Set() }, lost: marks(lost) }),
    );
    expect(pileMass(job) - uncut).toBeGreaterThan(steelOf(lost) - 0.01);
  });

  test('does not stand with the others of its void: weight, centre and aims are of those', () => {
    const [lost, ...others] = inV4;
    const left = leftBy({ stowed: marks(inV4), lost: marks([lost!]) });
    const mass = others.reduce((sum, own) => sum + own.mass, 0);
    expect(standing(left)).toBeCloseTo(mass, 1);
    expect(left.aims.ballast).toBeCloseTo(job.aims.ballast! - mass, 1);
    const told = plan.voids.find((own) => own.void === 'V4')!.centre!;
    const [content] = contentsOf(left);
    expect(Math.hypot(content!.x - told.x, content!.y - told.y, content!.z - told.z)).toBeGreaterThan(0.0005);
  });

  test('leaves the plan as it is where there is none', () => {
    expect(withoutLost(plan, new Set())).toBe(plan);
    const less = withoutLost(plan, marks(inV4.slice(0, 1)));
    expect(less.bundles).toHaveLength(plan.bundles.length - 1);
    expect(less.voids.filter(({ centre }) => centre === null).map((told) => told.void)).toEqual(['V4']);
  });
});
