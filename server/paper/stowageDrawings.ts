/** The drawings of a void on its stowage sheet: the long section, every tier from above, sections at runs and stations. */
import { laidVoid } from '../../src/drawing/laid.ts';
import type { Scene } from '../../src/drawing/scene.ts';
import { bundlesBeyond, voidCrossScale, voidCrossScene } from '../../src/drawing/voidCross.ts';
import { rangesOf, voidLongScale, voidLongScene } from '../../src/drawing/voidLong.ts';
import { voidPlanScale, voidPlanScene } from '../../src/drawing/voidPlan.ts';
import type { Void } from '../../src/job/job.ts';
import { chocksOf } from '../../src/plan/chocks.ts';
import type { Plan, PlanBundle, PlanRun } from '../../src/plan/plan.ts';
import type { LaidVoid } from '../../src/stow/laid.ts';
import { lengthIn, lengthWithUnit, massIn, unitsOf } from './feet.ts';
import { MM, plain } from './figures.ts';
import type { FittedWords } from './letters.ts';
import { ensureRoom, type Paper } from './page.ts';
import { drawScene } from './pdfScene.ts';
import { STOWAGE_WORDS as W } from './stowageWords.ts';

/** A void with what is drawn of it; bundles in order. */
export interface Stowed {
  plan: Plan;
  space: Void;
  runs: PlanRun[];
  bundles: PlanBundle[];
}

interface Drawn {
  words: string;
  scene: Scene;
}

/** Heights of the drawings, mm of paper. */
const ROOMY = { long: 50, tier: 78, section: 62 };
const SMALL = { long: 30, tier: 42, section: 38 };

/** Each kind of drawing in rows of its own, as large as the page allows. */
export function writeRoomyDrawings(paper: Paper, stowed: Stowed): void {
  writeAbreast(paper, [longOf(paper, stowed, W.longLine, paper.width / MM, ROOMY.long)], 1);
  const tiers = tierSizes(paper, stowed);
  inRows(tiersOf(paper, stowed, { ...tiers, width: paper.width / MM }, false), tiers.abreast).forEach((row) => {
    writeAbreast(paper, row, tiers.abreast);
  });
  const sections = sectionSizes(paper, stowed);
  inRows(sectionsOf(paper, stowed, sections.width, ROOMY.section), sections.abreast).forEach((row) => {
    writeAbreast(paper, row, sections.abreast);
  });
}

/**
 * Smaller drawings that follow each other line by line, sections beside the long section, three to a line where that can
 * be read: for a void that so fits on a page, or beside another.
 */
export function writeSmallDrawings(paper: Paper, stowed: Stowed): void {
  const { plan, space, bundles } = stowed;
  const full = paper.width / MM;
  const third = full / 3 - 4;
  const leastUp = Math.min(...bundles.map((bundle) => bundle.size.up));
  const leastAcross = Math.min(...bundles.map((bundle) => bundle.size.across));
  const small = { width: third, height: SMALL.section };
  const cuts =
    leastSize(stowed) / voidCrossScale(space, plan, small) >= LEAST_BUNDLE
      ? sectionsOf(paper, stowed, third, SMALL.section)
      : sectionsOf(paper, stowed, sectionSizes(paper, stowed).width, ROOMY.section);
  const left = full - (cuts[0] ? widthOf(paper, cuts[0]) + BETWEEN : 0) / MM;
  const longs = [third, left].filter(
    (width) => leastUp / voidLongScale(space, plan, { width, height: SMALL.long }) >= LEAST_TIER,
  );
  const tierScales = [third, full / 2 - 4].map((width) => voidPlanScale(space, plan, width, SMALL.tier));
  const scale = tierScales.find((each) => each <= ABREAST || leastAcross / each >= LEAST_TIER);
  const roomy = tierSizes(paper, stowed);
  const inThirds = scale === tierScales[0];
  // The tiers have no dimension and no scale bar: words say both.
  const longWords = (at: string) => W.longOf(lengthWithUnit(paper, laidVoid(space, plan).length), at);
  writeFlow(paper, [
    longOf(paper, stowed, longWords, (inThirds ? longs : longs.slice(-1))[0] ?? full, SMALL.long),
    ...cuts,
    ...tiersOf(paper, stowed, { width: full, height: ROOMY.tier, scale: scale ?? roomy.scale }, true),
  ]);
}

/** Tiers in the long section and bundles from above drawn lower than this show no numbers that can be read, mm of paper. */
const LEAST_TIER = 2;

/** Tiers drawn two abreast must still show their numbers: no smaller than this scale, else each has the whole width. */
const ABREAST = 15;
/** A bundle drawn smaller than this shows no number that can be read at arm's length, mm of paper. */
const LEAST_BUNDLE = 4.5;

function leastSize({ bundles }: Stowed): number {
  return Math.min(...bundles.flatMap((bundle) => [bundle.size.across, bundle.size.up]));
}

function longOf(
  paper: Paper,
  { plan, space }: Stowed,
  words: (scale: string) => string,
  width: number,
  height: number,
): Drawn {
  const room = { width, height, units: unitsOf(paper) };
  return { words: words(plain(voidLongScale(space, plan, room))), scene: voidLongScene(space, plan, room) };
}

function tierSizes(paper: Paper, { plan, space, bundles }: Stowed): { abreast: number; scale: number; height: number } {
  const full = paper.width / MM;
  const height = ROOMY.tier;
  const half = voidPlanScale(space, plan, (full - 4) / 2, height);
  const several = bundles.some((bundle) => bundle.tier !== bundles[0]?.tier);
  return several && half <= ABREAST
    ? { abreast: 2, scale: half, height }
    : { abreast: 1, scale: voidPlanScale(space, plan, full, height), height };
}

/** Every tier at one scale; in brief without dimension and scale bar, the scale in words. */
function tiersOf(
  paper: Paper,
  { plan, space, bundles }: Stowed,
  room: { width: number; height: number; scale: number },
  brief: boolean,
): Drawn[] {
  const { width, height, scale } = room;
  const tiers = [...new Set(bundles.map((bundle) => bundle.tier))].sort((p, q) => p - q);
  const all = chocksOf(laidVoid(space, plan), plan);
  return tiers.map((tier, i) => {
    const here = bundles.filter((bundle) => bundle.tier === tier);
    const mass = here.reduce((total, bundle) => total + bundle.mass, 0);
    const words = W.tierLine(tier, rangesOf(here.map((bundle) => bundle.order)), massIn(paper, mass, 1));
    const units = unitsOf(paper);
    const chocks = all.filter((chock) => chock.tier === tier);
    const how = { width, height, tier, scale, chocks, brief: brief || i > 0, units };
    const scene = voidPlanScene(space, plan, how);
    return { words: brief ? W.tierAt(words, plain(scale)) : words, scene };
  });
}

function sectionSizes(paper: Paper, stowed: Stowed): { abreast: number; width: number } {
  const { plan, space } = stowed;
  const widthOf = (abreast: number) => (paper.width - 12 * (abreast - 1)) / abreast / MM;
  const scale = voidCrossScale(space, plan, { width: widthOf(3), height: ROOMY.section });
  const abreast = sectionPlaces(paper, stowed).length > 2 && leastSize(stowed) / scale >= LEAST_BUNDLE ? 3 : 2;
  return { abreast, width: widthOf(abreast) };
}

/** Nearer than this to the middle of a run a station has no section of its own, mm. */
const APART = 25;
/** A station that cuts no bundle shows the outlines of those whose ends lie this near to it, mm. */
const BEYOND = 120;

/** Sections through the middle of every run and at every station, as they follow along the void, each named. */
function sectionsOf(paper: Paper, stowed: Stowed, width: number, height: number): Drawn[] {
  const { plan, space } = stowed;
  const scale = plain(voidCrossScale(space, plan, { width, height }));
  const units = unitsOf(paper);
  return sectionPlaces(paper, stowed).map(({ along, words }) => ({
    words: words(scale),
    scene: voidCrossScene(space, plan, along, { width, height, beyond: BEYOND, units }),
  }));
}

function sectionPlaces(
  paper: Paper,
  { plan, space, runs }: Stowed,
): { along: number; words: (scale: string) => string }[] {
  const laid = laidVoid(space, plan);
  const middles = runs.map((run) => {
    const along = (run.from + run.to) / 2;
    return { along, words: (scale: string) => W.sectionLine(run.run, lengthIn(paper, along), scale) };
  });
  const stations = (laid.stations ?? [])
    .filter(({ along }) => middles.every((middle) => Math.abs(middle.along - along) > APART))
    .map(({ along }) => {
      const away = awayFrom(paper, laid, plan, along);
      return { along, words: (scale: string) => W.stationLine(lengthIn(paper, along), scale, away) };
    });
  return [...middles, ...stations].sort((p, q) => p.along - q.along);
}

/** How far off the bundles are that a station shows: '' where it cuts them, null where none are near. */
function awayFrom(paper: Paper, laid: LaidVoid, plan: Plan, along: number): string | null {
  const beyond = bundlesBeyond(laid, plan, along, BEYOND);
  if (!beyond) return null;
  return plain(beyond.away, 0) === '0' ? '' : lengthWithUnit(paper, beyond.away, 0);
}

function inRows(drawn: Drawn[], abreast: number): Drawn[][] {
  const count = Math.ceil(drawn.length / abreast);
  return Array.from({ length: count }, (_, i) => drawn.slice(i * abreast, (i + 1) * abreast));
}

/** Points between drawings side by side. */
const BETWEEN = 12;

/** Drawings in columns of one width. */
function writeAbreast(paper: Paper, drawn: Drawn[], abreast: number): void {
  const column = (paper.width + BETWEEN) / abreast;
  writeRow(
    paper,
    drawn,
    drawn.map(() => column - BETWEEN),
  );
}

/** A drawing has at least so much room for its line of words, points. */
const LEAST_HEAD = 120;

/** Points that a drawing takes in a line of others: its own width, and its words' as far as {@link LEAST_HEAD}. */
function widthOf(paper: Paper, { words, scene }: Drawn): number {
  const own = scene.width * MM;
  const head = Math.min(paper.letters.width(words, 10, 'bold') + 1, LEAST_HEAD);
  return Math.min(paper.width, Math.max(own, head));
}

/** Drawings side by side as long as their own widths go on the page. */
function writeFlow(paper: Paper, drawn: Drawn[]): void {
  const rows: Drawn[][] = [];
  let used = Number.POSITIVE_INFINITY;
  for (const each of drawn) {
    const width = widthOf(paper, each);
    if (used + width > paper.width + 0.01) {
      rows.push([]);
      used = 0;
    }
    rows.at(-1)!.push(each);
    used += width + BETWEEN;
  }
  for (const row of rows) {
    writeRow(
      paper,
      row,
      row.map((each) => widthOf(paper, each)),
    );
  }
}

/** Scenes side by side, each under its line of words; a new page first where they would be cut. */
function writeRow(paper: Paper, drawn: Drawn[], widths: number[]): void {
  const { doc, letters, left } = paper;
  const heads: FittedWords[] = drawn.map(({ words }, i) => letters.fit(words, widths[i]!, 26, 10, 7, 'bold'));
  const head = Math.max(...heads.map((each) => each.lines.length * each.size * 1.22)) + 3;
  const high = head + Math.max(...drawn.map(({ scene }) => scene.height)) * MM + 4;
  ensureRoom(paper, high);
  let x = left;
  drawn.forEach(({ scene }, i) => {
    letters.block(heads[i]!.lines, x, paper.y + 1, { size: heads[i]!.size, weight: 'bold' });
    drawScene(doc, letters, scene, x, paper.y + head);
    x += widths[i]! + BETWEEN;
  });
  paper.y += high;
}
