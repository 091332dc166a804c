/** The table of exact fills, held against filling it with one piece after the other. */
import { describe, expect, test } from 'vitest';
import { fillTable, TableRoom } from '../../src/plan/fillTable.ts';
import { throwDice } from '../bench/dice.ts';

/** Pieces every `step` from 150, worth what lies between a few knots; some are not worth having. */
function throwPieces(seed: number) {
  const dice = throwDice(seed);
  const step = dice.pick([1, 1, 4, 37]);
  const scale = dice.pick([1, 2]);
  const lengths = Array.from({ length: Math.floor(dice.whole(40, 900) / step) + 1 }, (_, i) => 150 + i * step);
  const knots = [100, 300, 480 + dice.whole(0, 50), 900, 1200];
  const rates = knots.map((knot) => knot * 0.001 * dice.stepped(0.8, 1.2, 0.01));
  const worths = Float64Array.from(lengths, (length) => {
    const above = knots.findIndex((knot) => knot >= length);
    const share = (length - knots[above - 1]!) / (knots[above]! - knots[above - 1]!);
    return rates[above - 1]! * (1 - share) + rates[above]! * share - 0.05;
  });
  const weights = Int32Array.from(lengths, (length) => length * scale + 3);
  const own = Int32Array.from(lengths.map((_, i) => i).filter(() => dice.chance(seed % 3 === 0 ? 0.98 : 1)));
  return { own, weights, worths, size: scale * dice.whole(400, 2600) };
}

describe('a table of exact fills', () => {
  test.each(Array.from({ length: 40 }, (_, i) => i + 1))('is what one piece after the other makes it, %i', (seed) => {
    const { own, weights, worths, size } = throwPieces(seed);
    const table = new TableRoom().empty(size);
    fillTable(table, { own, weights, worths });
    const { value } = table;
    const plain = new TableRoom().empty(size).value;
    for (const i of own)
      for (let c = weights[i]!; c <= size; c++) plain[c] = Math.max(plain[c]!, plain[c - weights[i]!]! + worths[i]!);
    for (let c = 0; c <= size; c++) {
      if (plain[c] === Number.NEGATIVE_INFINITY) expect(value[c]).toBe(Number.NEGATIVE_INFINITY);
      else expect(value[c]).toBeCloseTo(plain[c]!, 8);
    }
  });

  test.each([1, 2, 3, 4])('is made of the pieces that it tells, %i', (seed) => {
    const { own, weights, worths, size } = throwPieces(seed);
    const table = new TableRoom().empty(size);
    fillTable(table, { own, weights, worths });
    const { value, choice } = table;
    for (let c = 1; c <= size; c++) {
      if (value[c] === Number.NEGATIVE_INFINITY) continue;
      let worth = 0;
      let left = c;
      for (; left > 0; left -= weights[choice[left]!]!) worth += worths[choice[left]!]!;
      expect(left).toBe(0);
      expect(worth).toBeCloseTo(value[c]!, 8);
    }
  });

  test.each(Array.from({ length: 40 }, (_, i) => i + 1))(
    'loses nothing that is worth most once waste is paid for, %i',
    (seed) => {
      const { own, weights, worths, size } = throwPieces(seed);
      const dice = throwDice(seed + 1000);
      const waste = { perUnit: dice.stepped(0, 0.002, 0.0001), ending: dice.pick([0, 0.05, 0.2]), least: null };
      const whole = new TableRoom().empty(size);
      fillTable(whole, { own, weights, worths });
      const some = new TableRoom().empty(size);
      fillTable(some, { own, weights, worths }, waste);
      // By the room that there is: what is not filled is wasted, but for a sum that comes out just so.
      const most = ({ value }: { value: Float64Array }, room: number) =>
        value
          .subarray(0, room + 1)
          .reduce(
            (best, filled, c) => Math.max(best, filled - waste.perUnit * (room - c) + (c === room ? waste.ending : 0)),
            0,
          );
      for (let n = 0; n < 30; n++) {
        const room = dice.whole(0, size);
        expect(most(some, room)).toBeCloseTo(most(whole, room), 8);
      }
    },
  );
});
