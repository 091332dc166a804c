/** A list of bars from a spreadsheet: columns found by their headings, a lot a row, what can not be read kept as typed. */
import { parse } from 'csv-parse/sync';
import { LOTS_AT_MOST } from '../../src/job/job.ts';
import { sectionSchema } from '../../src/job/section.ts';
import { parseNumber } from '../../src/units.ts';
import { type Draft, freeMarks } from './apply.ts';
import { type Kind, MEASURED_AT_MOST, readField, readSection } from './kinds.ts';
import { listAt, setAt } from './path.ts';

export type Column =
  | 'lot'
  | 'shape'
  | 'sizes'
  | 'length'
  | 'lengths'
  | 'count'
  | 'massPerMetre'
  | 'coating'
  | 'spoiled'
  | 'note';

/** What each column may be headed, without regard to case, spaces and units in brackets. */
const HEADINGS: Record<Column, readonly string[]> = {
  lot: ['lot', 'mark', 'name'],
  shape: ['section', 'shape', 'profile'],
  sizes: ['sizes', 'size', 'diameter', 'dimensions'],
  length: ['length', 'barlength', 'lengthofabar'],
  lengths: ['lengths', 'eachbar', 'eachbarasmeasured'],
  count: ['count', 'bars', 'number', 'quantity', 'pieces'],
  massPerMetre: ['kg/m', 'weighed', 'masspermetre', 'weightpermetre'],
  coating: ['coating', 'surface', 'state'],
  spoiled: ['spoiled', 'holes'],
  note: ['note', 'notes', 'remark'],
};

const KINDS: Record<Exclude<Column, 'shape' | 'sizes'>, Kind> = {
  lot: 'text',
  length: 'mm',
  lengths: 'lengths',
  count: 'number',
  massPerMetre: 'kgPerMetre',
  coating: 'choice',
  spoiled: 'spans',
  note: 'note',
};

const SHAPE_NAMES = new Set<string>(sectionSchema.options.map((option) => option.shape.shape.value));

/** Each column in the words of the page, in the order in which they are offered. */
export const COLUMNS: readonly (readonly [Column, string])[] = [
  ['lot', 'lot'],
  ['shape', 'section, with or without its sizes'],
  ['sizes', 'sizes of the section'],
  ['length', 'length of a bar'],
  ['lengths', 'each bar as measured'],
  ['count', 'bars'],
  ['massPerMetre', 'kg/m, weighed'],
  ['coating', 'coating'],
  ['spoiled', 'spoiled'],
  ['note', 'note'],
];

export interface BarList {
  headings: string[];
  /** What each column is read as; null for one that goes into the note. */
  columns: (Column | null)[];
  rows: string[][];
}

type ListRead = { ok: true; list: BarList } | { ok: false; why: string[] };

/** Reads a CSV text: commas, semicolons or tabs; the first row holds the headings. Columns it does not know go into the note. */
export function readList(text: string): ListRead {
  let rows: string[][];
  try {
    rows = parse(text, {
      bom: true,
      delimiter: delimiterOf(text),
      relax_column_count: true,
      skip_empty_lines: true,
      trim: true,
      max_record_size: 100_000,
    });
  } catch (error) {
    return {
      ok: false,
      why: [`The list can not be read as CSV: ${error instanceof Error ? error.message : 'it is misshapen'}.`],
    };
  }
  const [headings = [], ...bars] = rows;
  if (bars.length > LOTS_AT_MOST)
    return { ok: false, why: [`A job holds at most ${LOTS_AT_MOST} lots. Put alike bars into one row with a count.`] };
  if (bars.length === 0) return { ok: false, why: ['There are headings, and no bars below them.'] };
  if (headings.length > COLUMNS_AT_MOST)
    return { ok: false, why: [`The list has ${headings.length} columns; ${COLUMNS_AT_MOST} are read at most.`] };
  return { ok: true, list: { headings, columns: headings.map(columnOf), rows: bars } };
}

/** A list may have so many columns. */
const COLUMNS_AT_MOST = 200;

/** A lot for each row; lengths that bring the list over what a pile takes stay as they were typed. */
export function lotsOf({ headings, columns, rows }: BarList): Draft[] {
  let room = MEASURED_AT_MOST;
  return rows.map((cells) => {
    const lot = readRow(headings, columns, cells, room);
    room -= listAt(lot, ['lengths']).length;
    return lot;
  });
}

/** True where some column says how long the bars are. */
export function hasLength({ columns }: BarList): boolean {
  return columns.includes('length') || columns.includes('lengths');
}

/** Puts lots at the end of a draft's pile; one without a mark gets the next letter that is free in both. */
export function appendLots(draft: Draft, lots: Draft[]): void {
  const nextMark = freeMarks([...listAt(draft, ['pile']), ...lots]);
  for (const lot of lots) {
    const mark = lot.lot ?? nextMark();
    setAt(draft, ['pile', listAt(draft, ['pile']).length], { ...lot, lot: mark });
  }
}

function readRow(headings: string[], columns: (Column | null)[], cells: string[], room: number): Draft {
  const lot: Draft = {};
  const notes: string[] = [];
  let shape = '';
  let sizes = '';
  for (const [n, cell] of cells.entries()) {
    const column = columns[n] ?? null;
    if (cell === '') continue;
    if (column === null) notes.push(`${headings[n] || `column ${n + 1}`}: ${cell}`);
    else if (column === 'shape') [shape, sizes] = splitSection(cell, sizes);
    else if (column === 'sizes') sizes = cell;
    else if (column === 'note') notes.unshift(cell);
    else lot[column] = readField(KINDS[column], column === 'coating' ? cell.toLowerCase() : cell, room);
  }
  const section = readSection(shape, sizes);
  if (section) lot.section = section;
  if (notes.length > 0) lot.note = notes.join('; ');
  return lot;
}

/** `round 32` in one cell is a shape and its sizes. A number alone is the size of a round bar. */
function splitSection(cell: string, sizes: string): [string, string] {
  const [, word = '', rest = ''] = /^([A-Za-z]*)\s*(.*)$/s.exec(cell) ?? [];
  const shape = word.toLowerCase();
  if (shape === '' && parseNumber(rest) !== null) return ['round', rest];
  return SHAPE_NAMES.has(shape) ? [shape, rest || sizes] : [cell, sizes];
}

function columnOf(heading: string): Column | null {
  const plain = heading
    .toLowerCase()
    .replaceAll(/\(.*?\)|\[.*?\]/g, '')
    .replaceAll(/[^a-z/]/g, '');
  for (const [column, names] of Object.entries(HEADINGS)) if (names.includes(plain)) return column as Column;
  return null;
}

/** The mark that parts most cells of the first line. */
function delimiterOf(text: string): string {
  const [first = ''] = text.split(/\r|\n/, 1);
  const counted = [';', '\t', ','].map((mark) => ({ mark, count: first.split(mark).length }));
  return counted.reduce((most, one) => (one.count > most.count ? one : most)).mark;
}
