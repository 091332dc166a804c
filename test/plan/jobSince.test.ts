/** A job corrected since it was planned: what of that comes along into what is left, and what of it can not. */
import fc from 'fast-check';
import { beforeAll, describe, expect, test } from 'vitest';
import type { Job, Lot } from '../../src/job/job.ts';
import { barLengths, lotMassPerMetre, pileMass } from '../../src/job/lot.ts';
import { readJobValue } from '../../src/job/readJob.ts';
import { checkPlan } from '../../src/plan/check.ts';
import { type BarNow, barsSince } from '../../src/plan/jobSince.ts';
import { pileLeft } from '../../src/plan/pileLeft.ts';
import type { Plan } from '../../src/plan/plan.ts';
import { planJob } from '../../src/plan/planner.ts';
import { pieceLength, stopsOf } from '../../src/plan/stops.ts';
import { type Done, workLeft } from '../../src/plan/workLeft.ts';
import { ALL_CUT, plannedDemonstration } from './demonstration.ts';
import { trialPair } from './trialPlan.ts';

const NONE = new Map<string, number>();
let job: Job;
let plan: Plan;

beforeAll(async () => {
  ({ job, plan } = await plannedDemonstration('first'));
});

function marksIn(name: string): Set<string> {
  return new Set(plan.bundles.flatMap((bundle) => (bundle.void === name ? [bundle.bundle] : [])));
}

/** The job of what is left, read as every job is. */
function readLeft(done: Partial<Done>): Job {
  const result = readJobValue(JSON.parse(JSON.stringify(workLeft(job, plan, { ...ALL_CUT, ...done }))));
  if (!result.ok) throw new Error(JSON.stringify(result.faults));
  return result.value.job;
}

const withLot = (of: Job, mark: string, own: Partial<Lot>): Job => ({
  ...of,
  pile: of.pile.map((lot) => (lot.lot === mark ? { ...lot, ...own } : lot)),
});

describe('masses that were put right', () => {
  test('are those of what is left, and of what stands unless it was weighed; aims follow', () => {
    const stowed = marksIn('V4');
    const lots = new Set(
      plan.bars.filter(({ pieces }) => pieces.some(({ bundle }) => stowed.has(bundle))).map(({ lot }) => lot),
    );
    const heavier = (lot: Lot) => ({ ...lot, massPerMetre: 1.04 * lotMassPerMetre(lot, job.steel.density) });
    const now = { ...job, pile: job.pile.map((lot) => (lots.has(lot.lot) ? heavier(lot) : lot)) };
    const standing = plan.bundles.filter(({ bundle }) => stowed.has(bundle));
    const steel = standing.reduce((sum, { mass }) => sum + mass - job.bundle.wrapping, 0);
    const weightOf = (of: Job) => of.voids.find((own) => own.void === 'V4')!.keepOut.at(-1)!.mass!;
    const [before, after] = [readLeft({ stowed }), readLeft({ stowed, now })];
    expect(weightOf(after) - weightOf(before)).toBeCloseTo(0.04 * steel, 0);
    expect(before.aims.ballast! - after.aims.ballast!).toBeCloseTo(0.04 * steel, 0);
    for (const lot of after.pile.filter((own) => lots.has(own.lot.replace(/ .*/, ''))))
      expect(lot.massPerMetre).toBe(now.pile.find((own) => own.lot === lot.lot.replace(/ .*/, ''))!.massPerMetre);
    const [one, ...others] = standing;
    const weighed = new Map([[one!.bundle, 50]]);
    const rest = others.reduce((sum, { mass }) => sum + mass + 0.04 * (mass - job.bundle.wrapping), 0);
    expect(weightOf(readLeft({ stowed, now, weighed }))).toBeCloseTo(50 + rest, 0);
  });

  test('of the wrapping count in every bundle that stands', () => {
    const stowed = marksIn('V4');
    const now = { ...job, bundle: { ...job.bundle, wrapping: job.bundle.wrapping + 0.2 } };
    const ballast = (done: Partial<Done>) => readLeft({ stowed, ...done }).aims.ballast!;
    expect(ballast({}) - ballast({ now })).toBeCloseTo(0.2 * stowed.size, 1);
  });
});

describe('a kerf that was put right', () => {
  const lot = () => ({
    ...job.pile[0]!,
    lot: 'A',
    length: 2000,
    count: 1,
    lengths: undefined,
    squaring: 0,
    spoiled: [],
  });
  const oneBar = (length: number, pieces: [number, number][], remainders: object[] = []) => {
    const saw = { ...job.saw, kerf: 3, squaring: 0, shortestPiece: 100, tolerance: 2 };
    const bar = {
      bar: 'A-01',
      lot: 'A',
      length,
      pieces: pieces.map(([from, to]) => ({ from, to, bundle: 'V1-01' })),
      remainders,
    };
    const of: Job = { ...job, saw, pile: [{ ...lot(), length }] };
    return { of, by: { ...plan, bars: [bar] } as unknown as Plan, now: { ...of, saw: { ...saw, kerf: 4 } } };
  };
  const lengthsOf = ({ of, by, now }: ReturnType<typeof oneBar>, stop: number) =>
    pileLeft(of, by, new Set(), { by: 'plan 7', cut: { by: 'stops', stop, next: new Set() }, found: NONE }, now).map(
      (own) => [own.lot, barLengths(own)],
    );

  test('is lost at every cut that was made, and at none that was not', () => {
    const bar = oneBar(2000, [
      [0, 500],
      [503, 903],
      [906, 1206],
    ]);
    expect(lengthsOf(bar, 400)).toEqual([
      ['A begun', [2000 - 500 - 4 - 400 - 4]],
      ['A cut', [500, 400]],
    ]);
    expect(lengthsOf(bar, 500)[0]).toEqual(['A begun', [1496]]);
  });

  test('comes off what was kept, and a piece that it made a little short is that piece', () => {
    const kept = oneBar(2000, [[0, 500]], [{ from: 503, to: 2000, fate: 'keep' }]);
    expect(lengthsOf(kept, 100)).toEqual([
      ['A cut', [500]],
      ['A left over', [1496]],
    ]);
    const full = oneBar(1003, [
      [0, 500],
      [503, 1003],
    ]);
    expect(lengthsOf(full, 100)).toEqual([['A cut', [500, 500]]]);
  });
});

describe('lengths of bars that were put right', () => {
  const lotOf = (lengths: number[]): Lot => ({
    ...job.pile[0]!,
    lot: 'A',
    length: undefined,
    count: undefined,
    lengths,
  });
  const bar = (n: number, planned: number, own: Partial<BarNow> = {}): BarNow => ({
    bar: `A-0${n}`,
    planned,
    length: planned,
    isFound: false,
    isBegun: true,
    ...own,
  });
  const since = (before: number[], now: number[], whole: number[], bars: BarNow[]) => {
    const { whole: left, found } = barsSince(lotOf(before), lotOf(now), whole, bars);
    return [left, [...found]];
  };

  test('bars that were added or taken out are, and one of a whole bar is its own', () => {
    expect(since([3000, 2000], [3000, 2000, 2500], [2000], [bar(1, 3000)])).toEqual([[2000, 2500], []]);
    expect(since([3000, 2000], [3000], [2000], [bar(1, 3000)])).toEqual([[], []]);
    expect(since([3000, 2000], [3000, 1900], [2000], [bar(1, 3000)])).toEqual([[1900], []]);
  });

  test('that of a begun bar is what it is taken to have had, and it is no whole bar', () => {
    expect(since([3000, 2000], [2880, 2000], [2000], [bar(1, 3000)])).toEqual([[2000], [['A-01', 2880]]]);
    expect(since([3000, 3000], [2990, 2990], [3000], [bar(1, 3000)])).toEqual([[2990], [['A-01', 2990]]]);
    expect(since([3000], [], [], [bar(1, 3000)])).toEqual([[], []]);
  });

  test('what was said of the bar, and written into the job too, counts once', () => {
    const said = bar(1, 3000, { length: 2880, isFound: true });
    expect(since([3000, 3000], [2880, 3000], [3000], [said])).toEqual([[3000], []]);
    const whole = bar(1, 3000, { length: 2880, isFound: true, isBegun: false });
    expect(since([3000, 3000], [2880, 3000], [3000, 2880], [whole])).toEqual([[3000, 2880], []]);
  });

  test('of the demonstration: however bars come and go, steel does with them, and cut pieces stay', () => {
    const first = stopsOf(job, plan)[0]!.length;
    const cut = { by: 'stops', stop: first, next: new Set<string>() } as const;
    const left = (now: Job) => pileLeft(job, plan, new Set(), { by: 'plan 7', cut, found: NONE }, now);
    const usual = left(job);
    const whole = (pile: Lot[], mark: string) => pile.filter(({ lot }) => lot === mark).flatMap(barLengths);
    const marks = job.pile.map(({ lot }) => lot).filter((mark) => whole(usual, mark).length > 1);
    expect(marks.length).toBeGreaterThan(2);
    fc.assert(
      fc.property(
        fc.constantFrom(...marks),
        fc.array(fc.integer({ min: 900, max: 4000 }), { maxLength: 3 }),
        (mark, more) => {
          const own = job.pile.find(({ lot }) => lot === mark)!;
          const [out, ...kept] = whole(usual, mark);
          const lengths = [...barLengths(own), ...more];
          lengths.splice(lengths.indexOf(out!), 1);
          const now = left(withLot(job, mark, { length: undefined, count: undefined, lengths }));
          expect(whole(now, mark).sort((p, q) => p - q)).toEqual([...kept, ...more].sort((p, q) => p - q));
          expect(now.filter(({ lot }) => lot !== mark)).toEqual(usual.filter(({ lot }) => lot !== mark));
        },
      ),
      { numRuns: 30, seed: 5 },
    );
    expect(left(job)).toEqual(usual);
  });

  test('a lot that is new comes in, and of one taken out only what is cut of it stays', () => {
    const extra = { ...lotOf([1800]), lot: 'X' };
    const [gone] = plan.bars;
    const now = { ...job, pile: [...job.pile.filter(({ lot }) => lot !== gone!.lot), extra] };
    const pile = pileLeft(job, plan, new Set(), { by: 'plan 7', cut: { by: 'all' }, found: NONE }, now);
    expect(pile.find(({ lot }) => lot === 'X')!.lengths).toEqual([1800]);
    expect(pile.map(({ lot }) => lot)).not.toContain(gone!.lot);
    const cut = pile.filter(({ lot }) => lot === `${gone!.lot} cut`).flatMap(barLengths);
    const pieces = plan.bars.filter(({ lot }) => lot === gone!.lot).flatMap((bar) => bar.pieces.map(pieceLength));
    expect(cut).toHaveLength(pieces.length);
  });

  test('a weld found since lies where it lies on what is left of a bar that is begun', () => {
    const begun = plan.bars.find((one) => one.lot === 'A' && one.pieces.length > 1)!;
    const at = begun.length - 150;
    const now = withLot(job, 'A', { spoiled: [{ from: at, to: at + 40 }] });
    const stop = pieceLength(begun.pieces[0]!);
    const pile = pileLeft(
      job,
      plan,
      new Set(),
      { by: 'p', cut: { by: 'stops', stop, next: new Set() }, found: NONE },
      now,
    );
    for (const lot of pile.filter((own) => /^A begun/.test(own.lot)))
      for (const length of barLengths(lot)) expect(lot.spoiled).toEqual([{ from: length - 150, to: length - 110 }]);
  });
});

describe('voids that were put right', () => {
  test('come along, and so do saw, bundles, vessel and aims; new ones too', () => {
    const stowed = marksIn('V4');
    const now: Job = {
      ...job,
      voids: [
        ...job.voids.map((own) => (own.void === 'V6' ? { ...own, height: own.height - 20 } : own)),
        { ...job.voids[0]!, void: 'V9', origin: { x: 1, y: 0, z: 0.3 } },
      ],
      saw: { ...job.saw, tolerance: 1 },
      bundle: { ...job.bundle, limit: 9 },
      vessel: { ...job.vessel!, displacement: 5000 },
      aims: { ...job.aims, ballast: job.aims.ballast! - 50 },
    };
    const [before, after] = [readLeft({ stowed }), readLeft({ stowed, now })];
    const height = (of: Job) => of.voids.find((own) => own.void === 'V6')!.height;
    expect(height(before) - height(after)).toBe(20);
    expect(after.voids.map((own) => own.void)).toEqual([...before.voids.map((own) => own.void), 'V9']);
    expect([after.saw.tolerance, after.bundle.limit, after.vessel!.displacement]).toEqual([1, 9, 5000]);
    expect(before.aims.ballast! - after.aims.ballast!).toBeCloseTo(50, 1);
  });

  test('in one that is now lower than what stands in it that is told, with both heights', () => {
    const stowed = marksIn('V4');
    const top = Math.ceil(
      Math.max(...plan.bundles.filter(({ bundle }) => stowed.has(bundle)).map(({ at, size }) => at.up + size.up)),
    );
    const told = (height: number) => {
      const now = { ...job, voids: job.voids.map((own) => (own.void === 'V4' ? { ...own, height } : own)) };
      return readLeft({ stowed, now })
        .voids.find((own) => own.void === 'V4')!
        .keepOut.at(-1)!.what!;
    };
    expect(told(top)).not.toContain('measure again');
    expect(told(top - 9)).toMatch(
      new RegExp(`, ${top} mm high where the void is stated as ${top - 9}: measure again$`),
    );
  });

  test('but one in which something stands is as it was planned where it was taken out, or bars would lie the other way', () => {
    const { job: trial, plan: laid } = trialPair();
    const stowed = new Set(laid.bundles.filter((own) => own.void === 'V2').map(({ bundle }) => bundle));
    const made = (voids: Job['voids'], of: ReadonlySet<string> = stowed) =>
      workLeft(trial, laid, { ...ALL_CUT, stowed: of, now: { ...trial, voids } })!.voids;
    const turned = trial.voids.map((own) => (own.void === 'V2' ? { ...own, axis: 'fore-and-aft' as const } : own));
    const axisIn = (voids: ReturnType<typeof made>) => voids.find((own) => own.void === 'V2')?.axis;
    expect(trial.voids.find((own) => own.void === 'V2')!.axis).toBe('athwartships');
    expect(axisIn(made(turned))).toBe('athwartships');
    const others = trial.voids.filter((own) => own.void !== 'V2');
    expect(axisIn(made(others))).toBe('athwartships');
    expect(
      axisIn(made(others, new Set(laid.bundles.flatMap((own) => (own.void === 'V2' ? [] : [own.bundle]))))),
    ).toBeUndefined();
  });

  test('with all of it the rest is planned and checks clean', async () => {
    const stowed = marksIn('V4');
    const now: Job = {
      ...withLot(job, 'A', { massPerMetre: 4 }),
      saw: { ...job.saw, kerf: job.saw.kerf + 0.8 },
      voids: job.voids.map((own) => (own.void === 'V6' ? { ...own, height: own.height - 20 } : own)),
    };
    const stop = stopsOf(job, plan)[1]!.length;
    const left = workLeft(job, plan, { ...ALL_CUT, stowed, cut: { by: 'stops', stop, next: new Set() }, now });
    const read = readJobValue(JSON.parse(JSON.stringify(left)));
    if (!read.ok) throw new Error(JSON.stringify(read.faults));
    expect(pileMass(read.value.job)).toBeLessThan(pileMass(now));
    let found = false;
    const next = await planJob(read.value.job, {
      effort: 'quick',
      stops: 'free',
      jobDigest: read.value.digest,
      onProgress: (progress) => {
        found ||= Boolean(progress.plan);
      },
      shouldStop: () => found,
    });
    if (next.kind !== 'plan') throw new Error('nothing is placed');
    expect(checkPlan(read.value.job, next.plan, read.value.digest)).toEqual([]);
  });
});
