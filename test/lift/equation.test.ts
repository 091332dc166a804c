import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { guideLift, type LIFT_CAUTIONS, type Lift, LOAD_CONSTANT } from '../../src/lift/equation.ts';
import { paceMultiplier } from '../../src/lift/pace.ts';

const POUND = 0.45359237;
const INCH = 25.4;

interface End {
  reach: number;
  height: number;
  /** Multipliers as the tables of the publication round them: reach, height, travel, twist, pace, grip. */
  tables: number[];
  pounds: number;
  kilograms: number;
}

/** Single-task examples of NIOSH 94-110 (public domain): inches, degrees; limits in lb as published, and kg by the metric equation. */
const PUBLISHED: { name: string; twist: number; perMinute: number; grip: Lift['grip']; ends: [End, End] }[] = [
  {
    name: 'punch press stock',
    twist: 0,
    perMinute: 0.2,
    grip: 'fair',
    ends: [
      { reach: 23, height: 15, tables: [0.44, 0.89, 0.86, 1, 1, 0.95], pounds: 16.3, kilograms: 7.12 },
      { reach: 23, height: 64, tables: [0.44, 0.75, 0.86, 1, 1, 1], pounds: 14.5, kilograms: 6.21 },
    ],
  },
  {
    name: 'supply rolls',
    twist: 0,
    perMinute: 0.2,
    grip: 'poor',
    ends: [
      { reach: 15, height: 27, tables: [0.67, 0.98, 0.93, 1, 1, 0.9], pounds: 28, kilograms: 12.31 },
      { reach: 20, height: 10, tables: [0.5, 0.85, 0.93, 1, 1, 0.9], pounds: 18.1, kilograms: 8.01 },
    ],
  },
  {
    name: 'package inspection',
    twist: 0,
    perMinute: 3,
    grip: 'fair',
    ends: [
      { reach: 10, height: 22, tables: [1, 0.94, 0.87, 1, 0.88, 0.95], pounds: 34.9, kilograms: 15.48 },
      { reach: 20, height: 59, tables: [0.5, 0.78, 0.87, 1, 0.88, 1], pounds: 15.2, kilograms: 6.7 },
    ],
  },
  {
    name: 'dish-washing machine',
    twist: 30,
    perMinute: 5,
    grip: 'good',
    ends: [
      { reach: 20, height: 44, tables: [0.5, 0.9, 0.87, 0.9, 0.8, 1], pounds: 14.4, kilograms: 6.32 },
      { reach: 20, height: 7, tables: [0.5, 0.83, 0.87, 0.9, 0.8, 1], pounds: 13.3, kilograms: 5.88 },
    ],
  },
];

describe.each(PUBLISHED)('the published example of $name', ({ twist, perMinute, grip, ends }) => {
  const [from, to] = ends;
  const mm = (inches: number) => inches * INCH;
  const lift: Lift = {
    reach: mm(from.reach),
    reachEnd: mm(to.reach),
    start: mm(from.height),
    end: mm(to.height),
    twist,
    perMinute,
    grip,
  };
  const found = guideLift(lift);

  it.each([
    ['begin', from],
    ['finish', to],
  ] as const)('gives its limit at the %s, in metric to 0.02 kg', (end, published) => {
    expect(Math.abs(found[end].rwl - published.kilograms)).toBeLessThanOrEqual(0.02);
    expect(found.applies).toBe(true);
  });

  it.each(ends)('is 51 lb times the multipliers of the tables, to 0.1 lb', ({ tables, pounds }) => {
    expect(Math.abs(tables.reduce((product, each) => product * each, 51) - pounds)).toBeLessThanOrEqual(0.1);
  });

  it.each([
    ['begin', from],
    ['finish', to],
  ] as const)('has multipliers like those tables at the %s', (end, { tables, pounds }) => {
    // 25 cm is 1.6 % under 10 in, and the tables are rounded to two digits and to whole inches.
    const own = Object.values(found[end].multipliers) as number[];
    for (const [i, each] of tables.entries()) expect(Math.abs(own[i]! / each - 1)).toBeLessThanOrEqual(0.03);
    expect(found[end].rwl / POUND).toBeLessThan(pounds);
  });

  it('guides by the lesser end', () => {
    expect(found.guide).toBe(Math.min(found.begin.rwl, found.finish.rwl));
  });
});

describe('products checked against metric worked figures', () => {
  const products: [multipliers: number[], kilograms: number][] = [
    [[0.5, 1, 0.95, 1, 1, 1], 10.9],
    [[0.8, 1, 0.95, 1, 1, 1], 17.5],
    [[0.8, 0.8, 0.86, 1, 1, 0.9], 11.4],
    [[0.8, 1, 0.95, 1, 1, 0.9], 15.7],
    [[1, 0.94, 0.87, 1, 0.88, 0.95], 15.7],
  ];
  it.each(products)('%o × 23 kg', (multipliers, kilograms) => {
    expect(Math.abs(multipliers.reduce((a, b) => a * b, LOAD_CONSTANT) - kilograms)).toBeLessThanOrEqual(0.05);
  });

  it('the metric package: 25 cm, 55 cm up, 95 cm travel, 3 a minute, fair', () => {
    const { begin } = guideLift({ reach: 250, start: 550, end: 1500, perMinute: 3, grip: 'fair' });
    expect(begin.rwl).toBeCloseTo(15.72, 1);
  });
});

it('the example of the format page comes out as printed there', () => {
  const { begin, finish, guide, applies, cautions } = guideLift({ reach: 450, start: 750, end: 300 });
  expect(begin.rwl).toBeCloseTo(11.76, 2);
  expect(begin.multipliers.reach).toBeCloseTo(0.556, 3);
  expect(begin.multipliers).toMatchObject({ height: 1, twist: 1, pace: 1, grip: 1 });
  expect(begin.multipliers.travel).toBeCloseTo(0.92, 10);
  expect([finish.rwl, guide].map((each) => each.toFixed(2))).toEqual(['9.66', '9.66']);
  expect([applies, cautions]).toEqual([true, []]);
});

describe('the method ends', () => {
  const lift: Lift = { reach: 400, start: 700, end: 900 };
  const beyond: [string, Partial<Lift>, keyof typeof LIFT_CAUTIONS][] = [
    ['kneeling', { posture: 'kneeling' }, 'kneeling'],
    ['seated', { posture: 'seated' }, 'seated'],
    ['with one hand', { hands: 1 }, 'one-hand'],
    ['with hands that begin below the feet', { start: -1 }, 'hands-below-feet'],
    ['with hands that end below the feet', { end: -200 }, 'hands-below-feet'],
    ['with a reach over 630 mm', { reach: 631 }, 'reach-over-630'],
    ['with a reach over 630 mm at the end', { reachEnd: 700 }, 'reach-over-630'],
    ['with hands over 1750 mm', { end: 1751 }, 'height-over-1750'],
    ['with a travel over 1750 mm', { start: 0, end: 1760 }, 'travel-over-1750'],
    ['with a twist over 135 degrees', { twistEnd: 136 }, 'twist-over-135'],
    ['over 8 hours', { spell: 'over-long' }, 'over-8-hours'],
  ];
  it.each(beyond)('%s', (_name, change, code) => {
    const found = guideLift({ ...lift, ...change });
    expect(found.applies).toBe(false);
    expect(found.cautions.map((caution) => caution.code)).toContain(code);
  });

  it('and not at its very limits', () => {
    const found = guideLift({ reach: 630, start: 0, end: 1750, twist: 135, spell: 'long' });
    expect(found.applies).toBe(true);
    expect(found.guide).toBeGreaterThan(0);
  });

  it('leaves nothing to lift over 15 times a minute, and says so', () => {
    const found = guideLift({ ...lift, perMinute: 15.1 });
    expect([found.guide, found.cautions.map((caution) => caution.code)]).toEqual([0, ['too-fast', 'pace-from-memory']]);
  });

  it('says so where a pace is reckoned by rows from memory', () => {
    const codes = (perMinute: number) => guideLift({ ...lift, perMinute }).cautions.map((caution) => caution.code);
    expect(codes(10)).toEqual([]);
    expect(codes(10.5)).toEqual(['pace-from-memory']);
    expect(guideLift({ ...lift, perMinute: 12 }).applies).toBe(true);
  });
});

describe('the pace table', () => {
  it('is linear between its rows', () => {
    expect(paceMultiplier(0.75, 'short', 800)).toBeCloseTo((0.97 + 0.94) / 2, 12);
    expect(paceMultiplier(8.5, 'long', 700)).toBeCloseTo(0.09, 12);
  });
  it('takes the first row below a lift in five minutes, and the short spell below one in ten', () => {
    expect(paceMultiplier(0.15, 'long', 800)).toBe(0.85);
    expect(paceMultiplier(0.09, 'long', 800)).toBe(1);
    // Hands at 750 mm count as high.
    expect([749, 750].map((height) => paceMultiplier(9, 'long', height))).toEqual([0, 0.15]);
  });
});

describe('with all else fixed', () => {
  const lifts = fc.record({
    reach: fc.integer({ min: 100, max: 700 }),
    start: fc.integer({ min: -300, max: 1900 }),
    end: fc.integer({ min: -300, max: 1900 }),
    twist: fc.integer({ min: 0, max: 140 }),
    perMinute: fc.double({ min: 0, max: 16, noNaN: true }),
    spell: fc.constantFrom('short', 'moderate', 'long', 'over-long'),
    grip: fc.constantFrom('good', 'fair', 'poor'),
  });
  const more = fc.double({ min: 0, max: 300, noNaN: true });

  it.each(['reach', 'twist', 'perMinute'] as const)('the guide never rises with %s', (field) => {
    fc.assert(
      fc.property(lifts, more, (lift, by) => {
        const step = field === 'perMinute' ? by / 50 : by;
        return guideLift({ ...lift, [field]: lift[field] + step }).guide <= guideLift(lift).guide + 1e-9;
      }),
      { seed: 7, numRuns: 2000 },
    );
  });

  it('the travel multiplier never rises with travel', () => {
    fc.assert(
      fc.property(lifts, more, (lift, by) => {
        const further = { ...lift, end: lift.end >= lift.start ? lift.end + by : lift.end - by };
        return guideLift(further).begin.multipliers.travel <= guideLift(lift).begin.multipliers.travel + 1e-12;
      }),
      { seed: 7, numRuns: 2000 },
    );
  });

  it('every multiplier lies between 0 and 1', () => {
    fc.assert(
      fc.property(lifts, (lift) =>
        [guideLift(lift).begin, guideLift(lift).finish].every(({ multipliers }) =>
          Object.values(multipliers).every((each) => each >= 0 && each <= 1),
        ),
      ),
      { seed: 7, numRuns: 2000 },
    );
  });
});
