import { expect, test } from 'vitest';
import type { Draft } from '../../../server/form/apply.ts';
import { appendLots, hasLength, lotsOf, readList } from '../../../server/form/bars.ts';
import { readHeading } from '../../../server/form/listHeadings.ts';
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

test('a far end that is spoiled is read by the length of its row', () => {
  expect(lotsIn('spoiled;length\nlast 60;1200\nlast 60;')).toEqual([
    { spoiled: [{ from: 1140, to: 1200 }], length: 1200 },
    { spoiled: 'last 60' },
  ]);
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

test('a row too long to be read is told by its columns, its letters, or the quotation mark left open in it', () => {
  const columns = Array.from({ length: 20_000 }, (_, n) => `column ${n}`).join(';');
  const notes = 'rust '.repeat(30_000);
  for (const [wrong, why] of [
    [`${columns}\n`, /: line 1 has more than 200 columns\./],
    [`lot;length\nA;3 m\n${columns}`, /: line 3 has more than 200 columns\./],
    [`lot;note\nA;${notes}`, /: line 2 has more than 100000 letters\./],
    [`lot;note\nA;"${notes}`, /quotation mark that is never closed/],
  ] as const)
    expect(readList(wrong)).toEqual({ ok: false, why: [expect.stringMatching(why)] });
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

test.each([
  ['Length [m]', 'length', 'm'],
  ['Bar length, mm', 'length', 'mm'],
  ['length_in', 'length', 'in'],
  ['Length in m', 'length', 'm'],
  ['LENGTH (ft.)', 'length', 'ft'],
  ['Length', 'length', ''],
  ['Dim. (mm)', 'sizes', 'mm'],
  ['Dia "', 'sizes', 'in'],
  ['Qty', 'count', ''],
  ['No. of bars', 'count', ''],
  ['Description', 'shape', ''],
  ['Finish', 'coating', ''],
  ['Weight (kg/m)', 'massPerMetre', 'kg/m'],
  ['lb/ft', 'massPerMetre', 'lb/ft'],
  ['kg/m', 'massPerMetre', 'kg/m'],
  ['Weight each (kg)', 'mass', 'kg'],
  ['Weight (lb) each', 'mass', 'lb'],
  ['lb each', 'mass', 'lb'],
  ['Weight', null, ''],
  ['constructor', null, ''],
  ['', null, ''],
])('the heading %s is read as %s in %s', (heading, column, unit) => {
  expect(readHeading(heading)).toEqual({ column, unit });
});

test('a yard list of a spreadsheet: units in headings, decimal commas, its own words, empty rows', () => {
  const list = [
    'Pos.;Qty;Description;Dim. (mm);Length [m];Weight each (kg);Finish;Remarks',
    '1;14;Flat bar;80x20;3,20;40,2;galv.;',
    '2;20;Square bar 40;40;2,45;30,8;black;',
    ';;;;;;;',
    '3;9;Round;Ø50;6,0;92,5;Painted;one bent',
    '4;30;FLAT 60 x 25;;1,125;;;',
    '5;4;RHS 60x40x3;;4,1;;hot-dip galvanised;',
    '7;3;Rebar 25;25;;;;',
  ].join('\n');
  expect(lotsIn(list)).toEqual([
    {
      lot: '1',
      section: { shape: 'flat', width: 80, thickness: 20 },
      length: 3200,
      count: 14,
      massPerMetre: 12.563,
      coating: 'zinc',
    },
    {
      lot: '2',
      section: { shape: 'square', side: 40 },
      length: 2450,
      count: 20,
      massPerMetre: 12.571,
      coating: 'black',
    },
    {
      lot: '3',
      section: { shape: 'round', diameter: 50 },
      length: 6000,
      count: 9,
      massPerMetre: 15.417,
      coating: 'paint',
      note: 'one bent',
    },
    { lot: '4', section: { shape: 'flat', width: 60, thickness: 25 }, length: 1125, count: 30 },
    { lot: '5', section: { shape: 'box', width: 60, height: 40, wall: 3 }, length: 4100, count: 4, coating: 'zinc' },
    { lot: '7', section: { shape: 'deformed', nominal: 25 }, count: 3 },
  ]);
  const read = readList(list);
  expect(read.ok && read.list.numbers).toEqual([2, 3, 5, 6, 7, 8]);
});

test('a list in feet, inches and pounds; what one bar weighs without its length stays to be mended', () => {
  expect(
    lotsIn('lot,section,sizes (in),length (ft),lb each\nA,flat,2 x 1 1/4,6.5,55\nB,square,2,8-1/2,\nC,round,1.5,,20'),
  ).toEqual([
    { lot: 'A', section: { shape: 'flat', width: 50.8, thickness: 31.75 }, length: 1981.2, massPerMetre: 12.592 },
    { lot: 'B', section: { shape: 'square', side: 50.8 }, length: 2590.8 },
    { lot: 'C', section: { shape: 'round', diameter: 38.1 }, massPerMetre: '20 lb' },
  ]);
  expect(
    lotsIn('lot;lengths (m);section\nA;5,48; round 32\nB;"5,48; 5,47 x 2";round 32').map(({ lengths }) => lengths),
  ).toEqual([[5480], [5480, 5470, 5470]]);
});

test.each([
  ['decimal by another cell', 'length (m);kg/m\n1,125;6,28', 1125, 6.28],
  ['decimal by another cell, and no length of a bar in millimetres', 'length;kg/m\n1,125;6,28', '1,125', 6.28],
  ['thousands by another cell', 'length;kg/m\n1,125;6.28', 1125, 6.28],
  ['nothing that tells', 'length;count\n1,125;3', '1,125', undefined],
  ['a heading in millimetres', 'length (mm);count\n1,125;3', 1125, undefined],
  ['a heading in metres', 'length (m);count\n1,125;3', 1125, undefined],
  ['both', 'length;kg/m;sizes\n1,125;6.28;3,5', '1,125', 6.28],
])('a comma before three figures: %s', (_, list, length, massPerMetre) => {
  expect(lotsIn(list)[0]).toMatchObject({ length, ...(massPerMetre !== undefined && { massPerMetre }) });
});

test('a coating that the list itself asks after is not known', () => {
  expect(lotsIn('lot;finish;length\nA;?;3000\nB;Not known;3000\nC;galv;3000').map((lot) => lot.coating)).toEqual([
    'unknown',
    'unknown',
    'zinc',
  ]);
});

/** The lots of a list that has to be readable. */
function lotsIn(text: string): Draft[] {
  const read = readList(text);
  if (!read.ok) throw new Error(read.why.join(' '));
  return lotsOf(read.list);
}
