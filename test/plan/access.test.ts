import { describe, expect, it } from 'vitest';
import type { KeepOut } from '../../src/job/job.ts';
import { accessOf, breakingOut, liesOver } from '../../src/plan/access.ts';
import { chocksOf } from '../../src/plan/chocks.ts';
import { numberInOrder } from '../../src/plan/order.ts';
import type { PlanBundle } from '../../src/plan/plan.ts';
import { type LaidVoid, layVoid } from '../../src/stow/laid.ts';
import { stackedPair } from '../server/paper/stackedPlan.ts';
import { trialPair } from './trialPlan.ts';

describe('breaking out', () => {
  const { job, plan } = trialPair();
  const laid: LaidVoid = { ...layVoid(job.voids[0]!)[0]! };
  delete laid.opening;
  const keepOut = laid.keepOut[0]!;
  const marks = (room: number) => breakingOut(plan, [], laid, keepOut, room).bundles.map((bundle) => bundle.bundle);

  it('takes out what is near and all that rests on it, top first', () => {
    expect(marks(100)).toEqual(['V1-06', 'V1-05', 'V1-04', 'V1-03', 'V1-02', 'V1-01']);
    expect(marks(20)).toEqual(['V1-06', 'V1-05', 'V1-04']);
    expect(marks(5)).toEqual([]);
  });
});

describe('breaking out under a deck', () => {
  const pair = stackedPair({ voids: 1, runs: 3, tiers: 2, across: 3 });
  const space = pair.job.voids[0]!;
  const opening = { along: 300, across: 300, endFirst: false, deck: 0, at: { along: 100, across: 0 } };

  const inOrder = (laid: LaidVoid): PlanBundle[] =>
    numberInOrder({ ...pair.plan, masses: new Map() }, new Map([[space.void, laid]])).bundles;

  /** Runs that come out to get at a place in run 3, through an opening over run 1, under so much room over the stow. */
  function runsOut(headroom: number, across: [number, number] = [-100, 100]): number[] {
    const laid: LaidVoid = { ...layVoid(space)[0]!, opening, height: space.height + headroom };
    const bundles = inOrder(laid);
    const from = pair.plan.runs[2]!.from;
    const keepOut: KeepOut = { along: [from + 100, from + 110], across, up: [0, 20], access: false };
    const { bundles: out } = breakingOut({ bundles }, [], laid, keepOut, 0);
    for (const [i, bundle] of out.entries())
      for (const later of out.slice(i + 1)) expect(liesOver(later, bundle)).toBe(false);
    return [...new Set(out.map((bundle) => bundle.run))];
  }

  it('takes out what stands in the way to the opening, the nearest first', () => {
    expect(runsOut(0)).toEqual([1, 2, 3]);
  });

  it('leaves it where there is room to pass over it', () => {
    expect(runsOut(40)).toEqual([3]);
  });

  it('takes out only what stands in the lane of what comes out', () => {
    const laid: LaidVoid = { ...layVoid(space)[0]!, opening };
    const one: KeepOut = { along: [700, 710], across: [-5, 5], up: [0, 20], access: false };
    const { bundles: out } = breakingOut({ bundles: inOrder(laid) }, [], laid, one, 0);
    const across = new Set(out.map((bundle) => bundle.at.across));
    expect(out.length).toBeGreaterThan(2);
    expect(across.size).toBe(1);
  });
});

describe('chocks that reach into the room about a keep-out', () => {
  const { job, plan } = stackedPair({ voids: 1, runs: 2, tiers: 2, across: 3 });
  const end = Math.max(...plan.runs.map(({ to }) => to));
  const { length, width } = job.voids[0]!;
  const bolt = (along: [number, number]): KeepOut => ({
    what: 'keel bolt',
    along,
    across: [-width / 2, -width / 2 + 20],
    up: [0, 20],
    access: true,
  });
  const outOf = (keepOut: KeepOut, room: number) => {
    const laid: LaidVoid = { ...layVoid(job.voids[0]!)[0]!, keepOut: [keepOut] };
    const out = breakingOut(plan, chocksOf(laid, plan), laid, keepOut, room);
    return {
      bundles: out.bundles.map(({ bundle }) => bundle),
      chocks: out.chocks.map(({ tier, side }) => [tier, side]),
    };
  };

  it('come out, the last in first, also where no bundle has to', () => {
    const last = bolt([length - 20, length]);
    expect(length - 20 - end).toBeGreaterThan(50);
    const chocks = [
      [2, 'last end'],
      [1, 'last end'],
    ];
    expect(outOf(last, 50)).toEqual({ bundles: [], chocks });
    expect(outOf({ ...last, across: [-1000, -900] }, 50)).toEqual({ bundles: [], chocks: [] });
    expect(outOf(last, length - end).bundles.length).toBeGreaterThan(0);
  });

  it('take what lies on them along', () => {
    const laid: LaidVoid = { ...layVoid(job.voids[0]!)[0]!, keepOut: [bolt([length - 20, length])] };
    const [chock] = chocksOf(laid, plan).filter(({ side, tier }) => side === 'last end' && tier === 1);
    const [some] = plan.bundles;
    const upper = {
      ...some!,
      bundle: 'V1-99',
      order: 99,
      at: { along: chock!.from - 200, across: chock!.across, up: chock!.up + chock!.height },
      size: { ...some!.size, along: 220 },
    };
    const bundles = [...plan.bundles, upper];
    const out = (chocks: (typeof chock)[]) =>
      breakingOut({ bundles }, chocks as [], laid, laid.keepOut[0]!, 50).bundles;
    expect(out([])).toEqual([]);
    expect(out([chock])).toEqual([upper]);
  });

  it('are those of an upper tier, too, that lie on a bundle that comes out', () => {
    const laid: LaidVoid = layVoid(job.voids[0]!)[0]!;
    const [first] = plan.bundles.filter(({ run, tier }) => run === 1 && tier === 1);
    const less = plan.bundles.filter(
      ({ run, tier, at }) => !(run === 1 && tier === 2 && at.across <= first!.at.across),
    );
    const chocks = chocksOf(laid, { ...plan, bundles: less });
    const { at, size } = first!;
    const under: KeepOut = {
      along: [at.along, at.along + 5],
      across: [at.across, at.across + 5],
      up: [0, 5],
      access: false,
    };
    const out = breakingOut({ bundles: less }, chocks, laid, under, 0);
    expect(size.across).toBeGreaterThan(5);
    expect(out.bundles.map(({ bundle }) => bundle)).toEqual([first!.bundle]);
    expect(out.chocks.map(({ tier, side }) => [tier, side])).toEqual([[2, 'least']]);
  });
});

describe('access cards', () => {
  it('are one for each keep-out, with the kilograms that come out', () => {
    const { job, plan } = trialPair();
    const cards = accessOf(job, plan, 100);
    expect(cards.map((card) => [card.laid.void, card.keepOut.what])).toEqual([['V1', 'keel bolt']]);
    const [card] = cards;
    expect(card!.mass).toBeCloseTo(
      card!.bundles.reduce((sum, bundle) => sum + bundle.mass, 0),
      9,
    );
    expect(card!.mass).toBeGreaterThan(0);
  });
});
