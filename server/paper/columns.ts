/** How wide the columns of a table are to be: as wide as what stands in them asks, within the page. */
import { BREAK, type Letters } from './letters.ts';
import type { Paper } from './page.ts';
import { type Column, evened, PAD } from './table.ts';

/** What a column asks for, points: `all` to break no cell, `least` to break none inside a word (words) or none at all (figures). */
interface Asked {
  all: number;
  least: number;
}

/**
 * The columns with their widths, for these rows and any part of them. A column with a `width` keeps it. The others have
 * what their widest cell asks, and those with a `share` what is left over; where the page has less, those with a `share`
 * give way in proportion, no word broken as long as that can be, and long heads of figures are broken at spaces.
 */
export function columnsAsked(paper: Paper, columns: Column[], cells: string[][], size: number): Column[] {
  const rows = evened(columns, cells);
  const asked = columns.map((column, i) => askedBy(paper.letters, column, i, rows, size));
  const sum = (widths: number[]) => widths.reduce((all, width) => all + width, 0);
  const spare = paper.width - sum(asked.map(({ all }) => all));
  if (spare >= 0) {
    const shares = sum(columns.map(shareOf));
    return columns.map((column, i) => ({
      ...column,
      width: asked[i]!.all + (shares > 0 ? (spare * shareOf(column)) / shares : 0),
    }));
  }
  const figures = sum(asked.filter((_, i) => shareOf(columns[i]!) === 0).map(({ least }) => least));
  const words = asked.filter((_, i) => shareOf(columns[i]!) > 0);
  const given = divide(Math.max(0, paper.width - figures), words);
  const squeeze = Math.min(1, paper.width / (figures + sum(given)));
  return columns.map((column, i) => {
    const own = shareOf(column) === 0 ? asked[i]!.least : given[words.indexOf(asked[i]!)]!;
    return { ...column, width: own * squeeze };
  });
}

/** Columns of fixed width and those of figures have none. */
function shareOf(column: Column): number {
  return column.width === undefined ? (column.share ?? 0) : 0;
}

function askedBy(letters: Letters, column: Column, i: number, rows: string[][], size: number): Asked {
  if (column.width !== undefined) return { all: column.width, least: column.width };
  const weight = column.bold ? 'bold' : 'plain';
  const cells = new Set(rows.flatMap((row) => (row[i] ?? '').split('\n')));
  const wide = (words: Iterable<string>) => Math.max(0, ...[...words].map((each) => letters.width(each, size, weight)));
  const headWide = (words: string) => letters.width(words, size - 1, 'bold');
  const ofHead = Math.max(...column.head.split(' ').map(headWide));
  const unbroken = column.share === undefined ? cells : new Set([...cells].flatMap((cell) => cell.split(BREAK)));
  // A hair more than the words, so that no rounding breaks them.
  const room = 2 * PAD + 0.1;
  return {
    all: Math.max(wide(cells), headWide(column.head)) + room,
    least: Math.max(wide(unbroken), ofHead) + room,
  };
}

/** `room` in proportion to what each asks for in all, none under its least; in proportion to the least where even that is too much. */
function divide(room: number, asked: Asked[]): number[] {
  const least = asked.reduce((sum, each) => sum + each.least, 0);
  if (least >= room) return asked.map((each) => (room * each.least) / least);
  const held = new Set<Asked>();
  for (;;) {
    const free = asked.filter((each) => !held.has(each));
    const left = [...held].reduce((rest, each) => rest - each.least, room);
    const all = free.reduce((sum, each) => sum + each.all, 0);
    const short = free.filter((each) => (left * each.all) / all < each.least);
    if (short.length === 0) return asked.map((each) => (held.has(each) ? each.least : (left * each.all) / all));
    for (const each of short) held.add(each);
  }
}
