/** What is left of a pile when the saw has come some way, and bars turned out otherwise: no steel is lost, none is there twice. */
import fc from 'fast-check';
import { beforeAll, describe, expect, test } from 'vitest';
import type { Job, Lot } from '../../src/job/job.ts';
import { barLengths, pileMass } from '../../src/job/lot.ts';
import { readJobValue } from '../../src/job/readJob.ts';
import { checkPlan } from '../../src/plan/check.ts';
import { type CutSoFar, pileLeft } from '../../src/plan/pileLeft.ts';
import type { Plan, PlanBar } from '../../src/plan/plan.ts';
import { planJob } from '../../src/plan/planner.ts';
import { pieceLength, stopsOf } from '../../src/plan/stops.ts';
import { workLeft } from '../../src/plan/workLeft.ts';
import { plannedDemonstration } from './demonstration.ts';

const NONE = new Map<string, number>();
const NOTHING: ReadonlySet<string> = new Set();
let job: Job;
let plan: Plan;

beforeAll(async () => {
  ({ job, plan } = await plannedDemonstration());
}, 120_000);

/** A job of one lot and one bar of it cut so: pieces [from, to], what is spoiled, what squaring takes. */
function oneBar(length: number, pieces: [number, number][], own: Partial<Lot> = {}) {
  const bar = { bar: 'A-01', lot: 'A', length, pieces: pieces.map(([from, to]) => ({ from, to, bundle: 'V1-01' })) };
  const lot = {
    ...job.pile[0]!,
    lot: 'A',
    length,
    count: 1,
    lengths: undefined,
    squaring: 0,
    spoiled: [],
    note: '',
    ...own,
  };
  const plain = { ...job, saw: { ...job.saw, kerf: 3, squaring: 0, shortestPiece: 100 }, pile: [lot] };
  return { job: plain, plan: { ...plan, bars: [{ ...bar, remainders: [] } as unknown as PlanBar] } };
}

function leftOf(of: { job: Job; plan: Plan }, cut: CutSoFar, found: ReadonlyMap<string, number> = NONE) {
  return pileLeft(of.job, of.plan, NOTHING, { cut, found }).map((lot) => ({
    lot: lot.lot,
    lengths: barLengths(lot),
    spoiled: lot.spoiled,
    note: lot.note,
    squaring: lot.squaring,
  }));
}

const downTo = (stop: number, ...next: string[]): CutSoFar => ({ by: 'stops', stop, next: new Set(next) });

describe('of a bar that is begun', () => {
  test('the pieces down to the stop are cut, and the rest begins a kerf behind the last of them', () => {
    const bar = oneBar(2000, [
      [0, 500],
      [503, 903],
      [906, 1206],
    ]);
    const begun = { lot: 'A begun', spoiled: [], squaring: 0, note: 'left of A-01' };
    const cut = { lot: 'A cut', spoiled: [], squaring: 0, note: '' };
    expect(leftOf(bar, downTo(400))).toEqual([
      { ...begun, lengths: [2000 - 906] },
      { ...cut, lengths: [500, 400] },
    ]);
    expect(leftOf(bar, downTo(500, 'A-01'))).toEqual(leftOf(bar, downTo(400)));
    expect(leftOf(bar, downTo(500, 'A-02'))[1]!.lengths).toEqual([500]);
    const before = downTo(Number.POSITIVE_INFINITY);
    expect(leftOf(bar, before)).toEqual([{ ...begun, lot: 'A', note: '', lengths: [2000] }]);
    expect(leftOf(bar, downTo(Number.POSITIVE_INFINITY, 'A-01'))[1]!.lengths).toEqual([500]);
  });

  test('what is spoiled is counted from where it begins now, and what was cut away is spoiled no more', () => {
    const bar = oneBar(
      2000,
      [
        [120, 620],
        [623, 923],
        [1100, 1400],
      ],
      {
        spoiled: [
          { from: 0, to: 120 },
          { from: 1000, to: 1090 },
        ],
        note: 'bent',
      },
    );
    expect(leftOf(bar, downTo(500))).toEqual([
      {
        lot: 'A begun',
        lengths: [2000 - 623],
        spoiled: [{ from: 377, to: 467 }],
        squaring: 0,
        note: 'left of A-01, what is spoiled counted from the sawn end; bent',
      },
      { lot: 'A cut', lengths: [500], spoiled: [], squaring: 0, note: 'bent' },
    ]);
  });

  test('an end that the saw did not make is squared, as the lot is', () => {
    const bar = oneBar(
      2000,
      [
        [10, 310],
        [313, 813],
        [1816, 1990],
      ],
      { squaring: 10 },
    );
    const [first, second, ...rest] = leftOf(bar, downTo(500));
    expect([first!.lengths, first!.squaring]).toEqual([[2000 - 816, 310], 10]);
    expect(second!.lot).toBe('A cut');
    expect(rest).toEqual([]);
  });

  test('that turned out 120 mm shorter has 120 mm less left, and of its pieces those that it has', () => {
    const bar = oneBar(1206, [
      [0, 500],
      [503, 903],
      [906, 1206],
    ]);
    const found = new Map([['A-01', 1086]]);
    expect(leftOf(bar, downTo(500), found)[0]!.lengths).toEqual([1086 - 503]);
    const all = leftOf(bar, { by: 'all' }, found);
    expect(all.map(({ lot, lengths }) => [lot, lengths])).toEqual([
      ['A begun', [180]],
      ['A cut', [500, 400]],
    ]);
    expect(leftOf(bar, { by: 'bars', bars: NOTHING }, found)).toEqual([
      { lot: 'A', lengths: [1086], spoiled: [], squaring: 0, note: '' },
    ]);
  });

  test('and one that ends before what is spoiled of its lot does is a lot of its own, that can be read', () => {
    const bar = oneBar(2000, [[0, 500]], { spoiled: [{ from: 1900, to: 2000 }] });
    const [own, ...rest] = leftOf(bar, { by: 'stowed' }, new Map([['A-01', 1950]]));
    expect([own!.lengths, own!.spoiled]).toEqual([[1950], [{ from: 1900, to: 1950 }]]);
    expect(rest).toEqual([]);
  });
});

describe('of the demonstration', () => {
  test('however far the saw has come, all steel is left but what it turned to dust and what nothing can be cut from', () => {
    const stops = stopsOf(job, plan).map(({ length }) => length);
    const marks = plan.bars.map(({ bar }) => bar);
    fc.assert(
      fc.property(fc.nat(stops.length - 1), fc.subarray(marks), fc.boolean(), (n, some, byStops) => {
        const cut: CutSoFar = byStops ? downTo(stops[n]!, ...some) : { by: 'bars', bars: new Set(some) };
        const left = pileLeft(job, plan, NOTHING, { cut, found: NONE });
        const after = stops[n + 1] ?? 0;
        const isCut = (bar: PlanBar, piece: { from: number; to: number }) => {
          const length = pieceLength(piece);
          if (!byStops) return some.includes(bar.bar);
          return length >= stops[n]! || (some.includes(bar.bar) && length >= after);
        };
        const pieces = plan.bars.flatMap((bar) => bar.pieces.filter((piece) => isCut(bar, piece)).map(pieceLength));
        const told = left
          .filter(({ lot }) => lot.endsWith(' cut'))
          .flatMap(barLengths)
          .map((length) => Math.round(length * 10) / 10);
        expect(told.sort((p, q) => p - q)).toEqual(pieces.sort((p, q) => p - q));
        expect(pileMass({ ...job, pile: left })).toBeLessThanOrEqual(pileMass(job) + 0.01);
        const { scrapMass, kerfMass, squaringMass, spoiledMass } = plan.totals;
        const lost = scrapMass + kerfMass + squaringMass + spoiledMass;
        expect(pileMass({ ...job, pile: left })).toBeGreaterThanOrEqual(pileMass(job) - lost - 1);
        const read = readJobValue(JSON.parse(JSON.stringify({ ...job, pile: left })));
        expect(read.ok ? [] : read.faults).toEqual([]);
      }),
      { numRuns: 40, seed: 11 },
    );
  });

  test('with the longest stop cut and a bar shorter, nothing stowed, the rest is planned and checks clean', async () => {
    const [first] = stopsOf(job, plan);
    const short = plan.bars.find((bar) => bar.pieces.some((piece) => pieceLength(piece) === first!.length))!;
    const found = new Map([[short.bar, short.length - 120]]);
    const cut = downTo(first!.length);
    const left = workLeft(job, plan, { stowed: NOTHING, unfinished: NOTHING, cut, found, weighed: NONE })!;
    expect(left.voids).toEqual(job.voids);
    expect(left.aims).toEqual(job.aims);
    const read = readJobValue(JSON.parse(JSON.stringify(left)));
    if (!read.ok) throw new Error(JSON.stringify(read.faults));
    const begun = (of: ReadonlyMap<string, number>) =>
      pileLeft(job, plan, NOTHING, { cut, found: of })
        .filter(({ lot }) => lot.includes(' begun'))
        .flatMap(barLengths);
    const sum = (lengths: number[]) => lengths.reduce((all, length) => all + length, 0);
    expect(sum(begun(NONE)) - sum(begun(found))).toBeCloseTo(120, 1);
    const options = { effort: 'quick', stops: 'free', jobDigest: read.value.digest } as const;
    const next = await planJob(read.value.job, options);
    if (next.kind !== 'plan') throw new Error('nothing is placed');
    expect(checkPlan(read.value.job, next.plan, read.value.digest)).toEqual([]);
    expect(next.plan.totals.placedMass).toBeGreaterThan(0.9 * plan.totals.placedMass);
  }, 60_000);
});
