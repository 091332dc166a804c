/** Knapsacks that skip where nothing can be gained, held against the plain way. */
import { describe, expect, test } from 'vitest';
import { Ends, knapsack } from '../../src/stow/knapsack.ts';
import { throwDice } from '../bench/dice.ts';

/** Items, each larger and worth more than the one before, and room for some of them. */
function throwItems(seed: number) {
  const dice = throwDice(seed);
  const count = dice.whole(1, 12);
  const sizes = new Int32Array(count);
  const worths = new Float64Array(count);
  for (let i = 0, size = dice.whole(1, 40), worth = 0; i < count; i++, size += dice.whole(1, 30)) {
    sizes[i] = size;
    worths[i] = worth += dice.stepped(0.01, 2, 0.01);
  }
  return { sizes, worths, room: dice.whole(0, 400) };
}

/** What each room is worth, every item tried at every place. */
function plainly({ sizes, worths, room }: ReturnType<typeof throwItems>): Float64Array {
  const value = new Float64Array(room + 1);
  for (let end = 1; end <= room; end++) {
    value[end] = value[end - 1]!;
    sizes.forEach((size, i) => {
      if (size <= end) value[end] = Math.max(value[end]!, value[end - size]! + worths[i]!);
    });
  }
  return value;
}

describe.each(Array.from({ length: 60 }, (_, i) => i + 1))('items thrown, %i', (seed) => {
  const items = throwItems(seed);
  const plain = plainly(items);

  test('every room is worth to the digit what it is plainly', () => {
    const value = new Float64Array(500).fill(-7);
    const all = knapsack(items.sizes, items.worths, items.sizes.length, items.room, value);
    expect(all).toBe(plain[items.room]);
    expect(value.slice(0, items.room + 1)).toEqual(plain);
  });

  test('more is worth something only where an item may end', () => {
    const ends = new Ends(items.sizes, items.room);
    for (let end = 1; end <= items.room; end++) {
      if (plain[end]! <= plain[end - 1]!) continue;
      expect(ends.has(end), `${end}`).toBe(true);
      ends.begin(end);
    }
  });
});
