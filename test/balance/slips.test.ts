/** Marks that can not both be hers, and marks that can. */
import { expect, test } from 'vitest';
import { apartWords, goTogether, slippedEnds } from '../../src/balance/slips.ts';

test('draughts of one end go together up to half a metre apart, either way, and where one was not read', () => {
  expect([goTogether(0.86, 0.891), goTogether(1, 1.5), goTogether(1.5, 1)]).toEqual([true, true, true]);
  expect([goTogether(0.86, 8.91), goTogether(8.91, 0.86), goTogether(1, 1.51)]).toEqual([false, false, false]);
  expect([goTogether(null, 8.91), goTogether(0.86, null)]).toEqual([true, true]);
});

test('each end is told that has slipped, with both its marks', () => {
  const before = { forward: 0.86, aft: 1.12 };
  expect(slippedEnds(before, { forward: 0.891, aft: 1.13 })).toEqual([]);
  expect(slippedEnds(before, { forward: 8.91, aft: 1.13 })).toEqual(['forward']);
  expect(slippedEnds(before, { forward: 8.91, aft: 11.3 })).toEqual(['forward', 'aft']);
  expect(apartWords(0.86, 8.91)).toBe('8.91 m and 0.86 m before do not go together');
});
