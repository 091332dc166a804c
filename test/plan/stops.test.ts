/** The saw's day, the loading sequence, access and materials, told from a plan. */
import { describe, expect, test } from 'vitest';
import { bedsOf } from '../../src/drawing/bed.ts';
import { laidVoid } from '../../src/drawing/laid.ts';
import type { Lot } from '../../src/job/job.ts';
import { liesOver } from '../../src/plan/access.ts';
import { hardestBundle } from '../../src/plan/hardest.ts';
import { bandsOn, coatingOf, tyingOf } from '../../src/plan/materials.ts';
import type { PlanBar } from '../../src/plan/plan.ts';
import { loadingSequence } from '../../src/plan/sequence.ts';
import { firstPart } from '../../src/plan/share.ts';
import { alikeBars, byMark, cutsBefore, cutsOfPieces, markRanges, stopsOf, tightBars } from '../../src/plan/stops.ts';
import { LEVEL } from '../../src/plan/turns.ts';
import { stackedPair } from '../server/paper/stackedPlan.ts';
import { trialPair } from './trialPlan.ts';

const { job, plan } = trialPair();

describe('stops', () => {
  const stops = stopsOf(job, plan);

  test('go from the longest down and count every piece once', () => {
    const lengths = stops.map((stop) => stop.length);
    expect(lengths).toEqual([...lengths].sort((p, q) => q - p));
    expect(new Set(lengths).size).toBe(plan.totals.stops);
    expect(stops.at(-1)!.running).toBe(plan.totals.pieces);
  });

  test('share out the cuts of the plan, so that minutes without tying add up', () => {
    expect(stops.reduce((sum, stop) => sum + stop.cuts, 0)).toBe(plan.totals.cuts);
    const minutes = stops.reduce((sum, stop) => sum + stop.minutes, 0);
    expect(minutes).toBeCloseTo(plan.totals.minutes - plan.bundles.length * job.bundle.minutesPerBundle, 6);
  });

  test('count a cut between two pieces once and none at a bar end', () => {
    const pieces = [
      { piece: 'a', from: 0, to: 100, bundle: 'x' },
      { piece: 'b', from: 102.5, to: 200, bundle: 'x' },
      { piece: 'c', from: 300, to: 400, bundle: 'x' },
    ];
    const bar = { bar: 'A-01', lot: 'A', length: 400, pieces, remainders: [] };
    expect(cutsOfPieces(bar, 2.5)).toEqual([1, 1, 1]);
  });
});

describe('alike bars', () => {
  test('are grouped where lot, length, cuts and remainders agree, and every bar is in one group', () => {
    const pair = stackedPair({ voids: 2, runs: 2, tiers: 2, across: 5 });
    const groups = alikeBars(pair.job, pair.plan);
    expect(groups.map((group) => group.length)).toEqual([4, 1]);
    expect(alikeBars(job, plan).flat()).toHaveLength(plan.bars.length);
  });

  test('are told by the ranges of their marks, numbers in their order', () => {
    expect(markRanges(['A-01', 'A-02', 'A-03', 'A-05', 'B-1'])).toEqual(['A-01 to A-03', 'A-05', 'B-1']);
    expect(markRanges(['A-99', 'A-100'])).toEqual(['A-99, A-100']);
    expect(byMark('A-2', 'A-10')).toBeLessThan(0);
  });
});

describe('loading', () => {
  test('takes every bundle once and never one before what carries it', () => {
    const sequence = loadingSequence(job, plan).map((entry) => entry.bundle);
    expect(new Set(sequence.map((bundle) => bundle.bundle)).size).toBe(plan.bundles.length);
    for (const [i, bundle] of sequence.entries()) {
      for (const later of sequence.slice(i + 1)) {
        expect(bundle.void === later.void && liesOver(bundle, later)).toBe(false);
      }
    }
  });

  test('goes port and starboard turn about: no more than two bundles to one side', () => {
    const pair = stackedPair({ voids: 4, runs: 2, tiers: 3, across: 3 });
    const sequence = loadingSequence(pair.job, pair.plan);
    const worst = Math.max(...sequence.map((entry) => Math.abs(entry.moment)));
    expect(worst).toBeLessThan(2 * 3 * 0.5);
    expect(Math.abs(sequence.at(-1)!.moment)).toBeLessThan(1e-6);
    const tiers = sequence.map((entry) => entry.bundle.tier);
    expect(tiers.indexOf(3)).toBeGreaterThan(tiers.indexOf(2));
  });

  test('takes of the bundles that are next in their voids one no more than a level over the lowest', () => {
    const pair = stackedPair({ voids: 4, runs: 2, tiers: 3, across: 3 });
    const origins = new Map(pair.job.voids.map((space) => [space.void, space.origin.z]));
    const middle = ({ void: name, at, size }: (typeof pair.plan.bundles)[number]): number =>
      (origins.get(name) ?? 0) + (at.up + size.up / 2) / 1000;
    const waiting = [...pair.plan.bundles].sort((p, q) => p.order - q.order);
    const heights = loadingSequence(pair.job, pair.plan).map(({ bundle }) => {
      const heads = pair.job.voids.flatMap((space) => waiting.find((each) => each.void === space.void) ?? []);
      expect(heads).toContain(bundle);
      expect(middle(bundle) - Math.min(...heads.map(middle))).toBeLessThanOrEqual(LEVEL + 1e-9);
      waiting.splice(waiting.indexOf(bundle), 1);
      return middle(bundle);
    });
    expect(heights).not.toEqual([...heights].sort((p, q) => p - q));
  });

  test('fills a void that lies over another when that one is full, low first and list or not', () => {
    const pair = stackedPair({ voids: 2, runs: 2, tiers: 2, across: 3 });
    const [lower, upper] = pair.job.voids;
    // Over each other by a hand's breadth: the ground tier of the upper one is within a level of what is next below.
    upper!.origin = { ...lower!.origin, y: lower!.origin.y + 0.1, z: lower!.origin.z + 0.062 };
    const voids = () => loadingSequence(pair.job, pair.plan).map(({ bundle }) => bundle.void);
    expect(voids()).toEqual([...Array(12).fill('V1'), ...Array(12).fill('V2')]);
    upper!.origin = { ...upper!.origin, y: lower!.origin.y + 0.4 };
    expect(voids().indexOf('V2')).toBeLessThan(12);
  });

  test('fills a void before the trial over which others lie, or leaves those for afterwards, whichever moves less', () => {
    const pair = stackedPair({ voids: 4, runs: 2, tiers: 2, across: 3 });
    const [lower, upper, beside, top] = pair.job.voids;
    upper!.origin = { ...lower!.origin, z: lower!.origin.z + 0.1 };
    // Over the upper one alone.
    top!.origin = { ...upper!.origin, x: upper!.origin.x + 0.4, z: upper!.origin.z + 0.1 };
    beside!.origin = { ...beside!.origin, y: 0.4 };
    lower!.origin = { ...lower!.origin, x: lower!.origin.x - 0.4 };
    const each = (share: number) => [...firstPart(pair.job, pair.plan, share).counts.values()];
    expect(each(0.8)).toEqual([12, 12, 9, 9]);
    expect(each(0.2)).toEqual([2, 0, 2, 0]);
    expect(each(0)).toEqual([0, 0, 0, 0]);
    expect(each(1)).toEqual([12, 12, 12, 12]);
    const told = (share: number) => firstPart(pair.job, pair.plan, share);
    const [V1, V2] = [
      ['V1', ['V2']],
      ['V2', ['V4']],
    ] as [string, string[]][];
    expect(told(0.8)).toMatchObject({ whole: new Map([V1!, V2!]), waiting: new Map() });
    expect(told(0.2)).toMatchObject({
      whole: new Map(),
      waiting: new Map([
        ['V2', ['V1']],
        ['V4', ['V2']],
      ]),
    });
    expect(told(1)).toMatchObject({ whole: new Map(), waiting: new Map() });
    // A light void over a heavy one waits; a heavy one has the light one below it filled.
    const light = (name: string) => ({
      ...pair.plan,
      bundles: pair.plan.bundles.map((each) => (each.void === name ? { ...each, mass: each.mass / 10 } : each)),
    });
    const upperLight = { ...light('V2'), bundles: light('V2').bundles.filter((each) => each.void !== 'V4') };
    expect([...firstPart(pair.job, upperLight, 0.8).counts.values()]).toEqual([9, 0, 9, 0]);
    expect([...firstPart(pair.job, light('V1'), 0.8).counts.values()]).toEqual([12, 12, 9, 9]);
    for (const share of [0.2, 0.5, 0.8]) {
      const steps = loadingSequence(pair.job, pair.plan, { first: told(share).counts });
      const order = steps.map(({ bundle }) => bundle.void);
      expect(order.indexOf(upper!.void)).toBeGreaterThan(order.lastIndexOf(lower!.void));
      expect(order.indexOf(top!.void)).toBeGreaterThan(order.lastIndexOf(upper!.void));
      expect(steps).toHaveLength(pair.plan.bundles.length);
    }
    // One that lies beside has its fixed part in.
    expect(told(0.8).counts.get(beside!.void)).toBe(9);
  });

  test('puts the fixed share in before any of the rest, and says where it ends', () => {
    const pair = stackedPair({ voids: 2, runs: 2, tiers: 2, across: 3 });
    const first = new Map([
      ['V1', 8],
      ['V2', 8],
    ]);
    const sequence = loadingSequence(pair.job, pair.plan, { first });
    expect(sequence.map((entry) => entry.lastOfFirst).indexOf(true)).toBe(15);
    expect(sequence.filter((entry) => entry.lastOfFirst)).toHaveLength(1);
    expect(sequence.slice(0, 16).every((entry) => entry.bundle.order <= 8)).toBe(true);
    expect(sequence).toHaveLength(pair.plan.bundles.length);
  });

  test('marks each quarter of the mass once, the last at the end', () => {
    const pair = stackedPair({ voids: 2, runs: 2, tiers: 2, across: 3 });
    const sequence = loadingSequence(pair.job, pair.plan);
    expect(sequence.map((entry) => entry.quarter).filter((quarter) => quarter !== null)).toEqual([1, 2, 3, 4]);
    expect(sequence.at(-1)!.quarter).toBe(4);
  });
});

describe('what is needed besides', () => {
  test('two bands up to half a metre, and one more for each half metre begun', () => {
    const bands = (length: number, ...slots: string[][]) => bandsOn({ length, slots });
    expect([300, 500, 501, 1000, 1001].map((length) => bands(length, ['p1']))).toEqual([2, 2, 3, 3, 4]);
    expect(bands(600, ['p1'], ['p2', 'p3'], ['p4', 'p5', 'p6'])).toBe(6);
    const tying = tyingOf(job, plan);
    expect(tying.endCaps).toBe(2 * plan.bundles.length);
    expect(tying.cordMetres).toBeCloseTo(0.9 * plan.bundles.length, 9);
  });

  test('areas are those of the pieces', () => {
    const pair = stackedPair({ voids: 1, runs: 1, tiers: 1, across: 1 });
    const coating = coatingOf(pair.job, pair.plan);
    expect(coating.surface).toBeCloseTo(2 * 0.1 * 0.3, 9);
    expect(coating.ends).toBeCloseTo(4 * 0.000625, 9);
    expect(coating.cutArea).toBeCloseTo(2 * 6.25, 9);
  });

  test('beds span their runs', () => {
    for (const space of job.voids.slice(0, 2)) {
      const runs = plan.runs.filter((run) => run.void === space.void);
      expect(bedsOf(laidVoid(space, plan), plan).map((bed) => bed.length)).toEqual(
        runs.map((run) => run.to - run.from),
      );
    }
  });

  test('packing is told where the dunnage alone does not level the ground tier', () => {
    const [bed] = bedsOf(laidVoid(job.voids[1]!, plan), plan);
    expect(bed!.packing).not.toBeNull();
    expect(bedsOf(laidVoid(job.voids[0]!, plan), plan).every((each) => each.packing === null)).toBe(true);
  });

  test('the hardest bundle is the one nearest to filling its opening', () => {
    const hardest = hardestBundle(job, plan)!;
    expect(hardest.space.void).toBe('V1');
    expect(hardest.tightness).toBeLessThanOrEqual(1);
    expect(hardest.tightness).toBeGreaterThan(0.5);
  });
});

describe('bars with little to spare', () => {
  const lot: Lot = { ...job.pile[0]!, lot: 'A', length: 2000, count: 1, squaring: 0, spoiled: [] };
  const saw = { ...job.saw, kerf: 3, squaring: 0, tolerance: 2 };
  /** Five pieces of 390 mm, the last of which ends so far before the end of the bar. */
  const tight = (spare: number, wider: number, own: Partial<Lot> = {}) => {
    const length = 5 * 390 + 4 * 3 + spare;
    const pieces = [0, 1, 2, 3, 4].map((n) => ({ from: n * 393, to: n * 393 + 390 }));
    const bar = { ...plan.bars[0]!, bar: 'A-01', lot: 'A', length, pieces: pieces as PlanBar['pieces'] };
    return tightBars({ ...job, saw, pile: [{ ...lot, ...own }] }, { ...plan, bars: [bar] }, wider);
  };

  test('are those of which four kerfs too wide take more than the tolerance off the last piece', () => {
    expect(tight(0, 0.5)).toEqual([]);
    expect(tight(0, 0.51)).toEqual(['A-01']);
    expect(tight(1, 0.74)).toEqual([]);
    expect(tight(1, 0.76)).toEqual(['A-01']);
  });

  test('and of a bar with a spoiled stretch each span by itself', () => {
    const spoiled = [{ from: 3 * 393 - 3, to: 3 * 393 }];
    expect(tight(0, 0.9, { spoiled })).toEqual([]);
    expect(tight(0, 1.1, { spoiled })).toEqual(['A-01']);
  });
});

test('a piece is measured from the squared end, or from the last cut that parts off what is lost before it', () => {
  const piece = (from: number, to: number) => ({ piece: 'p', bundle: 'V1-01', from, to });
  const pieces = [piece(5, 505), piece(508, 1008), piece(2035, 3113), piece(3116, 3616), piece(4205, 4705)];
  const bar = { bar: 'A-01', lot: 'A', length: 5000, pieces, remainders: [] };
  expect(cutsBefore(bar, 3, 5)).toEqual([
    { behind: 0, frees: false },
    { behind: 0, frees: false },
    { behind: 2030, frees: true },
    { behind: 2030, frees: false },
    { behind: 4200, frees: true },
  ]);
});
