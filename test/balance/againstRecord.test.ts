/** What was read, held against what is reckoned from the record: told where they are apart, silent where they agree. */
import { describe, expect, test } from 'vitest';
import {
  type Contradiction,
  compareWithRecord,
  type Floating,
  type FloatsBefore,
  floatsBefore,
  type Read,
  reckonedRoll,
} from '../../src/balance/againstRecord.ts';
import { foretoldWords, isListAgainst, takenAgainst } from '../../src/balance/againstWords.ts';
import { amount } from '../../src/balance/amount.ts';
import { effectOf } from '../../src/balance/float.ts';
import { sumMoments, weightsByVoid } from '../../src/balance/moments.ts';
import { type Reading, type Taken, weightsThen } from '../../src/balance/taken.ts';
import type { Job, Vessel } from '../../src/job/job.ts';
import { addedContents } from '../../src/plan/contents.ts';
import type { Plan } from '../../src/plan/plan.ts';
import { stackedPair } from '../server/paper/stackedPlan.ts';
import { vessel as known } from './knownVessel.ts';

const pair = stackedPair({ voids: 4, runs: 2, tiers: 3, across: 2 });
const DRAUGHTS = { draughtForward: 0.86, draughtAft: 1.12 };
const vessel: Vessel = { ...known, ...DRAUGHTS };
const ESTIMATED: Vessel = { displacement: 900, waterlineLength: 8, beam: 2.4, ...DRAUGHTS };
const jobOf = (own: Vessel | undefined): Job => ({ ...pair.job, vessel: own });
const inVoid = (names: string[]): Plan => ({
  ...pair.plan,
  bundles: pair.plan.bundles.filter((bundle) => names.includes(bundle.void)),
});
const weightsOf = (job: Job, plan: Plan) => [...weightsByVoid(job, plan).values()].flat();
const recordedOf = (job: Job, plan: Plan) => {
  const weights = weightsOf(job, plan);
  return { moments: sumMoments(weights), weights, placed: true };
};
const stated = (own: Vessel): FloatsBefore => floatsBefore(own, []);

/** How she floats by what is reckoned. */
function reckonedOf(job: Job, plan: Plan): Floating & { forward: number; aft: number; list: number } {
  const { marks, stability } = effectOf(job.vessel!, [...weightsOf(job, plan), ...addedContents(job)]);
  if (marks.kind !== 'answer' || stability.kind !== 'answer') throw new Error('not reckoned');
  return {
    forward: job.vessel!.draughtForward! + marks.forward.likely / 100,
    aft: job.vessel!.draughtAft! + marks.aft.likely / 100,
    list: stability.list.likely,
  };
}

const compared = (job: Job, plan: Plan, read: Read): Contradiction[] =>
  compareWithRecord(job, recordedOf(job, plan), read, stated(job.vessel ?? {}));
const job0 = jobOf(vessel);
const PARTS = [[], ['V1'], ['V2'], ['V1', 'V3'], ['V1', 'V2', 'V3', 'V4']];

describe('a reading', () => {
  test('that agrees with what is reckoned is not remarked upon, whatever is in her', () => {
    const held = jobOf({ ...vessel, list: 0.7 });
    held.voids = held.voids.map((space, n) => (n === 1 ? { ...space, keepOut: weighed(space.keepOut, 30) } : space));
    expect(addedContents(held)).toHaveLength(1);
    for (const job of [jobOf(vessel), jobOf(ESTIMATED), held])
      for (const names of PARTS) {
        const plan = inVoid(names);
        expect(compared(job, plan, reckonedOf(job, plan)), names.join()).toEqual([]);
      }
  });

  test('of a list is told as far to either side as it was read beyond what both may err', () => {
    const [job, plan] = [jobOf(vessel), inVoid(['V2'])];
    const { list } = reckonedOf(job, plan);
    expect(list).toBeGreaterThan(0.5);
    for (const by of [-3, -1.05, 1.05, 3]) {
      const found = compared(job, plan, { list: list + by, forward: null, aft: null });
      expect(found.map(({ what }) => what)).toEqual(['list']);
      expect(found[0]!.by.likely).toBeCloseTo(by, 9);
      expect(found[0]!.reckoned.likely).toBeCloseTo(list, 9);
      expect(Math.sign(found[0]!.weight!)).toBe(Math.sign(by));
    }
    for (const by of [-0.95, 0.95])
      expect(compared(job, plan, { list: list + by, forward: null, aft: null })).toEqual([]);
  });

  test('of a list tells the weight that would explain it', () => {
    const [job, plan] = [jobOf(vessel), inVoid(['V1', 'V2'])];
    const whole = inVoid(['V1', 'V2', 'V4']);
    const found = compared(job, plan, { ...reckonedOf(job, whole), forward: null, aft: null });
    const [unrecorded] = weightsOf(job, inVoid(['V4'])).slice(-1);
    const { acrossMoment } = sumMoments(weightsOf(job, inVoid(['V4'])));
    expect(unrecorded!.y).toBeGreaterThan(0);
    expect(found.map(({ what }) => what)).toEqual(['list']);
    // S is that without them: within what they add to her displacement.
    expect(Math.abs(found[0]!.weight! / acrossMoment - 1)).toBeLessThan(0.1);
  });

  test('of marks is told as a trim to either end, and as a depth by the mass that would explain it', () => {
    const [job, plan] = [jobOf(vessel), inVoid(['V1', 'V2'])];
    const agreed = reckonedOf(job, plan);
    const read = (forward: number, aft: number) =>
      compared(job, plan, { forward: agreed.forward + forward / 100, aft: agreed.aft + aft / 100, list: null });
    for (const by of [-4, 4]) {
      const [trim, ...others] = read(by / 2, -by / 2);
      expect(others).toEqual([]);
      expect(trim!.what).toBe('trim');
      expect(trim!.by.likely).toBeCloseTo(by, 9);
      expect(trim!.weight).toBeCloseTo(by * known.kgmPerCm, 6);
      expect(trim!.read - trim!.reckoned.likely).toBeCloseTo(by, 9);
      const [depth, ...rest] = read(by, by);
      expect(rest).toEqual([]);
      expect(depth!.what).toBe('depth');
      expect(depth!.weight).toBeCloseTo(by * known.kgPerCm, 6);
    }
    expect(read(0.9, -0.9)).toEqual([]);
    expect(read(0.9, 0.9)).toEqual([]);
    // A mark alone.
    for (const end of ['forward', 'aft'] as const) {
      const alone = { forward: null, aft: null, list: null, [end]: agreed[end] + 0.03 };
      const [mark, ...others] = compared(job, plan, alone);
      expect(others).toEqual([]);
      expect(mark!.what).toBe(end);
      expect(mark!.by.likely).toBeCloseTo(3, 9);
    }
  });

  test('of a roll is told where it is half as long again as reckoned, or as much quicker, whatever she lists', () => {
    for (const own of [vessel, { ...vessel, list: 6 }, ESTIMATED]) {
      const [job, plan] = [jobOf(own), inVoid(['V2'])];
      const reckoned = reckonedRoll(job, weightsOf(job, plan))!;
      const { stability } = effectOf({ ...own, list: 0 }, weightsOf(job, plan));
      if (stability.kind !== 'answer') throw new Error(stability.why);
      expect(reckoned.likely).toBeCloseTo(stability.period.likely, 9);
      const roll = (period: number) => compared(job, plan, { forward: null, aft: null, list: null, period });
      for (const period of [1.45 * reckoned.high, reckoned.likely, reckoned.low / 1.45])
        expect(roll(period)).toEqual([]);
      for (const period of [1.55 * reckoned.high, 10 * reckoned.likely, reckoned.low / 1.55])
        expect(roll(period)).toMatchObject([{ what: 'roll', read: period, weight: null }]);
    }
  });

  test('of a roll is foretold with each weight as far aside as it lies, whichever side that is', () => {
    const weights = weightsOf(job0, pair.plan).map((weight) => ({ ...weight, y: 1.1 }));
    const { mass } = sumMoments(weights);
    const upright = weights.map((weight) => ({ ...weight, y: 0 }));
    const { stability } = effectOf(vessel, upright);
    if (stability.kind !== 'answer') throw new Error(stability.why);
    // k′² = (W·(k² + (KG − KG′)²) + Σw·(y² + (z − KG′)²))/(W + w), and T = 2π·k′/√(g·GM′).
    const square = (some: typeof weights) =>
      (reckonedRoll(job0, some)!.likely / (2 * Math.PI)) ** 2 * 9.81 * stability.gm.likely;
    const aside = (mass * 1.1 ** 2) / (vessel.displacement! + mass);
    expect(square(weights) - square(upright)).toBeCloseTo(aside, 9);
    expect(square(weights.map((weight, n) => ({ ...weight, y: n % 2 === 0 ? 1.1 : -1.1 })))).toBeCloseTo(
      square(weights),
      9,
    );
  });

  test('of a roll is held against her beam alone where nothing else is stated: over 6.5 s of 2.4 m is a GM under 0.1 m', () => {
    const [job, plan] = [jobOf({ beam: 2.4 }), inVoid(['V2'])];
    // (0.85·2.4/T)² = 0.1.
    const longest = (0.85 * 2.4) / Math.sqrt(0.1);
    const roll = (period: number) => compared(job, plan, { forward: null, aft: null, list: null, period });
    expect(roll(longest - 0.01)).toEqual([]);
    expect(roll(31)).toMatchObject([{ what: 'slow', read: 31 }]);
    expect(roll(31)[0]!.reckoned.likely).toBeCloseTo(longest, 9);
    expect(compared(jobOf({}), plan, { forward: null, aft: null, list: null, period: 31 })).toEqual([]);
  });

  test('of the job mirrored to the other side is told mirrored', () => {
    const mirrored: Job = {
      ...jobOf({ ...vessel, list: -0.4 }),
      voids: pair.job.voids.map((space) => ({ ...space, origin: { ...space.origin, y: -space.origin.y } })),
    };
    const job = jobOf({ ...vessel, list: 0.4 });
    for (const names of PARTS) {
      const plan = inVoid(names);
      const other = {
        ...plan,
        bundles: plan.bundles.map((one) => ({ ...one, at: { ...one.at, across: -one.at.across - one.size.across } })),
      };
      const found = compared(job, plan, { forward: 0.95, aft: 1, list: -6 });
      const back = compared(mirrored, other, { forward: 0.95, aft: 1, list: 6 });
      expect(found.map(({ what }) => what)).toContain('list');
      expect(back).toHaveLength(found.length);
      found.forEach((one, n) => {
        const sign = one.what === 'list' ? -1 : 1;
        expect(back[n]!.what).toBe(one.what);
        expect(back[n]!.by.likely).toBeCloseTo(sign * one.by.likely, 6);
        expect(back[n]!.reckoned.likely).toBeCloseTo(sign * one.reckoned.likely, 6);
        expect(back[n]!.weight).toBeCloseTo(sign * one.weight!, 6);
      });
    }
  });

  test('is remarked upon only where it is beyond all of a range', () => {
    const [job, plan] = [jobOf(ESTIMATED), inVoid(['V1', 'V2'])];
    const { marks } = effectOf(ESTIMATED, weightsOf(job, plan));
    if (marks.kind !== 'answer') throw new Error(marks.why);
    const agreed = reckonedOf(job, plan);
    const deeper = (cm: number) =>
      compared(job, plan, { forward: agreed.forward + cm / 100, aft: agreed.aft + cm / 100, list: null });
    const spread = marks.sinkage.high - marks.sinkage.likely;
    expect(spread).toBeGreaterThan(0.05);
    expect(deeper(1 + spread / 2)).toEqual([]);
    expect(deeper(2 + 2 * spread).map(({ what }) => what)).toEqual(['depth']);
  });

  test('is not remarked upon where nothing can be reckoned', () => {
    const plan = inVoid(['V1']);
    const far = { forward: 2, aft: 0.2, list: 6 };
    for (const own of [undefined, {}, { displacement: 900 }, { ...known, gm: 0.1, draughtForward: undefined }])
      expect(compared(jobOf(own), plan, far), JSON.stringify(own)).toEqual([]);
    // No draughts to reckon from: the list alone. No places: what hangs on none.
    expect(compared(jobOf(known), plan, far).map(({ what }) => what)).toEqual(['list']);
    const unplaced = { ...recordedOf(jobOf(vessel), plan), placed: false };
    const found = compareWithRecord(jobOf(vessel), unplaced, { forward: 1.3, aft: 1.2, list: 6 }, stated(vessel));
    expect(found.map(({ what }) => what)).toEqual(['depth']);
  });
});

describe('what it is reckoned from', () => {
  const NOTHING = { mass: 0, alongMoment: 0, acrossMoment: 0, heightMoment: 0 };
  const EMPTY = { plan: 7, bundles: [], moments: NOTHING };
  const taken = (number: number, reading: Partial<Reading>): Taken => ({
    id: number,
    number,
    writtenAt: '',
    before: [],
    reading: {
      ...{ on: '2026-05-04', at: '', who: '', note: '', forward: null, aft: null, list: null, period: null },
      freeboards: { forward: null, aft: null, port: null, starboard: null },
      aboard: EMPTY,
      struck: false,
      ...reading,
    },
  });
  const job = jobOf(vessel);
  const laden = (serial = 7) => ({
    plan: serial,
    bundles: inVoid(['V2']).bundles.map(({ bundle }) => bundle),
    moments: recordedOf(job, inVoid(['V2'])).moments,
  });
  const against = (all: Taken[], own: Job = job) =>
    takenAgainst({ job: own, plan: pair.plan, serial: 7, all }, all.at(-1)!);

  test('is the last that counts with nothing in her, else what is stated', () => {
    const all = [
      taken(1, { forward: 0.9, aft: 1, list: 1 }),
      taken(2, { forward: 0.91 }),
      taken(3, { forward: 0.7, aft: 0.7, list: 3, struck: true }),
      taken(4, { forward: 0.99, aft: 1.2, list: -2, aboard: laden() }),
    ];
    expect(floatsBefore(vessel, all)).toEqual({ forward: 0.9, aft: 1, list: 1, marksOf: 1, listOf: 1 });
    const own = { forward: 0.86, aft: 1.12, list: null, marksOf: null, listOf: null };
    expect(floatsBefore(vessel, [])).toEqual(own);
    expect(floatsBefore(undefined, [])).toEqual({ ...own, forward: null, aft: null });
  });

  test('holds what lies in the voids where it was read, and not where it is stated', () => {
    const lying = { ...job, voids: job.voids.map((space) => ({ ...space, keepOut: weighed(space.keepOut, 40) })) };
    lying.voids = lying.voids.filter(({ void: name }) => name === 'V2' || name === 'V4');
    const nothing = { moments: NOTHING, weights: [], placed: true };
    const read = { forward: 0.86, aft: 1.12, list: 1 };
    const before = { ...read, marksOf: 1, listOf: 1 };
    expect(compareWithRecord(lying, nothing, read, before)).toEqual([]);
    const [list, ...marks] = compareWithRecord(lying, nothing, read, { ...before, marksOf: null, listOf: null });
    expect(list!.reckoned.likely).toBeGreaterThan(2);
    expect(marks.map(({ what }) => what)).toContain('depth');
  });

  test('counts a list that was read before with the bundles, so that it explains what was read after', () => {
    const after = reckonedOf(jobOf({ ...vessel, list: -2 }), inVoid(['V2']));
    const read = taken(2, { list: after.list, aboard: laden() });
    expect(against([read])!.lines).toHaveLength(1);
    expect(against([taken(1, { list: -2 }), read])).toBeNull();
  });

  test('tells beside a roll the one that the same bundles have on every other page', () => {
    const { stability } = effectOf(vessel, weightsOf(job, inVoid(['V2'])));
    if (stability.kind !== 'answer') throw new Error(stability.why);
    const one = taken(1, { period: 3, aboard: laden() });
    const told = foretoldWords({ job, plan: pair.plan, serial: 7, all: [one] }, one);
    expect(told).toBe(`Foretold: one roll ${amount(stability.period, 1, 's')}.`);
    // Heavier by the scale than planned: so much as was written down then.
    const { bundles, moments } = laden();
    const heavier = { plan: 7, bundles, moments: { ...moments, mass: 1.1 * moments.mass } };
    expect(sumMoments(weightsThen(job, pair.plan, heavier)).mass).toBeCloseTo(1.1 * moments.mass, 9);
  });

  test('is told with what was reckoned, what was read, by how much, and what to look at', () => {
    const { list } = reckonedOf(job, inVoid(['V2']));
    const words = against([taken(1, { list: -1.5, forward: 0.86, aft: 1.12, aboard: laden() })])!;
    expect(words.lines[0]).toMatch(
      `List: reckoned ${list.toFixed(1)}° to starboard, read 1.5° to port: ${(list + 1.5).toFixed(1)}° farther to port, as about`,
    );
    expect(words.from).toMatch(/^Reckoned from .*what the record has in her\. No list of her own is stated/);
    for (const look of ['side', 'bilge', 'people', 'tanks', 'another void', 'mooring'])
      expect(words.look).toContain(look);
    const marks = against([taken(1, { forward: 0.86, aft: 1.2 })])!;
    expect(marks.lines).toEqual([
      expect.stringContaining(
        'Trim: reckoned 26.0 cm by the stern, read 34.0 cm by the stern: 8.0 cm more by the stern',
      ),
      expect.stringContaining(
        'Depth: reckoned as before, read 4.0 cm down: 4.0 cm deeper, as with about 240 kg more in her',
      ),
    ]);
    expect(marks.from).toBe('Reckoned from her draughts as stated, and nothing of the plan in her.');
    expect(marks.look).not.toContain('side');
  });

  test('asks of a mark that can not be hers whether a point slipped, in place of a weight that would explain it', () => {
    const words = against([taken(1, { forward: 8.91, aft: 1.12, aboard: laden() })])!;
    expect(words.slipped).toBe(true);
    expect(words.lines[0]).toBe(
      'Fore end: 8.91 m and 0.86 m before do not go together: was a point or a digit slipped?',
    );
    expect(words.lines.join(' ')).not.toContain('kg');
    const empty = against([taken(1, { forward: 8.91, aft: 1.12 })])!;
    expect(empty.lines).toHaveLength(1);
    expect(empty.from).toBe('Her draughts before are those as stated.');
    expect(empty.look).not.toContain('bilge');
    const from = against([
      taken(3, { forward: 0.9, aft: 8.4 }),
      taken(4, { forward: 0.9, aft: 0.84, aboard: laden() }),
    ])!;
    expect(from.lines).toContain(
      'After end: 0.84 m and 8.4 m before do not go together: was a point or a digit slipped?',
    );
    expect(from.from).toMatch(/of no\. 3/);
    // Half a metre may be hers: then it is a trim and a depth.
    const far = against([taken(1, { forward: 1.3, aft: 1.12 })])!;
    expect([far.slipped, far.lines[0]!.slice(0, 5)]).toEqual([false, 'Trim:']);
    // Without anything else stated of her, too.
    const bare = jobOf(undefined);
    const all = [taken(1, { forward: 0.86, aft: 1.12 }), taken(2, { forward: 8.91, aft: 1.12, aboard: laden() })];
    expect(against(all, bare)!.lines).toHaveLength(1);
  });

  test('is nothing to one that was taken back, or to what was read with another plan in her', () => {
    const read = { list: -4, aboard: laden() };
    const of = { job, plan: pair.plan, serial: 7, all: [] };
    expect(isListAgainst(of, taken(1, read))).toBe(true);
    expect(isListAgainst(of, taken(1, { forward: 2, aft: 2, aboard: laden() }))).toBe(false);
    expect(against([taken(1, read)])).not.toBeNull();
    expect(against([taken(1, { ...read, struck: true })])).toBeNull();
    expect(against([taken(1, { ...read, aboard: laden(8) })])).toBeNull();
    const nowhere = { ...job, voids: job.voids.map((space) => ({ ...space, origin: { x: 0, y: 0, z: 0 } })) };
    expect(against([taken(1, read)], nowhere)).toBeNull();
  });
});

function weighed(keepOut: Job['voids'][number]['keepOut'], mass: number): Job['voids'][number]['keepOut'] {
  return keepOut.map((one) => ({ ...one, mass }));
}
