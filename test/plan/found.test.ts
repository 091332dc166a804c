import { expect, test } from 'vitest';
import { workFor } from '../../src/plan/effort.ts';
import { Finds, type Found } from '../../src/plan/found.ts';

/** A plan of so many stops; `score`: its value less what it misses of the aims. */
function plan(stops: number, value: number, score = value): Found {
  const totals = { stops, placedMass: value, scrapMass: 0, minutes: 60 };
  return { plan: { totals, bound: { value } }, score } as unknown as Found;
}

function finds(most: number, chooses: boolean, ...all: Found[]): Finds {
  const found = new Finds(most, chooses);
  for (const one of all) found.add(one);
  return found;
}

const NINE = plan(9, 718);
const FOUR = plan(4, 697);
const THREE = plan(3, 696);

test('the fewest stops within 3 % are given where stops are to be chosen, the worthiest where not', () => {
  expect(finds(99, true, NINE, FOUR, THREE).chosen()).toBe(FOUR);
  expect(finds(99, true, THREE, FOUR, NINE).chosen()).toBe(FOUR);
  expect(finds(99, false, NINE, FOUR, THREE).chosen()).toBe(NINE);
});

test('of as few stops the worthier is given', () => {
  const other = plan(4, 700);
  expect(finds(99, true, NINE, FOUR, other).chosen()).toBe(other);
  expect(finds(99, true, NINE, other, FOUR).chosen()).toBe(other);
});

test('no plan of more stops than allowed or of no worth is given, and 3 % are counted from what may be', () => {
  const poor = plan(1, 0);
  expect(finds(4, true, NINE, THREE, FOUR, poor).chosen()).toBe(THREE);
  expect(finds(2, true, NINE, FOUR, poor).chosen()).toBeNull();
  expect(finds(2, true, NINE, FOUR, poor).best()).toBe(NINE);
  expect(finds(2, true, NINE, FOUR).mostAble()).toBe(0);
});

test('a plan is forgotten for one that keeps the aims better or is worth more, not where it is the best in both', () => {
  const left = (first: Found) => {
    const found = finds(99, false, first, NINE);
    found.leaveWorse(first);
    return found.able();
  };
  expect(left(plan(5, 720, 600))).toEqual([NINE]);
  expect(left(plan(5, 700, 719))).toEqual([NINE]);
  const better = plan(5, 720, 719);
  expect(left(better)).toEqual([better, NINE]);
  const alone = finds(99, false, FOUR);
  alone.leaveWorse(FOUR);
  expect(alone.able()).toEqual([FOUR]);
});

test('the choice tells, fewest stops first, what no plan of fewer beats, and always the one given', () => {
  const told = finds(99, true, NINE, plan(8, 650), FOUR, plan(4, 600)).choice(FOUR.plan);
  expect(told.map(({ stops, value, chosen }) => [stops, value, chosen])).toEqual([
    [4, 697, true],
    [9, 718, false],
  ]);
});

test('what one more would be worth is reckoned at steady, also where voids are no boxes, but for jobs of many', () => {
  const size = { voids: 8, shaped: true, bars: 94 };
  expect(workFor('steady', size, undefined).oneMore).toBe(true);
  expect(workFor('quick', size, undefined).oneMore).toBe(false);
  expect(workFor('steady', { ...size, voids: 30 }, undefined).oneMore).toBe(false);
});

test('divisions of ever fewer lengths are sought for many bars only where stops are to be chosen', () => {
  const size = { voids: 8, shaped: false, bars: 94 };
  expect(workFor('steady', size, undefined).descends).toBe(true);
  expect(workFor('steady', size, 5).descends).toBe(false);
  expect(workFor('quick', size, undefined).descends).toBe(false);
  expect(workFor('steady', { ...size, bars: 40 }, 5).descends).toBe(true);
  expect(workFor('steady', { ...size, shaped: true }, undefined).descends).toBe(true);
  expect(workFor('thorough', size, 5).descends).toBe(true);
  // Of a large job they begin from the relaxation, at steady, but where the worthiest plan alone is wanted.
  const many = { ...size, voids: 30 };
  for (const stops of [undefined, 5])
    expect(workFor('steady', many, stops)).toMatchObject({ descends: true, divisions: 1 });
  expect(workFor('steady', many, 'free').divisions).toBe(0);
  expect(workFor('quick', many, undefined).divisions).toBe(0);
});
