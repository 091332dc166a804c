import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { aimsFor } from '../../src/balance/aims.ts';
import { effectOf } from '../../src/balance/float.ts';
import { marginsOf } from '../../src/balance/limits.ts';
import type { Weight } from '../../src/balance/moments.ts';
import { known } from '../../src/balance/range.ts';
import { correctFromMarks, gmFromInclining } from '../../src/balance/readings.ts';
import { sentenceOf } from '../../src/balance/telling.ts';
import type { Vessel } from '../../src/job/job.ts';

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

  test.each([
    ['a trim without an amount', { trim: 2 }],
    ['a GM that asks for a centre below the keel', { ballast: 100, gm: 1.2 }],
    ['a trim that asks for a centre ahead of the stem', { ballast: 50, trim: 12 }],
    ['marks that ask for less weight', { down: { forward: -2, aft: -2 } }],
  ])('%s is told as impossible', (_, wanted) => {
    expect(aimsFor(VESSEL, wanted).impossible).toHaveLength(1);
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

  test('too much ballast is told for the weight and for the freeboard', () => {
    const effect = effectOf(VESSEL, [{ mass: 2100, x: 3.86, y: 0, z: 0.4 }]);
    const { margins } = marginsOf(VESSEL, effect);
    expect(margins.map((one) => one.holds)).toEqual([false, false]);
    for (const one of margins) expect(one.text).toContain('NOT ENOUGH');
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
  });

  test('limits that were not stated are named, not passed over', () => {
    const { margins, unanswered } = marginsOf({}, effectOf({}, added));
    expect(margins).toEqual([]);
    expect(unanswered.length).toBeGreaterThanOrEqual(2);
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
    expect(gmFromInclining(80, 1.8, 4900, known(tangent)).likely).toBeCloseTo(0.66, 6);
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

  test('nothing known: the reason stands instead of figures', () => {
    expect(sentenceOf(effectOf({}, [{ mass: 510, x: 4, y: 0, z: 0.35 }]))).not.toMatch(/\d/);
  });
});
