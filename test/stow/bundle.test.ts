/** Bundles held against the plan format's own formulas, and ties against every way of laying rows. */
import { describe, expect, test } from 'vitest';
import type { BundleRules, Saw } from '../../src/job/job.ts';
import type { Section } from '../../src/job/section.ts';
import {
  acrossSize,
  alongSize,
  lies,
  longestIn,
  nestedWidth,
  sagOf,
  tieOf,
  tiesOf,
  upSize,
} from '../../src/stow/bundle.ts';
import { ceilHalf, floorHalf } from '../../src/stow/half.ts';
import { rulesWith, sawWith } from './spaces.ts';

const ROUND: Section = { shape: 'round', diameter: 24 };
const SQUARE: Section = { shape: 'square', side: 20 };

/** Bars as they lie, across × up, by the table of the job format. */
const LYING: [Section, number, number][] = [
  [{ shape: 'round', diameter: 32 }, 32, 32],
  [{ shape: 'square', side: 20.5 }, 20.5, 20.5],
  [{ shape: 'flat', width: 50, thickness: 12 }, 50, 12],
  [{ shape: 'hexagon', acrossFlats: 30 }, (2 / Math.sqrt(3)) * 30, 30],
  [{ shape: 'deformed', nominal: 16 }, 18.4, 18.4],
  [{ shape: 'angle', leg: 40, otherLeg: 60, thickness: 5 }, 40, 60],
  [{ shape: 'angle', leg: 40, thickness: 5 }, 40, 40],
  [{ shape: 'tube', diameter: 48.3, wall: 3.2 }, 48.3, 48.3],
  [{ shape: 'box', width: 50, height: 30, wall: 3 }, 50, 30],
  [{ shape: 'other', width: 44, height: 21 }, 44, 21],
];
const ROLLING = ['round', 'deformed', 'tube'];

const halfUp = (size: number): number => Math.ceil(size * 2 - 1e-9) / 2;

/** Rows of 1 to `widest` bars, `rows` of them, every way. */
function everyRows(rows: number, widest: number): number[][] {
  if (rows === 0) return [[]];
  return everyRows(rows - 1, widest).flatMap((below) => Array.from({ length: widest }, (_, i) => [...below, i + 1]));
}

function nests(columns: number[]): boolean {
  return columns.every((count, i) => i === 0 || Math.abs(count - columns[i - 1]!) <= 1);
}

const widthOf = (columns: number[]): number =>
  Math.max(...columns) + (columns.some((count, i) => i > 0 && count === columns[i - 1]) ? 0.5 : 0);

const sumOf = (columns: number[]): number => columns.reduce((sum, count) => sum + count, 0);

describe('sizes of a bundle', () => {
  const settings: [Saw, BundleRules, number, number][] = [
    [sawWith({ tolerance: 2 }), rulesWith({ wrap: 3, endCover: 2 }), 2, 470],
    [sawWith({ tolerance: 0 }), rulesWith({ wrap: 0, endCover: 0 }), 0, 1000],
    [sawWith({ tolerance: 3 }), rulesWith({ wrap: 4.5, endCover: 5 }), 4.5, 1733],
    [sawWith({ tolerance: 1.3 }), rulesWith({ wrap: 2.2, endCover: 1.1 }), 0.7, 151],
  ];

  test.each(settings)(
    'are those of the format, rounded up to half a millimetre (setting %#)',
    (saw, rules, bow, length) => {
      const sag = bow * (length / 1000) ** 2;
      expect(sagOf(bow, length)).toBeCloseTo(sag, 9);
      expect(alongSize(length, saw, rules)).toBe(halfUp(length + saw.tolerance + 2 * rules.endCover));
      for (const [section, a, b] of LYING) {
        for (const onEdge of lies(section)) {
          const [across, up] = onEdge ? [b, a] : [a, b];
          for (let rows = 1; rows <= 4; rows++) {
            const nested = ROLLING.includes(section.shape) && rows > 1;
            const stack = nested ? up + ((rows - 1) * up * Math.sqrt(3)) / 2 : rows * up;
            expect(upSize(section, onEdge, rows, rules, sag)).toBe(halfUp(stack + 2 * rules.wrap + sag));
          }
          for (const widest of [1, 2, 5]) {
            expect(acrossSize(section, onEdge, widest, rules, sag)).toBe(
              halfUp(widest * across + 2 * rules.wrap + sag),
            );
          }
        }
      }
    },
  );

  test('a bar lies on edge where that makes a difference, and only there', () => {
    for (const [section, across, up] of LYING) expect(lies(section)).toEqual(across === up ? [false] : [false, true]);
  });

  test('the longest bundle in a room fits, and one millimetre more does not', () => {
    for (const [saw, rules] of settings) {
      for (let room = 200; room < 220; room += 0.5) {
        const longest = longestIn(room, saw, rules);
        expect(longest + saw.tolerance + 2 * rules.endCover).toBeLessThanOrEqual(room + 1e-6);
        expect(longest + 1 + saw.tolerance + 2 * rules.endCover).toBeGreaterThan(room);
        if (Number.isInteger(2 * (saw.tolerance + 2 * rules.endCover)))
          expect(alongSize(longest, saw, rules)).toBeLessThanOrEqual(room);
      }
    }
  });

  test('a size that is a whole half millimetre but for the arithmetic is not rounded up', () => {
    expect(ceilHalf(0.1 + 0.2 + 99.7)).toBe(100);
    expect(ceilHalf(100.01)).toBe(100.5);
    expect(ceilHalf(100.5)).toBe(100.5);
    expect(floorHalf(100 - 1e-12)).toBe(100);
    expect(floorHalf(100.4)).toBe(100);
  });
});

/** True where no row is wider than the lowest. */
const widestLowest = (columns: number[]) => Math.max(...columns) === columns[0];

describe('ties', () => {
  const cases = [1, 2, 3, 4].flatMap((rows) =>
    [SQUARE, ROUND].flatMap((section) => Array.from({ length: 12 }, (_, i) => ({ section, rows, most: i + 1 }))),
  );

  test('are made of rows that the format allows, and told by their true width and number', () => {
    for (const { section, rows, most } of cases) {
      for (const tie of tiesOf(section, rows, most)) {
        expect(tie.columns).toHaveLength(rows);
        expect(Math.min(...tie.columns)).toBeGreaterThanOrEqual(1);
        expect(sumOf(tie.columns)).toBe(tie.bars);
        expect(tie.bars).toBeLessThanOrEqual(most);
        if (tie.arrangement === 'nested') {
          expect(section).toBe(ROUND);
          expect(nests(tie.columns)).toBe(true);
          expect(tie.widest).toBe(widthOf(tie.columns));
          expect(nestedWidth(tie.columns)).toBe(widthOf(tie.columns));
        } else {
          expect(section === SQUARE || rows === 1).toBe(true);
          expect(new Set(tie.columns.slice(0, -1)).size).toBeLessThanOrEqual(1);
          expect(tie.columns[rows - 1]).toBeLessThanOrEqual(tie.columns[0]!);
          expect(tie.widest).toBe(tie.columns[0]);
        }
      }
    }
  });

  test('go from narrow to wide, each wider one with more bars', () => {
    for (const { section, rows, most } of cases) {
      const ties = tiesOf(section, rows, most);
      for (let i = 1; i < ties.length; i++) {
        expect(ties[i]!.widest).toBeGreaterThan(ties[i - 1]!.widest);
        expect(ties[i]!.bars).toBeGreaterThan(ties[i - 1]!.bars);
      }
    }
  });

  test('hold the most bars that any grid of their width does', () => {
    for (let rows = 1; rows <= 5; rows++) {
      for (let most = 1; most <= 14; most++) {
        const ties = tiesOf(SQUARE, rows, most);
        for (let width = 1; width <= 15; width++) {
          let best = 0;
          for (let columns = 1; columns <= width; columns++) {
            for (let top = 1; top <= columns; top++) {
              const bars = (rows - 1) * columns + top;
              if (bars <= most) best = Math.max(best, bars);
            }
          }
          const told = ties.filter((tie) => tie.widest <= width).at(-1)?.bars ?? 0;
          expect([rows, most, width, told]).toEqual([rows, most, width, best]);
        }
      }
    }
  });

  test.each([
    ['any way', true],
    ['the widest row lowest', false],
  ] as const)('hold the most bars that nested rows of their width do, %s', (_, anyWay) => {
    for (let rows = 2; rows <= 4; rows++) {
      const ways = everyRows(rows, 6).filter((columns) => nests(columns) && (anyWay || widestLowest(columns)));
      for (let most = 1; most <= 12; most++) {
        const ties = tiesOf(ROUND, rows, most, anyWay);
        for (let width = 1; width <= 6; width += 0.5) {
          const best = Math.max(
            0,
            ...ways
              .filter((columns) => widthOf(columns) <= width)
              .map(sumOf)
              .filter((bars) => bars <= most),
          );
          const told = ties.filter((tie) => tie.widest <= width).at(-1)?.bars ?? 0;
          expect([rows, most, width, told]).toEqual([rows, most, width, best]);
        }
      }
    }
  });

  test('of one row of rounds are rafts, as wide as they have bars', () => {
    expect(tiesOf(ROUND, 1, 3).map((tie) => [tie.arrangement, tie.columns])).toEqual([
      ['grid', [1]],
      ['grid', [2]],
      ['grid', [3]],
    ]);
  });

  test('of exactly so many bars are the narrowest there are, and missing only where there is none', () => {
    for (const { section, rows, most } of cases) {
      const nested = section === ROUND && rows > 1;
      const ways = nested
        ? everyRows(rows, 7).filter((columns) => nests(columns) && widestLowest(columns))
        : Array.from({ length: most }, (_, i) => Array.from({ length: i + 1 }, (_, top) => [i + 1, top + 1])).flat();
      const widths = ways
        .filter(
          (way) => (nested ? sumOf(way) : (rows - 1) * way[0]! + way[1]!) === most && (rows > 1 || way[0] === way[1]),
        )
        .map((way) => (nested ? widthOf(way) : way[0]!));
      const best = widths.length > 0 ? Math.min(...widths) : null;
      const tie = tieOf(section, rows, most);
      expect([rows, most, tie?.bars ?? most, tie?.widest ?? null]).toEqual([rows, most, most, best]);
    }
  });
});
