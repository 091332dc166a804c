/** The breaking-out sheet: for a survey, the order in which all of it comes out over all voids and goes back. */
import type { Writable } from 'node:stream';
import { lastAgainst } from '../../src/balance/againstWords.ts';
import { type BreakOut, breakOutOf, type OutStep } from '../../src/balance/breakOut.ts';
import { allThatCounts } from '../../src/balance/taken.ts';
import { unplacedLines } from '../../src/balance/unplaced.ts';
import { wayBack } from '../../src/balance/wayBack.ts';
import { laidVoid } from '../../src/drawing/laid.ts';
import type { Job } from '../../src/job/job.ts';
import { chocksOf } from '../../src/plan/chocks.ts';
import { contentsOf } from '../../src/plan/contents.ts';
import { dayOf } from '../../src/plan/history.ts';
import { massNow, type WeighedMasses } from '../../src/plan/massNow.ts';
import type { Plan } from '../../src/plan/plan.ts';
import { bundlesIn, type Entry, type Recorded, recordIn, recordOf } from '../../src/plan/record.ts';
import { markRanges } from '../../src/plan/stops.ts';
import { columnsAsked } from './columns.ts';
import { massCell, massTold, tell } from './feet.ts';
import { plain } from './figures.ts';
import { FORETOLD, MARKS, sideOf, writeMarks } from './loadingSheet.ts';
import { byColumn, massBy } from './massBy.ts';
import { closePaper, newPage, openPaper, type Paper, type PaperOptions, writeParagraph } from './page.ts';
import { coveredLines, STOWAGE_WORDS as S, BREAK_OUT_WORDS as W } from './stowageWords.ts';
import { type Column, evened, writeTable } from './table.ts';

export async function writeBreakingOut(job: Job, plan: Plan, options: PaperOptions, out: Writable): Promise<void> {
  const paper = openPaper(W.title, job, plan, options, out);
  newPage(paper);
  const entries = options.record ?? [];
  const record = entries.length > 0 ? recordOf(entries) : allIn(plan);
  const voids = options.breakOut ?? [];
  const masses = options.weighed ?? new Map<string, number>();
  const told = breakOutOf(job, plan, record, masses, voids.length > 0 ? voids : undefined);
  const head = W.head(voids.length > 0 ? voids.join(', ') : null);
  writeParagraph(paper, head, { size: 13, weight: 'bold' }, { below: 2, keep: 60 });
  writeParagraph(paper, whenceOf(paper, plan, entries, record, masses), { size: 10, weight: 'bold' }, { below: 3 });
  if (told.steps.length === 0) {
    writeParagraph(paper, W.nothing, { size: 10 });
    return closePaper(paper);
  }
  for (const words of unplacedLines(job, plan)) writeParagraph(paper, words, { size: 9, weight: 'bold' }, { below: 3 });
  for (const words of besideOf(paper, job)) writeParagraph(paper, words, { size: 9, weight: 'bold' }, { below: 3 });
  const { taken = [], earlier = [], planSerial: serial } = options;
  const against = lastAgainst({ job, plan, serial, all: allThatCounts(earlier, taken) });
  if (against)
    writeParagraph(
      paper,
      W.against(against.lines.map((line) => tell(paper, line)).join(' ')),
      { size: 9, weight: 'bold' },
      { below: 3 },
    );
  writeFacts(paper, job, plan, told);
  await writeSteps(paper, job, plan, record, told);
  await closePaper(paper);
}

/** Before anything is recorded: what the plan would have in her. */
function allIn(plan: Plan): Recorded {
  return recordOf(plan.bundles.map(({ bundle }): Entry => ({ bundle, what: 'in', note: '', at: '' })));
}

function whenceOf(
  paper: Paper,
  plan: Plan,
  entries: readonly Entry[],
  record: Recorded,
  masses: WeighedMasses,
): string {
  const day = entries
    .map(({ at }) => dayOf(at))
    .sort()
    .at(-1);
  if (day === undefined) return W.planned;
  const present = bundlesIn(record);
  const mass = plan.bundles.reduce((sum, one) => sum + (present.has(one.bundle) ? massNow(one, masses) : 0), 0);
  return W.recorded(day, present.size, plan.bundles.length, massTold(paper, mass));
}

/** What lies in her and is no bundle of this plan. */
function besideOf(paper: Paper, job: Job): string[] {
  const lying = contentsOf(job);
  const { others } = paper.options;
  const sum = lying.reduce((all, { mass }) => all + mass, others?.before ?? 0);
  const voids = [...new Set(lying.map((content) => content.void))].join(', ');
  return [
    ...(lying.length > 0 && sum > 0.005 ? [W.beside(massTold(paper, sum), voids)] : []),
    ...(others?.after ?? []).map((own) => W.after(own.serial, massTold(paper, own.mass), own.voids.join(', '))),
  ];
}

function writeFacts(
  paper: Paper,
  job: Job,
  plan: Plan,
  { steps, mass, listGreatest, barred, outOfTurn }: BreakOut,
): void {
  for (const { upper, lower } of barred)
    writeParagraph(paper, W.barred(upper, lower.join(W.and)), { size: 10, weight: 'bold' }, { below: 3 });
  if (outOfTurn.length > 0)
    writeParagraph(paper, W.outOfTurn(markRanges(outOfTurn).join(', ')), { size: 10, weight: 'bold' }, { below: 3 });
  for (const words of coveredLines(wayBack(steps).covered))
    writeParagraph(paper, words, { size: 10, weight: 'bold' }, { below: 3 });
  const { listMost } = job.aims;
  const list =
    listGreatest === null
      ? ''
      : W.listMost(plain(listGreatest, 1, 'up'), listMost === undefined ? null : plain(listMost, 1));
  const bundles = steps.map(({ bundle }) => bundle);
  const sum = W.sum(steps.length, massTold(paper, mass, 1), massBy(bundles, plan, paper.options.weighed));
  writeParagraph(paper, list === '' ? sum : `${sum} ${list}`, { size: 10 }, { below: 3 });
  for (const words of [W.way, W.before]) writeParagraph(paper, words, { size: 9 }, { below: 3 });
  writeParagraph(paper, W.afloat, { size: 9, weight: 'bold' }, { below: 3 });
  if (steps.some(({ floats }) => floats !== null)) writeParagraph(paper, W.marks, { size: 9 }, { below: 3 });
  writeMarks(paper, W.start);
}

/** Of the letters in the table, points. */
const SIZE = 9;

async function writeSteps(
  paper: Paper,
  job: Job,
  plan: Plan,
  record: Recorded,
  { steps, listGreatest }: BreakOut,
): Promise<void> {
  const by = byColumn(
    steps.map(({ bundle }) => bundle),
    paper.options.weighed,
  );
  const heads: Column[] = [
    { head: W.heads.out, tick: true, width: 25 },
    { head: W.heads.back, tick: true, width: 32 },
    { head: S.heads.load, align: 'right' },
    { head: S.heads.bundle, share: 2, bold: true },
    { head: S.heads.void, share: 1 },
    { head: S.heads.place, share: 3 },
    { head: S.heads.mass, align: 'right', bold: true, even: true },
    ...by.heads,
    { head: W.heads.left, align: 'right', even: true },
    {
      head: S.heads.moment,
      align: 'right',
      even: true,
      ...(paper.options.feet ? { head: S.heads.momentsBelow, width: 68 } : {}),
    },
    ...(listGreatest === null ? [] : [{ head: S.heads.list, align: 'right' as const, even: true }]),
  ];
  const chocked = chockedOf(job, plan);
  const isListed = listGreatest !== null;
  const cells = evened(
    heads,
    steps.map((step, i) => cellsOf(paper, step, i + 1, record, { chocked, isListed, by: by.cells(step.bundle) })),
  );
  const columns = columnsAsked(paper, heads, cells, SIZE);
  let rows: string[][] = [];
  for (const [i, { quarter, floats }] of steps.entries()) {
    rows.push(cells[i]!);
    if (quarter === null) continue;
    const foretold = floats === null ? [] : paper.letters.lines(tell(paper, floats), paper.width - 12, 9);
    await writeTable(paper, columns, rows, { size: SIZE, rowHeight: 17, below: MARKS + foretold.length * FORETOLD });
    writeMarks(paper, W.quarter(S.quartersOut[quarter - 1] ?? ''), foretold);
    rows = [];
  }
}

function cellsOf(
  paper: Paper,
  { bundle, left, moment, list, opens, empties }: OutStep,
  number: number,
  record: Recorded,
  { chocked, isListed, by }: { chocked: ReadonlySet<string>; isListed: boolean; by: string[] },
): string[] {
  const first = [
    ...(opens ? [W.holdDown] : []),
    ...(chocked.has(orderIn(bundle.void, bundle.order)) ? [W.chocks] : []),
  ];
  const { state, since } = recordIn(record, bundle.bundle);
  const out = state === 'out' && since !== null ? dayOf(since) : null;
  return [
    '',
    '',
    String(number),
    bundle.bundle,
    bundle.void,
    W.place(bundle.run, bundle.tier, first.join(W.and), out, empties ? bundle.void : null),
    massCell(paper, bundle.mass),
    ...by,
    massCell(paper, left, 1),
    sideOf(paper, moment, '\n'),
    ...(isListed ? [list === null ? '' : S.list(plain(Math.abs(list), 1, 'up'))] : []),
  ];
}

/** A void and an order in it as one word. */
const orderIn = (space: string, order: number): string => `${order} ${space}`;

/** The bundles with which chocks go in and come out. */
function chockedOf(job: Job, plan: Plan): Set<string> {
  return new Set(
    job.voids.flatMap((space) =>
      chocksOf(laidVoid(space, plan), plan).map((chock) => orderIn(chock.void, chock.after)),
    ),
  );
}
