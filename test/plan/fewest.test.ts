/** Which divisions of few lengths are made plans of: the fewest lengths first, until one is near the best; then what the choice lacks. */
import { expect, test } from 'vitest';
import type { Division } from '../../src/plan/division.ts';
import { planFewest } from '../../src/plan/fewest.ts';
import type { Found } from '../../src/plan/found.ts';

/** Divisions of so many lengths, worth so much. */
const FALLING = [
  [6, 99.5],
  [5, 99.8],
  [4, 98.6],
  [3, 97.9],
  [2, 96],
].map(([lengths, worth]) => ({
  skeletons: [{ runs: Array.from({ length: lengths! }, (_, i) => ({ from: 0, length: 100 + i })) }],
  worth,
})) as unknown as Division[];

const lengthsOf = ({ skeletons }: Division) => skeletons[0]!.runs.length;

/** The numbers of lengths of which plans are made, in turn; those of `near` are near the best. */
function made(near: number[], how: { asked?: number; tries?: number; mostPlans?: number } = {}): number[] {
  const asked = how.asked ?? Number.POSITIVE_INFINITY;
  const plans: number[] = [];
  planFewest(FALLING, {
    best: 100,
    asked,
    tries: how.tries ?? 3,
    plan: (division) => {
      plans.push(lengthsOf(division));
      return { score: near.includes(lengthsOf(division)) ? 99 : 90 } as Found;
    },
    isNear: ({ score }) => score === 99,
    shouldStop: () => plans.length >= (how.mostPlans ?? 99),
  });
  return plans;
}

test('the fewest lengths that may be enough come first; then what one less would cost, and the worthiest', () => {
  expect(made([3, 4, 5, 6])).toEqual([3, 2, 5]);
  expect(made([4, 5])).toEqual([3, 4, 2, 5]);
});

test('so many are tried at most where none is near the best', () => {
  expect(made([])).toEqual([3, 4, 5, 2, 6]);
  expect(made([], { tries: 1 })).toEqual([3, 2, 5]);
});

test('a number that is asked for is planned whatever it is worth, and none twice', () => {
  expect(made([3], { asked: 2 })).toEqual([3, 2, 5]);
  expect(made([3], { asked: 4 })).toEqual([3, 4, 2, 5]);
  expect(made([], { asked: 2, tries: 0 })).toEqual([2, 5]);
});

test('where the fewest are not sought the worthiest alone is planned', () => {
  expect(made([], { tries: 0 })).toEqual([5]);
});

test('stopped, no more are made', () => {
  expect(made([], { mostPlans: 2 })).toEqual([3, 4]);
});
