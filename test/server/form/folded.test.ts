import { expect, test } from 'vitest';
import { showForm } from '../../../server/form/show.ts';

test('what is folded away is told in the words in which it was chosen', () => {
  const opening = { along: 600, across: 300, endFirst: true };
  const draft = { name: 'Folded', voids: [{ void: 'V1', length: 900, width: 300, height: 150, opening }] };
  const group = showForm(draft).voids[0]!.more.find(({ title }) => title.startsWith('The opening'));
  expect(group!.used).toContain('Opening along 600 mm');
  expect(group!.used).toContain('End first yes');
  expect(group!.used).not.toContain('true');
});

test('bars of odd lengths are in sight with the first fields of their lot, and beside their number stands what it is left empty', () => {
  const pile = [{ lot: 'B', section: { shape: 'round', diameter: 25 }, lengths: [2610, 2455, 2455] }];
  const lot = showForm({ name: 'Odd', pile }).pile[0]!;
  expect(lot.fields.find(({ path }) => path === 'lengths')?.value).toBe('2610; 2455; 2455');
  expect(lot.more.used).not.toContain('2610');
  expect(lot.fields.find(({ path }) => path === 'count')?.usual).toMatch(/^1, or all measured$/);
});
