import { expect, test } from 'vitest';
import { overRuns } from '../../src/plan/overRuns.ts';
import { stackedPair } from '../server/paper/stackedPlan.ts';

const { plan } = stackedPair({ voids: 2, runs: 3, tiers: 3, across: 2 });
const told = (bundles: typeof plan.bundles) =>
  overRuns(bundles, 'V1').map(({ run, beside, bundles: over }) => [run, beside, over.map(({ tier }) => tier)]);

test('of runs that stand alike nothing is told', () => {
  expect(told(plan.bundles)).toEqual([]);
});

test('what stands over a lower run beside it is told, from both of its sides and void by void', () => {
  const less = plan.bundles.filter(({ void: name, run, tier }) => !(name === 'V1' && run === 2 && tier > 1));
  expect(told(less)).toEqual([
    [1, 2, [2, 2, 3, 3]],
    [3, 2, [2, 2, 3, 3]],
  ]);
  expect(overRuns(less, 'V2')).toEqual([]);
});

test('a run that faces a bundle over half of its height, or 15 mm, keeps it, one beside it across does not', () => {
  const one = plan.bundles.find(({ void: name, run, tier }) => name === 'V1' && run === 2 && tier === 3)!;
  const lowered = (by: number) =>
    plan.bundles.map((own) => (own === one ? { ...own, size: { ...own.size, up: own.size.up - by } } : own));
  expect(told(lowered(one.size.up / 2 - 1))).toEqual([]);
  expect(told(lowered(one.size.up / 2 + 1))).toEqual([
    [1, 2, [3]],
    [3, 2, [3]],
  ]);
});
