/** What was read afloat, for the register: every reading in the order taken, and what stands beside it. */
import { type AgainstWords, takenAgainst } from '../../src/balance/againstWords.ts';
import { allThatCounts, inOrderTaken, type Reading, type Taken, type Written } from '../../src/balance/taken.ts';
import { lowWords, readWords } from '../../src/balance/takenWords.ts';
import type { Job } from '../../src/job/job.ts';
import type { Plan } from '../../src/plan/plan.ts';
import { cellIn, either, massCell, tell } from './feet.ts';
import { plain } from './figures.ts';
import { type Paper, writeParagraph } from './page.ts';
import { type Column, writeTable } from './table.ts';
import { TAKEN_WORDS as W } from './words.ts';

/** Nothing where nothing was read: the register then leaves it to the pencil. */
export async function writeTaken(paper: Paper, job: Job, plan: Plan, texts: readonly Written[]): Promise<void> {
  const own = inOrderTaken(texts);
  const { earlier = [], planSerial: serial } = paper.options;
  for (const of of new Set(earlier.map((taken) => taken.earlier!.plan)))
    await writeSome(
      paper,
      job,
      W.earlierHead(of),
      earlier.filter((taken) => taken.earlier!.plan === of),
    );
  if (own.length === 0) return;
  const all = allThatCounts(earlier, texts);
  await writeSome(paper, job, W.head, own, (taken) => takenAgainst({ job, plan, serial, all }, taken));
}

/** Readings of one job under a head; `against` finds where one is otherwise than reckoned. */
async function writeSome(
  paper: Paper,
  job: Job,
  head: string,
  all: readonly Taken[],
  against: (taken: Taken) => AgainstWords | null = () => null,
): Promise<void> {
  writeParagraph(paper, head, { size: 11, weight: 'bold' }, { above: 9, below: 2, keep: 60 });
  const mark = { align: 'right' as const, width: paper.options.feet ? 52 : 44, bold: true };
  const columns: Column[] = [
    { head: W.heads.number, align: 'right', width: 24 },
    { head: W.heads.taken, width: 90 },
    { head: W.heads.who, share: 2 },
    { head: either(paper, W.heads.forward, W.heads.forwardFeet), ...mark },
    { head: either(paper, W.heads.aft, W.heads.aftFeet), ...mark },
    { head: W.heads.list, align: 'right', width: 58 },
    { head: W.heads.period, align: 'right', width: 36 },
    { head: W.heads.aboard, align: 'right', width: 100 },
  ];
  const counted = all.filter(({ reading }) => !reading.struck);
  const rows = counted.map(({ number, reading }) => [
    String(number),
    `${reading.on}${reading.at === '' ? '' : ` ${reading.at}`}`,
    reading.who,
    markOf(paper, reading.forward),
    markOf(paper, reading.aft),
    reading.list === null ? '' : W.list(plain(Math.abs(reading.list), 1), Math.sign(reading.list)),
    reading.period === null ? '' : plain(reading.period, 1),
    W.aboard(massCell(paper, reading.aboard.moments.mass, 1), reading.aboard.bundles.length, reading.aboard.plan),
  ]);
  if (rows.length > 0) await writeTable(paper, columns, rows, { size: 9, rowHeight: 15 });
  for (const taken of all) {
    writeBeside(paper, job, taken);
    const found = against(taken);
    if (!found) continue;
    const told = W.against(found.lines.map((line) => tell(paper, line)).join(' '), found.from, found.slipped);
    writeParagraph(paper, W.beside(taken.number, told), { size: 9 }, { above: 3 });
  }
}

/** What of a reading no column has: freeboards, what else was aboard, what it said before. */
function writeBeside(paper: Paper, job: Job, { number, reading, before }: Taken): void {
  const boards = readWords({ ...reading, forward: null, aft: null, list: null, period: null });
  // A note stays as it was written.
  const said = (one: Reading): string[] => saidOf(one).map((words) => tell(paper, words));
  const low = reading.struck ? '' : lowWords(job, reading);
  const told = [
    ...(reading.struck ? [W.struck, ...said(reading)] : boards.map((words) => tell(paper, words))),
    ...(reading.note === '' ? [] : [W.note(reading.note)]),
    ...before
      .filter((text) => !text.reading.struck && !isAlike(text.reading, reading))
      .map((text) => W.before(said(text.reading).join(' '))),
  ];
  if (told.length > 0) writeParagraph(paper, W.beside(number, told.join(' ')), { size: 9 }, { above: 3 });
  if (low !== '') writeParagraph(paper, W.beside(number, tell(paper, low)), { size: 9, weight: 'bold' }, { above: 3 });
}

function saidOf(reading: Reading): string[] {
  return [`${reading.on}${reading.at === '' ? '' : ` ${reading.at}`}:`, ...readWords(reading)];
}

/** Said alike but for whether it counts. */
function isAlike(p: Reading, q: Reading): boolean {
  return JSON.stringify({ ...p, struck: false }) === JSON.stringify({ ...q, struck: false });
}

function markOf(paper: Paper, metres: number | null): string {
  return metres === null ? '' : cellIn(paper, metres, 'm', plain(metres, 3));
}
