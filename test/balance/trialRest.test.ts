import { describe, expect, test } from 'vitest';
import { effectOf } from '../../src/balance/float.ts';
import { weightsAboard } from '../../src/balance/moments.ts';
import { compareTrial, stowedWeights } from '../../src/balance/trial.ts';
import { placeRest } from '../../src/balance/trialRest.ts';
import type { Job } from '../../src/job/job.ts';
import type { Plan } from '../../src/plan/plan.ts';
import { smallJob, stow } from './stowed.ts';

const job = smallJob();
const vessel = job.vessel!;

/** 150 kg in the void to port, 0.6 m from the centreline, that her own figures hold (`aboard`) or do not. */
function jobHolding(aboard: boolean): Job {
  const held = smallJob();
  const content = { what: 'old pig', mass: 150, aboard, along: [0, 90], across: [-45, 45], up: [0, 90], access: false };
  held.voids[1]!.keepOut.push(content as Job['voids'][number]['keepOut'][number]);
  return held;
}

describe('what lies in the voids', () => {
  const plan = stow({ F: 8, P: 20, S: 20, A: 8 });
  const none = new Map(['F', 'P', 'S', 'A'].map((name) => [name, 0]));
  const down = { forward: 2.4, aft: 2.1 };
  const across = (placed: ReadonlyMap<string, number>) => placed.get('S')! - placed.get('P')!;

  test('has the rest go in on its other side, and sinks her by its part of the marks wanted', () => {
    const without = placeRest(job, plan, vessel, none, down)!;
    const beside = placeRest(jobHolding(false), plan, vessel, none, down)!;
    // 150 kg × 0.6 m are 15 bundles of 10 kg at 0.6 m.
    expect(across(without.counts)).toBe(0);
    expect(across(beside.counts)).toBeGreaterThan(10);
    const put = (counts: ReadonlyMap<string, number>) => [...counts.values()].reduce((sum, count) => sum + count);
    expect(put(without.counts) - put(beside.counts)).toBeGreaterThan(10);
  });

  test('is not counted twice where her own figures hold it', () => {
    expect(placeRest(jobHolding(true), plan, vessel, none, down)).toEqual(placeRest(job, plan, vessel, none, down));
  });

  test('leaves all in where the marks wanted are those of the whole plan with it', () => {
    const held = jobHolding(false);
    const { marks } = effectOf(vessel, weightsAboard(held, stow({ S: 15 })));
    if (marks.kind !== 'answer') throw new Error(marks.why);
    const all = { forward: marks.forward.likely, aft: marks.aft.likely };
    const placed = placeRest(held, stow({ S: 15 }), vessel, new Map([['S', 0]]), all)!;
    expect(placed.counts.get('S')).toBe(15);
    expect([placed.forward, placed.aft]).toEqual([expect.closeTo(0, 9), expect.closeTo(0, 9)]);
  });

  test('changes how she rolls, and nothing between the two readings of her marks', () => {
    const stowed = stowedWeights(job, plan, new Map([['F', 8]]));
    const before = { forward: 0.86, aft: 1.12 };
    const readings = { before, after: { forward: 0.87, aft: 1.12 }, period: 3 };
    const high = { mass: 150, x: 3.8, y: 0, z: 2 };
    const [without, beside] = [[], [high]].map((contents) => compareTrial(vessel, stowed, readings, contents));
    expect([beside!.forward, beside!.aft, beside!.vessel]).toEqual([without!.forward, without!.aft, without!.vessel]);
    expect(beside!.period).toBeGreaterThan(without!.period!);
  });
});

describe('from marks that were read', () => {
  const plan = stow({ F: 8, P: 20, S: 20, A: 8 });
  const stowed = new Map([
    ['F', 4],
    ['P', 10],
    ['S', 10],
    ['A', 4],
  ]);
  const down = { forward: 2.4, aft: 2.1 };

  /** How far the marks go down, cm: w/(kg per cm) everywhere, and Σw·(x − LCF)/(kg·m per cm) of trim about LCF. */
  function downBy(counts: ReadonlyMap<string, number>): { forward: number; aft: number } {
    const weights = stowedWeights(job, plan, counts);
    const sunk = weights.reduce((sum, { mass }) => sum + mass, 0) / vessel.kgPerCm!;
    const trim = weights.reduce((sum, { mass, x }) => sum + mass * (x - vessel.lcf!), 0) / vessel.kgmPerCm!;
    const share = vessel.lcf! / vessel.waterlineLength!;
    return { forward: sunk + trim * (1 - share), aft: sunk - trim * share };
  }

  test('only what goes in after them is reckoned: what was read otherwise than forecast stays in what is told', () => {
    for (const [forward, aft] of [
      [-0.6, 0.5],
      [0.3, -0.4],
      [-1.5, -1.2],
    ] as const) {
      const read = { counts: stowed, forward, aft };
      const rest = placeRest(job, plan, vessel, stowed, down, 0, read)!;
      const [then, last] = [downBy(stowed), downBy(rest.counts)];
      expect(rest.forward).toBeCloseTo(forward + last.forward - then.forward, 6);
      expect(rest.aft).toBeCloseTo(aft + last.aft - then.aft, 6);
    }
  });

  test('marks read as forecast change nothing', () => {
    const then = downBy(stowed);
    const read = { counts: stowed, forward: then.forward - down.forward, aft: then.aft - down.aft };
    const [by, without] = [read, null].map((marks) => placeRest(job, plan, vessel, stowed, down, 0, marks)!);
    expect(by!.counts).toEqual(without!.counts);
    expect([by!.forward, by!.aft]).toEqual([expect.closeTo(without!.forward, 6), expect.closeTo(without!.aft, 6)]);
  });
});

test('sixty voids of thirty bundles: every bundle is weighed once, whatever is tried', () => {
  const voids = Array.from({ length: 60 }, (_, n) => ({
    ...job.voids[n % 4]!,
    void: `V${n}`,
    origin: { x: 1 + n / 10, y: n % 2 === 0 ? 0.3 : -0.3, z: 0.4 },
  }));
  let weighed = 0;
  const bundles = voids.flatMap(({ void: name }) =>
    Array.from({ length: 30 }, (_, n) => ({
      void: name,
      order: n + 1,
      get mass() {
        weighed += 1;
        return 2 + (n % 5) / 10;
      },
      size: { along: 600, across: 60, up: 36 },
      at: { along: 100, across: -120, up: 14 },
    })),
  );
  const plan = { bundles, voids: voids.map((space) => ({ void: space.void })) } as unknown as Plan;
  const none = new Map(voids.map((space) => [space.void, 0]));
  const placed = placeRest({ ...job, voids }, plan, vessel, none, { forward: 9, aft: 9 })!;
  expect(Math.hypot(placed.forward, placed.aft)).toBeLessThan(0.05);
  expect(weighed).toBe(bundles.length);
});
