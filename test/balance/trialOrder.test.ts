/** What is done after the trial, in order: out, in, ashore. */
import { expect, test } from 'vitest';
import { effectOf } from '../../src/balance/float.ts';
import { weightsByVoid } from '../../src/balance/moments.ts';
import { trialOrderOf } from '../../src/balance/trialOrder.ts';
import type { PlanBundle } from '../../src/plan/plan.ts';
import { stackedPair } from '../server/paper/stackedPlan.ts';
import { vessel } from './knownVessel.ts';

const pair = stackedPair({ voids: 4, runs: 2, tiers: 2, across: 2 });
const job = { ...pair.job, vessel };
const { plan } = pair;
const counts = (...of: number[]) => new Map(of.map((count, v) => [`V${v + 1}`, count]));
const marks = (some: readonly PlanBundle[]) => some.map(({ bundle }) => bundle);
const listWith = (bundles: PlanBundle[]): number => {
  const { stability } = effectOf(vessel, [...weightsByVoid(job, { ...plan, bundles }).values()].flat());
  if (stability.kind !== 'answer') throw new Error(stability.why);
  return Math.abs(stability.list.likely);
};

test('what is too much comes out last in first, the rest goes in by the loading sequence, and all else is ashore', () => {
  const [first, end] = [counts(6, 6, 6, 6), counts(4, 5, 8, 7)];
  const { out, into, ashore, listGreatest } = trialOrderOf(job, plan, first, end);
  expect(marks(out.filter((one) => one.void === 'V1'))).toEqual(['V1-06', 'V1-05']);
  expect(marks(out.filter((one) => one.void === 'V2'))).toEqual(['V2-06']);
  expect(out).toHaveLength(3);
  expect(marks(into.filter((one) => one.void === 'V3'))).toEqual(['V3-07', 'V3-08']);
  expect(marks(into.filter((one) => one.void === 'V4'))).toEqual(['V4-07']);
  expect(into).toHaveLength(3);
  expect(marks(ashore)).toEqual(['V1-05', 'V1-06', 'V1-07', 'V1-08', 'V2-06', 'V2-07', 'V2-08', 'V4-08']);
  // Step by step, by the balance.
  let aboard = plan.bundles.filter((one) => one.order <= first.get(one.void)!);
  let worst = listWith(aboard);
  for (const one of out) {
    aboard = aboard.filter((other) => other.bundle !== one.bundle);
    worst = Math.max(worst, listWith(aboard));
  }
  for (const one of into) {
    aboard = [...aboard, one];
    worst = Math.max(worst, listWith(aboard));
  }
  expect(listGreatest!).toBeCloseTo(worst, 2);
  expect(marks([...aboard, ...ashore]).sort()).toEqual(marks(plan.bundles).sort());
});

test('nothing moves where nothing is to be moved', () => {
  const all = counts(8, 8, 8, 8);
  expect(trialOrderOf(job, plan, all, all)).toEqual({
    out: [],
    into: [],
    ashore: [],
    listGreatest: null,
    barred: [],
  });
});

test('of a void that is in over another, out of which some come or into which some go, it is told', () => {
  const [lower, upper] = job.voids;
  const origin = { ...lower!.origin, z: lower!.origin.z + 0.1 };
  const over = { ...job, voids: job.voids.map((space) => (space === upper ? { ...upper, origin } : space)) };
  const barred = (end: Map<string, number>) => trialOrderOf(over, plan, counts(6, 6, 6, 6), end).barred;
  expect(barred(counts(5, 6, 6, 6))).toEqual([{ upper: 'V2', lower: ['V1'] }]);
  expect(barred(counts(7, 8, 6, 6))).toEqual([{ upper: 'V2', lower: ['V1'] }]);
  expect(barred(counts(6, 8, 5, 7))).toEqual([]);
  expect(barred(counts(4, 0, 6, 6))).toEqual([]);
});
