/** The flowing table: what of it stands together on a page. */
import { PassThrough } from 'node:stream';
import { buffer } from 'node:stream/consumers';
import { describe, expect, test } from 'vitest';
import { closePaper, newPage, openPaper } from '../../../server/paper/page.ts';
import { type Column, PAD, type TableOptions, writeTable } from '../../../server/paper/table.ts';
import { type ReadPage, readPdf } from './readPdf.ts';
import { DATE, TRIAL } from './writePaper.ts';

const columns: Column[] = [{ head: 'what' }, { head: 'figure', bold: true }];
/** So many letters `w` that they are one line in a cell, and two where they are bold. */
const WIDE = wideLetters();
/** As far from the foot of a page as a head and a row may be, points; less than what may stand below them. */
const NEAR = 140;

function wideLetters(): number {
  const { letters, width } = openPaper('Tables', TRIAL.job, TRIAL.plan, { date: DATE }, new PassThrough());
  let count = 1;
  while (letters.width(`row ${'w'.repeat(count + 1)}`, 9) < width / 2 - 2 * PAD) count += 1;
  return count;
}

/** Tables begun at every height near the foot of a page, each on a page of its own to begin with. */
async function tablesNearFoot(rows: string[][], options: TableOptions): Promise<ReadPage[]> {
  const out = new PassThrough();
  const bytes = buffer(out);
  const paper = openPaper('Tables', TRIAL.job, TRIAL.plan, { date: DATE }, out);
  for (let left = 0; left <= NEAR; left += 3) {
    newPage(paper);
    paper.y = paper.bottom - left;
    await writeTable(paper, columns, rows, options);
  }
  await closePaper(paper);
  return readPdf(await bytes);
}

const rowsOn = (page: ReadPage): string[] =>
  page.words.map(({ text }) => text).filter((text) => text.startsWith('row'));
const hasHead = (page: ReadPage): boolean => page.words.some(({ text }) => text === 'what');

describe('the heads of a table never stand alone', () => {
  const cases: [string, string[][], TableOptions][] = [
    ['one row, with much below it', [['row 1', '5']], { rowHeight: 17, below: 58 }],
    ['two rows, with much below the second', [['row 1', '5'], ['row 2', '6']], { rowHeight: 17, below: 58 }], // biome-ignore format: as read
    ['a first row that is higher for being bold', [[`row ${'w'.repeat(WIDE)}`, '5']], { boldRows: new Set([0]) }],
    ['more below than a page holds', [['row 1', '5']], { below: 2000 }],
  ];
  test.each(cases)('%s', async (_, rows, options) => {
    const pages = await tablesNearFoot(rows, options);
    const begun = pages.filter(hasHead);
    expect(begun.length).toBeGreaterThan(NEAR / 3);
    for (const [i, page] of pages.entries()) expect(rowsOn(page).length > 0, `page ${i + 1}`).toBe(hasHead(page));
  });

  test('and what belongs below the last row has its room on that page', async () => {
    const [near, all] = [
      await tablesNearFoot([['row 1', '5']], { rowHeight: 17, below: 58 }),
      await tablesNearFoot([['row 1', '5']], { rowHeight: 17 }),
    ];
    const lowest = (pages: ReadPage[]) =>
      Math.min(
        ...pages.flatMap((page) => page.words.filter(({ text }) => text === 'row 1').map(({ bottom }) => bottom)),
      );
    expect(lowest(near) - lowest(all)).toBeGreaterThan(50);
  });
});
