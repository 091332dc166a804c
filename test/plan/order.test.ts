/** The order inside a void, the two shares, and the list while all voids are loaded. */
import { describe, expect, it } from 'vitest';
import { effectOf } from '../../src/balance/float.ts';
import { weightsByVoid } from '../../src/balance/moments.ts';
import { liesOver } from '../../src/plan/access.ts';
import { checkPlan } from '../../src/plan/check.ts';
import { numberInOrder, stowingOrder } from '../../src/plan/order.ts';
import type { PlanBundle } from '../../src/plan/plan.ts';
import { loadingSequence } from '../../src/plan/sequence.ts';
import { fixedPart, withShares } from '../../src/plan/share.ts';
import { layVoid } from '../../src/stow/laid.ts';
import { stackedPair } from '../server/paper/stackedPlan.ts';
import { TRIAL_DIGEST, trialPair } from './trialPlan.ts';

const pair = stackedPair({ voids: 1, runs: 3, tiers: 2, across: 3 });
const [space] = pair.job.voids;
const bundles = pair.plan.bundles.filter((bundle) => bundle.void === space!.void);

/** The runs in the order in which they are stowed, with an opening (or two) at the given places along. */
function runsFor(...places: number[]): number[] {
  const [first, ...rest] = places.map((along) => ({
    along: 300,
    across: 300,
    endFirst: false,
    deck: 0,
    at: { along, across: 0 },
  }));
  const laid = { ...layVoid(space!)[0]!, opening: first, otherOpenings: rest };
  return [...new Set(stowingOrder(laid, bundles).map((bundle) => bundle.run))];
}

describe('the order in a void', () => {
  it('runs towards the opening, and without one as the runs are numbered', () => {
    expect(runsFor(0)).toEqual([3, 2, 1]);
    expect(runsFor(space!.length)).toEqual([1, 2, 3]);
    expect(runsFor()).toEqual([1, 2, 3]);
    // The last run ends 128 mm before the end of the void, the first begins 8 mm after the other.
    expect(runsFor(0, space!.length)).toEqual([2, 3, 1]);
  });

  it('takes the middle of the void where an opening has no place', () => {
    const laid = { ...layVoid(space!)[0]!, opening: { along: 300, across: 300, endFirst: false, deck: 0 } };
    expect(stowingOrder(laid, bundles).at(-1)!.run).toBe(2);
  });

  it('in a tier takes the heavier first, then the farther from the opening across', () => {
    const laid = {
      ...layVoid(space!)[0]!,
      opening: { along: 300, across: 300, endFirst: false, deck: 0, at: { along: 0, across: -100 } },
    };
    const tier = bundles.filter((bundle) => bundle.run === 1 && bundle.tier === 1);
    const across = (some: PlanBundle[]) => some.map((bundle) => bundle.at.across);
    expect(across(stowingOrder(laid, tier))).toEqual(across(tier).sort((p, q) => q - p));
    const heavy = tier.map((bundle, i) => ({ ...bundle, mass: bundle.mass + (i === 0 ? 1 : 0) }));
    expect(stowingOrder(laid, heavy)[0]!.bundle).toBe(heavy[0]!.bundle);
  });

  it('numbers a plan so that it still checks clean, whatever the order was before', () => {
    const { job, plan } = trialPair();
    const laid = new Map(job.voids.map((each) => [each.void, layVoid(each)[0]!]));
    const masses = new Map(plan.bundles.map((bundle) => [bundle.bundle, bundle.mass]));
    const numbered = numberInOrder({ ...plan, masses }, laid);
    const again = { ...plan, ...numbered };
    expect(checkPlan(job, { ...plan, bars: again.bars, bundles: again.bundles }, TRIAL_DIGEST)).toEqual([]);
    const marks = again.bundles.map((bundle) => bundle.bundle).sort();
    expect(marks).toEqual(plan.bundles.map((bundle) => bundle.bundle).sort());
    for (const bundle of again.bundles) expect(numbered.masses.get(bundle.bundle)).toBe(bundle.mass);
    // V1 opens over its middle, 500 mm along, nearer to the middle of run 1.
    const last = again.bundles.filter((bundle) => bundle.void === 'V1' && bundle.order > 3);
    expect(last.map((bundle) => bundle.run)).toEqual([1, 1, 1]);
  });
});

describe('the shares', () => {
  it('are told of every bundle, and nothing of the fixed part lies on the trim part', () => {
    const { job, plan } = trialPair();
    for (const share of [0, 0.3, 0.55, 0.8, 1]) {
      const told = { ...plan, bundles: withShares(plan, share) };
      expect(checkPlan({ ...job, aims: { ...job.aims, fixedShare: share } }, told, TRIAL_DIGEST)).toEqual([]);
      for (const trim of told.bundles.filter((bundle) => bundle.share === 'trim'))
        for (const over of told.bundles.filter((bundle) => bundle.void === trim.void && liesOver(bundle, trim)))
          expect(over.share).toBe('trim');
      const counts = fixedPart(plan, share);
      const fixed = told.bundles.filter((bundle) => bundle.share === 'fixed').length;
      expect(fixed).toBe([...counts.values()].reduce((sum, count) => sum + count, 0));
    }
  });
});

describe('the list while she is loaded', () => {
  const wide = stackedPair({ voids: 4, runs: 2, tiers: 3, across: 3 });
  const vessel = { displacement: 900, gm: 0.4, vcg: 0.5, waterlineLength: 8, beam: 2.4, lcf: 4 };
  const job = { ...wide.job, vessel };

  it('is that of the balance after every step', () => {
    const steps = loadingSequence(job, wide.plan);
    const seen: PlanBundle[] = [];
    for (const { bundle, list } of steps) {
      seen.push(bundle);
      const weights = [...weightsByVoid(job, { ...wide.plan, bundles: seen }).values()].flat();
      const { stability } = effectOf(vessel, weights);
      if (stability.kind !== 'answer') throw new Error(stability.why);
      expect(list!).toBeCloseTo(stability.list.likely, 3);
    }
  });

  it('is not told without displacement or GM', () => {
    for (const known of [{ displacement: 900 }, { gm: 0.4 }, { displacement: 900, gm: 0 }])
      expect(loadingSequence({ ...job, vessel: known }, wide.plan).every((step) => step.list === null)).toBe(true);
  });

  /** Two voids, port and starboard, the one to starboard deeper in her: lowest first alone would fill it all at once. */
  const uneven = stackedPair({ voids: 2, runs: 2, tiers: 3, across: 3 });
  uneven.job.voids.forEach((each, i) => {
    each.origin = { x: 4, y: i === 0 ? 0.5 : -0.5, z: i === 0 ? 0.1 : 0.5 };
  });
  const worst = (listMost: number | undefined) => {
    const limited = { ...uneven.job, vessel, aims: { ...uneven.job.aims, listMost } };
    return Math.max(...loadingSequence(limited, uneven.plan).map((step) => Math.abs(step.list!)));
  };

  it('is kept under the most asked for where the voids allow, at the cost of lowest first', () => {
    const free = worst(undefined);
    const step = worst(0.0001);
    expect(step).toBeLessThan(free / 3);
    const asked = step * 1.5;
    expect(worst(asked)).toBeLessThanOrEqual(asked);
  });

  it('never has a bundle go in before what carries it, whatever is asked', () => {
    for (const listMost of [0.01, 0.1, 1]) {
      const steps = loadingSequence({ ...uneven.job, vessel, aims: { ...uneven.job.aims, listMost } }, uneven.plan);
      for (const name of ['V1', 'V2']) {
        const orders = steps.filter((step) => step.bundle.void === name).map((step) => step.bundle.order);
        expect(orders).toEqual([...orders].sort((p, q) => p - q));
      }
    }
  });
});
