import { describe, expect, test } from 'vitest';
import { holdDownSchema } from '../../src/job/holdDown.ts';
import { holdPlaceFaults } from '../../src/job/holdPlaceFaults.ts';

const INCH = 25.4;

function told(bars: { width: number; at: number[] }[], length = 900) {
  const bolts = { size: 'M12', grade: '8.8', perBar: 2, into: 'floors' } as const;
  const hold = holdDownSchema.parse({
    bars: bars.map(({ width, at }) => ({ count: at.length, at, width, thickness: 6, span: 300, bolts })),
  });
  return holdPlaceFaults(hold, { axis: 'fore-and-aft', length }, 'hold').map(
    ({ path, message, remedy }) => `${path}: ${message} ${remedy}`,
  );
}

describe('bars across that can not lie where they are said to', () => {
  test('one that reaches out of the void is told from where to where its middle may lie, and no dust of reckoning', () => {
    expect(told([{ width: 40, at: [100, 400] }])).toEqual([]);
    expect(told([{ width: 1.7 * INCH, at: [890] }])).toEqual([
      'hold.bars[0].at[0]: The bar across with its middle at 890 mm reaches out of the void, which is 900 mm long. Measure its middle from the after end: 21.59 to 878.41 mm.',
    ]);
  });

  test('two in one place are told how far apart they must be', () => {
    expect(
      told([
        { width: 12.7, at: [100] },
        { width: 33.34, at: [110] },
      ]),
    ).toEqual([
      "hold.bars[1].at[0]: The bars across at 100 and 110 mm lie in each other's place. Place them at least 23.02 mm apart, from middle to middle.",
    ]);
  });

  test('one wider than its void is told as that, once, and not asked to lie between places that are none', () => {
    expect(told([{ width: 100, at: [20, 40] }], 60)[0]).toBe(
      'hold.bars[0].at: The bar across covers 100 mm, and the void is 60 mm long. Measure the bar again, and the void; or stand it on edge.',
    );
  });
});
