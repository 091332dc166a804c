import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { bendingOf, stiffnessOf } from '../../src/hold/beam.ts';
import { boltsSharing, leastBolt, proofLoad, STRESS_AREA } from '../../src/hold/bolts.ts';
import { heldVoid } from '../../src/hold/holdDown.ts';
import { GRAVITY, loadCases } from '../../src/hold/loads.ts';
import { directCapacity, directFriction, overCapacity, strapsNeeded } from '../../src/hold/straps.ts';
import { BOLT_SIZES } from '../../src/job/holdDown.ts';
import { readJobValue } from '../../src/job/readJob.ts';
import { BAR, type HoldInput, jobWith } from './heldJob.ts';

function placeWith(holdDown: HoldInput) {
  const read = readJobValue(jobWith(holdDown));
  if (!read.ok) throw new Error(JSON.stringify(read.faults));
  return read.value.job.voids[0]!;
}

const held = (holdDown: HoldInput, mass = 60) =>
  heldVoid(placeWith(holdDown), { mass, rolling: false, athwartships: false });

const BLOCK = { by: 'floor timbers', carries: 3 };
const WHOLE: HoldInput = { bars: [BAR], blocked: { forward: BLOCK, aft: BLOCK, port: BLOCK, starboard: BLOCK } };

describe('worked examples, constructed: the formulas of straps and beams with their figures', () => {
  test('straps over the top at 60°, 2,500 N each, friction 0.3, 300 kg', () => {
    expect(strapsNeeded(300, 0.8, 0.3, 60, 2500, true)).toBeCloseTo(1.416, 3);
    expect(strapsNeeded(300, 0.5, 0.3, 60, 2500, false)).toBeCloseTo(0.498, 3);
  });

  test('a strap over the top without a tension stated is taken as drawn to half its capacity', () => {
    const strap = { kind: 'over', count: 1, lashingCapacity: 5, angle: 90 } as Parameters<typeof overCapacity>[0];
    expect(overCapacity(strap, 0.3, false)).toBeCloseTo((2 * 0.3 * 2500) / 1.1, 6);
    expect(overCapacity({ ...strap, tension: 1.5 }, 0.3, true)).toBeCloseTo((2 * 0.3 * 1500) / 1.25, 6);
  });

  test('two direct straps of 5 kN at 30° and 30° aside', () => {
    const strap = { kind: 'direct', count: 2, lashingCapacity: 5, angle: 30, aside: 30, against: 'forward' } as const;
    expect(directCapacity(strap, 0.3)).toBeCloseTo(8625, 0);
    expect(0.8 * 300 * GRAVITY - directFriction(300, 0.3)).toBeCloseTo(1692.2, 1);
  });

  test('a flat 40 × 10 over 400 mm under twice the weight of 60 kg', () => {
    const flat = { width: 40, thickness: 10, onEdge: false, span: 400 };
    expect(stiffnessOf(flat).modulus).toBeCloseTo(666.7, 1);
    expect(stiffnessOf(flat).inertia).toBeCloseTo(3333.3, 1);
    const middle = bendingOf({ ...flat, pressed: 0 }, 1177.2);
    expect(middle.moment).toBeCloseTo(117_720, 0);
    expect(middle.stress).toBeCloseTo(176.6, 1);
    expect(middle.deflection).toBeCloseTo(2.297, 3);
    const spread = bendingOf({ ...flat, pressed: 400 }, 1177.2);
    expect(spread.stress).toBeCloseTo(88.3, 1);
    expect(spread.deflection).toBeCloseTo(1.436, 3);
  });

  // Standard theory: R = F/2 at either end, and the half of the load on the near half of c has its middle at c/4.
  // 33 CFR 183.420: an inch at most. F·L³/48EI of 50 × 10 flat over 1500 under 34 kg × 9.81, half of twice 34 kg: 27.5 mm at 150 MPa.
  test('a bar that is strong enough and bends more than 25 mm is told, a thicker or shorter one is not', () => {
    expect((333.54 * 1500 ** 3) / (48 * 205_000 * ((50 * 10 ** 3) / 12))).toBeCloseTo(27.46, 2);
    const words = (bar: object) => {
      const bars = [{ ...BAR, width: 50, thickness: 10, span: 1500, ...bar }];
      const { cases, cautions } = held({ ...WHOLE, bars }, 34);
      expect(cases.find(({ direction }) => direction === 'up')!.carried).toBe(true);
      return cautions;
    };
    expect(words({})).toEqual([
      'A1 bends 27 mm under the load, and what lies under it lifts as far: the test that these loads are taken from lets nothing move more than 25 mm. A stiffer bar, or more of them.',
    ]);
    expect(words({ thickness: 12 })).toEqual([]);
    expect(words({ span: 1400 })).toEqual([]);
  });

  test('pressed on over 250 mm in the middle of 400', () => {
    const flat = { width: 40, thickness: 10, onEdge: false, span: 400 };
    const partly = bendingOf({ ...flat, pressed: 250 }, 1177.2);
    expect(partly.moment).toBeCloseTo((1177.2 / 2) * 200 - (1177.2 / 2) * 62.5, 6);
    expect(partly.deflection).toBeCloseTo(
      (1177.2 * (8 * 400 ** 3 - 4 * 400 * 250 ** 2 + 250 ** 3)) / ((384 * 205_000 * 10_000) / 3),
      9,
    );
    expect(partly.deflection).toBeGreaterThan(bendingOf({ ...flat, pressed: 400 }, 1177.2).deflection);
    expect(partly.deflection).toBeLessThan(bendingOf({ ...flat, pressed: 0 }, 1177.2).deflection);
  });

  test('of an odd number of bolts the end that has one fewer decides: half the load is on it', () => {
    expect([2, 3, 4, 5].map(boltsSharing)).toEqual([2, 2, 4, 4]);
    const up = (perBar: number) => {
      const bars = [{ ...BAR, count: 1, width: 4000, bolts: { ...BAR.bolts, size: 'M6' as const, perBar } }];
      return held({ ...WHOLE, bars }, 900).cases.find((one) => one.direction === 'up')!;
    };
    const one = 11_600 / 1.5;
    expect([2, 3, 4].map((perBar) => up(perBar).best!.carries)).toEqual([2 * one, 2 * one, 4 * one]);
    expect(up(3).carried).toBe(false);
    expect(up(3).best!.working.join(' ')).toContain('Its 3 bolts, of which 2 count, since one end has only 1, each');
    expect(up(3).least[0]).toContain('bolts M8');
  });

  // Von Mises: τ = σ/√3. M8 8.8 has a proof load of 21.2 kN: 12.24 kN in shear, 8.16 kN worked to; the bar bears 4.7 kN.
  test('bolts in shear carry 1/√3 of what they do pulled along, with their words, and the least is larger', () => {
    const up = (pull: 'along' | 'across' | undefined, size: 'M6' | 'M8' = 'M6', grade: '8.8' | 'A4-70' = '8.8') => {
      const bars = [{ ...BAR, count: 1, width: 4000, bolts: { ...BAR.bolts, size, pull, grade } }];
      const { cases, assumed } = held({ ...WHOLE, bars }, 500);
      return { up: cases.find((one) => one.direction === 'up')!, assumed: assumed.join(' ') };
    };
    const [plain, sheared] = [up(undefined), up('across')];
    expect(up('along')).toEqual(plain);
    expect(sheared.up.best!.carries).toBeCloseTo(plain.up.best!.carries / Math.sqrt(3), 9);
    expect(sheared.up.best!.carries).toBeCloseTo((2 * 11_600) / 1.5 / Math.sqrt(3), 9);
    expect(plain.up.carried).toBe(true);
    expect(sheared.up.carried).toBe(false);
    expect(sheared.up.best!.working.join(' ')).toContain('each 4.46 kN (in shear, proof ÷ √3 ÷ 1.5): 8.92 kN.');
    // Of stainless no proof load is published.
    expect(up('across', 'M6', 'A4-70').up.best!.working.join(' ')).toContain('(in shear, yield ÷ √3 ÷ 1.5)');
    expect(sheared.up.least[0]).toContain('bolts M8 or larger');
    expect(up('across', 'M8').up.carried).toBe(true);
    expect(plain.assumed).toContain('Bolts are taken as pulled along their length.');
    expect(plain.assumed).not.toContain('A bolt in shear');
    expect(sheared.assumed).toContain('A bolt in shear is reckoned in one plane through its thread');
    expect(sheared.assumed).not.toContain('taken as pulled along');
    for (const { assumed } of [plain, sheared]) {
      expect(assumed).toContain('it prises at them: that is not reckoned');
      expect(assumed).toContain('puts no shear on their bolts here');
    }
  });

  // ISO 898-1 and ISO 3506-1 as in suppliers' tables: stress area, 8.8 proof load, 0.2 % load of A2-70 and A4-80.
  test.each([
    ['M6', 20.1, 11_600, 9045, 12_060],
    ['M8', 36.6, 21_200, 16_470, 21_960],
    ['M10', 58, 33_700, 26_100, 34_800],
    ['M12', 84.3, 48_900, 37_935, 50_580],
    ['M16', 157, 91_000, 70_650, 94_200],
  ] as const)('%s', (size, area, proof, a2, a4) => {
    expect(STRESS_AREA[size]).toBe(area);
    expect(proofLoad(size, '8.8')).toBe(proof);
    expect(proofLoad(size, 'A2-70')).toBeCloseTo(a2, 6);
    expect(proofLoad(size, 'A4-80')).toBeCloseTo(a4, 6);
  });
});

describe('load cases', () => {
  test('twice the weight to every side and up, and upside down without credit for its weight', () => {
    const cases = loadCases({});
    expect(cases.map((one) => [one.direction, one.factor])).toEqual([
      ['forward', 2],
      ['aft', 2],
      ['port', 2],
      ['starboard', 2],
      ['up', 2],
      ['up', 1],
    ]);
    expect(cases.filter((one) => one.direction === 'up').every((one) => !one.weightHolds)).toBe(true);
  });

  test('a heavier case counts in place of the usual one; a lighter one stands beside it with its reason', () => {
    const cases = loadCases({ along: 3, across: 1, reason: 'tried at a quay' });
    expect(cases.map((one) => [one.factor, one.required])).toEqual([
      [3, true],
      [3, true],
      [2, true],
      [1, false],
      [2, true],
      [1, false],
      [2, true],
      [1, true],
    ]);
    expect(cases.filter((one) => !one.required).every((one) => one.reason === 'tried at a quay')).toBe(true);
    expect(cases[0]!.reason).toBeNull();
  });

  test('one downwards only where it is stated, and carried by what it stands on', () => {
    expect(loadCases({}).some((one) => one.direction === 'down')).toBe(false);
    const loads = { down: 3 };
    const on = (carries: number) =>
      held({ ...WHOLE, loads, blocked: { ...WHOLE.blocked, down: { by: 'floors', carries } } });
    expect(on(5).held).toBe(true);
    expect(on(1).cases.find((one) => !one.carried)!.least[0]).toContain('carry 1.77 kN');
    expect(held({ ...WHOLE, loads }).held).toBe(false);
  });
});

describe('a void is held only when every case is carried', () => {
  test('one that falls short by a hair is not told as used to 100 %', () => {
    // What blocks a side carries 3 kN: 152.96 kg at twice their weight are 3.0001 kN.
    const mass = (3000 * 1.00003) / (2 * GRAVITY);
    const [forward] = held(WHOLE, mass).cases.filter(({ direction }) => direction === 'forward');
    expect(forward!.carried).toBe(false);
    expect(forward!.text).toContain('NOT CARRIED (');
    expect(forward!.text).toContain('used to 101 %');
    const [under] = held(WHOLE, mass * 0.9999).cases.filter(({ direction }) => direction === 'forward');
    expect(under!.carried).toBe(true);
    expect(under!.text).toContain('used to 100 %');
  });

  test('bars across and all sides blocked hold it', () => {
    expect(held(WHOLE).held).toBe(true);
  });

  test.each(['forward', 'aft', 'port', 'starboard'] as const)('not where nothing stands %s of it', (side) => {
    const result = held({ ...WHOLE, blocked: { ...WHOLE.blocked, [side]: undefined } });
    expect(result.held).toBe(false);
    expect(result.cases.filter((one) => !one.carried).map((one) => one.direction)).toEqual([side]);
    expect(result.cases.find((one) => !one.carried)!.least.join(' ')).toContain('blocked');
  });

  test('not without a bar or a strap over it', () => {
    expect(held({ ...WHOLE, bars: [] }).cases.filter((one) => !one.carried)).toHaveLength(2);
  });

  test('not where nothing is entered; an empty void has nothing to hold', () => {
    const place = { ...placeWith({}), holdDown: undefined };
    expect(heldVoid(place, { mass: 40, rolling: false, athwartships: false }).held).toBe(false);
    expect(heldVoid(place, { mass: 0, rolling: false, athwartships: false }).held).toBe(true);
  });

  test('not by lighter loads alone: the usual ones stay, and what carries only the lighter ones is told with the reason', () => {
    const weak = { by: 'floor timbers', carries: 0.8 };
    const blocked = { forward: BLOCK, aft: BLOCK, port: weak, starboard: weak };
    const loads = { across: 1, reason: 'never leaves the lock' };
    const result = held({ ...WHOLE, blocked, loads });
    expect([result.held, result.heldLighter]).toEqual([false, 'never leaves the lock']);
    expect(held({ ...WHOLE, loads })).toMatchObject({ held: true, heldLighter: null });
    expect(held({ ...WHOLE, blocked: { ...blocked, aft: undefined }, loads }).heldLighter).toBeNull();
  });

  test('what comes from memory or from elsewhere is named as a default to confirm', () => {
    const { assumed } = held({
      ...WHOLE,
      friction: 0.3,
      straps: [{ kind: 'over', count: 2, lashingCapacity: 5, angle: 60 }],
    });
    for (const words of ['no rule for ballast', '1.25 forward', 'half its lashing', 'μ 0.3', '235 MPa', 'over 1.5'])
      expect(assumed.join(' ')).toContain(words);
    expect(assumed.filter((words) => words.includes('confirm')).length).toBeGreaterThanOrEqual(3);
    expect(held({ blocked: WHOLE.blocked! }).assumed).toHaveLength(1);
  });

  test('steel on an aluminium hull, and stainless where the hull is not stated, is isolated', () => {
    const a4 = { ...BAR, bolts: { ...BAR.bolts, grade: 'A4-80' } } as const;
    const minds = (hull: string | undefined, bar: HoldInput['bars']) =>
      heldVoid(placeWith({ ...WHOLE, bars: bar }), { mass: 60, rolling: false, athwartships: false, hull }).minds.join(
        ' ',
      );
    expect(minds('aluminium', [BAR])).toContain('isolated from the aluminium');
    expect(minds(undefined, [a4])).toContain('Stainless bolts are isolated');
    expect(minds('wood', [a4])).not.toContain('isolated');
    expect(minds('wood', [BAR])).toMatch(/Sole boards are no hold-down.*wedged tight/);
  });

  test('straps over the top do not hold round bars lengthwise', () => {
    const straps: HoldInput = { friction: 0.6, straps: [{ kind: 'over', count: 8, lashingCapacity: 5, angle: 80 }] };
    const lengthwise = (rolling: boolean, athwartships: boolean) =>
      heldVoid(placeWith(straps), { mass: 20, rolling, athwartships }).cases.map((one) => one.carried);
    expect(lengthwise(false, false)).toEqual([true, true, true, true, true, true]);
    expect(lengthwise(true, false)).toEqual([false, false, true, true, true, true]);
    expect(lengthwise(true, true)).toEqual([true, true, false, false, true, true]);
  });

  test('a direct strap along round bars is told to want a board across their ends', () => {
    const strap = { kind: 'direct', count: 2, lashingCapacity: 5, angle: 30, against: 'aft' } as const;
    const told = (rolling: boolean, athwartships: boolean) =>
      heldVoid(placeWith({ straps: [strap] }), { mass: 20, rolling, athwartships }).assumed.join(' ');
    expect(told(true, false)).toContain('a board across the ends of the bars');
    for (const [rolling, athwartships] of [
      [false, false],
      [true, true],
    ] as const)
      expect(told(rolling, athwartships)).not.toContain('a board across');
  });

  test('what is told as the least does carry', () => {
    const weak = held({ ...WHOLE, bars: [{ ...BAR, count: 1, thickness: 4 }] }, 90);
    const least = weak.cases.find((one) => one.direction === 'up')!.least[0]!;
    const thickness = Number(/at least (\d+) mm thick/.exec(least)![1]);
    const stronger = held({ ...WHOLE, bars: [{ ...BAR, count: 1, thickness }] }, 90);
    const weaker = held({ ...WHOLE, bars: [{ ...BAR, count: 1, thickness: thickness - 1 }] }, 90);
    const up = (one: typeof weak) => one.cases.find((each) => each.direction === 'up')!.carried;
    expect([up(weak), up(weaker), up(stronger)]).toEqual([false, false, true]);
  });
});

describe('a bar across counts only where it bridges the void', () => {
  const spanning = (span: number, axis: 'fore-and-aft' | 'athwartships' | 'either' = 'fore-and-aft', turned = false) =>
    heldVoid(
      { ...placeWith({ ...WHOLE, bars: [{ ...BAR, thickness: 20, span }] }), axis },
      { mass: 40, rolling: false, athwartships: turned },
    );

  test('a span typed in cm is not counted, is told why, and what would do is told over the width', () => {
    const slip = spanning(30);
    expect(slip.held).toBe(false);
    expect(slip.notCounted.join()).toMatch(/span of 30 mm is less than the 300 mm .* If it was in cm, write 300\./);
    const up = slip.cases.filter((one) => one.direction === 'up');
    expect(up.map((one) => [one.carried, one.best, one.used])).toEqual([
      [false, null, null],
      [false, null, null],
    ]);
    expect(up[0]!.text).toContain('nothing that is counted');
    expect(up[0]!.least[0]).toContain('over 300 mm');
  });

  test('at the clear width and over it, it counts', () => {
    expect([299, 300, 320].map((span) => spanning(span).held)).toEqual([false, true, true]);
  });

  test('the other bars and the straps still count', () => {
    const bars = [
      { ...BAR, span: 40 },
      { ...BAR, span: 400 },
    ];
    expect(held({ ...WHOLE, bars })).toMatchObject({ held: true, notCounted: [expect.stringContaining('40 mm')] });
    const over = { kind: 'over', count: 4, lashingCapacity: 5, angle: 60 } as const;
    expect(held({ ...WHOLE, bars: [{ ...BAR, span: 40 }], straps: [over] }).held).toBe(true);
  });

  test('in a void that lies either way, across the bars as they are laid', () => {
    expect(spanning(320, 'either').held).toBe(true);
    expect(spanning(320, 'either', true).held).toBe(false);
    expect(spanning(1000, 'either', true).held).toBe(true);
    expect(spanning(320, 'athwartships', true).held).toBe(true);
  });

  test('in a shape, over the widest place as high as the stow may reach', () => {
    const at = (half: number) => [
      { up: 0, from: -20, to: 20 },
      { up: 130, from: -half, to: half },
    ];
    const stations = [
      { along: 0, at: at(100) },
      { along: 1000, at: at(180) },
    ];
    const shaped = (span: number) =>
      heldVoid(
        { ...placeWith({ ...WHOLE, bars: [{ ...BAR, span }] }), stations },
        { mass: 20, rolling: false, athwartships: false },
      ).held;
    expect([shaped(359), shaped(360)]).toEqual([false, true]);
  });
});

describe('never better by less', () => {
  const worst = (result: ReturnType<typeof held>) => Math.max(...result.cases.map((one) => one.used ?? 1e9));
  const positive = (max: number) => fc.double({ min: 0.1, max, noNaN: true });

  test('more mass is never carried better', () => {
    fc.assert(
      fc.property(positive(200), positive(200), (mass, more) => {
        expect(worst(held(WHOLE, mass + more))).toBeGreaterThanOrEqual(worst(held(WHOLE, mass)));
      }),
    );
  });

  test('a longer span never carries better', () => {
    fc.assert(
      fc.property(fc.integer({ min: 300, max: 900 }), fc.integer({ min: 1, max: 300 }), (span, more) => {
        const of = (length: number) => worst(held({ ...WHOLE, bars: [{ ...BAR, span: length }] }));
        expect(of(span + more)).toBeGreaterThanOrEqual(of(span));
      }),
    );
  });

  test('a flatter strap over the top never carries better', () => {
    fc.assert(
      fc.property(fc.integer({ min: 5, max: 88 }), fc.constantFrom(0.1, 0.3, 0.6), (angle, friction) => {
        const of = (degrees: number) =>
          held({ friction, straps: [{ kind: 'over', count: 2, lashingCapacity: 2, angle: degrees }] });
        const [flat, steep] = [of(angle), of(angle + 1)];
        for (const [n, one] of flat.cases.entries()) expect(one.used!).toBeGreaterThanOrEqual(steep.cases[n]!.used!);
      }),
    );
  });

  test('a smaller bolt never carries better', () => {
    for (const grade of ['8.8', 'A2-70', 'A4-80'] as const) {
      for (const [n, size] of BOLT_SIZES.entries()) {
        const next = BOLT_SIZES[n + 1];
        if (next) expect(proofLoad(size, grade)).toBeLessThan(proofLoad(next, grade));
      }
      const used = BOLT_SIZES.map((size) => {
        const bars = [{ ...BAR, width: 4000, bolts: { ...BAR.bolts, size, grade } }];
        return held({ bars }, 900).cases.find((one) => one.direction === 'up')!.used!;
      });
      expect(used).toEqual([...used].sort((p, q) => q - p));
      expect(used[0]).toBeGreaterThan(used.at(-1)!);
      expect(leastBolt({ grade }, 20_000)).not.toBeNull();
      expect(leastBolt({ grade }, 1e9)).toBeNull();
    }
  });
});
