import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { aimsFor } from '../../src/balance/aims.ts';
import { effectOf, gmByRoll, type Marks, type Stability, smallGm } from '../../src/balance/float.ts';
import { hydrostaticsOf } from '../../src/balance/hydrostatics.ts';
import { centreOf, type Weight } from '../../src/balance/moments.ts';
import { known } from '../../src/balance/range.ts';
import { lcfFromUnchangedTrim } from '../../src/balance/readings.ts';
import { sentenceOf } from '../../src/balance/telling.ts';
import type { Job, Vessel } from '../../src/job/job.ts';
import { emptyOf, listOf, withWeight } from '../../src/plan/aboard.ts';

function marksOf(vessel: Vessel, added: Weight[]): Marks {
  const { marks } = effectOf(vessel, added);
  if (marks.kind !== 'answer') throw new Error(marks.why);
  return marks;
}

function stabilityOf(vessel: Vessel, added: Weight[]): Stability {
  const { stability } = effectOf(vessel, added);
  if (stability.kind !== 'answer') throw new Error(stability.why);
  return stability;
}

describe('worked examples', () => {
  // "Ship Stability for Masters and Mates", pages 128-129: KG 7.35 m and GM 1.35 m as printed; the list is computed.
  test('loading and discharging gives the KG, the GM and the list of the textbook', () => {
    const vessel: Vessel = { displacement: 8_000_000, vcg: 7.6, gm: 8.7 - 7.6, beam: 20, waterlineLength: 120 };
    const items = [
      { mass: 250_000, x: 0, y: 7.6, z: 6.1 },
      { mass: 300_000, x: 0, y: -6.1, z: 0.6 },
      { mass: -50_000, x: 0, y: -4.6, z: 1.2 },
    ];
    const stability = stabilityOf(vessel, items);
    expect(stability.vcg.likely).toBeCloseTo(7.3465, 3);
    expect(Math.abs(stability.vcg.likely - 7.35)).toBeLessThan(0.005);
    expect(Math.abs(stability.gm.likely - 1.35)).toBeLessThan(0.005);
    expect(Math.abs(stability.list.likely - 1.5)).toBeLessThan(0.05);
    expect(effectOf(vessel, items).moments.acrossMoment / 1000).toBeCloseTo(300, 6);
  });

  // The same book, page 148: 649.5 t in one hold and 1350.5 t in the other trim her 25 cm by the head.
  test('two holds filled as in the textbook trim her 25 cm by the head', () => {
    const vessel: Vessel = { lcf: 60, waterlineLength: 120, kgPerCm: 20_000, kgmPerCm: 100_000 };
    const at = (tonnes: number, ahead: number): Weight => ({ mass: tonnes * 1000, x: 60 + ahead, y: 0, z: 0 });
    const trim = (x: number) =>
      marksOf(vessel, [at(600, 20), at(2000 - x, 45), at(1200, -30), at(360, -5), at(x, -50)]).trim.likely;
    expect(Math.abs(trim(649.5) - 25)).toBeLessThan(0.05);
    expect(Math.abs(trim(649.47) - 25)).toBeLessThan(0.01);
  });

  // The same book, page 148; the answer is computed, no change of trim meaning that the weights act at the LCF.
  test('weights that leave the trim unchanged have their centre at the centre of flotation', () => {
    const loads = [
      { mass: 100, x: -24 },
      { mass: 30, x: 30 },
      { mass: 60, x: 15 },
    ];
    expect(lcfFromUnchangedTrim(loads)).toBeCloseTo(-3.158, 3);
    const vessel: Vessel = { lcf: 60 - 3.158, waterlineLength: 120, kgPerCm: 20_000, kgmPerCm: 100_000 };
    const added = loads.map(({ mass, x }) => ({ mass: mass * 1000, x: 60 + x, y: 0, z: 0 }));
    expect(Math.abs(marksOf(vessel, added).trim.likely)).toBeLessThan(0.001);
  });

  // A ship's nautical tutorial: GM from a righting moment at 6°, and the cargo shared over two holds by the KG it asks for.
  // The angle, the moment and the answer are computed from figures that were remembered, not read.
  test('the cargo of two holds by the KG that a righting moment asks for', () => {
    const gm = 425 / (13_100 * Math.sin((6 * Math.PI) / 180));
    expect(gm).toBeCloseTo(0.3104, 4);
    const [lower, tween] = [7032.4, 2567.6];
    const loaded = centreOf([
      { mass: 3500, x: 0, y: 0, z: 6.4 },
      { mass: lower, x: 0, y: 0, z: 4.5 },
      { mass: tween, x: 0, y: 0, z: 9 },
    ])!;
    expect(loaded.mass).toBeCloseTo(13_100, 6);
    expect(loaded.z).toBeCloseTo(6.2 - gm, 3);
    const change = aimsFor({ displacement: 3_500_000, vcg: 6.4, gm: 6.2 - 6.4 }, { ballast: 9_600_000, gm });
    const middle = (change.centre.z![0] + change.centre.z![1]) / 2;
    expect(middle).toBeCloseTo((lower * 4.5 + tween * 9) / 9600, 3);
  });

  // Constructed for a small craft: L 8 m, B 2.6 m, 4.0 t, GM_L 8.5 m, a water-plane coefficient of 0.68.
  test('240 kg forward of the centre of flotation in a small craft', () => {
    const kgPerCm = (0.68 * 8 * 2.6 * 1025) / 100;
    const kgmPerCm = (4000 * 8.5) / (100 * 8);
    const vessel: Vessel = {
      displacement: 4000,
      vcg: 0.85,
      gm: 0.9,
      beam: 2.6,
      waterlineLength: 8,
      lcf: 3.7,
      kgPerCm,
      kgmPerCm,
    };
    const added = [{ mass: 240, x: 4.9, y: 0.05, z: 0.2 }];
    const marks = marksOf(vessel, added);
    expect(marks.sinkage.likely).toBeCloseTo(1.655, 2);
    expect(marks.trim.likely).toBeCloseTo(6.776, 2);
    expect(marks.forward.likely).toBeCloseTo(5.298, 2);
    expect(marks.aft.likely).toBeCloseTo(-1.479, 2);
    const stability = stabilityOf(vessel, added);
    expect(stability.vcg.likely).toBeCloseTo(0.8132, 3);
    expect(stability.gm.likely).toBeCloseTo(0.9368, 3);
    expect(stability.list.likely).toBeCloseTo(0.173, 2);
  });
});

const VESSEL: Vessel = {
  displacement: 4900,
  vcg: 1.16,
  gm: 0.66,
  beam: 2.6,
  waterlineLength: 8.2,
  lcf: 3.86,
  kgPerCm: 150,
  kgmPerCm: 60,
};
const weight = fc.record({
  mass: fc.double({ min: 1, max: 60, noNaN: true }),
  x: fc.double({ min: 0.5, max: 7.5, noNaN: true }),
  y: fc.double({ min: -0.7, max: 0.7, noNaN: true }),
  z: fc.double({ min: 0.1, max: 0.9, noNaN: true }),
});
const weights = fc.array(weight, { minLength: 1, maxLength: 6 });
const step = fc.double({ min: 0.01, max: 0.5, noNaN: true });

describe('signs', () => {
  test('a weight moved forward trims her by the head: down forward, up aft, no deeper in the middle', () => {
    fc.assert(
      fc.property(weights, step, (some, forward) => {
        const moved = some.with(0, { ...some[0]!, x: some[0]!.x + forward });
        const [before, after] = [marksOf(VESSEL, some), marksOf(VESSEL, moved)];
        expect(after.trim.likely).toBeGreaterThan(before.trim.likely);
        expect(after.forward.likely).toBeGreaterThan(before.forward.likely);
        expect(after.aft.likely).toBeLessThan(before.aft.likely);
        expect(after.sinkage.likely).toBeCloseTo(before.sinkage.likely, 9);
      }),
    );
  });

  test('a weight moved to starboard lists her more to starboard', () => {
    fc.assert(
      fc.property(weights, step, (some, across) => {
        const moved = some.with(0, { ...some[0]!, y: some[0]!.y + across });
        expect(stabilityOf(VESSEL, moved).list.likely).toBeGreaterThan(stabilityOf(VESSEL, some).list.likely);
      }),
    );
  });

  test('a weight lowered gives more GM and a lower centre of gravity', () => {
    fc.assert(
      fc.property(weights, step, (some, down) => {
        const moved = some.with(0, { ...some[0]!, z: some[0]!.z - down });
        const [before, after] = [stabilityOf(VESSEL, some), stabilityOf(VESSEL, moved)];
        expect(after.gm.likely).toBeGreaterThan(before.gm.likely);
        expect(after.vcg.likely).toBeLessThan(before.vcg.likely);
      }),
    );
  });

  test('more weight anywhere sinks her more', () => {
    fc.assert(
      fc.property(weights, weight, (some, more) => {
        expect(marksOf(VESSEL, [...some, more]).sinkage.likely).toBeGreaterThan(marksOf(VESSEL, some).sinkage.likely);
      }),
    );
  });

  test('port and starboard mirrored: the list changes its side and nothing else changes', () => {
    fc.assert(
      fc.property(weights, (some) => {
        const mirrored = some.map((one) => ({ ...one, y: -one.y }));
        const [a, b] = [stabilityOf(VESSEL, some), stabilityOf(VESSEL, mirrored)];
        expect(b.list.likely).toBeCloseTo(-a.list.likely, 9);
        expect(b.period.likely).toBeCloseTo(a.period.likely, 9);
      }),
    );
  });
});

test('she rolls by her gyradius about her new centre of gravity, each weight a point', () => {
  const some = [
    { mass: 900, x: 3, y: 0.5, z: 0.2 },
    { mass: 700, x: 4, y: -0.6, z: 1.9 },
  ];
  const { displacement: own, vcg, gm } = { displacement: 4900, vcg: 1.16, gm: 0.66 };
  const height = (own * vcg + 900 * 0.2 + 700 * 1.9) / (own + 1600);
  const about = (mass: number, y: number, z: number) => mass * (y ** 2 + (z - height) ** 2);
  const before = (0.8 * 2.6 * Math.sqrt(9.81)) / (2 * Math.PI);
  const inertia = own * before ** 2 + about(own, 0, vcg) + about(900, 0.5, 0.2) + about(700, -0.6, 1.9);
  const period = (2 * Math.PI * Math.sqrt(inertia / (own + 1600))) / Math.sqrt(9.81 * (gm + vcg - height));
  expect(Math.abs(vcg - height)).toBeGreaterThan(0.05);
  expect(stabilityOf(VESSEL, some).period.likely).toBeCloseTo(period, 9);
});

describe('a roll timed with weights aboard', () => {
  const light = { mass: 110, x: 3, y: 0.3, z: 0.3 };
  const vessels: [string, Vessel][] = [
    ['GM stated', VESSEL],
    ['GM and her roll stated, so that her coefficient is her own', { ...VESSEL, rollPeriod: 3.1 }],
    ['her roll timed before', { ...VESSEL, gm: undefined, rollPeriod: 2.9 }],
    ['a small GM', { displacement: 2600, vcg: 0.85, gm: 0.14, beam: 2.1, waterlineLength: 6.4, rollPeriod: 3.6 }],
  ];

  test.each(vessels)('gives the GM that foretells that roll: %s', (_, vessel) => {
    const { stability } = effectOf(vessel, [light]);
    if (stability.kind !== 'answer') throw new Error(stability.why);
    expect(gmByRoll(vessel, [light], stability.period.likely)!.likely).toBeCloseTo(stability.gm.likely, 9);
    // Slower than foretold is tenderer than foretold.
    expect(gmByRoll(vessel, [light], stability.period.likely + 0.1)!.likely).toBeLessThan(stability.gm.likely);
  });

  test('a GM that is, or may be, too little says stop', () => {
    expect(smallGm(known(0.3))).toBeNull();
    expect(smallGm({ low: 0.09, likely: 0.12, high: 0.14 })).toMatch(/STOP: that may be under 0\.10 m/);
    expect(smallGm(known(0.07))).toMatch(/STOP: that is under .* naval architect/);
  });

  test('what was assumed of her roll is told: a default, her own, or GM from the roll and no estimate beside it', () => {
    const assumed = (vessel: Vessel) => effectOf(vessel, [light]).assumed.join(' ');
    expect(assumed(VESSEL)).toMatch(/coefficient of about 0\.80 \(0\.75 to 0\.85\): a default, not confirmed/);
    // 3.1 s × √0.66 / 2.6 m.
    expect(assumed({ ...VESSEL, rollPeriod: 3.1 })).toContain('her own, 0.97,');
    const timed = assumed({ ...VESSEL, gm: undefined, rollPeriod: 2.9, draughtForward: 0.8, draughtAft: 1.1 });
    // (0.8 × 2.6 / 2.9)².
    expect(timed).toContain('GM is from the timed roll: about 0.51 m');
    expect(timed).not.toContain('GM, m, is an estimate');
  });
});

describe('where no number is given', () => {
  test('a GM under 0.10 m', () => {
    const { stability } = effectOf({ ...VESSEL, gm: 0.12 }, [{ mass: 300, x: 4, y: 0, z: 2.5 }]);
    expect(stability).toMatchObject({ kind: 'none', why: expect.stringContaining('GM is under 0.10 m') });
  });

  test('a GM that may be under 0.10 m, though it is likely to be more', () => {
    const timed: Vessel = { ...VESSEL, gm: undefined, rollPeriod: 6.2 };
    const gm = (coefficient: number) => ((coefficient * VESSEL.beam!) / 6.2) ** 2;
    expect([gm(0.75) < 0.1, gm(0.8) > 0.1]).toEqual([true, true]);
    const { stability } = effectOf(timed, [{ mass: 10, x: 4, y: 0, z: 0.4 }]);
    expect(stability).toMatchObject({ kind: 'none', why: expect.stringContaining('GM may be under 0.10 m') });
  });

  test('a list over 7°', () => {
    const { stability } = effectOf(VESSEL, [{ mass: 600, x: 4, y: 0.9, z: 0.5 }]);
    expect(stability).toMatchObject({ kind: 'none', why: expect.stringContaining('more than 7°') });
  });

  test('a vessel of which only the hull material is known', () => {
    const effect = effectOf({ hull: 'wood' }, [{ mass: 100, x: 4, y: 0, z: 0.4 }]);
    expect(effect.marks.kind).toBe('none');
    expect(effect.stability.kind).toBe('none');
  });
});

describe('estimates', () => {
  const MEASURED: Vessel = {
    displacement: 4900,
    waterlineLength: 8.2,
    beam: 2.6,
    draughtForward: 0.86,
    draughtAft: 1.12,
  };

  test('length, beam and draught alone give an answer with a range, and say that it is an estimate', () => {
    const effect = effectOf(MEASURED, [{ mass: 400, x: 4, y: 0, z: 0.4 }]);
    if (effect.marks.kind !== 'answer') throw new Error('no marks');
    expect(effect.marks.sinkage.low).toBeLessThan(effect.marks.sinkage.likely);
    expect(effect.marks.sinkage.high).toBeGreaterThan(effect.marks.sinkage.likely);
    expect(effect.assumed.filter((line) => line.includes('is an estimate')).length).toBeGreaterThanOrEqual(4);
  });

  test('follow from the form coefficients, a little less of each in fresh water', () => {
    const [salt, fresh] = [MEASURED, { ...MEASURED, water: 1000 }].map(hydrostaticsOf);
    const { waterlineLength: length, beam } = { waterlineLength: 8.2, beam: 2.6 };
    const perCm = [0.62, 0.68, 0.74].map((form) => (form * length * beam * 1025) / 100);
    const perTrim = [0.024, 0.031, 0.04].map((form) => (form * length ** 2 * beam * 1025) / 100);
    for (const [range, [low, likely, high]] of [
      [salt!.kgPerCm!, perCm],
      [salt!.kgmPerCm!, perTrim],
    ] as const) {
      expect(range.low).toBeCloseTo(low!, 6);
      expect(range.likely).toBeCloseTo(likely!, 6);
      expect(range.high).toBeCloseTo(high!, 6);
    }
    expect(fresh!.kgPerCm!.likely / salt!.kgPerCm!.likely).toBeCloseTo(1000 / 1025, 9);
    expect(fresh!.kgmPerCm!.likely / salt!.kgmPerCm!.likely).toBeCloseTo(1000 / 1025, 9);
  });

  test('the answer from stated figures lies inside the range from estimates', () => {
    fc.assert(
      fc.property(weights, (some) => {
        const [stated, estimated] = [marksOf(VESSEL, some), marksOf({ ...MEASURED, lcf: VESSEL.lcf }, some)];
        for (const name of ['sinkage', 'trim', 'forward', 'aft'] as const) {
          expect(stated[name].likely).toBeGreaterThanOrEqual(estimated[name].low - 1e-9);
          expect(stated[name].likely).toBeLessThanOrEqual(estimated[name].high + 1e-9);
        }
      }),
    );
  });

  test('a timed roll stands in for a GM that was not stated', () => {
    const stability = stabilityOf({ ...VESSEL, gm: undefined, rollPeriod: 2.6 }, [{ mass: 300, x: 4, y: 0, z: 0.4 }]);
    expect(stability.source).toBe('timed roll');
    expect(stability.gmBefore.likely).toBeCloseTo((0.8 * 2.6) ** 2 / 2.6 ** 2, 6);
    expect(stability.gmBefore.low).toBeLessThan(stability.gmBefore.likely);
  });
});

describe('GM as she sinks', () => {
  const RHO = 1025;
  /** A box of which all is known: KB T/2, BM B²/12T, whatever is in it. */
  const box = fc.record({
    length: fc.double({ min: 6, max: 12, noNaN: true }),
    beam: fc.double({ min: 2.2, max: 4, noNaN: true }),
    draught: fc.double({ min: 0.4, max: 1, noNaN: true }),
    vcg: fc.double({ min: 0.2, max: 0.7, noNaN: true }),
    mass: fc.double({ min: -0.2, max: 0.3, noNaN: true }).filter((share) => Math.abs(share) > 0.01),
    z: fc.double({ min: 0, max: 0.6, noNaN: true }),
  });

  test('of a box is that of the box deeper in the water, or less by no more than half her sinkage gives', () => {
    fc.assert(
      fc.property(box, ({ length, beam, draught, vcg, mass: share, z }) => {
        const displacement = length * beam * draught * RHO;
        const mass = share * displacement;
        const gmOf = (deep: number, kg: number) => deep / 2 + beam ** 2 / (12 * deep) - kg;
        const deeper = draught * (1 + share);
        const exact = gmOf(deeper, (displacement * vcg + mass * z) / (displacement + mass));
        const gm = gmOf(draught, vcg);
        fc.pre(gm > 0.15 && exact > 0.15);
        const vessel: Vessel = { displacement, vcg, gm, beam, waterlineLength: length };
        const told = stabilityOf({ ...vessel, draughtForward: draught - 0.1, draughtAft: draught + 0.1 }, [
          { mass, x: 4, y: 0, z },
        ]).gm.likely;
        const leftOut = (mass * (deeper - draught)) / 2 / (displacement + mass);
        expect(told + leftOut).toBeCloseTo(exact, 9);
        expect(told).toBeLessThanOrEqual(exact);
      }),
    );
  });

  test('without a draught KM is held, and it is told that this is too much GM', () => {
    const added = [{ mass: 860, x: 4, y: 0, z: 0.47 }];
    const deep: Vessel = { ...VESSEL, draughtForward: 0.86, draughtAft: 1.12 };
    // 0.66 + 1.16 − (4900 × 1.16 + 860 × 0.47)/5760, and (4900 × 0.66 + 860 × (0.99 − 0.47))/5760.
    expect(stabilityOf(VESSEL, added).gm.likely).toBeCloseTo(0.763, 3);
    expect(stabilityOf(deep, added).gm.likely).toBeCloseTo(0.639, 3);
    expect(effectOf(VESSEL, added).assumed.join(' ')).toMatch(
      /No draught is stated, so that KM is held: .* comes out less/,
    );
    // She rolls quicker with less GM, which nobody would guess: both are told.
    expect(sentenceOf(effectOf(deep, added))).toMatch(
      /instead of about 2\.6 s \(.*\), GM less, 0\.64 m instead of 0\.66 m\.$/,
    );
    expect(sentenceOf(effectOf(VESSEL, added))).not.toContain('GM');
    expect(sentenceOf(effectOf(deep, [{ mass: 860, x: 4, y: 0, z: 0.2 }]))).not.toContain('GM');
    expect(effectOf(deep, added).assumed.join(' ')).toMatch(/sides are taken as upright where the water meets them/);
  });

  test('what she lists bundle by bundle is what the balance says of them', () => {
    const job = { vessel: { ...VESSEL, draughtForward: 0.86, draughtAft: 1.12 }, voids: [] } as unknown as Job;
    fc.assert(
      fc.property(weights, (some) => {
        const aboard = some.reduce((sum, one) => withWeight(sum, one, job.vessel), emptyOf(job, 0));
        const { list } = stabilityOf(job.vessel!, some);
        expect(Math.abs(listOf(aboard)! - list.likely)).toBeLessThan(0.03);
      }),
    );
  });
});
