/** A list of bars from a spreadsheet: columns found by their headings, a lot a row, what can not be read kept as typed. */
import { CsvError, parse } from 'csv-parse/sync';
import { LOTS_AT_MOST } from '../../src/job/job.ts';
import { sectionSchema } from '../../src/job/sectionSchema.ts';
import { parseNumber } from '../../src/units.ts';
import { type Draft, freeMarks } from './apply.ts';
import { withFarEnds } from './farEnds.ts';
import { type Kind, MEASURED_AT_MOST, readField, readSection } from './kinds.ts';
import { COATING_WORDS, type Column, readHeading, SHAPE_WORDS } from './listHeadings.ts';
import { listAt, setAt } from './path.ts';
import { splitList } from './splitList.ts';

const KINDS: Record<Exclude<Column, 'shape' | 'sizes' | 'mass'>, Kind> = {
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

export interface BarList {
  headings: string[];
  /** What each column is read as; null for one that goes into the note. */
  columns: (Column | null)[];
  rows: string[][];
  /** Where each row stands in the list, the first row of all being 1; empty rows count. */
  numbers: number[];
  /** Numbers of the rows that are to be left out: at first those that look like a sum of the others. */
  left: ReadonlySet<number>;
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
      trim: true,
      // Who writes the list by hand has inch marks in it: 3/4".
      relax_quotes: true,
      max_record_size: ROW_AT_MOST,
    });
  } catch (error) {
    return { ok: false, why: [`The list can not be read as CSV: ${whyMisshapen(error, text)}`] };
  }
  const numbered = rows
    .map((cells, n) => ({ cells, number: n + 1 }))
    .filter(({ cells }) => cells.some((cell) => cell !== ''));
  const [{ cells: headings } = { cells: [] }, ...below] = numbered;
  const bars = below.map(({ cells }) => cells);
  if (bars.length > LOTS_AT_MOST)
    return { ok: false, why: [`A job holds at most ${LOTS_AT_MOST} lots. Put alike bars into one row with a count.`] };
  if (bars.length === 0) return { ok: false, why: ['There are headings, and no bars below them.'] };
  if (headings.length > COLUMNS_AT_MOST)
    return { ok: false, why: [`The list has ${headings.length} columns; ${COLUMNS_AT_MOST} are read at most.`] };
  const columns = headings.map((heading) => readHeading(heading).column);
  const list = { headings, columns, rows: bars, numbers: below.map(({ number }) => number) };
  return { ok: true, list: { ...list, left: sumsIn(list) } };
}

/** The rows that are taken, or those that are left out. */
export function rowsOf(list: BarList, which: 'taken' | 'left'): BarList {
  const wanted = list.rows.flatMap((cells, n) => {
    const number = list.numbers[n]!;
    return list.left.has(number) === (which === 'left') ? [{ cells, number }] : [];
  });
  return { ...list, rows: wanted.map(({ cells }) => cells), numbers: wanted.map(({ number }) => number) };
}

/** What the first words of a row of sums are, as `Total`, `Sub-total:` or `TOTALS (94 bars)`. */
const SUM = /^(grand |sub[- ]?)?(total|sum)s?\b/i;

/** Rows that begin so and name no section: of a lot that is called so by chance the section is known. */
function sumsIn(list: Omit<BarList, 'left'>): Set<number> {
  const begins = (cells: string[]): boolean => SUM.test(cells.find((cell) => cell !== '') ?? '');
  const numbers = list.numbers.filter((_, n) => begins(list.rows[n]!));
  const lots = lotsOf({ ...list, rows: list.rows.filter(begins) });
  return new Set(numbers.filter((_, n) => lots[n]!.section === undefined));
}

/**
 * What the comma is in cells like `1,125`, which alone could be a thousand or a little over one, by what the other cells
 * of the list show: one like `3,20` makes commas decimal, one like `3.20` makes them thousands; '' for both, or neither.
 */
function commaIn(rows: string[][]): 'decimal' | 'thousands' | '' {
  const decimal = rows.some((row) => row.some((cell) => /^\d+,(\d{1,2}|\d{4,})$/.test(cell)));
  const thousands = rows.some((row) => row.some((cell) => /^\d+\.\d+$/.test(cell)));
  return decimal === thousands ? '' : decimal ? 'decimal' : 'thousands';
}

/** What is wrong, and what to do; never the cell itself, which may hold the whole file. */
function whyMisshapen(error: unknown, text: string): string {
  const { code, lines, column } = error instanceof CsvError ? error : { code: '', lines: 0, column: 0 };
  if (code === 'CSV_MAX_RECORD_SIZE' && Number(column) >= COLUMNS_AT_MOST)
    return `line ${lines} has more than ${COLUMNS_AT_MOST} columns. Take out those that say nothing of bars.`;
  if (code === 'CSV_MAX_RECORD_SIZE' && !text.includes('"'))
    return `line ${lines} has more than ${ROW_AT_MOST} letters. Shorten what stands there.`;
  if (code === 'CSV_QUOTE_NOT_CLOSED' || code === 'CSV_MAX_RECORD_SIZE')
    return 'a cell begins with a quotation mark that is never closed. Close it, or take it out.';
  if (code === 'CSV_NON_TRIMABLE_CHAR_AFTER_CLOSING_QUOTE' || code === 'CSV_INVALID_CLOSING_QUOTE')
    return `in line ${lines} a cell goes on after its closing quotation mark. Take the marks round it out, or write each mark inside of it twice.`;
  return 'it is misshapen. Save it as CSV once more.';
}

/** A list may have so many columns, and a row so many letters: more are mostly a quotation mark left open. */
const COLUMNS_AT_MOST = 200;
const ROW_AT_MOST = 100_000;

/** A lot for each row; lengths that bring the list over what a pile takes stay as they were typed. */
export function lotsOf({ headings, columns, rows }: Omit<BarList, 'left'>): Draft[] {
  let room = MEASURED_AT_MOST;
  const comma = commaIn(rows);
  const read = headings.map((heading, n) => {
    const { unit } = readHeading(heading);
    const column = columns[n] ?? null;
    // No bar is 1.125 mm long: there it stays to be asked about.
    const doubtful = comma === 'decimal' && column === 'length' && (unit === '' || unit === 'mm');
    // Where the heading itself says millimetres and no cell of the list speaks against it, a thousand alone can be meant.
    const thousands =
      comma === '' && column === 'length' && unit === 'mm' && !rows.some((row) => DECIMAL.test(row.join(';')));
    const read = doubtful ? '' : thousands ? 'thousands' : comma;
    return { heading: heading || `column ${n + 1}`, column, unit, comma: read } as const;
  });
  return rows.map((cells) => {
    const lot = readRow(read, cells, room);
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

/** Any decimal comma among cells. */
const DECIMAL = /(?:^|;)\d+,(?:\d{1,2}|\d{4,})(?:;|$)/;
const COMMA = /^\d{1,3},\d{3}$/;

interface ColumnRead {
  heading: string;
  column: Column | null;
  unit: string;
  comma: ReturnType<typeof commaIn>;
}

function readRow(columns: readonly ColumnRead[], cells: string[], room: number): Draft {
  const lot: Draft = {};
  const notes: string[] = [];
  let shape = '';
  let within = '';
  let sizes = '';
  let mass = '';
  for (const [n, written] of cells.entries()) {
    if (written === '') continue;
    const { heading, column, unit, comma } = columns[n] ?? {
      heading: `column ${n + 1}`,
      column: null,
      unit: '',
      comma: '',
    };
    const cell = comma !== '' && COMMA.test(written) ? written.replace(',', comma === 'decimal' ? '.' : '') : written;
    if (column === null) notes.push(`${heading}: ${written}`);
    else if (column === 'shape') [shape, within] = splitSection(cell);
    else if (column === 'sizes') sizes = withUnit(cell, unit);
    else if (column === 'mass') mass = withUnit(cell, unit || 'kg');
    else if (column === 'note') notes.unshift(written);
    else if (column === 'lengths') lot.lengths = readField('lengths', eachWithUnit(cell, unit), room);
    else if (column === 'coating') lot.coating = readField('choice', coatingOf(cell));
    else lot[column] = readField(KINDS[column], withUnit(cell, unit));
  }
  const section = readSection(shape, sizes || within);
  if (section) lot.section = section;
  // What one bar weighs makes its mass per metre; without the one length of the lot it stays as typed, to be mended.
  if (mass !== '' && lot.massPerMetre === undefined)
    lot.massPerMetre = typeof lot.length === 'number' ? readField('kgPerMetre', `${mass} / ${lot.length} mm`) : mass;
  if (lot.spoiled !== undefined) lot.spoiled = withFarEnds(lot);
  if (notes.length > 0) lot.note = notes.join('; ');
  return lot;
}

/** A cell that ends in a figure is in the unit of its heading; millimetres need none. */
function withUnit(cell: string, unit: string): string {
  return unit === '' || unit === 'mm' || !/\d$/.test(cell) ? cell : `${cell} ${unit}`;
}

/** As {@link withUnit}, for each of several lengths: `5.48; 5.47 x 3`. */
function eachWithUnit(cell: string, unit: string): string {
  if (unit === '' || unit === 'mm') return cell;
  return splitList(cell)
    .map((item) => (/^[\d.,]+(\s*[x×*]\s*\d+)?$/.test(item) ? item.replace(/^[\d.,]+/, `$& ${unit}`) : item))
    .join('; ');
}

/** `round 32` or `Flat bar 40 x 20` in one cell is a shape and its sizes. A number alone is the size of a round bar. */
function splitSection(cell: string): [string, string] {
  const [, word = '', rest = ''] = /^([A-Za-z]*)\s*[Øø⌀∅]?(.*)$/s.exec(cell) ?? [];
  const shape = SHAPE_WORDS.get(word.toLowerCase()) ?? word.toLowerCase();
  if (shape === '' && parseNumber(rest) !== null) return ['round', rest];
  if (!SHAPE_NAMES.has(shape)) return [cell, ''];
  return [shape, rest.replace(/^(?:bars?|steel|iron|section)\b\s*/i, '')];
}

function coatingOf(cell: string): string {
  const written = cell.toLowerCase();
  return COATING_WORDS.get(written.replaceAll('-', ' ').replace(/\.$/, '')) ?? written;
}

/** The mark that parts most cells of the first line. */
function delimiterOf(text: string): string {
  const [first = ''] = text.split(/\r|\n/, 1);
  const counted = [';', '\t', ','].map((mark) => ({ mark, count: first.split(mark).length }));
  return counted.reduce((most, one) => (one.count > most.count ? one : most)).mark;
}
