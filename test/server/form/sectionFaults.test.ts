import { expect, test } from 'vitest';
import type { Draft } from '../../../server/form/apply.ts';
import { showForm } from '../../../server/form/show.ts';
import { readJobValue } from '../../../src/job/readJob.ts';

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
  const read = readJobValue(draft);
  const form = showForm(draft, read.ok ? [] : read.faults);
  const own = form.pile[0]!;
  const field = part === 'shape' ? own.shape : own.sizes;
  expect(form.all.map(({ id }) => id)).toEqual([`pile-0-section-${part}`]);
  expect(field.id).toBe(`pile-0-section-${part}`);
  expect(field.faults).toHaveLength(1);
});
