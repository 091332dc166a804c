/** The chocks of a void on its stowage sheet: two to a row, so that those to port and to starboard of a tier stand abreast. */
import { chockMade } from '../../src/plan/chockMade.ts';
import { chocksOf, isAtEnd } from '../../src/plan/chocks.ts';
import type { Plan } from '../../src/plan/plan.ts';
import type { LaidVoid } from '../../src/stow/laid.ts';
import { columnsAsked } from './columns.ts';
import { lengthIn, tell, unitsOf } from './feet.ts';
import { MAKING_WORDS as M } from './makingWords.ts';
import { type Paper, writeParagraph } from './page.ts';
import { STOWAGE_WORDS as W } from './stowageWords.ts';
import { type Column, writeTable } from './table.ts';

/** Feet and inches beside the millimetres take the whole width. */
const ABREAST = { metric: 2, inches: 1 };

export async function writeChocks(paper: Paper, laid: LaidVoid, plan: Plan): Promise<void> {
  // Cut to fit: never more than there is room for.
  const cut = (mm: number, decimals = 2) => lengthIn(paper, mm, decimals, 'down');
  const chocks = chocksOf(laid, plan);
  const made = chocks.map((chock) => chockMade(laid, chock));
  const cells = chocks.map((chock, i) => [
    chock.mark,
    [M.side(chock, laid.axis), M.made(made[i]!, isAtEnd(chock), cut)].filter((words) => words !== '').join(': '),
    M.wedgeOf(chock.size, chock.sizeAtHead, cut),
    cut(chock.height),
    cut(chock.length, 0),
  ]);
  if (cells.length === 0) return;
  const edged = cells.some((cell) => cell[2]?.includes(M.edge));
  const leant = chocks.some(({ against }) => against !== undefined);
  writeParagraph(
    paper,
    tell(paper, [W.chockList(edged, leant), M.madeNotes(made)].join(' ')),
    { size: 9 },
    { above: 3.5, below: 2, keep: 40 },
  );
  const heads = W.chockHeads;
  const half: Column[] = [
    { head: heads.mark, share: 2.8, bold: true },
    { head: heads.where, share: 5.2 },
    { head: heads.wide, align: 'right' },
    { head: heads.high, align: 'right' },
    { head: heads.long, align: 'right' },
  ];
  const abreast = Math.min(ABREAST[unitsOf(paper)], cells.length);
  const between: Column = { head: '', width: 14 };
  const columns = abreast === 1 ? half : [...half, between, ...half];
  const rows: string[][] = [];
  for (let i = 0; i < cells.length; i += abreast) {
    const row = cells.slice(i, i + abreast).flatMap((cell, n) => (n === 0 ? cell : ['', ...cell]));
    rows.push([...row, ...Array<string>(columns.length - row.length).fill('')]);
  }
  await writeTable(paper, columnsAsked(paper, columns, rows, 8.5), rows, { size: 8.5, pad: 1.5 });
}
