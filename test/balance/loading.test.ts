/** What the loading sequence foretells where her marks are to be read. */
import { expect, test } from 'vitest';
import { effectOf } from '../../src/balance/float.ts';
import { loadingOf } from '../../src/balance/loading.ts';
import { weightsByVoid } from '../../src/balance/moments.ts';
import type { Job } from '../../src/job/job.ts';
import { stackedPair } from '../server/paper/stackedPlan.ts';
import { vessel } from './knownVessel.ts';

const pair = stackedPair({ voids: 4, runs: 2, tiers: 3, across: 3 });
const job: Job = { ...pair.job, vessel, aims: { ...pair.job.aims, fixedShare: 0.6 } };
const { plan } = pair;
const told = (value: number) => `${value < 0 ? 'up' : 'down'} ${Math.abs(value).toFixed(1)} cm`;

test('at each quarter and after the fixed part, as the balance has it, by the scale where it is asked', () => {
  const masses = new Map(plan.bundles.map(({ bundle, mass }) => [bundle, 1.1 * mass]));
  for (const scale of [undefined, masses]) {
    const steps = loadingOf(job, plan, scale);
    expect(steps.map(({ bundle }) => bundle.bundle)).toEqual(loadingOf(job, plan).map(({ bundle }) => bundle.bundle));
    const read = steps.flatMap((step, i) => (step.quarter !== null || step.lastOfFirst ? [i] : []));
    expect(read).toHaveLength(5);
    expect(steps.flatMap(({ floats }, i) => (floats === null ? [] : [i]))).toEqual(read);
    for (const i of read) {
      const bundles = steps
        .slice(0, i + 1)
        .map(({ bundle }) => ({ ...bundle, mass: scale?.get(bundle.bundle) ?? bundle.mass }));
      const { marks, stability } = effectOf(vessel, [...weightsByVoid(job, { ...plan, bundles }).values()].flat());
      if (marks.kind !== 'answer' || stability.kind !== 'answer') throw new Error('no answer');
      expect(steps[i]!.floats).toContain(`Forward ${told(marks.forward.likely)}, aft ${told(marks.aft.likely)};`);
      expect(steps[i]!.floats).toContain(`GM ${stability.gm.likely.toFixed(2)} m.`);
    }
  }
});

test('what lay in a void before counts in her list, and not in the change of her marks', () => {
  const pig = { what: 'pig', along: [0, 100], across: [-50, 50], up: [0, 50], access: false, mass: 40 } as const;
  const [first, ...rest] = job.voids;
  const laden = { ...job, voids: [{ ...first!, keepOut: [...first!.keepOut, structuredClone(pig)] }, ...rest] } as Job;
  const last = (of: Job) => loadingOf(of, plan).at(-1)!.floats!;
  expect(last(job)).toContain('no list');
  expect(last(laden)).toMatch(/lists \d/);
  expect(last(laden).split(';')[0]).toBe(last(job).split(';')[0]);
});

test('nothing is foretold where nothing is stated of her', () => {
  const { vessel: _, ...bare } = job;
  expect(loadingOf(bare, plan).every(({ floats }) => floats === null)).toBe(true);
});
