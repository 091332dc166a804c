import { describe, expect, test } from 'vitest';
import { aimsFor } from '../../src/balance/aims.ts';
import { effectOf } from '../../src/balance/float.ts';
import { missOf } from '../../src/balance/miss.ts';
import { centreOf, sumMoments, trialWeight, weightsByVoid } from '../../src/balance/moments.ts';
import { rollByVoid } from '../../src/balance/telling.ts';
import { compareTrial, stowedWeights } from '../../src/balance/trial.ts';
import { placeRest } from '../../src/balance/trialRest.ts';
import { fixedPart, shareIn } from '../../src/plan/share.ts';
import { smallJob, stow } from './stowed.ts';

const job = smallJob();
const vessel = job.vessel!;

describe('moments', () => {
  test('moments by void add up to moments by bundle', () => {
    const byVoid = weightsByVoid(job, stow({ F: 5, P: 7, S: 6, A: 3 }, 7.37));
    const whole = sumMoments([...byVoid.values()].flat());
    const parts = [...byVoid.values()].map((weights) => sumMoments(weights));
    for (const name of ['mass', 'alongMoment', 'acrossMoment', 'heightMoment'] as const) {
      const sum = parts.reduce((total, part) => total + part[name], 0);
      expect(Math.abs(sum - whole[name])).toBeLessThanOrEqual(1e-9 * Math.abs(whole[name]));
    }
  });

  test('a bundle lies where its void and its lie put it', () => {
    const [ahead] = weightsByVoid(job, stow({ F: 1 })).get('F')!;
    expect([ahead!.mass, ahead!.x, ahead!.y]).toEqual([10, 6.4, -0.09]);
    expect(ahead!.z).toBeCloseTo(0.432, 9);
    const [across] = weightsByVoid(job, stow({ A: 1 })).get('A')!;
    expect(across!.x).toBeCloseTo(1.11, 9);
    expect(across!.y).toBeCloseTo(0, 9);
  });

  test('a bundle moved forward trims her by the head', () => {
    const plan = stow({ F: 4, P: 4, S: 4, A: 4 });
    const trim = (moved: string | null) => {
      const bundles = plan.bundles.map((one) =>
        one.bundle === moved ? { ...one, at: { ...one.at, along: one.at.along + 60 } } : one,
      );
      const { marks } = effectOf(vessel, [...weightsByVoid(job, { ...plan, bundles }).values()].flat());
      if (marks.kind !== 'answer') throw new Error(marks.why);
      return marks.trim.likely;
    };
    for (const { bundle, void: name } of plan.bundles) {
      if (name !== 'A') expect(trim(bundle)).toBeGreaterThan(trim(null));
    }
  });

  test('a trial amount lies low in the middle of its void', () => {
    const place = job.voids[0]!;
    const light = trialWeight(place, 10, 7850);
    const heavy = trialWeight(place, 60, 7850);
    expect([light.x, light.y]).toEqual([6.4, 0]);
    const { length, width, clear, dunnage } = place;
    const area = (length - 2 * clear.ends) * (width - 2 * clear.sides);
    expect(light.z).toBeCloseTo(0.4 + (dunnage + 10 / (0.55 * area * 7850e-9) / 2) / 1000, 9);
    expect(heavy.z).toBeGreaterThan(light.z);
    expect(trialWeight(place, 10_000, 7850).z).toBeCloseTo(0.48, 9);
  });
});

describe('the miss', () => {
  const wanted = { down: { forward: 2, aft: 2 }, upright: true, within: 1 };

  test('marks within the tolerance are no miss', () => {
    const miss = missOf(job, stow({ F: 8, P: 7, S: 7, A: 8 }), wanted)!;
    expect(Math.abs(miss.forward!)).toBeLessThanOrEqual(1);
    expect(Math.abs(miss.aft!)).toBeLessThanOrEqual(1);
    expect(miss.prevents).toBeNull();
    expect(Math.abs(miss.list!)).toBeLessThan(0.2);
  });

  test('all of it forward: the miss in centimetres, and the void aft that takes no more', () => {
    const capped = smallJob({ A: { most: 10 } });
    const miss = missOf(capped, stow({ F: 16, P: 6, S: 6, A: 1 }), wanted)!;
    expect(miss.forward!).toBeGreaterThan(1);
    expect(miss.aft!).toBeLessThan(-1);
    expect(miss.prevents).toMatchObject({
      void: 'A',
      why: expect.stringContaining('holds 10 kg of the 10 kg that it was allowed'),
    });
  });

  test('all of it aft: the void forward', () => {
    const miss = missOf(job, stow({ F: 1, P: 6, S: 6, A: 16 }), wanted)!;
    expect(miss.prevents).toMatchObject({ void: 'F', why: expect.stringContaining('furthest forward') });
  });

  test('the aims for marks are met by the plan whose marks they are', () => {
    const plan = stow({ F: 8, P: 7, S: 7, A: 8 });
    const { ballast, centre } = aimsFor(vessel, wanted);
    const placed = centreOf([...weightsByVoid(job, plan).values()].flat())!;
    expect(placed.mass).toBeCloseTo(ballast!, 9);
    expect(placed.x).toBeGreaterThan(centre.x![0]);
    expect(placed.x).toBeLessThan(centre.x![1]);
  });
});

describe('the fixed share and the trial', () => {
  const plan = stow({ F: 8, P: 7, S: 7, A: 8 });

  test('the fixed share takes the first bundles of every void up to the share of its mass', () => {
    expect([...fixedPart(plan, 0.75)]).toEqual([
      ['F', 6],
      ['P', 5],
      ['S', 5],
      ['A', 6],
    ]);
    expect(shareIn(plan, fixedPart(plan, 0.75))).toBeCloseTo(22 / 30, 9);
    expect(shareIn(plan, new Map())).toBe(0);
    expect([...fixedPart(plan, 0).values()]).toEqual([0, 0, 0, 0]);
    expect([...fixedPart(plan, 1).values()]).toEqual([8, 7, 7, 8]);
  });

  test('readings as forecast correct nothing; she sinks more than forecast and kg per cm is corrected', () => {
    const stowed = stowedWeights(job, plan, fixedPart(plan, 0.75));
    const { marks } = effectOf(vessel, stowed);
    if (marks.kind !== 'answer') throw new Error(marks.why);
    const before = { forward: 0.86, aft: 1.12 };
    const read = (factor: number) =>
      compareTrial(vessel, stowed, {
        before,
        after: { forward: 0.86 + (factor * marks.forward.likely) / 100, aft: 1.12 + (factor * marks.aft.likely) / 100 },
      });
    expect(read(1).forward).toBeCloseTo(0, 9);
    expect(read(1).vessel.kgPerCm).toBeCloseTo(150, 6);
    expect(read(1.25).aft!).toBeLessThan(0);
    expect(read(1.25).vessel.kgPerCm).toBeCloseTo(120, 6);
  });

  test('a figure is taken only where the marks moved enough to tell it, and its range is told', () => {
    // 22 bundles of 100 kg: 14.7 cm deeper, and little trim.
    const heavy = stowedWeights(job, stow({ F: 8, P: 7, S: 7, A: 8 }, 100), fixedPart(plan, 0.75));
    const before = { forward: 0.86, aft: 1.12 };
    const read = (weights: typeof heavy, forward: number, aft: number) =>
      compareTrial(vessel, weights, { before, after: { forward: 0.86 + forward / 100, aft: 1.12 + aft / 100 } });
    const deep = read(heavy, 14.5, 14.5);
    expect(Object.keys(deep.figures)).toEqual(['kgPerCm']);
    expect(deep.corrections[0]).toBe(
      'kg per cm from the marks: 152 kg; from 147 to 157 kg, as each mark is read to half a centimetre.',
    );
    expect(deep.corrections[1]).toContain('Moment to trim 1 cm: the marks moved too little to tell it');
    expect(deep.vessel.kgmPerCm).toBe(60);

    const ahead = stowedWeights(job, stow({ F: 20, P: 0, S: 0, A: 0 }), new Map([['F', 20]]));
    expect(ahead).toHaveLength(20);
    const little = read(ahead, 2.5, 0.2);
    expect(little.figures).toEqual({});
    expect(little.corrections.join()).toMatch(/Moment to trim 1 cm could be anything from \d+ to \d+ kg·m/);
    expect(little.vessel).toEqual(vessel);
    const much = read(ahead, 5.5, -2.5);
    expect(much.figures.kgmPerCm).toBeGreaterThan(60);
  });

  test('trim that these weights can hardly make tells nothing of her', () => {
    const stowed = stowedWeights(job, plan, fixedPart(plan, 0.75));
    const { marks } = effectOf(vessel, stowed);
    if (marks.kind !== 'answer') throw new Error(marks.why);
    expect(Math.abs(marks.trim.likely)).toBeLessThan(1);
    const by = 2.5 * Math.sign(marks.trim.likely);
    const before = { forward: 0.86, aft: 1.12 };
    const after = { forward: 0.86 + (1.5 + by) / 100, aft: 1.12 + (1.5 - by) / 100 };
    expect(compareTrial(vessel, stowed, { before, after }).figures.kgmPerCm).toBeUndefined();
  });

  test('the rest is placed so that she comes nearer to the marks, without taking out what is stowed', () => {
    const fixed = fixedPart(plan, 0.75);
    const down = { forward: 2.1, aft: 1.6 };
    const placed = placeRest(job, plan, vessel, fixed, down)!;
    for (const [name, count] of placed.counts) {
      expect(count).toBeGreaterThanOrEqual(fixed.get(name)!);
      expect(count).toBeLessThanOrEqual(plan.voids.find((one) => one.void === name)!.bundles);
    }
    const missBy = (counts: ReadonlyMap<string, number>) => {
      const { marks } = effectOf(vessel, stowedWeights(job, plan, counts));
      if (marks.kind !== 'answer') throw new Error(marks.why);
      return Math.hypot(marks.forward.likely - down.forward, marks.aft.likely - down.aft);
    };
    expect(missBy(placed.counts)).toBeLessThan(missBy(fixed));
    expect(Math.hypot(placed.forward, placed.aft)).toBeCloseTo(missBy(placed.counts), 9);
  });

  test('where the combinations are many, steps come to a choice no worse than stopping or putting all in', () => {
    const large = stow({ F: 30, P: 30, S: 30, A: 30 }, 2.5);
    const none = new Map(['F', 'P', 'S', 'A'].map((name) => [name, 0]));
    const all = new Map(['F', 'P', 'S', 'A'].map((name) => [name, 30]));
    const down = { forward: 1.4, aft: 0.9 };
    const placed = placeRest(job, large, vessel, none, down)!;
    expect(Math.hypot(placed.forward, placed.aft)).toBeLessThan(0.1);
    expect(placed.counts.get('P')).toBe(placed.counts.get('S'));
    expect(placeRest(job, large, vessel, all, down)!.counts).toEqual(all);
  });
});

describe('she rolls too much', () => {
  test('low ballast makes the roll quicker, weight high up makes it slower', () => {
    const low = rollByVoid(job, 50)!;
    expect(low.find((one) => one.void === 'F')!.way).toBe('quicker');
    const high = smallJob();
    for (const place of high.voids) place.origin = { ...place.origin, z: 2.4 };
    expect(rollByVoid(high, 50)!.every((one) => one.way === 'slower')).toBe(true);
  });

  test('nothing is told where her figures are not known', () => {
    expect(rollByVoid({ ...job, vessel: undefined }, 50)).toBeNull();
    expect(rollByVoid({ ...job, vessel: { hull: 'wood' } }, 50)).toBeNull();
  });
});
