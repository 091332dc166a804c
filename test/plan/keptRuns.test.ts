/** Runs that are tied and kept when the rest is planned anew, and rests of a rest. */
import { beforeAll, describe, expect, test } from 'vitest';
import { withSecuring } from '../../src/hold/securing.ts';
import { type Job, jobSchema } from '../../src/job/job.ts';
import { pileMass } from '../../src/job/lot.ts';
import { readJobValue } from '../../src/job/readJob.ts';
import { checkPlan } from '../../src/plan/check.ts';
import { contentsOf } from '../../src/plan/contents.ts';
import type { Plan } from '../../src/plan/plan.ts';
import { planJob } from '../../src/plan/planner.ts';
import { stopsOf } from '../../src/plan/stops.ts';
import { type Done, workLeft } from '../../src/plan/workLeft.ts';
import { ALL_CUT, plannedDemonstration } from './demonstration.ts';

let job: Job;
let plan: Plan;

beforeAll(async () => {
  ({ job, plan } = await plannedDemonstration('best'));
});

const massOf = (bundles: Plan['bundles']) => bundles.reduce((sum, { mass }) => sum + mass, 0);

function marksIn(name: string): Set<string> {
  return new Set(plan.bundles.flatMap((bundle) => (bundle.void === name ? [bundle.bundle] : [])));
}

test('the best plan of the demonstration is held on paper where it states by what, and nowhere else', () => {
  const filled = plan.voids.filter((space) => space.bundles > 0).map((space) => space.void);
  const open = filled.filter((name) => name !== 'V2' && name !== 'V4');
  expect(open.length).toBeGreaterThan(1);
  const [securing] = withSecuring(job, plan).cautions;
  expect(securing).toMatchObject({ code: 'not-secured', about: `voids ${open.join(', ')}` });
  expect(securing!.text).toContain('Carried on paper in V2, V4.');
});

describe('of a void stowed or tied in part', () => {
  test('and of a rest of it the next is named by number, since what lies beside it bears the marks of the one before', () => {
    const inV4 = plan.bundles.filter((bundle) => bundle.void === 'V4');
    const stowed = new Set([inV4[0]!.bundle]);
    const restOf = (names: readonly string[]) => {
      const [name, ...others] = names as [string, ...string[]];
      const as = <Own extends { void: string }>(own: Own) => (own.void === 'V4' ? { ...own, void: name } : own);
      const more = others.map((other) => ({ ...job.voids[0]!, void: other }));
      const of = { ...job, name: 'Bogbean, what is left', voids: [...job.voids.map(as), ...more] };
      const left = workLeft(
        of,
        { ...plan, voids: plan.voids.map(as), bundles: plan.bundles.map(as) },
        { ...ALL_CUT, stowed },
      )!;
      expect(left.name).toBe('Bogbean, what is left 2');
      return left.voids.find((own) => own.void.startsWith(name.replace(/ rest.*/, ' rest')))!.void;
    };
    expect(restOf(['V4'])).toBe('V4 rest');
    expect(restOf(['V4 rest'])).toBe('V4 rest 2');
    expect(restOf(['V4 rest 2'])).toBe('V4 rest 3');
    expect(restOf(['V4 rest', 'V4 rest 2'])).toBe('V4 rest 3');
  });

  test('a run that is tied and kept stands though nothing of it is in, and no piece of it is steel again', () => {
    const inV4 = plan.bundles.filter((bundle) => bundle.void === 'V4');
    const own = inV4.filter(({ run }) => run === inV4.at(-1)!.run);
    expect(own.length).toBeLessThan(inV4.length);
    const kept = new Set([own[0]!.bundle]);
    const made = (done: Partial<Done>) => jobSchema.parse(workLeft(job, plan, { ...ALL_CUT, ...done }));
    const left = made({ kept });
    const [weight] = contentsOf(left).filter(({ what }) => what.startsWith('run '));
    const marks = own.map(({ bundle }) => bundle);
    expect(weight!.what).toBe(`run ${own[0]!.run} of plan 7, to be stowed: ${marks[0]} to ${marks.at(-1)}`);
    expect(weight!.mass).toBeCloseTo(massOf(own), 1);
    expect(job.aims.ballast! - left.aims.ballast!).toBeCloseTo(massOf(own), 1);
    const steel = massOf(own) - own.length * job.bundle.wrapping;
    const all = jobSchema.parse(workLeft(job, plan, ALL_CUT));
    expect(pileMass(all) - pileMass(left)).toBeCloseTo(steel, 0);
    // As much as if they were in; only what is told of them is another thing.
    const asIn = made({ stowed: new Set(marks) });
    expect([left.pile, left.aims]).toEqual([asIn.pile, asIn.aims]);
    const whole = made({ kept: marksIn('V4') }).voids.find((one) => one.void === 'V4')!;
    expect([whole.most, whole.keepOut.at(-1)!.what]).toEqual([
      0,
      `bundles of plan 7, to be stowed: ${inV4[0]!.bundle} to ${inV4.at(-1)!.bundle}`,
    ]);
    // Finished though what is begun elsewhere in the void is not.
    const stowed = new Set([inV4[0]!.bundle]);
    const both = made({ kept, stowed, unfinished: new Set(['V4']) }).voids.find((one) => one.void.startsWith('V4'))!;
    expect(both.keepOut.at(-1)!.what).toContain('stowed in part and left so, without');
    expect(both.keepOut.at(-1)!.mass).toBeCloseTo(inV4[0]!.mass + massOf(own), 1);
  });

  test('what is left beside a kept run is planned anew and checks clean', async () => {
    const kept = new Set([...marksIn('V1'), plan.bundles.find((bundle) => bundle.void === 'V4')!.bundle]);
    const stop = stopsOf(job, plan)[2]!.length;
    const left = workLeft(job, plan, { ...ALL_CUT, kept, cut: { by: 'stops', stop, next: new Set() } });
    const again = readJobValue(JSON.parse(JSON.stringify(left)));
    if (!again.ok) throw new Error(JSON.stringify(again.faults));
    let found = false;
    const result = await planJob(again.value.job, {
      effort: 'quick',
      stops: 'free',
      jobDigest: again.value.digest,
      onProgress: (progress) => {
        found ||= Boolean(progress.plan);
      },
      shouldStop: () => found,
    });
    if (result.kind !== 'plan') throw new Error('nothing is placed');
    const next = result.plan;
    expect(checkPlan(again.value.job, next, again.value.digest)).toEqual([]);
    expect(next.bundles.filter((bundle) => bundle.void === 'V1')).toEqual([]);
  });
});
