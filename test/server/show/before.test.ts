/** What is said before a plan is asked for. */
import { expect, test } from 'vitest';
import { showBefore } from '../../../server/show/afloat.ts';
import { STEERS_NOTHING } from '../../../src/balance/upright.ts';
import { vessel } from '../../balance/knownVessel.ts';
import { trialPair } from '../../plan/trialPlan.ts';

test('no list wanted and no centre across asked for is told to steer nothing, with or without an amount', () => {
  const { job } = trialPair();
  const voids = job.voids.map((space) => ({ ...space, target: undefined }));
  const said = (aims: Partial<typeof job.aims>) =>
    showBefore({ ...job, vessel, voids, aims: { ...job.aims, centre: undefined, ...aims } }).filter((words) =>
      words.startsWith(STEERS_NOTHING),
    );
  expect(said({ effect: { upright: true } })).toHaveLength(1);
  expect(said({ effect: { upright: true }, ballast: 60 })).toHaveLength(1);
  expect(said({ effect: { upright: true }, centre: { y: [-0.02, 0.02] } })).toEqual([]);
  expect(said({})).toEqual([]);
});
