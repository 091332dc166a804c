/** What is left of a pile when the saw has come some way, and bars turned out otherwise: no steel is lost, none is there twice. */
import fc from 'fast-check';
import { beforeAll, describe, expect, test } from 'vitest';
import type { Job, Lot } from '../../src/job/job.ts';
import { barLengths, pileMass } from '../../src/job/lot.ts';
import { readJobValue } from '../../src/job/readJob.ts';
import { checkPlan } from '../../src/plan/check.ts';
import { type CutSoFar, pileLeft } from '../../src/plan/pileLeft.ts';
import type { Plan, PlanBar } from '../../src/plan/plan.ts';
import { pieceLength, stopsOf } from '../../src/plan/stops.ts';
import { workLeft } from '../../src/plan/workLeft.ts';
import { plannedDemonstration, planOf } from './demonstration.ts';

const NONE = new Map<string, number>();
const NOTHING: ReadonlySet<string> = new Set();
let job: Job;
let plan: Plan;

beforeAll(async () => {
  ({ job, plan } = await plannedDemonstration('first'));
});

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
  return pileLeft(of.job, of.plan, NOTHING, { by: 'plan 7', cut, found }).map((lot) => ({
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
    const begun = { lot: 'A begun', spoiled: [], squaring: 0, note: 'left of A-01 of plan 7' };
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
        note: 'left of A-01 of plan 7, what is spoiled counted from the sawn end; bent',
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
    // All cut and longer than stated, it has what nobody planned with.
    expect(leftOf(bar, { by: 'all' }, new Map([['A-01', 1700]]))[0]).toMatchObject({ lot: 'A begun', lengths: [491] });
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

test('what a run still takes that is finished or kept is told beside the bars that it comes off first', () => {
  const { job: of, plan: by } = oneBar(2000, [
    [0, 500],
    [503, 903],
    [906, 1206],
  ]);
  const [bar] = by.bars as [PlanBar];
  const pieces = bar.pieces.map((piece, n) => ({ ...piece, bundle: `V1-0${n + 1}` }));
  const two = { ...by, bars: [{ ...bar, pieces }] };
  const left = (stowed: string[], lacking: string[], cut: CutSoFar, tied: string[] = []) =>
    pileLeft(of, two, new Set(stowed), {
      by: 'plan 7',
      cut,
      found: NONE,
      lacking: new Set(lacking),
      tied: new Set(tied),
    }).map(({ lot, lengths, note }) => [lot, lengths, note]);
  const first = ', once its pieces for V1-01, V1-02 are cut from A-01';
  const before = downTo(Number.POSITIVE_INFINITY);
  expect(left(['V1-01', 'V1-02'], ['V1-01', 'V1-02'], before)).toEqual([
    ['A begun', [1094], `left of A-01 of plan 7${first}`],
  ]);
  expect(left(['V1-01', 'V1-02'], ['V1-02'], downTo(400))).toEqual([['A begun', [1094], 'left of A-01 of plan 7']]);
  // Bars of which something is in are cut to their ends, and of others only what is lacking.
  expect(left(['V1-01', 'V1-02'], ['V1-02'], { by: 'stowed' })).toEqual([['A cut', [300], '']]);
  expect(left(['V1-02'], ['V1-02'], { by: 'stowed' })).toEqual([
    ['A begun', [1094, 500], 'left of A-01 of plan 7, once its pieces for V1-02 are cut from A-01'],
  ]);
  expect(left(['V1-02'], ['V1-02'], { by: 'stowed' }, ['V1-02'])).toEqual([['A cut', [500, 300], '']]);
});

describe('of a rest that is cut in its turn', () => {
  /** The pile of a first rest: whole bars, what is left of bars begun, and pieces. */
  function secondRest(own: Partial<Lot> = {}, begun: Partial<Lot> = {}) {
    const { job: first, plan: made } = oneBar(2000, [[0, 500]], { note: 'bent', ...own });
    const [lot] = first.pile as [Lot];
    const rest = (mark: string, lengths: number[], more: Partial<Lot> = {}): Lot => ({
      ...lot,
      lot: mark,
      length: undefined,
      count: undefined,
      lengths,
      squaring: 0,
      ...more,
    });
    const pile = [
      rest('A', [2000, 2000], { squaring: lot.squaring }),
      rest('A begun', [1200, 1200, 800], { note: 'left of A-01 to A-03 of plan 7; bent', ...begun }),
      rest('A cut', [900, 900, 500], { spoiled: [] }),
    ];
    const bar = (mark: string, of: string, length: number, ...pieces: [number, number][]) =>
      ({
        bar: mark,
        lot: of,
        length,
        pieces: pieces.map(([from, to]) => ({ from, to, bundle: 'V1-01' })),
        remainders: [],
      }) as unknown as PlanBar;
    const bars = [
      bar('A-01', 'A', 2000, [0, 700], [703, 1103]),
      bar('A begun-01', 'A begun', 1200, [0, 700], [703, 1103]),
      bar('A cut-01', 'A cut', 900, [0, 700]),
      bar('A cut-02', 'A cut', 900, [0, 600], [603, 900]),
    ];
    return { job: { ...first, pile }, plan: { ...made, bars } };
  }

  test('lots are named as after the first, one of a sort, and what bars are left of is told with its plan', () => {
    const left = pileLeft(...both(secondRest()), NOTHING, { by: 'plan 9', cut: downTo(600), found: NONE });
    expect(left.map(({ lot, lengths, note }) => [lot, lengths, note])).toEqual([
      ['A', [2000], 'bent'],
      [
        'A begun',
        [1297, 1200, 800, 497, 297],
        'left of A-01 to A-03 of plan 7; left of A-01 of plan 9; left of A begun-01 of plan 9; left of A cut-02 of plan 9; bent',
      ],
      ['A cut', [700, 700, 700, 600, 500], 'bent'],
    ]);
    const all = pileLeft(...both(secondRest()), NOTHING, { by: 'plan 9', cut: { by: 'all' }, found: NONE });
    expect(all.map(({ lot }) => lot)).toEqual(['A', 'A begun', 'A cut']);
  });

  test('what is spoiled or squared otherwise is no lot with it, and stays counted from the sawn end', () => {
    const spoiled = [{ from: 1150, to: 1200 }];
    const begun = {
      spoiled,
      lengths: [1200, 1200],
      note: 'left of A-01 to A-03 of plan 7, what is spoiled counted from the sawn end; bent',
    };
    const left = pileLeft(...both(secondRest({}, begun)), NOTHING, { by: 'plan 9', cut: downTo(600), found: NONE });
    expect(left.map(({ lot, spoiled: own, note }) => [lot, own, note])).toEqual([
      ['A', [], 'bent'],
      ['A begun 2', [], 'left of A-01 of plan 9; left of A cut-02 of plan 9; bent'],
      ['A begun', spoiled, begun.note],
      [
        'A begun 3',
        [{ from: 447, to: 497 }],
        'left of A begun-01 of plan 9, what is spoiled counted from the sawn end; bent',
      ],
      ['A cut', [], 'bent'],
    ]);
  });

  const both = (of: { job: Job; plan: Plan }) => [of.job, of.plan] as const;
});

describe('of the demonstration', () => {
  test('however far the saw has come, all steel is left but what it turned to dust and what nothing can be cut from', () => {
    const stops = stopsOf(job, plan).map(({ length }) => length);
    const marks = plan.bars.map(({ bar }) => bar);
    fc.assert(
      fc.property(fc.nat(stops.length - 1), fc.subarray(marks), fc.boolean(), (n, some, byStops) => {
        const cut: CutSoFar = byStops ? downTo(stops[n]!, ...some) : { by: 'bars', bars: new Set(some) };
        const left = pileLeft(job, plan, NOTHING, { by: 'plan 7', cut, found: NONE });
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
    // Two voids of the demonstration: the rest is planned to the end.
    const small = { ...job, voids: job.voids.filter((own) => ['V1', 'V4'].includes(own.void)) };
    const before = await planOf(small, plan.jobDigest, 'first');
    const [first] = stopsOf(small, before);
    // Begun, with nothing cut yet from its last 120 mm.
    const isBegun = ({ pieces, length }: PlanBar) => {
      const long = pieces.filter((piece) => pieceLength(piece) === first!.length);
      return long.length > 0 && long.length < pieces.length && long.every(({ to }) => to < length - 120);
    };
    const short = before.bars.find(isBegun)!;
    const found = new Map([[short.bar, short.length - 120]]);
    const cut = downTo(first!.length);
    const left = workLeft(small, before, {
      by: 'plan 7',
      stowed: NOTHING,
      unfinished: NOTHING,
      cut,
      found,
      weighed: NONE,
    })!;
    expect(left.voids).toEqual(small.voids);
    expect(left.aims).toEqual(job.aims);
    const read = readJobValue(JSON.parse(JSON.stringify(left)));
    if (!read.ok) throw new Error(JSON.stringify(read.faults));
    const begun = (of: ReadonlyMap<string, number>) =>
      pileLeft(small, before, NOTHING, { by: 'plan 7', cut, found: of })
        .filter(({ lot }) => lot.includes(' begun'))
        .flatMap(barLengths);
    const sum = (lengths: number[]) => lengths.reduce((all, length) => all + length, 0);
    expect(sum(begun(NONE)) - sum(begun(found))).toBeCloseTo(120, 1);
    const next = await planOf(read.value.job, read.value.digest, 'best');
    expect(checkPlan(read.value.job, next, read.value.digest)).toEqual([]);
    expect(next.totals.placedMass).toBeGreaterThan(0.9 * before.totals.placedMass);
  });
});
