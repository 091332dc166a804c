/** Bars that nobody has weighed may be 5 % heavier: where she would then pass a limit of hers, the plan says so. */
import { expect, test } from 'vitest';
import { effectOf } from '../../src/balance/float.ts';
import { withLimits } from '../../src/balance/limitsHeavier.ts';
import { weightsAboard } from '../../src/balance/moments.ts';
import type { Job, Vessel } from '../../src/job/job.ts';
import { stackedPair } from '../server/paper/stackedPlan.ts';
import { vessel as known } from './knownVessel.ts';

const { job, plan } = stackedPair({ voids: 4, runs: 2, tiers: 3, across: 2 });
const mass = plan.bundles.reduce((sum, bundle) => sum + bundle.mass, 0);
/** Squares of 25 mm, by their size: that alone is in doubt, and not what ties them. */
const steel = plan.bars.flatMap(({ pieces }) =>
  pieces.map(({ from, to }) => (25 * 25 * (to - from) * job.steel.density) / 1e9),
);
const more = 0.05 * steel.reduce((sum, kg) => sum + kg, 0);

const jobOf = (own: Partial<Vessel>, perMetre?: number): Job => ({
  ...job,
  pile: job.pile.map((lot) => ({ ...lot, massPerMetre: perMetre })),
  vessel: { ...known, ...own },
});
const told = (of: Job, weighed?: Map<string, number>) =>
  withLimits(of, plan, weighed).cautions.filter(({ about }) => about === 'the vessel');
const most = (left: number) => ({ displacementMost: known.displacement! + mass + left });

test('the most that she may displace, with and without what heavier bars would weigh more', () => {
  expect(more).toBeGreaterThan(1);
  expect(told(jobOf(most(more + 0.01)))).toEqual([]);
  const [caution, ...others] = told(jobOf(most(more - 0.01)));
  expect(others).toEqual([]);
  expect(caution!.code).toBe('most-on-paper');
  expect(caution!.text).toContain('5 % heavier than reckoned, she would pass limits of hers. What she may still carry');
  // Passed as reckoned it is told as passed, and here no more; weighed, nothing is in doubt.
  expect(told(jobOf(most(-1)))).toEqual([]);
  expect(told(jobOf(most(0.1), 5))).toEqual([]);
  expect(told(jobOf(most(0.1)), new Map(plan.bundles.map((own) => [own.bundle, own.mass])))).toEqual([]);
});

test('the least freeboard, by the end that goes down most', () => {
  const { marks } = effectOf(known, weightsAboard(jobOf({}), plan));
  if (marks.kind !== 'answer') throw new Error(marks.why);
  const down = Math.max(marks.forward.likely, marks.aft.likely) / 100;
  const least = (spare: number) => ({ freeboard: 0.5 + spare, freeboardLeast: 0.5 });
  // All is 5 % heavier by as much at each end, upright, less what ties it and is not in doubt.
  const [caution] = told(jobOf({ ...least(1.03 * down), beam: undefined }));
  expect(caution!.text).toContain('Freeboard over the least allowed');
  expect(told(jobOf({ ...least(1.06 * down), beam: undefined }))).toEqual([]);
});

test('is told once, however often it is asked', () => {
  const of = jobOf(most(0.1));
  const once = withLimits(of, plan);
  expect(withLimits(of, once)).toEqual(once);
});
