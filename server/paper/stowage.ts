/** The stowage sheets: the loading sequence over all voids, then each void on its own page, tier by tier. */
import type { Writable } from 'node:stream';
import { bedsOf } from '../../src/drawing/bed.ts';
import { laidVoid, voidTitle } from '../../src/drawing/laid.ts';
import type { Scene } from '../../src/drawing/scene.ts';
import { INK } from '../../src/drawing/style.ts';
import { bundlesBeyond, voidCrossScale, voidCrossScene } from '../../src/drawing/voidCross.ts';
import { rangesOf, voidLongScene } from '../../src/drawing/voidLong.ts';
import { voidPlanScale, voidPlanScene } from '../../src/drawing/voidPlan.ts';
import { DRAWING_WORDS as D } from '../../src/drawing/words.ts';
import { type HeldVoid, holdDownOf } from '../../src/hold/holdDown.ts';
import type { Job, Void } from '../../src/job/job.ts';
import { sectionName } from '../../src/job/section.ts';
import { calloutsOf } from '../../src/lift/callouts.ts';
import { chocksOf } from '../../src/plan/chocks.ts';
import type { Plan, PlanBundle, PlanRun, PlanVoid } from '../../src/plan/plan.ts';
import { loadingSequence } from '../../src/plan/sequence.ts';
import { fixedPart } from '../../src/plan/share.ts';
import { markRanges } from '../../src/plan/stops.ts';
import type { LaidVoid } from '../../src/stow/laid.ts';
import { limitsPassed } from './balanceSheet.ts';
import { kg, MM, plain, wedge } from './figures.ts';
import {
  breathe,
  closePaper,
  ensureRoom,
  newPage,
  openPaper,
  type Paper,
  type PaperOptions,
  writeParagraph,
} from './page.ts';
import { drawScene } from './pdfScene.ts';
import { allHeld, writeHeld, writeNotSecured } from './secured.ts';
import { type Column, writeTable } from './table.ts';
import { MAKING_WORDS as M, STOWAGE_WORDS as W } from './words.ts';

export async function writeStowage(job: Job, plan: Plan, options: PaperOptions, out: Writable): Promise<void> {
  const paper = openPaper(W.title, job, plan, options, out);
  const held = new Map(holdDownOf(job, plan).map((entry) => [entry.void, entry]));
  paper.heading = allHeld([...held.values()]) ? writeHeld : writeNotSecured;
  await writeSequence(paper, job, plan);
  for (const space of job.voids) {
    const placed = plan.voids.find((entry) => entry.void === space.void);
    if (!placed || placed.bundles === 0) continue;
    const hold = held.get(space.void);
    paper.heading = hold?.held ? writeHeld : writeNotSecured;
    await writeVoid(paper, job, plan, space, placed, hold);
  }
  await closePaper(paper);
}

async function writeSequence(paper: Paper, job: Job, plan: Plan): Promise<void> {
  newPage(paper);
  writeParagraph(paper, W.sequenceHead, { size: 13, weight: 'bold' }, { below: 2, keep: 60 });
  writeParagraph(paper, W.sequenceIntro, { size: 9 }, { below: 4 });
  for (const words of limitsPassed(job, plan)) {
    writeParagraph(paper, words, { size: 10, weight: 'bold' }, { below: 3 });
  }
  const columns: Column[] = [
    { head: '', tick: true, width: 20 },
    { head: W.heads.load, width: 34, align: 'right' },
    { head: W.heads.bundle, share: 2, bold: true },
    { head: W.heads.void, share: 1 },
    { head: W.heads.place, width: 66 },
    { head: W.heads.inVoid, width: 46, align: 'right' },
    { head: W.heads.mass, width: 56, align: 'right', bold: true },
    { head: W.heads.aboard, width: 60, align: 'right' },
    { head: W.heads.moment, width: 80, align: 'right' },
  ];
  let rows: string[][] = [];
  const sequence = loadingSequence(job, plan, fixedPart(plan, job.aims.fixedShare));
  for (const [i, { bundle, mass, moment, quarter, lastOfFirst }] of sequence.entries()) {
    const side = Math.abs(moment) < 0.05 ? W.even : W.moment(plain(Math.abs(moment), 1), moment > 0);
    rows.push([
      '',
      String(i + 1),
      bundle.bundle,
      bundle.void,
      W.place(bundle.run, bundle.tier),
      String(bundle.order),
      kg(bundle.mass),
      kg(mass, 1),
      side,
    ]);
    if (quarter === null && !lastOfFirst) continue;
    await writeTable(paper, columns, rows, { size: 9, rowHeight: 17, below: MARKS });
    rows = [];
    if (lastOfFirst) writeMarks(paper, W.trial(plain(100 * job.aims.fixedShare, 0)));
    if (quarter !== null) writeMarks(paper, W.quarters[quarter - 1] ?? '');
  }
}

/** Height of a line of marks with its box, points. */
const MARKS = 46;

function writeMarks(paper: Paper, words: string): void {
  const { doc, letters, left, right, width } = paper;
  ensureRoom(paper, MARKS);
  doc
    .undash()
    .lineWidth(1)
    .strokeColor(INK)
    .rect(left, paper.y + 3, width, 36)
    .stroke();
  letters.set(words, left + 6, paper.y + 15, { size: 9.5, weight: 'bold' });
  const cell = (right - left - 12) / W.marks.length;
  W.marks.forEach((mark, i) => {
    const x = left + 6 + i * cell;
    letters.set(mark, x, paper.y + 33, { size: 9 });
    const from = x + letters.width(mark, 9) + 3;
    doc
      .lineWidth(0.5)
      .moveTo(from, paper.y + 34)
      .lineTo(x + cell - 8, paper.y + 34)
      .stroke();
  });
  paper.y += 45;
}

async function writeVoid(
  paper: Paper,
  job: Job,
  plan: Plan,
  space: Void,
  placed: PlanVoid,
  hold: HeldVoid | undefined,
): Promise<void> {
  const { letters, left, width } = paper;
  const bundles = plan.bundles.filter((bundle) => bundle.void === space.void).sort((p, q) => p.order - q.order);
  const runs = plan.runs.filter((run) => run.void === space.void);
  newPage(paper);
  paper.y = letters.fitted(
    voidTitle(space),
    left,
    paper.y - 2,
    { width, height: 40, least: 8 },
    { size: 17, weight: 'bold' },
  );
  writeParagraph(paper, factsOf(plan, space, placed), { size: 9.5 }, { above: 1, below: 5 });
  writeAbreast(paper, [{ words: W.longLine, scene: voidLongScene(space, plan, { width: width / MM, height: 50 }) }], 1);
  const tiers = [...new Set(bundles.map((bundle) => bundle.tier))].sort((p, q) => p - q);
  writeTiers(paper, plan, space, tiers, bundles);
  await breathe(paper);
  writeSections(paper, plan, space, runs, bundles);
  const callouts = calloutsOf(job, bundles).filter((each) => each.text !== null);
  writeNotes(
    paper,
    plan,
    space,
    hold,
    [...new Set(callouts.map((each) => each.text ?? ''))].map((text) =>
      W.lifts(markRanges(callouts.filter((each) => each.text === text).map((each) => each.bundle)).join(', '), text),
    ),
  );
  await writeOrder(paper, bundles);
}

function factsOf(plan: Plan, space: Void, placed: PlanVoid): string {
  const laid = laidVoid(space, plan);
  const { centre } = placed;
  return [
    W.bundles(placed.bundles, kg(placed.mass, 1)),
    centre ? W.centre(plain(centre.x), plain(centre.y), plain(centre.z)) : '',
    W.fill(plain(100 * placed.fill, 0)),
    W.lies(laid.axis),
    W.dunnage(plain(space.dunnage)),
    space.most === undefined ? '' : W.most(kg(space.most, 1)),
    W.gaps(plain(space.gap.runs), plain(space.gap.across), plain(space.clear.ends)),
  ]
    .filter((words) => words !== '')
    .join(' ');
}

/** Tiers drawn two abreast must still show their numbers: no smaller than this scale, else each has the whole width. */
const ABREAST = 15;

function writeTiers(paper: Paper, plan: Plan, space: Void, tiers: number[], bundles: PlanBundle[]): void {
  const full = paper.width / MM;
  const height = 78;
  const half = voidPlanScale(space, plan, (full - 4) / 2, height);
  const abreast = tiers.length > 1 && half <= ABREAST ? 2 : 1;
  const scale = abreast === 2 ? half : voidPlanScale(space, plan, full, height);
  for (let i = 0; i < tiers.length; i += abreast) {
    const scenes = tiers.slice(i, i + abreast).map((tier, k) => {
      const here = bundles.filter((bundle) => bundle.tier === tier);
      const words = W.tierLine(tier, rangesOf(here.map((bundle) => bundle.order)), kg(sum(here), 1));
      return { words, scene: voidPlanScene(space, plan, { width: full, height, tier, scale, brief: i + k > 0 }) };
    });
    writeAbreast(paper, scenes, abreast);
  }
}

/** Scenes side by side, each under its line of words; a new page first where they would be cut. */
function writeAbreast(paper: Paper, scenes: { words: string; scene: Scene }[], abreast: number): void {
  const { doc, letters, left } = paper;
  const column = (paper.width + 12) / abreast;
  const heads = scenes.map(({ words }) => letters.fit(words, column - 12, 26, 10, 7, 'bold'));
  const head = Math.max(...heads.map((each) => each.lines.length * each.size * 1.22)) + 3;
  const high = head + Math.max(...scenes.map(({ scene }) => scene.height)) * MM + 4;
  ensureRoom(paper, high);
  scenes.forEach(({ scene }, i) => {
    const x = left + i * column;
    letters.block(heads[i]!.lines, x, paper.y + 1, { size: heads[i]!.size, weight: 'bold' });
    drawScene(doc, letters, scene, x, paper.y + head);
  });
  paper.y += high;
}

/** Sections through the middle of every run and at every station, as they follow along the void, each named. */
function writeSections(paper: Paper, plan: Plan, space: Void, runs: PlanRun[], bundles: PlanBundle[]): void {
  const places = sectionPlaces(laidVoid(space, plan), plan, runs);
  const widthOf = (abreast: number) => (paper.width - 12 * (abreast - 1)) / abreast / MM;
  const least = Math.min(...bundles.flatMap((bundle) => [bundle.size.across, bundle.size.up]));
  const readable = least / voidCrossScale(space, plan, { width: widthOf(3), height: 62 }) >= LEAST_BUNDLE;
  const abreast = places.length > 2 && readable ? 3 : 2;
  const width = widthOf(abreast);
  for (let i = 0; i < places.length; i += abreast) {
    const scenes = places.slice(i, i + abreast).map(({ along, words }) => ({
      words,
      scene: voidCrossScene(space, plan, along, { width, height: 62, beyond: BEYOND }),
    }));
    writeAbreast(paper, scenes, abreast);
  }
}

/** A bundle drawn smaller than this shows no number that can be read at arm's length, mm of paper. */
const LEAST_BUNDLE = 4.5;

/** Nearer than this to the middle of a run a station has no section of its own, mm. */
const APART = 25;
/** A station that cuts no bundle shows the outlines of those whose ends lie this near to it, mm. */
const BEYOND = 120;

function sectionPlaces(laid: LaidVoid, plan: Plan, runs: PlanRun[]): { along: number; words: string }[] {
  const middles = runs.map((run) => {
    const along = (run.from + run.to) / 2;
    return { along, words: W.sectionLine(run.run, plain(along)) };
  });
  const stations = (laid.stations ?? [])
    .filter(({ along }) => middles.every((middle) => Math.abs(middle.along - along) > APART))
    .map(({ along }) => ({ along, words: W.stationLine(plain(along), awayFrom(laid, plan, along)) }));
  return [...middles, ...stations].sort((p, q) => p.along - q.along);
}

/** How far off the bundles are that a station shows: '0' where it cuts them, null where none are near. */
function awayFrom(laid: LaidVoid, plan: Plan, along: number): string | null {
  const beyond = bundlesBeyond(laid, plan, along, BEYOND);
  return beyond && plain(beyond.away, 0);
}

/** What lies under the bundles and how they come out again. */
function writeNotes(paper: Paper, plan: Plan, space: Void, hold: HeldVoid | undefined, lifts: string[]): void {
  const sentences = [...lifts, ...bedLines(plan, space), W.breaking, W.frames, W.chocks, ...holdLines(hold)];
  for (const sentence of sentences) {
    if (sentence === '') continue;
    writeParagraph(paper, sentence, { size: 9 }, { above: 5 });
  }
}

/** The hold-down in short: every load case, how far what was entered carries it, and what to mind. */
function holdLines(hold: HeldVoid | undefined): string[] {
  if (!hold || hold.cases.length === 0) return [];
  return [`${W.holdHead} ${hold.cases.map((each) => each.text).join(' ')}`, hold.minds.join(' ')];
}

/** Battens, packing, chocks and keep-outs of the void, a sentence each. */
function bedLines(plan: Plan, space: Void): string[] {
  const laid = laidVoid(space, plan);
  const runs = new Map(plan.runs.filter((run) => run.void === space.void).map((run) => [run.run, run]));
  const beds = bedsOf(laid, plan).map((bed) => {
    const run = runs.get(bed.run)!;
    const battens = W.runLine(bed.run, plain(run.from), plain(run.to), bed.battens.count, plain(bed.battens.length));
    return `${battens}${bed.packing ? `, ${W.packed(plain(bed.packing[0]), plain(bed.packing[1]))}` : ''}.`;
  });
  const chocks = chocksOf(laid, plan).map((chock) =>
    W.chock(
      chock.mark,
      M.side(chock.side, laid.axis),
      `${wedge(chock.size, chock.sizeAtHead)} × ${plain(chock.height)} × ${plain(chock.length, 0)}`,
    ),
  );
  const span = (range: readonly number[]) => W.span(plain(range[0] ?? 0), plain(range[1] ?? 0));
  const keepOuts = laid.keepOut.map((keepOut) =>
    W.keepOut(keepOut.what ?? D.keepOut, span(keepOut.along), span(keepOut.across)),
  );
  return [
    beds.join(' '),
    ...(chocks.length > 0 ? [W.chockList(chocks.join('; '))] : []),
    ...(keepOuts.length > 0 ? [W.keepOuts(keepOuts.join('; '))] : []),
  ];
}

async function writeOrder(paper: Paper, bundles: PlanBundle[]): Promise<void> {
  // The list is worked down with a pencil: whole on one page where a page takes it.
  const high = 42 + bundles.length * 17;
  ensureRoom(paper, high <= paper.bottom - paper.top - 30 ? high : 90);
  writeParagraph(paper, W.orderHead, { size: 12, weight: 'bold' }, { above: 4, below: 2, keep: 60 });
  const columns: Column[] = [
    { head: '', tick: true, width: 20 },
    { head: W.heads.order, width: 38, align: 'right', bold: true },
    { head: W.heads.bundle, share: 2, bold: true },
    { head: W.heads.mass, width: 56, align: 'right' },
    { head: W.heads.runTier, width: 60 },
    { head: W.heads.bars, share: 4 },
    { head: W.heads.from, width: 84 },
    { head: W.heads.up, width: 46, align: 'right' },
  ];
  const rows = bundles.map((bundle) => [
    '',
    String(bundle.order),
    bundle.bundle,
    kg(bundle.mass),
    W.runTier(bundle.run, bundle.tier),
    W.bars(bundle.slots.length, plain(bundle.length), sectionName(bundle.section)),
    `${plain(bundle.at.along)} / ${plain(bundle.at.across)}`,
    plain(bundle.at.up),
  ]);
  await writeTable(paper, columns, rows, { size: 9, rowHeight: 16 });
}

function sum(bundles: PlanBundle[]): number {
  return bundles.reduce((total, bundle) => total + bundle.mass, 0);
}
