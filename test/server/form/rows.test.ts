import { describe, expect, test } from 'vitest';
import type { Draft } from '../../../server/form/apply.ts';
import { applyOrder, parseOrder } from '../../../server/form/rows.ts';

/** The stations that a void has once it is told to be no box. */
function shaped(space: object): unknown {
  const draft: Draft = { voids: [{ void: 'V1', ...space }] };
  expect(applyOrder(draft, parseOrder('shape voids[0]')!)).toBe('voids[0].stations');
  return (draft.voids as { stations: unknown }[])[0]!.stations;
}

describe('“It is not a box” begins with stations at both ends', () => {
  test('of the box that was typed', () => {
    const at = [
      { up: 0, from: -150, to: 150 },
      { up: 160, from: -150, to: 150 },
    ];
    expect(shaped({ length: 1200, width: 300, height: 160 })).toEqual([
      { along: 0, at },
      { along: 1200, at },
    ]);
  });

  test('that make nothing up where its sizes are not typed yet, or can not be read', () => {
    expect(shaped({})).toEqual([{ along: 0 }, {}]);
    expect(shaped({ length: 1200, height: 'knee high' })).toEqual([{ along: 0 }, { along: 1200 }]);
    expect(shaped({ length: 1200, width: 300 })).toEqual([{ along: 0 }, { along: 1200 }]);
  });
});
