import { describe, expect, it } from 'vitest';
import type { KeepOut } from '../../src/job/job.ts';
import { clearWidth, drainUnder, layVoid as layToCheck } from '../../src/plan/check/space.ts';
import { type Chock, chocksOf, looseness } from '../../src/plan/chocks.ts';
import { type LaidVoid, layVoid } from '../../src/stow/laid.ts';
import { stackedPair } from '../server/paper/stackedPlan.ts';
import { carriedPair } from './carriedPlan.ts';
import { trialPair } from './trialPlan.ts';

const PAIRS = {
  trial: trialPair(),
  carried: carriedPair(),
  stacked: stackedPair({ voids: 1, runs: 3, tiers: 2, across: 2 }),
};

type Box = [along: [number, number], across: [number, number], up: [number, number]];

/** The corners of a chock: it leans between foot and head where the side does. */
function boxAt(chock: Chock, share: number): Box {
  const size = chock.size + share * (chock.sizeAtHead - chock.size);
  const up = chock.up + share * chock.height;
  const along: [number, number] = [chock.from, chock.to];
  if (!['least', 'most', 'inner'].includes(chock.side))
    return [along, [chock.across, chock.across + chock.length], [up, up]];
  const from = chock.side === 'least' ? chock.across + chock.size - size : chock.across;
  return [along, [from, from + size], [up, up]];
}

const meet = (p: [number, number], q: [number, number]) => p[0] < q[1] - 0.01 && q[0] < p[1] - 0.01;
const hits = ([along, across, [up]]: Box, other: Box) =>
  meet(along, other[0]) && meet(across, other[1]) && other[2][0] < up && up < other[2][1];

describe.each(Object.entries(PAIRS))('chocks of the %s plan', (_, { job, plan }) => {
  const all = job.voids.map((space) => {
    const laid = layVoid(space)[0]!;
    return { laid, space, chocks: chocksOf(laid, plan) };
  });

  it('are some, each with a mark of its own that names its tier', () => {
    const chocks = all.flatMap((each) => each.chocks);
    expect(chocks.length).toBeGreaterThan(1);
    expect(new Set(chocks.map((chock) => chock.mark)).size).toBe(chocks.length);
    for (const chock of chocks)
      expect(chock.mark).toMatch(new RegExp(`^${chock.void}/${chock.run}/${chock.tier}[a-z]`));
  });

  it('go in once all of their tier lies, and before what lies over them', () => {
    for (const { laid, chocks } of all) {
      const bundles = plan.bundles.filter((bundle) => bundle.void === laid.void);
      for (const chock of chocks) {
        const tier = bundles.filter(({ run, tier }) => run === chock.run && tier === chock.tier);
        const last = Math.max(...tier.map(({ order }) => order));
        if (chock.side === 'next run') expect(chock.after, chock.mark).toBeGreaterThanOrEqual(last);
        else expect(chock.after, chock.mark).toBe(last);
        const [along, across] = boxAt(chock, 0.98);
        for (const { at, size, order, bundle } of bundles) {
          const over =
            at.up >= chock.up + chock.height - 0.01 &&
            meet(along, [at.along, at.along + size.along]) &&
            meet(across, [at.across, at.across + size.across]);
          if (over) expect(order, `${bundle} over ${chock.mark}`).toBeGreaterThan(chock.after);
        }
      }
    }
  });

  it('lie inside the void, clear of every bundle, keep-out and drain', () => {
    for (const { laid, space, chocks } of all) {
      const bundles = plan.bundles
        .filter((bundle) => bundle.void === laid.void)
        .map(
          ({ at, size }): Box => [
            [at.along, at.along + size.along],
            [at.across, at.across + size.across],
            [at.up, at.up + size.up],
          ],
        );
      const bolts = laid.keepOut.map((k): Box => [k.along, k.across, [k.up[0], k.access ? 9999 : k.up[1]]]);
      for (const chock of chocks)
        for (const share of [0.02, 0.25, 0.5, 0.75, 0.98]) {
          const box = boxAt(chock, share);
          expect([...bundles, ...bolts].filter((other) => hits(box, other))).toEqual([]);
          const [from, to] = clearWidth(layToCheck(space, undefined), box[0], box[2]);
          expect(box[1][0]).toBeGreaterThanOrEqual(from - 0.51);
          expect(box[1][1]).toBeLessThanOrEqual(to + 0.51);
          expect(box[0][0]).toBeGreaterThanOrEqual(0);
          expect(box[0][1]).toBeLessThanOrEqual(laid.length);
          const drain = drainUnder(layToCheck(space, undefined), box[0]);
          if (drain && box[2][0] < drain.top)
            for (const channel of drain.channels) expect(meet(box[1], channel)).toBe(false);
        }
    }
  });

  it('are smaller than their gaps by the finger room at least: never wedged tight', () => {
    for (const { laid, chocks } of all)
      for (const chock of chocks) {
        const loose = looseness(laid);
        expect(loose).toBeGreaterThanOrEqual(3);
        if (chock.side === 'first end') expect(chock.from).toBeGreaterThanOrEqual(loose);
        if (chock.side === 'last end') expect(laid.length - chock.to).toBeGreaterThanOrEqual(loose);
        if (chock.side !== 'next run') continue;
        const [run, next] = [chock.run, chock.run + 1].map((n) =>
          plan.runs.find((each) => each.void === laid.void && each.run === n),
        );
        expect(next!.from - run!.to - chock.size).toBeGreaterThanOrEqual(loose);
      }
  });
});

describe('where chocks go', () => {
  const { job, plan } = trialPair();
  const v1 = layVoid(job.voids[0]!)[0]!;
  const told = (laid: LaidVoid) =>
    chocksOf(laid, plan).map(({ run, tier, side, size }) => `${run}/${tier} ${side} ${size}`);

  it('at the sides, the ends, between runs and between bundles of a tier', () => {
    expect(told(v1).sort()).toEqual(
      [
        '1/1 most 109',
        '1/1 next run 92',
        '1/2 least 26',
        '1/2 most 150',
        '1/2 next run 92',
        '2/1 least 16',
        '2/1 most 31',
        '2/1 inner 31',
        '2/1 last end 60',
        '2/2 least 66',
        '2/2 most 151',
        '2/2 last end 60',
      ].sort(),
    );
  });

  it('behind a bundle shorter than its run, as wide and as high as that bundle, up to the end of the run', () => {
    const long = plan.bundles.find(({ run, tier, void: name }) => name === 'V1' && run === 1 && tier === 2)!;
    const { to } = plan.runs.find(({ void: name, run }) => name === 'V1' && run === 1)!;
    const shortened = (by: number): Chock[] => {
      const size = { ...long.size, along: to - long.at.along - by };
      const bundles = plan.bundles.map((own) => (own === long ? { ...own, size } : own));
      return chocksOf(v1, { ...plan, bundles }).filter(({ side }) => side === 'short');
    };
    const loose = looseness(v1);
    expect(shortened(0)).toEqual([]);
    expect(shortened(14 + loose)).toEqual([]);
    expect(shortened(120)).toMatchObject([
      {
        run: 1,
        tier: 2,
        from: to - 120,
        to: to - loose,
        size: 120 - loose,
        across: long.at.across,
        length: long.size.across,
        up: long.at.up,
        height: long.size.up,
        after: Math.max(
          ...plan.bundles
            .filter(({ run, tier, void: v }) => v === 'V1' && run === 1 && tier === 2)
            .map(({ order }) => order),
        ),
      },
    ]);
    // The rest of the list stays as it is.
    const size = { ...long.size, along: to - long.at.along - 120 };
    const others = chocksOf(v1, {
      ...plan,
      bundles: plan.bundles.map((own) => (own === long ? { ...own, size } : own)),
    });
    const without = (some: Chock[]) => some.filter(({ side }) => side !== 'short').map(({ mark: _, ...rest }) => rest);
    expect(without(others)).toEqual(without(chocksOf(v1, plan)));
  });

  it('in two where a bolt stands in the gap, and nowhere near it where it is to stay reachable', () => {
    const bolt: KeepOut = { what: 'bolt', along: [200, 240], across: [100, 120], up: [0, 30], access: true };
    const spans = (keepOut: KeepOut) =>
      chocksOf({ ...v1, keepOut: [keepOut] }, plan)
        .filter((chock) => chock.run === 1 && chock.side === 'most')
        .map((chock) => [chock.tier, chock.from, chock.to]);
    expect(spans(bolt)).toEqual([
      [1, 8, 200],
      [1, 240, 514],
      [2, 8, 200],
      [2, 240, 514],
    ]);
    expect(spans({ ...bolt, access: false })).toEqual([
      [1, 8, 200],
      [1, 240, 514],
      [2, 8, 514],
    ]);
  });

  describe('at an end of a run, where a keep-out stands that bears', () => {
    const ends = plan.runs.filter((run) => run.void === 'V1').map(({ to }) => to);
    const wall = (more: Partial<KeepOut> = {}): KeepOut => ({
      what: 'floor 7',
      along: [ends[1]! + 40, ends[1]! + 52],
      across: [-v1.width / 2, v1.width / 2],
      up: [0, v1.height],
      access: false,
      bears: true,
      ...more,
    });
    const last = (keepOut: KeepOut) =>
      chocksOf({ ...v1, keepOut: [keepOut] }, plan)
        .filter(({ side, run }) => side === 'last end' && run === 2)
        .map(({ tier, size, against, to }) => ({ tier, size, against, to }));
    const loose = looseness(v1);

    it('stand against it, and are cut to the gap before it', () => {
      const size = 40 - loose;
      const chock = { size, against: 'floor 7', to: ends[1]! + size };
      expect(last(wall())).toEqual([
        { tier: 1, ...chock },
        { tier: 2, ...chock },
      ]);
      expect(last(wall({ bears: undefined }))).toEqual([]);
    });

    it('stand against it only as high as it is', () => {
      const ground = plan.bundles.find(({ void: name, run, tier }) => name === 'V1' && run === 2 && tier === 1)!;
      const low = wall({ up: [0, ground.at.up + ground.size.up] });
      expect(last(low)).toMatchObject([
        { tier: 1, against: 'floor 7' },
        { tier: 2, against: undefined },
      ]);
    });

    it('pass beside it to the end of the void where it takes part of the breadth', () => {
      const half = wall({ across: [-v1.width / 2, 0] });
      expect(last(half).filter(({ tier }) => tier === 1)).toMatchObject([
        { against: 'floor 7' },
        { against: undefined },
      ]);
    });

    it('stand against it from both sides where it is between two runs', () => {
      const between = wall({ along: [ends[0]! + 40, ends[0]! + 50] });
      const told = chocksOf({ ...v1, keepOut: [between] }, plan)
        .filter(({ tier, side }) => tier === 1 && ['first end', 'last end', 'next run'].includes(side))
        .map(({ run, side, against }) => [run, side, against]);
      expect(told).toEqual([
        [1, 'last end', 'floor 7'],
        [2, 'first end', 'floor 7'],
        [2, 'last end', undefined],
      ]);
    });
  });

  it('stand over the drain where they lie in it', () => {
    const drained: LaidVoid = { ...v1, drain: { width: 20, height: 25, where: 'sides' } };
    const side = (laid: LaidVoid) => chocksOf(laid, plan).find((chock) => chock.run === 1 && chock.side === 'most')!;
    expect(side(drained).up).toBe(25);
    expect(side(drained).up + side(drained).height).toBe(side(v1).up + side(v1).height);
  });

  it('do not stand over the drain where nothing beside it would carry them', () => {
    const [inner] = chocksOf(v1, plan).filter((chock) => chock.side === 'inner');
    // Drains in the middle: the void laid so that the gap between two bundles lies over it.
    const over = (width: number) => {
      const shift = inner!.across + inner!.size / 2;
      const moved = plan.bundles.map((bundle) => ({
        ...bundle,
        at: { ...bundle.at, across: bundle.at.across - shift },
      }));
      const drained: LaidVoid = {
        ...v1,
        width: 2 * v1.width,
        keepOut: [],
        drain: { width, height: 14, where: 'middle' },
      };
      return chocksOf(drained, { ...plan, bundles: moved }).filter(
        (chock) => chock.side === 'inner' && chock.tier === 1,
      );
    };
    expect(inner!.size).toBeGreaterThanOrEqual(31);
    expect(over(inner!.size - 21)).toHaveLength(1);
    expect(over(inner!.size + 9)).toEqual([]);
  });

  it('are wedges where the sides lean', () => {
    const v2 = layVoid(job.voids[1]!)[0]!;
    const leaning = chocksOf(v2, plan).filter((chock) => chock.side === 'least' || chock.side === 'most');
    expect(leaning.length).toBeGreaterThan(0);
    for (const chock of leaning) expect(chock.sizeAtHead).toBeGreaterThan(chock.size);
  });
});
