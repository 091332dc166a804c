import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { aimsFor } from '../../src/balance/aims.ts';
import { amount } from '../../src/balance/amount.ts';
import { effectOf } from '../../src/balance/float.ts';
import { marginsOf } from '../../src/balance/limits.ts';
import { centreOf, trialRoom, trialWeight, type Weight } from '../../src/balance/moments.ts';
import { known } from '../../src/balance/range.ts';
import { correctFromMarks, gmFromInclining, tangentOf, trimMomentFromShift } from '../../src/balance/readings.ts';
import { targetsFor } from '../../src/balance/targets.ts';
import { sentenceOf } from '../../src/balance/telling.ts';
import type { Vessel } from '../../src/job/job.ts';
import { loadSmall } from '../../src/linear/small.ts';
import { smallJob } from './stowed.ts';

const VESSEL: Vessel = {
  displacement: 4900,
  displacementMost: 5700,
  freeboard: 0.68,
  freeboardLeast: 0.55,
  vcg: 1.16,
  gm: 0.66,
  beam: 2.6,
  waterlineLength: 8.2,
  lcf: 3.86,
  kgPerCm: 150,
  kgmPerCm: 60,
};

describe('aims by effect', () => {
  test('ballast placed where the aims say sinks her to the marks wanted', () => {
    const down = fc.record({
      forward: fc.double({ min: 2, max: 6, noNaN: true }),
      aft: fc.double({ min: 2, max: 6, noNaN: true }),
    });
    fc.assert(
      fc.property(down, (wanted) => {
        const { ballast, centre, impossible } = aimsFor(VESSEL, { down: wanted, within: 1 });
        expect(impossible).toEqual([]);
        for (const share of [0, 0.5, 1]) {
          const x = centre.x![0] * (1 - share) + centre.x![1] * share;
          const { marks } = effectOf(VESSEL, [{ mass: ballast!, x, y: 0, z: 0.4 }]);
          if (marks.kind !== 'answer') throw new Error(marks.why);
          expect(Math.abs(marks.forward.likely - wanted.forward)).toBeLessThan(1 + 1e-9);
          expect(Math.abs(marks.aft.likely - wanted.aft)).toBeLessThan(1 + 1e-9);
        }
      }),
    );
  });

  test('a centre inside the aims for no list lists her half a degree at most', () => {
    const { centre } = aimsFor(VESSEL, { ballast: 500, upright: true });
    const { stability } = effectOf(VESSEL, [{ mass: 500, x: 4, y: centre.y![1], z: 0.6 }]);
    if (stability.kind !== 'answer') throw new Error(stability.why);
    expect(stability.list.likely).toBeLessThan(0.5);
    expect(stability.list.likely).toBeGreaterThan(0.4);
  });

  test('a centre inside the aims for a GM gives that GM within 5 %', () => {
    const { centre } = aimsFor(VESSEL, { ballast: 500, gm: 0.72 });
    for (const z of centre.z!) {
      const { stability } = effectOf(VESSEL, [{ mass: 500, x: 4, y: 0, z }]);
      if (stability.kind !== 'answer') throw new Error(stability.why);
      expect(Math.abs(stability.gm.likely / 0.72 - 1)).toBeLessThan(0.0501);
    }
  });

  describe('a roll wanted', () => {
    /** Timed, so that her own coefficient is known, 0.95; and one that rolls slowly on a small GM. */
    const own: Vessel = { displacement: 4200, vcg: 0.8, gm: 0.5, beam: 2.6, waterlineLength: 7.2, rollPeriod: 3.5 };
    const tender: Vessel = {
      displacement: 2600,
      vcg: 0.85,
      gm: 0.14,
      beam: 2.1,
      waterlineLength: 6.4,
      rollPeriod: 3.6,
    };
    const rolls = (vessel: Vessel, mass: number, z: number, y = 0) => {
      const { stability } = effectOf(vessel, [
        { mass: mass / 2, x: 3, y, z },
        { mass: mass / 2, x: 3, y: -y, z },
      ]);
      if (stability.kind !== 'answer') throw new Error(stability.why);
      return stability;
    };

    test('is what she then rolls in, whatever is known of her and however far out the ballast lies', () => {
      const cases = fc.record({
        vessel: fc.constantFrom(own, tender, VESSEL, { ...VESSEL, gm: undefined, rollPeriod: 2.9 }),
        mass: fc.integer({ min: 100, max: 700 }),
        share: fc.double({ min: 0.85, max: 1.1, noNaN: true }),
        across: fc.constantFrom(0, 0.3, 0.7),
      });
      let had = 0;
      fc.assert(
        fc.property(cases, ({ vessel, mass, share, across }) => {
          const now = rolls(vessel, 0.001, vessel.vcg!).period.likely;
          const { centre } = aimsFor(vessel, { ballast: mass, period: now * share }, [], across);
          for (const z of centre.z ?? []) {
            had++;
            expect(Math.abs(rolls(vessel, mass, z, across).period.likely / (now * share) - 1)).toBeLessThan(0.0251);
          }
        }),
      );
      expect(had).toBeGreaterThan(40);
    });

    test('quicker asks for ballast low, slower for ballast high, and says that her GM is lowered', () => {
      const quicker = aimsFor(own, { ballast: 400, period: 3.3 });
      expect(quicker).toMatchObject({ impossible: [], doubts: [] });
      const [low, high] = quicker.centre.z!;
      // On the centreline 3.30 s is had at 0.65 m.
      expect(low).toBeLessThan(0.65);
      expect(high).toBeGreaterThan(0.65);
      const slower = aimsFor(tender, { ballast: 200, period: 3.9 });
      expect(slower.centre.z![0]).toBeGreaterThan(tender.vcg!);
      expect(slower.doubts).toEqual([expect.stringMatching(/LOWERS her GM from 0\.14 .*naval architect/)]);
      expect(aimsFor(tender, { ballast: 200, gm: 0.12 }).doubts).toEqual([expect.stringContaining('LOWERS')]);
    });

    test('what no height of this ballast gives is told with what the keel itself gives', () => {
      expect(aimsFor(tender, { ballast: 50, period: 2 }).impossible).toEqual([
        expect.stringMatching(/on the keel itself it leaves her 3\.\d s/),
      ]);
      expect(aimsFor(tender, { ballast: 200, period: 6 }).impossible).toEqual([
        expect.stringMatching(/GM of 0\.10 m left.*dangerous/),
      ]);
      expect(aimsFor(VESSEL, { ballast: 400, period: 3.2 }).impossible).toEqual([
        expect.stringMatching(/even 2\.3 m above the keel it leaves her 2\.\d s/),
      ]);
      expect(aimsFor({ beam: 2 }, { ballast: 200, period: 3 }).impossible).toEqual([
        expect.stringContaining('are needed to say how high'),
      ]);
      expect(aimsFor(tender, { period: 3 }).impossible).toEqual([expect.stringContaining('How much ballast')]);
    });
  });

  test.each([
    ['a trim without an amount', { trim: 2 }],
    ['a GM that asks for a centre below the keel', { ballast: 100, gm: 1.2 }],
    ['a trim that asks for a centre ahead of the stem', { ballast: 50, trim: 12 }],
    ['marks that ask for less weight', { down: { forward: -2, aft: -2 } }],
  ])('%s is told as impossible', (_, wanted) => {
    expect(aimsFor(VESSEL, wanted).impossible).toHaveLength(1);
  });
});

test('ballast over the most that she may displace is asked back, over all that she weighs it is impossible', () => {
  expect(aimsFor(VESSEL, { ballast: 800, trim: 0 })).toMatchObject({ doubts: [], impossible: [] });
  const over = aimsFor(VESSEL, { ballast: 900, trim: 0 });
  expect(over.impossible).toEqual([]);
  expect(over.doubts).toEqual([expect.stringContaining('100 kg over the most that she may displace')]);
  expect(aimsFor(VESSEL, { ballast: 4901, trim: 0 }).impossible).toEqual([expect.stringContaining('(4900 kg)')]);
});

describe('amounts for every void', () => {
  const job = smallJob();

  test('put the centre inside the aims, take the ballast wanted, and no void takes more than it may', async () => {
    const engine = await loadSmall();
    const wanted = { down: { forward: 2, aft: 2 }, upright: true };
    const aims = aimsFor(job.vessel!, wanted);
    const targets = targetsFor(job, aims, engine)!;
    expect([...targets.keys()]).toEqual(['F', 'P', 'S', 'A']);
    const weights = job.voids.map((place) => trialWeight(place, targets.get(place.void)!, 7850));
    const centre = centreOf(weights)!;
    expect(Math.abs(centre.mass - aims.ballast!)).toBeLessThanOrEqual(2);
    expect(centre.x).toBeGreaterThan(aims.centre.x![0] - 0.02);
    expect(centre.x).toBeLessThan(aims.centre.x![1] + 0.02);
    expect(Math.abs(centre.y)).toBeLessThan(aims.centre.y![1] + 0.01);
    for (const place of job.voids) expect(targets.get(place.void)!).toBeLessThanOrEqual(trialRoom(place, 7850) + 0.5);
    const { marks } = effectOf(job.vessel!, weights);
    if (marks.kind !== 'answer') throw new Error(marks.why);
    expect(Math.abs(marks.forward.likely - 2)).toBeLessThan(1);
    expect(Math.abs(marks.aft.likely - 2)).toBeLessThan(1);
  });

  test('are none where the voids lie wrong for it, take too little, or nothing is asked for', async () => {
    const engine = await loadSmall();
    expect(targetsFor(job, { ballast: 200, centre: { x: [7.5, 8] } }, engine)).toBeNull();
    expect(targetsFor(job, { ballast: 1e5, centre: {} }, engine)).toBeNull();
    expect(targetsFor(job, { centre: { x: [3, 4] } }, engine)).toBeNull();
    const capped = smallJob({ F: { most: 1 }, A: { most: 1 } });
    expect(targetsFor(capped, { ballast: 300, centre: { x: [4.5, 5] } }, engine)).toBeNull();
  });
});

describe('what else lies in the voids', () => {
  const pig = [{ mass: 60, x: 6, y: 0.4, z: 0.5 }];

  test('does its part: the ballast asked for is less, and its centre makes up for it', () => {
    const wanted = { down: { forward: 3, aft: 3 }, upright: true, gm: 0.75, within: 1 };
    const alone = aimsFor(VESSEL, wanted);
    const beside = aimsFor(VESSEL, wanted, pig);
    expect(beside.ballast!).toBeCloseTo(alone.ballast! - 60, 9);
    const middle = (range: [number, number]) => (range[0] + range[1]) / 2;
    const [x, y, z] = [beside.centre.x!, beside.centre.y!, beside.centre.z!].map(middle) as [number, number, number];
    expect(x).toBeLessThan(middle(alone.centre.x!));
    expect(y).toBeLessThan(0);
    const { marks, stability } = effectOf(VESSEL, [...pig, { mass: beside.ballast!, x, y, z }]);
    if (marks.kind !== 'answer' || stability.kind !== 'answer') throw new Error('no answer');
    expect(marks.forward.likely).toBeCloseTo(3, 6);
    expect(marks.aft.likely).toBeCloseTo(3, 6);
    expect(stability.list.likely).toBeCloseTo(0, 6);
    expect(Math.abs(stability.gm.likely / 0.75 - 1)).toBeLessThan(0.05);
  });
});

describe('limits', () => {
  const added = [{ mass: 300, x: 3.86, y: 0, z: 0.4 }];

  test('what is left is the limit less the change', () => {
    const { margins, unanswered } = marginsOf(VESSEL, effectOf(VESSEL, added));
    expect(unanswered).toEqual([]);
    expect(margins.map((one) => [one.unit, Math.round(one.left.likely * 1000) / 1000, one.holds])).toEqual([
      ['kg', 500, true],
      ['m', 0.11, true],
    ]);
  });

  test('a range whose ends are told alike is told as one figure', () => {
    const { gm: _, kgPerCm, ...rough } = VESSEL;
    expect(kgPerCm).toBeGreaterThan(0);
    const one = (mass: number) => {
      const { margins } = marginsOf(rough, effectOf(rough, [{ mass, x: 3.86, y: 0, z: 0.4 }]));
      return margins.at(-1)!;
    };
    const [near, far] = [one(20), one(900)];
    expect(near.left.low).toBeLessThan(near.left.high);
    expect(near.text).toMatch(/: 0\.\d\d m\.$/);
    expect(far.text).toMatch(/: -?0\.\d\d to -?0\.\d\d m[.:]/);
  });

  test('what is left is told down to the last figure, and what is too little or over up', () => {
    const told = (own: Partial<typeof VESSEL>, mass: number) => {
      const vessel = { ...VESSEL, ...own };
      const effect = effectOf(vessel, [{ mass, x: 3.86, y: 0, z: 0.4 }]);
      return marginsOf(vessel, effect).margins.map((one) => one.text.replace(/^.*?: /, ''));
    };
    // 5700 − 4900 kg are left empty; 150 kg sink her 1 cm, of 0.13 m that are left.
    const [kg, m] = [VESSEL.displacementMost! - VESSEL.displacement!, VESSEL.freeboard! - VESSEL.freeboardLeast!];
    const perMetre = 100 * VESSEL.kgPerCm!;
    expect(told({}, kg - 530.9)[0]).toBe('530 kg.');
    expect(told({}, kg - 0.4)[0]).toBe('less than 1 kg.');
    expect(told({}, kg + 1.09)[0]).toBe('nothing, she is 2 kg over: TOO HEAVY.');
    expect(told({}, (m - 0.0951) * perMetre)[1]).toMatch(/^0\.09 m/);
    expect(told({}, (m - 0.006) * perMetre)[1]).toMatch(/^less than 0\.01 m/);
    expect(told({}, (m + 0.011) * perMetre)[1]).toMatch(/^0\.02 m too little/);
  });

  test('too much ballast is told for the weight and for the freeboard', () => {
    const effect = effectOf(VESSEL, [{ mass: 2100, x: 3.86, y: 0, z: 0.4 }]);
    const { margins } = marginsOf(VESSEL, effect);
    expect(margins.map((one) => one.holds)).toEqual([false, false]);
    expect(margins.map((one) => one.text.replace(/^.*: /, ''))).toEqual(['TOO HEAVY.', 'NOT ENOUGH.']);
  });

  test('an opening on the low side comes nearer to the water by the list, and one on the high side goes from it', () => {
    const openings = [
      { name: 'exhaust', height: 0.3, x: 0, y: 0.8 },
      { name: 'drain', height: 0.3, x: 0, y: -0.8 },
    ];
    const vessel = { ...VESSEL, openings };
    const { margins } = marginsOf(vessel, effectOf(vessel, [{ mass: 300, x: 3.86, y: 0.3, z: 0.4 }]));
    const [exhaust, drain] = margins.slice(-2);
    expect(exhaust!.listed!.likely).toBeLessThan(exhaust!.left.likely);
    expect(drain!.listed!.likely).toBeGreaterThan(drain!.left.likely);
    expect(exhaust!.left.likely).toBeCloseTo(0.28, 6);
    expect(exhaust!.text).toMatch(/on the low side at the list she takes, upright 0\.28 m\.$/);
    expect(drain!.text).toMatch(/on the high side at the list she takes, upright 0\.28 m\.$/);
  });

  test('an opening that her list keeps clear may not be enough, one that it puts under is not', () => {
    const at = (y: number) => {
      const vessel = { ...VESSEL, list: -3, openings: [{ name: 'drain', height: 0.07, x: 3.86, y }] };
      // 100 kg on the centreline: down 0.7 cm.
      return marginsOf(vessel, effectOf(vessel, [{ mass: 100, x: 3.86, y: 0, z: 0.5 }])).margins.at(-1)!.text;
    };
    // The height was read at 3° to port: upright a drain at 1.2 m to starboard lies 63 mm lower.
    expect(at(1.2)).toMatch(/: 0\.06 m on the high side at the list she takes, upright less than 0\.01 m\.$/);
    expect(at(1.4)).toMatch(/on the high side at the list she takes, upright 0\.02 m too little: MAY NOT BE ENOUGH\.$/);
    expect(at(-1.2)).toMatch(/on the low side at the list she takes, upright 0\.12 m\.$/);
    const low = { ...VESSEL, openings: [{ name: 'drain', height: 0.03, x: 3.86, y: -1.2 }] };
    const [margin] = marginsOf(low, effectOf(low, [{ mass: 100, x: 3.86, y: -1, z: 0.5 }])).margins.slice(-1);
    expect(margin!.text).toMatch(
      /: 0\.0\d m too little on the low side at the list she takes, upright 0\.02 m: NOT ENOUGH\.$/,
    );
  });

  test('limits that were not stated are named, not passed over', () => {
    const { margins, unanswered } = marginsOf({}, effectOf({}, added));
    expect(margins).toEqual([]);
    expect(unanswered.length).toBeGreaterThanOrEqual(2);
    expect(unanswered.join(' ')).toContain('What she displaces now and the most that she may displace');
    expect(marginsOf(VESSEL, effectOf(VESSEL, added)).unanswered).toEqual([]);
    // Words, and no names of fields: these lines are printed.
    const known = { ...VESSEL, freeboard: undefined, displacementMost: undefined };
    const lines = [...unanswered, ...marginsOf(known, effectOf(known, added)).unanswered];
    for (const line of lines) expect(line).not.toMatch(/[a-z][A-Z]|\(/);
  });
});

describe('readings', () => {
  test('a weight moved across gives the GM that its list shows', () => {
    const shift: Weight[] = [
      { mass: 80, x: 4, y: 0.9, z: 1.2 },
      { mass: -80, x: 4, y: -0.9, z: 1.2 },
    ];
    const { stability } = effectOf(VESSEL, shift);
    if (stability.kind !== 'answer') throw new Error(stability.why);
    const tangent = Math.tan((stability.list.likely * Math.PI) / 180);
    expect(gmFromInclining(80, 1.8, known(4900), known(tangent)).likely).toBeCloseTo(0.66, 6);
  });

  test('marks that follow the forecast give back the hydrostatics', () => {
    const { marks } = effectOf(VESSEL, [{ mass: 500, x: 4.6, y: 0, z: 0.4 }]);
    if (marks.kind !== 'answer') throw new Error(marks.why);
    const before = { forward: 0.86, aft: 1.12 };
    const after = { forward: 0.86 + marks.forward.likely / 100, aft: 1.12 + marks.aft.likely / 100 };
    const { kgPerCm, kgmPerCm } = correctFromMarks(500, 4.6, before, after, 3.86, 8.2);
    expect(kgPerCm!.likely).toBeCloseTo(150, 6);
    expect(kgmPerCm!.likely).toBeCloseTo(60, 6);
    expect(kgPerCm!.low).toBeLessThan(150);
    expect(kgPerCm!.high).toBeGreaterThan(150);
  });

  test('a weight moved forward gives back the moment to trim, and one that trims too little or the other way gives none', () => {
    const shift = (by: number) => [
      { mass: 100, x: 3 + by, y: 0, z: 1 },
      { mass: -100, x: 3, y: 0, z: 1 },
    ];
    const { marks } = effectOf(VESSEL, shift(3));
    if (marks.kind !== 'answer') throw new Error(marks.why);
    const before = { forward: 0.86, aft: 1.12 };
    const after = { forward: 0.86 + marks.forward.likely / 100, aft: 1.12 + marks.aft.likely / 100 };
    expect(trimMomentFromShift(100, 3, before, after)!.likely).toBeCloseTo(60, 6);
    expect(trimMomentFromShift(100, -3, before, after)).toBeNull();
    expect(trimMomentFromShift(100, 3, before, { forward: 0.865, aft: 1.12 })).toBeNull();
  });

  test('a plumb line gives its angle with the error of the ruler, unless it hardly moved or she leans too far', () => {
    const read = tangentOf(28, 1000);
    if (!('tangent' in read)) throw new Error(read.why);
    expect([read.tangent.low, read.tangent.likely, read.tangent.high]).toEqual([0.027, 0.028, 0.029]);
    for (const [moved, length] of [
      [2, 1000],
      [200, 1000],
      [0, 1000],
      [28, 0],
    ] as const)
      expect(tangentOf(moved, length)).toHaveProperty('why');
  });

  test('a plumb line in metres and a movement with a sign are told as that, both at once', () => {
    const read = tangentOf(-33, 1.5);
    expect('why' in read && read.why).toBe(
      'The plumb line is said to be 1.5 mm long: its length is wanted in mm, a metre or more. Did you mean 1.5 m? That is 1500 mm. The line is said to have moved by -33 mm: write 33, without a sign, whichever way it went.',
    );
    // 33 mm on 1500 mm.
    const right = tangentOf(33, 1500);
    expect('tangent' in right && right.tangent.likely).toBeCloseTo(0.022, 9);
  });

  test('a change too small to read corrects nothing', () => {
    const before = { forward: 0.86, aft: 1.12 };
    const after = { forward: 0.865, aft: 1.125 };
    expect(correctFromMarks(60, 4, before, after, 3.86, 8.2)).toEqual({ kgPerCm: null, kgmPerCm: null });
  });
});

describe('in a sentence', () => {
  test('down, by the head, no list, and the roll before and after', () => {
    expect(sentenceOf(effectOf({ ...VESSEL, rollPeriod: 2.6 }, [{ mass: 510, x: 4, y: 0, z: 0.35 }]))).toBe(
      'Down 3.4 cm, 1.2 cm more by the head, no list, rolls in 2.4 s instead of 2.6 s.',
    );
  });

  test('with estimates, ranges', () => {
    const rough: Vessel = { displacement: 4900, waterlineLength: 8.2, beam: 2.6 };
    expect(sentenceOf(effectOf(rough, [{ mass: 510, x: 4, y: 0, z: 0.35 }]))).toMatch(
      /^Down about \d\.\d cm \(\d\.\d to \d\.\d\), /,
    );
  });

  test('a nought has no sign', () => {
    expect(amount({ low: -0.04, likely: -0.04, high: -0.04 }, 1, '°')).toBe('0.0°');
    expect(amount({ low: -0.14, likely: -0.04, high: 0.1 }, 1, 'cm')).toBe('about 0.0 cm (-0.1 to 0.1)');
  });

  test('nothing known: the reason stands instead of figures', () => {
    expect(sentenceOf(effectOf({}, [{ mass: 510, x: 4, y: 0, z: 0.35 }]))).not.toMatch(/\d/);
  });
});
