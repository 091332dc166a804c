import { describe, expect, it } from 'vitest';
import { effectOf } from '../../src/balance/float.ts';
import { weightsByVoid } from '../../src/balance/moments.ts';
import type { Job, KeepOut } from '../../src/job/job.ts';
import { cautionsOf } from '../../src/plan/cautions.ts';
import { addedContents, contentsOf } from '../../src/plan/contents.ts';
import { loadingSequence } from '../../src/plan/sequence.ts';
import { layVoid, vesselPoint } from '../../src/stow/laid.ts';
import { stackedPair } from '../server/paper/stackedPlan.ts';
import { trialPair } from './trialPlan.ts';

const PIG: KeepOut = { what: 'old pig', along: [900, 1000], across: [-60, 40], up: [0, 50], access: false, mass: 42 };
const { job, plan } = trialPair();
const withPig = (pig: KeepOut): Job => ({
  ...job,
  voids: [{ ...job.voids[0]!, keepOut: [pig] }, ...job.voids.slice(1)],
});

describe('what lies in a void already', () => {
  it('weighs in the middle of its keep-out, and a keep-out without a mass weighs nothing', () => {
    expect(contentsOf(job)).toEqual([]);
    const [pig, ...others] = contentsOf(withPig(PIG));
    expect(others).toEqual([]);
    expect(pig).toMatchObject({ void: 'V1', what: 'old pig', mass: 42, aboard: false });
    expect(pig!.x).toBeCloseTo(4.95, 9);
    expect(pig!.y).toBeCloseTo(0.09, 9);
    expect(pig!.z).toBeCloseTo(0.225, 9);
  });

  it('is not added to a vessel whose figures hold it', () => {
    expect(addedContents(withPig({ ...PIG, aboard: true }))).toEqual([]);
    expect(addedContents(withPig(PIG))).toHaveLength(1);
  });

  it('lies where it lies, whichever way the bars are laid', () => {
    const either = { ...job.voids[0]!, axis: 'either' as const, keepOut: [PIG] };
    const points = layVoid(either).map((laid) => {
      const [keepOut] = laid.keepOut;
      const middle = (['along', 'across', 'up'] as const).map((side) => (keepOut![side][0] + keepOut![side][1]) / 2);
      return vesselPoint(laid, middle[0]!, middle[1]!, middle[2]!);
    });
    const [content] = contentsOf({ ...job, voids: [either] });
    for (const point of points)
      for (const axis of ['x', 'y', 'z'] as const) expect(content![axis]).toBeCloseTo(point[axis], 9);
  });

  it('counts in the list while she is loaded, as the balance counts it', () => {
    const pair = stackedPair({ voids: 2, runs: 1, tiers: 1, across: 2 });
    const vessel = { displacement: 900, gm: 0.4, vcg: 0.5, waterlineLength: 8, beam: 2.4, lcf: 4 };
    const [first, ...rest] = pair.job.voids;
    const loaded: Job = { ...pair.job, vessel, voids: [{ ...first!, keepOut: [PIG] }, ...rest] };
    const last = loadingSequence(loaded, pair.plan).at(-1)!;
    const weights = [...[...weightsByVoid(loaded, pair.plan).values()].flat(), ...addedContents(loaded)];
    const { stability } = effectOf(vessel, weights);
    if (stability.kind !== 'answer') throw new Error(stability.why);
    expect(Math.abs(stability.list.likely)).toBeGreaterThan(0.3);
    // The list on the way is told in small angles.
    expect(last.list!).toBeCloseTo(stability.list.likely, 2);
    expect(last.mass).toBeCloseTo(
      pair.plan.bundles.reduce((sum, bundle) => sum + bundle.mass, 0),
      9,
    );
  });

  it('counts in what she may displace', () => {
    const ballast = plan.bundles.reduce((sum, bundle) => sum + bundle.mass, 0);
    const limited = (pig: KeepOut): Job => ({
      ...withPig(pig),
      vessel: { displacement: 8000, displacementMost: 8000 + ballast + 41 },
    });
    const overloaded = (of: Job) => cautionsOf(of, plan).some((caution) => caution.code === 'overloaded');
    expect(overloaded(limited(PIG))).toBe(true);
    expect(overloaded(limited({ ...PIG, mass: 40 }))).toBe(false);
    expect(overloaded(limited({ ...PIG, aboard: true }))).toBe(false);
  });
});
