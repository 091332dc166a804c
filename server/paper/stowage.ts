/** The stowage sheets: the loading sequence over all voids, then each void, tier by tier: whole on a page where it goes. */
import type { Writable } from 'node:stream';
import { byScale } from '../../src/balance/byScale.ts';
import { laidVoid, voidTitle } from '../../src/drawing/laid.ts';
import { INK } from '../../src/drawing/style.ts';
import { type HeldVoid, holdDownOf } from '../../src/hold/holdDown.ts';
import type { Job } from '../../src/job/job.ts';
import { sectionName } from '../../src/job/section.ts';
import { calloutsOf } from '../../src/lift/callouts.ts';
import { chocksOf } from '../../src/plan/chocks.ts';
import type { Plan, PlanVoid } from '../../src/plan/plan.ts';
import { markRanges } from '../../src/plan/stops.ts';
import { columnsAsked } from './columns.ts';
import { inchesOf, massIn } from './feet.ts';
import { plain } from './figures.ts';
import { writeSequence } from './loadingSheet.ts';
import { byColumn } from './massBy.ts';
import { heightOf, isTrial } from './measure.ts';
import {
  breathe,
  closePaper,
  ensureRoom,
  newPart,
  openPaper,
  type Paper,
  type PaperOptions,
  writeParagraph,
} from './page.ts';
import { allHeld, writeHeld, writeNotSecured } from './secured.ts';
import { type Stowed, writeRoomyDrawings, writeSmallDrawings } from './stowageDrawings.ts';
import { factsOf, writeNotes } from './stowageNotes.ts';
import { STOWAGE_WORDS as W } from './stowageWords.ts';
import { type Column, writeTable } from './table.ts';
import { tooHeavyLines } from './weighing.ts';

export async function writeStowage(job: Job, made: Plan, options: PaperOptions, out: Writable): Promise<void> {
  const paper = openPaper(W.title, job, made, options, out);
  const plan = byScale(job, made, options.weighed);
  const held = new Map(holdDownOf(job, plan, options.weighed).map((entry) => [entry.void, entry]));
  paper.heading = allHeld([...held.values()]) ? writeHeld : writeNotSecured;
  await writeSequence(paper, job, made, plan);
  const sheets = job.voids.flatMap((space): Sheet[] => {
    const placed = plan.voids.find((entry) => entry.void === space.void);
    if (!placed || placed.bundles === 0) return [];
    const hold = held.get(space.void);
    const runs = plan.runs.filter((run) => run.void === space.void);
    const bundles = plan.bundles.filter((bundle) => bundle.void === space.void).sort((p, q) => p.order - q.order);
    const stowed: Stowed = { plan, space, runs, bundles };
    const tooHeavy = options.weighed ? tooHeavyLines(paper, job, made, options.weighed, space.void) : [];
    return [
      {
        heading: hold?.held ? writeHeld : writeNotSecured,
        bundles: bundles.length,
        title: voidTitle(space),
        write: (onto, draw, again) => writeVoid(onto, job, stowed, { placed, hold, tooHeavy }, draw, again),
        heights: new Map(),
      },
    ];
  });
  for (const [i, sheet] of sheets.entries()) await placeSheet(paper, sheet, sheets[i - 1], sheets[i + 1]);
  await closePaper(paper);
}

type Draw = (paper: Paper, stowed: Stowed) => void;

/** A void as it is to be written. */
interface Sheet {
  /** The head of a page speaks of every void on it. */
  heading: (paper: Paper) => void;
  bundles: number;
  title: string;
  /** The page on which it says what is so of every void, once it is written. */
  saidOn?: number;
  /** `again` where the page has a void already that says so. */
  write(paper: Paper, draw: Draw, again: boolean): Promise<void>;
  /** What it takes of a page so, points, once that was found out. */
  heights: Map<string, number>;
}

/** Points between a void and the next on the same page. */
const APART = 18;
/** A void of more bundles than these does not go on a page with its list: it is not tried. */
const MOST_ON_A_PAGE = 24;
const WAYS: Draw[] = [writeRoomyDrawings, writeSmallDrawings];

/**
 * Whole on what is left of the page, on a page of its own, or over several. Smaller drawings are taken where a page is
 * saved by them, be it that the next void goes on the same page.
 */
async function placeSheet(paper: Paper, sheet: Sheet, last: Sheet | undefined, next: Sheet | undefined): Promise<void> {
  const again = last?.saidOn === paper.pages;
  const ways = sheet.bundles <= MOST_ON_A_PAGE ? WAYS : [];
  for (const draw of last?.heading === sheet.heading ? ways : []) {
    if (paper.y + APART + (await heightIn(paper, sheet, draw, again)) > paper.bottom) continue;
    divide(paper);
    paper.goesOn = sheet.title;
    sheet.saidOn = paper.pages;
    return sheet.write(paper, draw, again);
  }
  paper.heading = sheet.heading;
  newPart(paper, sheet.title);
  // Where it does not end on this page, the next void says again what is so of every void.
  sheet.saidOn = paper.pages;
  const room = paper.bottom - paper.y;
  const follower = next?.heading === sheet.heading && next.bundles <= MOST_ON_A_PAGE ? next : null;
  const after = follower
    ? APART + (await heightIn(paper, follower, writeSmallDrawings, true))
    : Number.POSITIVE_INFINITY;
  for (const least of [after, 0]) {
    for (const draw of least < room ? ways : []) {
      if ((await heightIn(paper, sheet, draw, false)) + least <= room) return sheet.write(paper, draw, false);
    }
  }
  return sheet.write(paper, writeRoomyDrawings, false);
}

async function heightIn(paper: Paper, sheet: Sheet, draw: Draw, again: boolean): Promise<number> {
  const key = `${draw.name} ${again}`;
  const height = sheet.heights.get(key) ?? (await heightOf(paper, (trial) => sheet.write(trial, draw, again)));
  sheet.heights.set(key, height);
  return height;
}

/** A line between two voids on one page. */
function divide(paper: Paper): void {
  const { doc, left, right } = paper;
  const y = paper.y + APART / 2;
  doc.undash().lineWidth(1.4).strokeColor(INK).moveTo(left, y).lineTo(right, y).stroke();
  paper.y += APART;
}

async function writeVoid(
  paper: Paper,
  job: Job,
  stowed: Stowed,
  { placed, hold, tooHeavy }: { placed: PlanVoid; hold: HeldVoid | undefined; tooHeavy: readonly string[] },
  draw: Draw,
  again: boolean,
): Promise<void> {
  const { letters, left, width } = paper;
  const { plan, space, bundles } = stowed;
  paper.y = letters.fitted(
    voidTitle(space),
    left,
    paper.y - 2,
    { width, height: 40, least: 8 },
    { size: 17, weight: 'bold' },
  );
  writeParagraph(
    paper,
    factsOf(paper, plan, space, placed),
    { size: 9.5 },
    { above: 1, below: tooHeavy.length > 0 ? 2 : 5 },
  );
  for (const words of tooHeavy) writeParagraph(paper, words, { size: 9.5, weight: 'bold' }, { below: 5 });
  draw(paper, stowed);
  await breathe(paper);
  const callouts = calloutsOf(job, bundles).filter((each) => each.text !== null);
  await writeNotes(
    paper,
    plan,
    space,
    hold,
    [...new Set(callouts.map((each) => each.text ?? ''))].map((text) =>
      W.lifts(markRanges(callouts.filter((each) => each.text === text).map((each) => each.bundle)).join(', '), text),
    ),
    again,
  );
  await writeOrder(paper, stowed);
}

/** Points that the head of a page about its voids takes. */
const BANNER = 30;

/** Every bundle in the order in which it goes in, and after those that they steady the chocks. */
async function writeOrder(paper: Paper, { plan, space, bundles }: Stowed): Promise<void> {
  const by = byColumn(bundles, paper.options.weighed);
  const parted = new Set(bundles.map((bundle) => bundle.share)).size > 1;
  const columns: Column[] = [
    { head: '', tick: true, width: 20 },
    { head: W.heads.order, align: 'right', bold: true },
    { head: W.heads.bundle, share: 2, bold: true },
    { head: W.heads.mass, align: 'right', even: true },
    ...by.heads,
    { head: W.heads.runTier },
    ...(parted ? [{ head: W.heads.part }] : []),
    { head: W.heads.bars, share: 4 },
    { head: W.heads.from },
    { head: W.heads.up, align: 'right' },
  ];
  const chocks = chocksOf(laidVoid(space, plan), plan);
  const below = (lengths: number[]) => (paper.options.feet ? `\n${inchesOf(paper, lengths, ' / ')}` : '');
  const rows = bundles.flatMap((bundle) => {
    const row = [
      '',
      String(bundle.order),
      bundle.bundle,
      massIn(paper, bundle.mass),
      ...by.cells(bundle),
      W.runTier(bundle.run, bundle.tier),
      ...(parted ? [bundle.share === 'trim' ? W.trim : ''] : []),
      `${W.bars(bundle.slots.length, plain(bundle.length), sectionName(bundle.section))}${below([bundle.length])}`,
      `${plain(bundle.at.along)} / ${plain(bundle.at.across)}${below([bundle.at.along, bundle.at.across])}`,
      `${plain(bundle.at.up)}${below([bundle.at.up])}`,
    ];
    const marks = chocks.flatMap(({ after, mark }) => (after === bundle.order ? [mark] : []));
    if (marks.length === 0) return [row];
    const then = [
      '',
      '',
      W.chocksIn(marks.length),
      '',
      ...by.none,
      '',
      ...(parted ? [''] : []),
      marks.join(', '),
      '',
      '',
    ];
    return [row, then];
  });
  const asked = columnsAsked(paper, columns, rows, 9);
  const write = async (onto: Paper, head: string) => {
    writeParagraph(onto, head, { size: 11, weight: 'bold' }, { above: 4, below: 1, keep: 31 });
    await writeTable(onto, asked, rows, { size: 9, rowHeight: 16, pad: 2.5 });
  };
  // The list is worked down with a pencil: whole on one page where a page takes it.
  const high = isTrial(paper) ? 0 : await heightOf(paper, (trial) => write(trial, W.orderHead));
  const turned = ensureRoom(paper, high <= paper.bottom - paper.top - BANNER ? high : 90);
  await write(paper, turned ? W.orderOf(space.void) : W.orderHead);
}
