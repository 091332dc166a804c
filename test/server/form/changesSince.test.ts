import { expect, test } from 'vitest';
import { changesSince } from '../../../server/form/changesSince.ts';

const PLANNED = {
  name: 'A boat',
  saw: { kerf: 3 },
  pile: [
    { lot: 'A', section: { shape: 'round', diameter: 25 }, lengths: [3000, 2000] },
    { lot: 'B', count: 2 },
  ],
  voids: [{ void: 'V1', height: 160, handling: { reach: 500 } }],
};

test('changes are told by the marks of lots and the names of voids, wherever they stand in the list', () => {
  const now = {
    ...PLANNED,
    saw: { kerf: 3.4 },
    pile: [
      { lot: 'C', count: 1 },
      { ...PLANNED.pile[0], section: { shape: 'round', diameter: 24 }, lengths: [3000, 1900] },
    ],
    voids: [{ ...PLANNED.voids[0], height: 150, handling: { reach: 520 }, colour: 'red' }],
  };
  const told = changesSince(PLANNED, now).map(({ where, before, now: is }) => [where, before, is]);
  expect(told).toEqual([
    ['Kerf', '3', '3.4'],
    ['Lot A, Section', '25', '24'],
    ['Lot A, Each bar as measured (2)', '2000', '1900'],
    ['Lot B', 'in the job', 'taken out'],
    ['Lot C', '', 'new'],
    ['Void V1, Height', '160', '150'],
    ['Void V1, Reach', '500', '520'],
    ['Void V1, voids[].colour', '', 'red'],
  ]);
});

test('where nothing was changed, and where what stands there is no job, nothing fails', () => {
  expect(changesSince(PLANNED, structuredClone(PLANNED))).toEqual([]);
  expect(changesSince({}, { pile: 'none', voids: [1, null] })).toEqual([]);
});
