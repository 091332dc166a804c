/** The stowage sheets: the loading sequence over all voids, then each void on its own page, tier by tier. */
import type { Writable } from 'node:stream';
import { laidVoid, voidTitle } from '../../src/drawing/laid.ts';
import type { Scene } from '../../src/drawing/scene.ts';
import { bundlesBeyond, voidCrossScale, voidCrossScene } from '../../src/drawing/voidCross.ts';
import { rangesOf, voidLongScale, voidLongScene } from '../../src/drawing/voidLong.ts';
import { voidPlanScale, voidPlanScene } from '../../src/drawing/voidPlan.ts';
import { type HeldVoid, holdDownOf } from '../../src/hold/holdDown.ts';
import type { Job, Void } from '../../src/job/job.ts';
import { sectionName } from '../../src/job/section.ts';
import { calloutsOf } from '../../src/lift/callouts.ts';
import type { Plan, PlanBundle, PlanRun, PlanVoid } from '../../src/plan/plan.ts';
import { markRanges } from '../../src/plan/stops.ts';
import type { LaidVoid } from '../../src/stow/laid.ts';
import { columnsAsked } from './columns.ts';
import { kg, MM, plain } from './figures.ts';
import { writeSequence } from './loadingSheet.ts';
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
import { factsOf, writeNotes } from './stowageNotes.ts';
import { STOWAGE_WORDS as W } from './stowageWords.ts';
import { type Column, writeTable } from './table.ts';

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
  const long = { width: width / MM, height: 50 };
  const longWords = W.longLine(plain(voidLongScale(space, plan, long)));
  writeAbreast(paper, [{ words: longWords, scene: voidLongScene(space, plan, long) }], 1);
  const tiers = [...new Set(bundles.map((bundle) => bundle.tier))].sort((p, q) => p - q);
  writeTiers(paper, plan, space, tiers, bundles);
  await breathe(paper);
  writeSections(paper, plan, space, runs, bundles);
  const callouts = calloutsOf(job, bundles).filter((each) => each.text !== null);
  await writeNotes(
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
  const scale = plain(voidCrossScale(space, plan, { width, height: 62 }));
  for (let i = 0; i < places.length; i += abreast) {
    const scenes = places.slice(i, i + abreast).map(({ along, words }) => ({
      words: words(scale),
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

function sectionPlaces(
  laid: LaidVoid,
  plan: Plan,
  runs: PlanRun[],
): { along: number; words: (scale: string) => string }[] {
  const middles = runs.map((run) => {
    const along = (run.from + run.to) / 2;
    return { along, words: (scale: string) => W.sectionLine(run.run, plain(along), scale) };
  });
  const stations = (laid.stations ?? [])
    .filter(({ along }) => middles.every((middle) => Math.abs(middle.along - along) > APART))
    .map(({ along }) => {
      const away = awayFrom(laid, plan, along);
      return { along, words: (scale: string) => W.stationLine(plain(along), scale, away) };
    });
  return [...middles, ...stations].sort((p, q) => p.along - q.along);
}

/** How far off the bundles are that a station shows: '0' where it cuts them, null where none are near. */
function awayFrom(laid: LaidVoid, plan: Plan, along: number): string | null {
  const beyond = bundlesBeyond(laid, plan, along, BEYOND);
  return beyond && plain(beyond.away, 0);
}

async function writeOrder(paper: Paper, bundles: PlanBundle[]): Promise<void> {
  // The list is worked down with a pencil: whole on one page where a page takes it.
  const high = 42 + bundles.length * 17;
  ensureRoom(paper, high <= paper.bottom - paper.top - 30 ? high : 90);
  writeParagraph(paper, W.orderHead, { size: 12, weight: 'bold' }, { above: 4, below: 2, keep: 60 });
  const parted = new Set(bundles.map((bundle) => bundle.share)).size > 1;
  const columns: Column[] = [
    { head: '', tick: true, width: 20 },
    { head: W.heads.order, align: 'right', bold: true },
    { head: W.heads.bundle, share: 2, bold: true },
    { head: W.heads.mass, align: 'right' },
    { head: W.heads.runTier },
    ...(parted ? [{ head: W.heads.part }] : []),
    { head: W.heads.bars, share: 4 },
    { head: W.heads.from },
    { head: W.heads.up, align: 'right' },
  ];
  const rows = bundles.map((bundle) => [
    '',
    String(bundle.order),
    bundle.bundle,
    kg(bundle.mass),
    W.runTier(bundle.run, bundle.tier),
    ...(parted ? [bundle.share === 'trim' ? W.trim : ''] : []),
    W.bars(bundle.slots.length, plain(bundle.length), sectionName(bundle.section)),
    `${plain(bundle.at.along)} / ${plain(bundle.at.across)}`,
    plain(bundle.at.up),
  ]);
  await writeTable(paper, columnsAsked(paper, columns, rows, 9), rows, { size: 9, rowHeight: 16 });
}

function sum(bundles: PlanBundle[]): number {
  return bundles.reduce((total, bundle) => total + bundle.mass, 0);
}
