import { describe, expect, it } from 'vitest';
import type { Opening } from '../../src/job/job.ts';
import { hardestBundle, wayIn } from '../../src/plan/hardest.ts';
import { layVoid } from '../../src/stow/laid.ts';
import { trialPair } from './trialPlan.ts';

const { job, plan } = trialPair();
const bundle = plan.bundles[0]!;
const opening = (along: number, across: number, endFirst = false): Opening => ({ along, across, endFirst, deck: 20 });

describe('the way in', () => {
  const way = (...openings: Opening[]) => {
    const [first, ...rest] = openings;
    return wayIn(bundle, { ...layVoid(job.voids[0]!)[0]!, opening: first, otherOpenings: rest });
  };

  it('is flat through any opening that lets it, else end first, and none where none is stated', () => {
    const { along, across } = bundle.size;
    expect(way()).toBeNull();
    expect(way(opening(along, across))).toBe('flat');
    expect(way(opening(along - 10, across, true))).toBe('endFirst');
    expect(way(opening(along - 10, across, true), opening(along, across + 5))).toBe('flat');
  });

  it('is by an opening that leaves room under the deck, where places are stated', () => {
    const [space] = job.voids;
    const { length } = space!;
    const long = { ...bundle, size: { ...bundle.size, along: 0.8 * length } };
    const placed = (share: number, middle: number): Opening => ({
      ...opening(share * length, 900, true),
      at: { along: middle * length, across: 0 },
    });
    const voids = [{ ...space!, opening: placed(0.5, 0.5), otherOpenings: [placed(0.3, 0.15)] }];
    const only = { ...plan, bundles: [long] };
    expect(hardestBundle({ ...job, voids }, only)!.opening).toBe(voids[0]!.otherOpenings[0]);
  });
});

describe('the bundle to try first', () => {
  it('is the one that takes up most of the opening it passes with most to spare', () => {
    const [v1, ...others] = job.voids;
    const wide = { ...job, voids: [{ ...v1!, otherOpenings: [opening(2000, 2000)] }, ...others] };
    const alone = hardestBundle(job, plan)!;
    const spared = hardestBundle(wide, plan)!;
    expect(spared.tightness).toBeLessThan(alone.tightness);
    expect(spared.opening).toMatchObject({ along: 2000 });
    expect(spared.way).toBe('flat');
  });
});
