import { expect, test } from 'vitest';
import type { Draft } from '../../../server/form/apply.ts';
import { appendLots, hasLength, lotsOf, readList } from '../../../server/form/bars.ts';
import { ownTime } from '../../ownTime.ts';

test('columns are found by their headings, whatever their order, and rows become lots', () => {
  const list = 'Length (mm);Section;Bars;kg/m;Colour\r\n5480;round 32;14;6,28;rust\r\n3 m;flat 40 x 20;;;\r\n';
  expect(lotsIn(list)).toEqual([
    { length: 5480, section: { shape: 'round', diameter: 32 }, count: 14, massPerMetre: 6.28, note: 'Colour: rust' },
    { length: 3000, section: { shape: 'flat', width: 40, thickness: 20 } },
  ]);
});

test('quoted cells, commas and tabs are read; what is no number stays as typed', () => {
  expect(lotsIn('lot,shape,size,length,count\nA,round,32,"about 3 m","two"')).toEqual([
    { lot: 'A', section: { shape: 'round', diameter: 32 }, length: 'about 3 m', count: 'two' },
  ]);
  expect(lotsIn('lot\tlength\nB\t1200')).toEqual([{ lot: 'B', length: 1200 }]);
});

test('a list without bars or misshapen is refused in words, and of one without lengths that is known', () => {
  for (const [wrong, why] of [
    ['', /no bars below/],
    ['length;count', /no bars below/],
    ['length\n"open', /CSV/],
  ] as const) {
    expect(readList(wrong)).toEqual({ ok: false, why: [expect.stringMatching(why)] });
  }
  const lacking = readList('lot;count\nA;3');
  expect(lacking.ok && hasLength(lacking.list)).toBe(false);
  expect(lacking.ok).toBe(true);
});

test('lots without a mark get the next free letters', () => {
  const draft = { pile: [{ lot: 'A' }] };
  appendLots(draft, [{ length: 1 }, { lot: 'Z', length: 2 }, { length: 3 }]);
  expect(draft.pile.map((lot) => lot.lot)).toEqual(['A', 'B', 'Z', 'C']);
  const later = { pile: [] as { lot?: string }[] };
  appendLots(later, [{ length: 1 }, { lot: 'A', length: 2 }]);
  expect(later.pile.map((lot) => lot.lot)).toEqual(['B', 'A']);
});

test('marks go on after Z and after ZZ', () => {
  const draft: { pile: { lot?: string }[] } = { pile: [] };
  appendLots(
    draft,
    Array.from({ length: 704 }, () => ({ length: 1 })),
  );
  const marks = draft.pile.map((lot) => lot.lot);
  expect([0, 25, 26, 51, 52, 701, 702, 703].map((n) => marks[n])).toEqual([
    'A',
    'Z',
    'AA',
    'AZ',
    'BA',
    'ZZ',
    'AAA',
    'AAB',
  ]);
  expect(new Set(marks).size).toBe(704);
});

test('a list of ten thousand rows without marks is marked in a moment', async () => {
  const draft: { pile: { lot?: string }[] } = { pile: [] };
  const rows = Array.from({ length: 10_000 }, () => ({ length: 1 }));
  expect(await ownTime(() => appendLots(draft, rows))).toBeLessThan(2000);
  expect(draft.pile.at(-1)?.lot).toBe('NTP');
});

test('rows are read for no more bars one by one than a pile takes', () => {
  const row = `A;${Array.from({ length: 9 }, () => '3000 x 9999').join(', ')}`;
  const lengths = lotsIn(`lot;lengths\n${row}\n${row}\nB;5 x 3`).map((lot) => lot.lengths);
  expect(lengths.map((value) => (Array.isArray(value) ? value.length : value))).toEqual([89_991, row.slice(2), 3]);
});

/** The lots of a list that has to be readable. */
function lotsIn(text: string): Draft[] {
  const read = readList(text);
  if (!read.ok) throw new Error(read.why.join(' '));
  return lotsOf(read.list);
}
