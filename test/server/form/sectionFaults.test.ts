import { expect, test } from 'vitest';
import type { Draft } from '../../../server/form/apply.ts';
import { readSection } from '../../../server/form/kinds.ts';
import { showForm } from '../../../server/form/show.ts';

test.each([
  ['a section not chosen yet', undefined, 'shape'],
  ['a section without its sizes', { shape: 'round' }, 'sizes'],
])('%s is asked for at the field that takes it', (_, section, part) => {
  const pile = [{ lot: 'A', length: 3000, count: 4, ...(section && { section }) }];
  const draft: Draft = {
    format: 'kentledge-job/1',
    name: 'One lot',
    pile,
    voids: [{ void: 'V1', length: 800, width: 300, height: 150 }],
  };
  const form = showForm(draft);
  const own = form.pile[0]!;
  const field = part === 'shape' ? own.shape : own.sizes;
  expect(form.all.map(({ id }) => id)).toEqual([`pile-0-section-${part}`]);
  expect(field.id).toBe(`pile-0-section-${part}`);
  expect(field.faults).toHaveLength(1);
});

test.each([
  ['flat', '2 × 1 1/4"', { width: 50.8, thickness: 31.75 }],
  ['flat', '2 x 1-1/4 in', { width: 50.8, thickness: 31.75 }],
  ['flat', '2" x 1/2', { width: 50.8, thickness: '1/2' }],
  ['flat', '3 x 3/4', { width: 3, thickness: '3/4' }],
  ['angle', '2 x 2 x 1/4"', { leg: 50.8, otherLeg: 50.8, thickness: 6.35 }],
  ['flat', '8 x 2 cm', { width: 80, thickness: 20 }],
  ['flat', '80 x 20', { width: 80, thickness: 20 }],
  ['round', 'Ø50', { diameter: 50 }],
])('the sizes of a %s typed as %s: the last unit holds for bare sizes before it', (shape, typed, sizes) => {
  expect(readSection(shape, typed)).toEqual({ shape, ...sizes });
});
