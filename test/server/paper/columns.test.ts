/** Columns are as wide as what stands in them asks, within the page. */
import { PassThrough } from 'node:stream';
import { describe, expect, test } from 'vitest';
import { columnsAsked } from '../../../server/paper/columns.ts';
import { openPaper } from '../../../server/paper/page.ts';
import { type Column, evened, PAD } from '../../../server/paper/table.ts';
import { stackedPair } from './stackedPlan.ts';
import { DATE, read, TRIAL } from './writePaper.ts';

const paper = openPaper('Columns', TRIAL.job, TRIAL.plan, { date: DATE }, new PassThrough());
const COLUMNS: Column[] = [
  { head: '', tick: true, width: 20 },
  { head: 'bundle', share: 2, bold: true },
  { head: 'void', share: 1 },
  { head: 'kg·m to side', align: 'right' },
];
const linesOf = (columns: Column[], row: string[]): number[] =>
  row.map((cell, i) =>
    Math.max(1, paper.letters.lines(cell, columns[i]!.width! - 2 * PAD, 9, columns[i]!.bold ? 'bold' : 'plain').length),
  );
const sum = (columns: Column[]) => columns.reduce((all, column) => all + column.width!, 0);

describe('columns as wide as what stands in them asks', () => {
  const long = 'Under the saloon sole, port side, abaft the tank';
  const longer = `${long}, beside the old engine bed, as far as the floor at frame twelve`;

  test.each([
    ['V1-01', 'V1', '0.4 port'],
    [`${long}-01`, 'V1', '1234.5 stbd'],
    ['V1-01', long, '1234.5 stbd'],
  ])('break nothing where the page is wide enough: %s, %s', (...cells) => {
    const row = ['', ...cells];
    const columns = columnsAsked(paper, COLUMNS, [row], 9);
    expect(linesOf(columns, row)).toEqual([1, 1, 1, 1]);
    expect(sum(columns)).toBeCloseTo(paper.width, 6);
    expect(columns[0]!.width).toBe(20);
  });

  test('long words give way to each other in proportion; figures and words are not broken', () => {
    const row = ['', `${longer}-01`, longer, '12345.6 stbd'];
    const columns = columnsAsked(paper, COLUMNS, [row, ['', 'V1-01', 'V1', 'upright']], 9);
    const [, bundle, space, moment] = linesOf(columns, row);
    expect(moment).toBe(1);
    expect(bundle).toBeLessThanOrEqual(3);
    expect(space).toBeLessThanOrEqual(3);
    expect(sum(columns)).toBeCloseTo(paper.width, 6);
  });

  test('words that no column holds are broken inside the page', () => {
    const columns = columnsAsked(paper, COLUMNS, [['', 'Δοκός'.repeat(30), 'Δ'.repeat(150), '0.4 port']], 9);
    expect(sum(columns)).toBeLessThanOrEqual(paper.width + 1e-6);
    for (const { width } of columns) expect(width).toBeGreaterThan(15);
  });
});

test('a long mark of a void takes few lines on the loading sequence', async () => {
  const mark = (n: number) => `Void ${n} abaft the engine bed on the port side`;
  const { job, plan } = stackedPair({ voids: 2, runs: 2, tiers: 2, across: 5, void: mark });
  const short = stackedPair({ voids: 2, runs: 2, tiers: 2, across: 5 });
  const [pages, shortPages] = [await read('stowage.pdf', job, plan), await read('stowage.pdf', short.job, short.plan)];
  expect(pages.length).toBeLessThanOrEqual(shortPages.length + 2);
});

test('figures of an even column have as many decimals as the one with most, with what stands behind them; words stay', () => {
  const columns = [{ head: 'mass', even: true }, { head: 'n' }];
  const rows = [
    ['5.28 kg', '1'],
    ['124 kg', '2.5'],
    ['-6.2', '3'],
    ['0.5 port', '4'],
    ['upright', '5'],
    ['', '6'],
    ['12 kg (3 of 4)', '7'],
    ['13 lb · 5.9 kg', '8'],
  ];
  const first = ['5.28 kg', '124.00 kg', '-6.20', '0.50 port', 'upright', '', '12.00 kg (3 of 4)', '13.00 lb · 5.9 kg'];
  expect(evened(columns, rows)).toEqual(first.map((cell, i) => [cell, rows[i]![1]]));
  expect(evened(columns, evened(columns, rows))).toEqual(evened(columns, rows));
  expect(evened(columns, [['12', '1.5']])).toEqual([['12', '1.5']]);
});

test('of two units each has its own number of decimals, and pounds that are rounded to whole ones are told no tenths', () => {
  const columns = [{ head: 'mass', even: true }];
  const rows = [['13 lb · 5.95 kg'], ['11.6 lb · 5.3 kg'], ['104 lb · 47 kg']];
  expect(evened(columns, rows)).toEqual([['13.0 lb · 5.95 kg'], ['11.6 lb · 5.30 kg'], ['104 lb · 47.00 kg']]);
  const below = rows.map(([cell = '']) => [cell.replace(' · ', '\n')]);
  expect(evened(columns, below)).toEqual([['13.0 lb\n5.95 kg'], ['11.6 lb\n5.30 kg'], ['104 lb\n47.00 kg']]);
});
