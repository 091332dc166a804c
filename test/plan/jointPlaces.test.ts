/** Placing joints held against trying every placement, by the words of the plan format. */
import { describe, expect, test } from 'vitest';
import { dealJoints, type JointedBars, jointRoom, placeJoints, type Rows } from '../../src/plan/jointPlaces.ts';
import { type Dice, throwDice } from '../bench/dice.ts';

const SEEDS = Array.from({ length: 120 }, (_, i) => i + 1);
const RULES = { shortest: 250, share: 0.3 };

interface Slot {
  row: number;
  place: number;
  last: number;
}

function slotsOf({ columns }: Rows): Slot[] {
  return columns.flatMap((count, row) =>
    Array.from({ length: count }, (_, place) => ({ row, place, last: count - 1 })),
  );
}

/** By the format: side by side, or one row apart and over one another; nested bars lie between two of the next row. */
function touch(rows: Rows, a: Slot, b: Slot): boolean {
  const beside = Math.abs(a.place - b.place);
  if (a.row === b.row) return beside === 1;
  return Math.abs(a.row - b.row) === 1 && beside <= (rows.arrangement === 'nested' ? 1 : 0);
}

function breaksRules(rows: Rows, share: number, bars: (number[] | null)[]): string | null {
  const slots = slotsOf(rows);
  const jointed = bars.filter((bar) => bar !== null).length;
  if (jointed > share * bars.length + 1e-9) return 'share';
  const jointPlaces = bars.map((bar) =>
    (bar ?? []).slice(0, -1).map((_, i) => bar!.slice(0, i + 1).reduce((s, l) => s + l, 0)),
  );
  for (let i = 0; i < bars.length; i++) {
    if (bars[i] && (slots[i]!.place === 0 || slots[i]!.place === slots[i]!.last)) return 'outer';
    for (let j = 0; j < i; j++) {
      if (!touch(rows, slots[i]!, slots[j]!)) continue;
      if (jointPlaces[i]!.some((p) => jointPlaces[j]!.some((q) => Math.abs(p - q) < 50))) return 'beside';
    }
  }
  return null;
}

/** The most bars jointed over every way of filling the slots. */
function mostByTrying(rows: Rows, share: number, bars: JointedBars[]): number {
  const slots = slotsOf(rows).length;
  let most = 0;
  const filled: (number[] | null)[] = [];
  const fill = (left: number[]): void => {
    if (filled.length === slots) {
      if (breaksRules(rows, share, filled) === null) most = Math.max(most, filled.filter((bar) => bar !== null).length);
      return;
    }
    filled.push(null);
    fill(left);
    filled.pop();
    bars.forEach(({ parts }, kind) => {
      if (left[kind] === 0) return;
      for (const order of permutations(parts)) {
        filled.push(order);
        const soFar = [...filled, ...new Array<null>(slots - filled.length).fill(null)];
        if (breaksRules(rows, share, soFar) === null)
          fill(left.map((count, other) => (other === kind ? count - 1 : count)));
        filled.pop();
      }
    });
  };
  fill(bars.map(({ count }) => count));
  return most;
}

function permutations(parts: number[]): number[][] {
  if (parts.length < 2) return [parts];
  return parts.flatMap((first, i) => permutations(parts.filter((_, j) => j !== i)).map((rest) => [first, ...rest]));
}

function throwRows(dice: Dice): Rows {
  if (dice.chance(0.5)) {
    const width = dice.whole(1, 4);
    const rows = dice.whole(1, width > 3 ? 2 : 3);
    return { arrangement: 'grid', columns: [...new Array(rows - 1).fill(width), dice.whole(1, width)] };
  }
  return {
    arrangement: 'nested',
    columns: dice.pick([
      [3, 3],
      [4, 3],
      [3, 2],
      [4, 4],
      [3, 4],
      [3, 2, 3],
      [3, 3, 2],
    ]),
  };
}

function throwBars(dice: Dice): JointedBars[] {
  return Array.from({ length: dice.whole(1, 2) }, () => {
    const first = dice.whole(250, 350);
    const parts = dice.chance(0.3) ? [first, 260, 640 - first] : [first, dice.pick([900 - first, first])];
    return { parts, count: dice.whole(1, 3) };
  });
}

describe('placing joints', () => {
  test.each(SEEDS)('keeps the rules and places as many as any placement does (seed %i)', (seed) => {
    const dice = throwDice(seed);
    const rows = throwRows(dice);
    const share = dice.pick([0.2, 0.3, 0.5, 1]);
    const bars = throwBars(dice);
    const placed = placeJoints(rows, { ...RULES, share }, bars);
    expect(breaksRules(rows, share, placed)).toBeNull();
    expect(placed.filter((bar) => bar !== null).length).toBe(mostByTrying(rows, share, bars));
    for (const { parts, count } of bars) {
      const key = [...parts].sort().join();
      const alike = bars
        .filter((other) => [...other.parts].sort().join() === key)
        .reduce((sum, other) => sum + other.count, 0);
      expect(placed.filter((bar) => bar && [...bar].sort().join() === key).length).toBeLessThanOrEqual(
        Math.max(alike, count),
      );
    }
  });

  test('puts nothing in a bundle without an inner bar, or of too few bars for the share', () => {
    expect(jointRoom({ arrangement: 'grid', columns: [2, 2, 2] }, RULES)).toBe(0);
    expect(jointRoom({ arrangement: 'grid', columns: [3] }, RULES)).toBe(0);
    expect(jointRoom({ arrangement: 'grid', columns: [4] }, RULES)).toBe(1);
    expect(jointRoom({ arrangement: 'grid', columns: [3] }, { ...RULES, share: 1 })).toBe(1);
  });

  test('staggers joints of bars side by side by turning every other bar end for end', () => {
    const placed = placeJoints({ arrangement: 'grid', columns: [6] }, { ...RULES, share: 1 }, [
      { parts: [300, 400], count: 4 },
    ]);
    expect(placed).toEqual([null, [300, 400], [400, 300], [300, 400], [400, 300], null]);
    const middle = placeJoints({ arrangement: 'grid', columns: [6] }, { ...RULES, share: 1 }, [
      { parts: [350, 350], count: 4 },
    ]);
    expect(middle.filter((bar) => bar !== null).length).toBe(2);
  });

  test('deals bars out over bundles and tells what found no place', () => {
    const four: Rows = { arrangement: 'grid', columns: [4] };
    const { placed, left } = dealJoints([four, { arrangement: 'grid', columns: [2] }, four], RULES, [
      { parts: [300, 400], count: 3 },
    ]);
    expect(placed.map((bars) => bars.filter((bar) => bar !== null).length)).toEqual([1, 0, 1]);
    expect(left).toEqual([{ parts: [300, 400], count: 1 }]);
  });
});
