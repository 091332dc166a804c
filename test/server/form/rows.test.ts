import { describe, expect, test } from 'vitest';
import type { Draft } from '../../../server/form/apply.ts';
import { applyOrder, parseOrder } from '../../../server/form/rows.ts';
import { showForm } from '../../../server/form/show.ts';
import { sketchVoid } from '../../../server/form/sketch.ts';
import { fieldsOf } from '../../../server/form/sketchForm.ts';

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

describe('one more station is where the next is expected', () => {
  const at = (half: number) => [
    { up: 0, from: -half, to: half },
    { up: 160, from: -half, to: half },
  ];

  /** Where the stations stand once one more is asked for, and which of them that is. */
  function next(stations: object[], length?: unknown): { at: unknown[]; path: string } {
    const draft: Draft = { voids: [{ void: 'V1', ...(length === undefined ? {} : { length }), stations }] };
    const path = applyOrder(draft, parseOrder('add voids[0].stations')!);
    const after = (draft.voids as { stations: { along?: unknown }[] }[])[0]!.stations;
    return { at: after.map(({ along }) => along), path };
  }

  test.each([
    ['the first is at the after end', [], 1000, [0], 0],
    ['the second at the forward end', [0], 1000, [0, 1000], 1],
    ['one at the after end, where that was taken out', [1000], 1000, [0, 1000], 0],
    ['past the last, by as much as that is past the one before', [0, 400], 1000, [0, 400, 800], 2],
    ['never past the void', [0, 400, 800], 1000, [0, 400, 800, 1000], 3],
    ['halfway between both ends', [0, 1000], 1000, [0, 500, 1000], 1],
    ['halfway over the widest stretch', [0, 300, 1000], 1000, [0, 300, 650, 1000], 2],
    ['also where they are not in order', [1000, 300, 0], 1000, [1000, 300, 650, 0], 2],
    ['to a tenth of a millimetre', [0, 787.45], 787.45, [0, 393.7, 787.45], 1],
    ['before one that has no place yet', [0, undefined], undefined, [0, undefined, undefined], 1],
    ['past none of a void of unknown length', [0, 500], 'long', [0, 250, 500], 1],
  ])('%s', (_, places, length, after, index) => {
    const stations = places.map((along) => (along === undefined ? {} : { along }));
    expect(next(stations, length)).toEqual({ at: after, path: `voids[0].stations[${index}]` });
  });

  test('with the readings between, where both ends of the stretch have them, and none elsewhere', () => {
    const stations = [
      { along: 0, at: at(100) },
      { along: 300 },
      { along: 700, at: at(140) },
      { along: 1000, at: at(60) },
    ];
    const draft: Draft = { voids: [{ void: 'V1', length: 1000, stations: stations.slice(2).concat(stations[0]!) }] };
    applyOrder(draft, parseOrder('add voids[0].stations')!);
    const after = (draft.voids as { stations: object[] }[])[0]!.stations;
    expect(after).toContainEqual({ along: 350, at: at(120) });
    // Of a box measured in inches it says just what the box says.
    const inches = [0, 787.4].map((along) => ({ along, at: at(139.7) }));
    const fine: Draft = { voids: [{ void: 'V1', length: 787.4, stations: inches }] };
    applyOrder(fine, parseOrder('add voids[0].stations')!);
    expect((fine.voids as { stations: object[] }[])[0]!.stations[1]).toEqual({ along: 393.7, at: at(139.7) });
    const bare: Draft = { voids: [{ void: 'V1', length: 1000, stations: [...stations] }] };
    applyOrder(bare, parseOrder('add voids[0].stations')!);
    expect((bare.voids as { stations: object[] }[])[0]!.stations[2]).toEqual({ along: 500 });
  });
});

test('what is new in a void has no figure that nobody measured, is asked for, and hides nothing of the drawing', () => {
  const measured = { along: [100, 140], across: [-20, 20], up: [0, 40] };
  const draft: Draft = {
    format: 'kentledge-job/1',
    name: 'A job',
    pile: [{ lot: 'A', section: { shape: 'round', diameter: 32 }, length: 3000 }],
    voids: [{ void: 'V1', length: 1200, width: 300, height: 150, keepOut: [measured] }],
  };
  for (const list of ['keepOut', 'bearers', 'otherOpenings']) applyOrder(draft, parseOrder(`add voids[0].${list}`)!);
  const form = showForm(draft);
  for (const path of ['keepOut[1]', 'bearers[0]', 'otherOpenings[0]']) {
    const fields = fieldsOf(form).filter(({ name }) => name.startsWith(`voids[0].${path}.`));
    expect(fields.map(({ value }) => value).join('')).toBe('');
    expect(fields.filter(({ faults }) => faults[0]?.message === 'Still to fill in.').length).toBeGreaterThan(1);
  }
  const { views, places } = sketchVoid((draft.voids as object[])[0], 'v');
  expect(views.above?.svg).toContain('keepOut[0]');
  expect(Object.keys(places)).toEqual(['keepOut[0]']);
});
