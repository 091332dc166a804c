/** A table that flows over pages: cells wrap, no row is split, the heads are repeated, rules are light. */
import { INK } from '../../src/drawing/style.ts';
import { breathe, ensureRoom, newPage, type Paper } from './page.ts';

export interface Column {
  head: string;
  /** Share of the width that is left when the fixed widths are taken. */
  share?: number;
  /** Fixed width in points. */
  width?: number;
  align?: 'left' | 'centre' | 'right';
  bold?: boolean;
  /** Its figures have one number of decimals: that of the one with most. */
  even?: boolean;
  /** An empty box to tick instead of words. */
  tick?: boolean;
}

export interface TableOptions {
  size?: number;
  /** Points left free over and under the words of a row. */
  pad?: number;
  /** Least height of a row, points; room for a pencil. */
  rowHeight?: number;
  /** Rows drawn bold under a rule, such as a sum. */
  boldRows?: ReadonlySet<number>;
  /** Points to be left free under the last row, for what belongs to it. */
  below?: number;
}

/** Points free at either side of a cell. */
export const PAD = 4;
const LEADING = 1.22;

/** Writes the table at `paper.y` and moves it below. A cell may hold line breaks. */
export async function writeTable(
  paper: Paper,
  columns: Column[],
  cells: string[][],
  options: TableOptions = {},
): Promise<void> {
  const rows = evened(columns, cells);
  const size = options.size ?? 9;
  const pad = options.pad ?? PAD;
  const widths = columnWidths(paper.width, columns);
  const heads = columns.map((column) => column.head);
  const headHeight = heads.some((head) => head !== '')
    ? rowHeight(paper, widths, columns, heads, size - 1, 0, true, pad)
    : 0;
  const isBold = (i: number): boolean => options.boldRows?.has(i) ?? false;
  /** What a row takes, and that with what must stand on its page below it. */
  const heightAt = (i: number): { height: number; needed: number } => {
    const height = rowHeight(paper, widths, columns, rows[i]!, size, options.rowHeight ?? 0, isBold(i), pad);
    return { height, needed: height + (i === rows.length - 1 ? (options.below ?? 0) : 0) };
  };
  // The heads never stand alone: all that the first row needs goes with them.
  ensureRoom(paper, headHeight + (rows.length > 0 ? heightAt(0).needed : 0));
  const writeHead = (): void => {
    if (headHeight > 0) writeRow(paper, widths, columns, heads, size - 1, headHeight, true, true);
  };
  writeHead();
  for (const [i, row] of rows.entries()) {
    const { height, needed } = heightAt(i);
    if (i > 0 && paper.y + needed > paper.bottom) {
      await breathe(paper);
      newPage(paper);
      writeHead();
    }
    writeRow(paper, widths, columns, row, size, height, isBold(i), false);
  }
}

/** The figure that a cell begins with, and that of its second unit, behind or below it. */
const FIGURES = /(?<=^| · |\n)(-?\d+)(?:\.(\d+))?(?![\d.])/gu;

/**
 * The rows with as many decimals in all figures of a column that is `even`; words stay as they are, and so do hundreds before
 * a second unit, which are pounds and such rounded to whole ones. Rows of a table that is written in parts are evened before
 * they are parted.
 */
export function evened(columns: readonly Column[], rows: string[][]): string[][] {
  const most = columns.map((column, i) => (column.even ? mostDecimals(rows.map((row) => row[i] ?? '')) : []));
  if (most.every((counts) => counts.every((count) => count === 0))) return rows;
  return rows.map((row) => row.map((cell, i) => (most[i]?.length ? withDecimals(cell, most[i]) : cell)));
}

/** The most decimals of the first figures of these cells, of the second, and so on. */
function mostDecimals(cells: readonly string[]): number[] {
  const most: number[] = [];
  for (const cell of cells)
    for (const [n, [, , decimals = '']] of [...cell.matchAll(FIGURES)].entries())
      most[n] = Math.max(most[n] ?? 0, decimals.length);
  return most;
}

function withDecimals(cell: string, counts: readonly number[]): string {
  const last = [...cell.matchAll(FIGURES)].length - 1;
  let n = 0;
  return cell.replace(FIGURES, (told, whole: string, decimals = '') => {
    const count = counts[n] ?? 0;
    // Pounds before kilograms are rounded to whole ones from a hundred on: no tenth is made up for them.
    if (n++ < last && Math.abs(Number(whole)) >= 100) return told;
    return count === 0 ? whole : `${whole}.${decimals.padEnd(count, '0')}`;
  });
}

function columnWidths(width: number, columns: Column[]): number[] {
  const fixed = columns.reduce((sum, column) => sum + (column.width ?? 0), 0);
  const shares = columns.reduce((sum, column) => sum + (column.width === undefined ? (column.share ?? 1) : 0), 0);
  return columns.map((column) => column.width ?? ((column.share ?? 1) / shares) * (width - fixed));
}

function cellLines(paper: Paper, words: string, width: number, size: number, bold: boolean): string[] {
  return words.split('\n').flatMap((part) => paper.letters.lines(part, width - 2 * PAD, size, bold ? 'bold' : 'plain'));
}

function rowHeight(
  paper: Paper,
  widths: number[],
  columns: Column[],
  cells: string[],
  size: number,
  least: number,
  bold: boolean,
  pad: number,
): number {
  let most = 1;
  cells.forEach((words, i) => {
    if (columns[i]?.tick && !bold) return;
    most = Math.max(most, cellLines(paper, words, widths[i]!, size, bold || (columns[i]?.bold ?? false)).length);
  });
  return Math.max(least, most * size * LEADING + 2 * pad);
}

function writeRow(
  paper: Paper,
  widths: number[],
  columns: Column[],
  cells: string[],
  size: number,
  height: number,
  bold: boolean,
  head: boolean,
): void {
  const { doc, letters } = paper;
  let x = paper.left;
  columns.forEach((column, i) => {
    const width = widths[i]!;
    const words = cells[i] ?? '';
    if (column.tick && !head && !bold) tickBox(paper, x + PAD, paper.y + (height - 11) / 2, 11);
    else {
      const weight = bold || column.bold ? 'bold' : 'plain';
      const lines = cellLines(paper, words, width, size, weight === 'bold');
      const align = column.align ?? 'left';
      const at = align === 'left' ? x + PAD : align === 'right' ? x + width - PAD : x + width / 2;
      const free = height - lines.length * size * LEADING;
      letters.block(lines, at, paper.y + (head ? free - PAD : free / 2), { size, weight, align });
    }
    x += width;
  });
  paper.y += height;
  doc
    .undash()
    .lineWidth(head || bold ? 0.9 : 0.3)
    .strokeColor(INK);
  doc.moveTo(paper.left, paper.y).lineTo(paper.right, paper.y).stroke();
}

/** An empty square of side `side` points. */
export function tickBox(paper: Paper, x: number, y: number, side: number): void {
  paper.doc.undash().lineWidth(0.9).strokeColor(INK).rect(x, y, side, side).stroke();
}
