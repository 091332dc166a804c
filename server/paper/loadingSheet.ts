/** The loading sequence over all voids: the first part of the stowage sheets. */
import { amount } from '../../src/balance/amount.ts';
import { loadingOf } from '../../src/balance/loading.ts';
import { listNow, presentList, sizeOf } from '../../src/balance/present.ts';
import { unplacedLines } from '../../src/balance/unplaced.ts';
import { laidVoid } from '../../src/drawing/laid.ts';
import { INK } from '../../src/drawing/style.ts';
import type { Job } from '../../src/job/job.ts';
import { chocksOf } from '../../src/plan/chocks.ts';
import type { Plan } from '../../src/plan/plan.ts';
import { type Loaded, listAtFirst } from '../../src/plan/sequence.ts';
import { firstPart, shareIn } from '../../src/plan/share.ts';
import { LEVEL } from '../../src/plan/turns.ts';
import { limitsPassed } from './balanceSheet.ts';
import { columnsAsked } from './columns.ts';
import { cellIn, either, massIn, tell } from './feet.ts';
import { plain } from './figures.ts';
import { byColumn, byNote } from './massBy.ts';
import { ensureRoom, newPart, type Paper, writeParagraph } from './page.ts';
import { linesOfAway, linesOfBefore } from './registerRecord.ts';
import { STOWAGE_WORDS as W } from './stowageWords.ts';
import { type Column, evened, writeTable } from './table.ts';
import { tooHeavyLines } from './weighing.ts';

/**
 * Every bundle in the order in which it goes aboard, with a line of marks to read at each quarter. `made` is the plan, whose
 * order it is, `plan` the same by the scale.
 */
export async function writeSequence(paper: Paper, job: Job, made: Plan, plan: Plan): Promise<void> {
  const { weighed } = paper.options;
  newPart(paper, W.sequenceHead);
  writeParagraph(paper, W.sequenceHead, { size: 13, weight: 'bold' }, { below: 2, keep: 60 });
  writeParagraph(paper, tell(paper, W.sequenceIntro(plain(100 * LEVEL))), { size: 9 }, { below: 4 });
  for (const words of [...linesOfBefore(paper.options), ...linesOfAway(paper, plan)])
    writeParagraph(paper, words, { size: 10, weight: 'bold' }, { below: 3 });
  const note = byNote(plan.bundles, weighed);
  if (note !== '') writeParagraph(paper, note, { size: 9 }, { below: 4 });
  const { whole, waiting } = firstPart(job, plan, job.aims.fixedShare);
  const laidOver = [
    ...[...waiting].map(([upper, under]) => W.waitsOver(upper, under.join(W.and))),
    ...[...whole].map(([lower, over]) => W.wholeUnder(lower, over.join(W.and))),
  ];
  for (const words of laidOver) writeParagraph(paper, words, { size: 9, weight: 'bold' }, { below: 3 });
  const { list: listBefore } = job.vessel ?? {};
  if (listBefore) {
    const moment = presentList(job.vessel ?? {})?.moment;
    const list = listNow(listBefore);
    const counted =
      listAtFirst(job) === null ? moment && W.listEstimated(list, amount(sizeOf(moment), 0, 'kg·m')) : W.listNow(list);
    const words = counted ?? W.listLeftOut(list);
    writeParagraph(paper, tell(paper, words), { size: 10, weight: 'bold' }, { below: 3 });
  }
  const passed = limitsPassed(job, plan).map((words) => tell(paper, words));
  for (const words of [
    ...unplacedLines(job, plan),
    ...passed,
    ...tooHeavyLines(paper, job, made, weighed ?? new Map()),
  ]) {
    writeParagraph(paper, words, { size: 10, weight: 'bold' }, { below: 3 });
  }
  const sequence = loadingOf(job, made, weighed);
  const partIn = shareIn(plan, firstPart(job, made, job.aims.fixedShare).counts);
  const lists = sequence.flatMap((step) => (step.list === null ? [] : [Math.abs(step.list)]));
  const { listMost } = job.aims;
  if (listMost !== undefined && lists.length > 0) {
    const words = W.listMost(plain(Math.max(...lists), 1, 'up'), plain(listMost, 1));
    writeParagraph(paper, words, { size: 10, weight: 'bold' }, { below: 3 });
  }
  const listed = lists.length > 0;
  const by = byColumn(plan.bundles, weighed);
  const heads: Column[] = [
    { head: '', tick: true, width: 20 },
    { head: W.heads.load, align: 'right' },
    { head: W.heads.bundle, share: 2, bold: true },
    { head: W.heads.void, share: 1 },
    { head: W.heads.place },
    { head: W.heads.inVoid, align: 'right' },
    { head: W.heads.mass, align: 'right', bold: true, even: true },
    ...by.heads,
    { head: W.heads.aboard, align: 'right', even: true },
    { head: either(paper, W.heads.moment, W.heads.momentsAbreast), align: 'right', even: true },
    ...(listed ? [{ head: W.heads.list, align: 'right' as const, even: true }] : []),
  ];
  const chocked = new Set(
    job.voids.flatMap((space) =>
      chocksOf(laidVoid(space, plan), plan).map((chock) => orderIn(chock.void, chock.after)),
    ),
  );
  const cells = evened(
    heads,
    sequence.map((step, i) => cellsOf(paper, step, i + 1, { listed, chocked, by: by.cells(step.bundle) })),
  );
  if (sequence.some(({ floats }) => floats !== null)) writeParagraph(paper, W.foretold, { size: 9 }, { below: 3 });
  writeMarks(paper, W.start);
  const columns = columnsAsked(paper, heads, cells, SIZE);
  let rows: string[][] = [];
  for (const [i, { quarter, lastOfFirst, floats }] of sequence.entries()) {
    rows.push(cells[i]!);
    if (quarter === null && !lastOfFirst) continue;
    const foretold = floats === null ? [] : paper.letters.lines(tell(paper, floats), paper.width - 12, SIZE);
    await writeTable(paper, columns, rows, { size: SIZE, rowHeight: 17, below: MARKS + foretold.length * FORETOLD });
    rows = [];
    // Where a quarter is in with the fixed part, the same marks are read once: its share says how much is in.
    if (lastOfFirst) writeMarks(paper, W.trial(plain(100 * partIn, 0)), foretold);
    if (quarter !== null && (!lastOfFirst || quarter === W.quarters.length))
      writeMarks(paper, W.quarters[quarter - 1] ?? '', foretold);
  }
}

/** A void and an order in it as one word. */
const orderIn = (space: string, order: number): string => `${order} ${space}`;

/** `chocked`: the bundles after which chocks go in; `by`: by what its mass stands. */
function cellsOf(
  paper: Paper,
  { bundle, mass, moment, list }: Loaded,
  number: number,
  { listed, chocked, by }: { listed: boolean; chocked: ReadonlySet<string>; by: string[] },
): string[] {
  return [
    '',
    String(number),
    bundle.bundle,
    bundle.void,
    W.place(bundle.run, bundle.tier, chocked.has(orderIn(bundle.void, bundle.order))),
    String(bundle.order),
    massIn(paper, bundle.mass),
    ...by,
    massIn(paper, mass, 1),
    sideOf(paper, moment, ' · '),
    ...(listed ? [list === null ? '' : W.list(plain(Math.abs(list), 1, 'up'))] : []),
  ];
}

/** A moment about the centreline, kg·m, and its side; in both units with `between` them. */
export function sideOf(paper: Paper, moment: number, between: string): string {
  if (Math.abs(moment) < 0.05) return W.even;
  const [first = '', ...below] = cellIn(paper, Math.abs(moment), 'kg·m', plain(Math.abs(moment), 1)).split('\n');
  return [W.moment(first, moment > 0), ...below].join(between);
}

/** Of the letters in the table, points. */
const SIZE = 9;

/** Height of a line of marks with its box, points. */
export const MARKS = 46;

/** Height of each line of what is foretold of them, points. */
export const FORETOLD = 12;

/** A box to write the marks into that are read; what is `foretold` of them stands over it. */
export function writeMarks(paper: Paper, words: string, foretold: string[] = []): void {
  const { doc, letters, left, right, width } = paper;
  const more = foretold.length * FORETOLD;
  ensureRoom(paper, MARKS + more);
  doc
    .undash()
    .lineWidth(1)
    .strokeColor(INK)
    .rect(left, paper.y + 3, width, 36 + more)
    .stroke();
  letters.set(words, left + 6, paper.y + 15, { size: 9.5, weight: 'bold' });
  for (const [i, line] of foretold.entries())
    letters.set(line, left + 6, paper.y + 15 + (i + 1) * FORETOLD, { size: 9 });
  const cell = (right - left - 12) / W.marks.length;
  const foot = paper.y + 33 + more;
  W.marks.forEach((mark, i) => {
    const x = left + 6 + i * cell;
    letters.set(mark, x, foot, { size: 9 });
    const from = x + letters.width(mark, 9) + 3;
    doc
      .lineWidth(0.5)
      .moveTo(from, foot + 1)
      .lineTo(x + cell - 8, foot + 1)
      .stroke();
  });
  paper.y += 45 + more;
}
