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
