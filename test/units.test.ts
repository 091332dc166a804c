import fc from 'fast-check';
import { expect, test } from 'vitest';
import {
  fixed,
  hasFootOfInches,
  parseForce,
  parseLength,
  parseMass,
  parseMassPerMetre,
  parseNumber,
  printFeet,
  printOther,
  printPounds,
  printPoundsFinely,
  twoReadings,
} from '../src/units.ts';

test.each([
  ['1280', 1280],
  ['1.28 m', 1280],
  ['128 cm', 1280],
  ['128cm', 1280],
  [`4' 2 1/2"`, 1282.7],
  ['4ft 2.5in', 1282.7],
  ['4′ 2½″', 1282.7],
  ['2 1/2"', 63.5],
  ['1/2 in', 12.7],
  [`4' 2`, 1270],
  ['1,28 m', 1280],
  ['12,5', 12.5],
  ['1 280', 1280],
  ['1\u2009280', 1280],
  ['12\u00a0500,5', 12500.5],
  ['1\u202f280\u202f000 mm', 1280000],
  ['3 m 20 cm', 3200],
  ['−70', -70],
  [`- 4' 2"`, -1270],
  [`3' 7-1/4"`, 1098.55],
  ['1-1/2 in', 38.1],
  [`8'-3 1/2"`, 2527.3],
  [`8' - 3-1/2"`, 2527.3],
  ['5 ft-0 in', 1524],
  ['5,480 m', 5480],
  ['0,280', 0.28],
  [`9' 11 63/64"`, 3047.6],
  ['4 ft 20 mm', 1239.2],
  ['14"', 355.6],
])('the length %s is %d mm', (text, mm) => {
  expect(parseLength(text)).toBe(mm);
});

test.each([
  '',
  'abc',
  '1,280',
  '1.2.3',
  '5 3',
  '2400 980',
  '5480 475',
  '5480\u2009475',
  '1.5 280',
  '1e5',
  '0x10',
  'NaN',
  '.',
  '2.5in 4ft',
  '3 constructor',
  '1/0 in',
  '4 lb',
  '--5',
  '50 1/2',
  '50-1/2',
  '3/4',
  '1,280 mm',
  '1,280 in',
  `1,280"`,
  '3 m -20 cm',
  '4 ft 2 ft',
  `9' 14"`,
  `9'-12`,
  '9 ft 12 1/2 in',
  '9'.repeat(400),
  `${'9'.repeat(307)} m`,
])('“%s” is no length', (text) => {
  expect(parseLength(text)).toBeNull();
});

test('of lengths that can not be read those are known whose inches make a foot beside their feet', () => {
  expect([`9' 14"`, `9'-12`, '-9 ft 12½ in'].map(hasFootOfInches)).toEqual([true, true, true]);
  expect([`9' 11"`, '14"', `9' 14' 2"`, '9 m 120 cm', 'long'].map(hasFootOfInches)).toEqual(Array(5).fill(false));
});

test('masses, masses per metre and plain numbers are read with their units', () => {
  expect([
    parseMass('31 lb'),
    parseMass('6,5 kg'),
    parseMass('500 g'),
    parseMass('1.2 t'),
    parseMass('2 lb 3 oz'),
    parseMass('5 mm'),
  ]).toEqual([14.061, 6.5, 0.5, 1200, 0.992, null]);
  expect([parseMassPerMetre('6.28'), parseMassPerMetre('4.2 lb/ft'), parseMassPerMetre('6.28 kg')]).toEqual([
    6.28,
    6.25,
    null,
  ]);
  expect([parseNumber('-3,5'), parseNumber('1,280'), parseNumber('7 kg'), parseLength('0.42', 'm')]).toEqual([
    -3.5,
    null,
    null,
    420,
  ]);
});

test('a comma before three figures is not guessed at, but where only a decimal can be meant', () => {
  expect([parseMass('1,400 lb'), parseMass('12,500 kg'), parseMass('1,250 t'), parseMass('1400 lb')]).toEqual([
    null,
    null,
    1250,
    635.029,
  ]);
  expect(parseMassPerMetre('6,285 kg/m')).toBe(6.285);
  expect(['1,280', '-1,400 lb', `1,280"`, '5,480 m', '0,280', '12,5 kg', '1,400 lb 3 oz'].map(twoReadings)).toEqual([
    ['1280', '1.280'],
    ['-1400 lb', '-1.400 lb'],
    [`1280"`, `1.280"`],
    null,
    null,
    null,
    null,
  ]);
});

test('feet and inches printed are read again within a thirty-second of an inch', () => {
  fc.assert(
    fc.property(fc.double({ min: -20_000, max: 20_000, noNaN: true }), (mm) => {
      expect(Math.abs((parseLength(printFeet(mm)) ?? Number.NaN) - mm)).toBeLessThan(25.4 / 32 + 0.01);
    }),
  );
  expect([1282.7, 304.8, 12.7, 0, 1.5, 1279].map((mm) => printFeet(mm))).toEqual([
    `4' 2 1/2"`,
    `1' 0"`,
    '1/2"',
    '0"',
    '1/16"',
    `4' 2 3/8"`,
  ]);
  expect([312, 627, 304.8, 0.4].map((mm) => printFeet(mm, 32))).toEqual([`1' 9/32"`, `2' 11/16"`, `1' 0"`, `1/32"`]);
  expect([printPounds(10), printPounds(741)]).toEqual(['22 lb', '1634 lb']);
  expect(printPoundsFinely(8.2)).toBe('18.08 lb');
  expect([printOther(5, 'kN'), printOther(0.21, 'm²', 'up'), printOther(71.3, 'm')]).toEqual([
    '1124 lbf',
    '2.3 ft²',
    '233.92 ft',
  ]);
});

test('halves are rounded as they are read, sums that end a hair under them too, and nought has no sign', () => {
  expect([fixed(113.35, 1), fixed(-113.35, 1), fixed(1.005, 2), fixed(0.1 + 0.25 - 1e-12, 1)]).toEqual([
    '113.4',
    '-113.4',
    '1.01',
    '0.4',
  ]);
  expect([fixed(0.0951, 2, 'down'), fixed(1.09, 0, 'up'), fixed(-1.549, 1, 'up'), fixed(0.1 + 0.2, 1, 'up')]).toEqual([
    '0.09',
    '2',
    '-1.6',
    '0.3',
  ]);
  expect([fixed(-0.04, 1), fixed(0, 0), fixed(-0.5, 0), fixed(12.5, 0)]).toEqual(['0.0', '0', '-1', '13']);
  fc.assert(
    fc.property(
      fc.integer({ min: -10_000_000, max: 10_000_000 }),
      fc.integer({ min: 0, max: 2 }),
      (cents, decimals) => {
        const off = Math.abs(Number(fixed(cents / 100, decimals)) - cents / 100);
        expect(off).toBeLessThanOrEqual(0.5 / 10 ** decimals + 1e-6);
      },
    ),
  );
});

test('a limit goes down and a load goes up, by less than a step, and what is exact stays', () => {
  for (let step = 1; step <= 400; step += 1) {
    const kg = step * 0.37;
    expect(parseMass(printPounds(kg, 'down'))!, `${kg} kg`).toBeLessThanOrEqual(kg + 0.0005);
    expect(parseMass(printPounds(kg, 'up'))!, `${kg} kg`).toBeGreaterThanOrEqual(kg - 0.0005);
    const mm = step * 7.3;
    for (const parts of [16, 32] as const) {
      const [down, up] = (['down', 'up'] as const).map((towards) => parseLength(printFeet(mm, parts, towards))!);
      expect(down!, `${mm} mm`).toBeLessThanOrEqual(mm + 0.005);
      expect(up!, `${mm} mm`).toBeGreaterThanOrEqual(mm - 0.005);
      expect(up! - down!, `${mm} mm`).toBeLessThan(25.4 / parts + 0.02);
    }
    const kN = step * 0.043;
    expect(parseForce(printOther(kN, 'kN', 'up'))!).toBeGreaterThanOrEqual(kN - 0.001);
    expect(parseForce(printOther(kN, 'kN', 'down'))!).toBeLessThanOrEqual(kN + 0.001);
  }
  expect([parseForce('1100 lbf'), parseForce('1100 lb'), parseForce('1,100 lbf')]).toEqual([4.893, 4.893, null]);
  for (let parts = 1; parts <= 400; parts += 1) {
    const exact = printFeet((parts * 25.4) / 32, 32);
    for (const towards of ['down', 'up'] as const) expect(printFeet((parts * 25.4) / 32, 32, towards)).toBe(exact);
  }
  // Up and down are of the size, on either side of nought.
  expect([printPounds(-8.2, 'down'), printPounds(-8.2, 'up')]).toEqual(['-18 lb', '-18.1 lb']);
  expect(printFeet(406.4, 32, 'down')).toBe(`1' 4"`);
  expect(printFeet(406.4, 32, 'up')).toBe(`1' 4"`);
  expect([printPounds(8.2), printPounds(8.2, 'down')]).toEqual(['18.1 lb', '18 lb']);
  expect([printFeet(-9, 16, 'up'), printPounds(-0.001)]).toEqual(['-3/8"', '0 lb']);
});
