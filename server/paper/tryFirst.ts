/** The try-first sheet: the bundle to make up before the rest is cut, the first ten cuts to measure, and full-size templates. */
import type { Writable } from 'node:stream';
import { bundleScene } from '../../src/drawing/bundle.ts';
import { laidVoid, voidTitle } from '../../src/drawing/laid.ts';
import type { Scene } from '../../src/drawing/scene.ts';
import { COLD, INK } from '../../src/drawing/style.ts';
import { templateScene } from '../../src/drawing/template.ts';
import { voidPlanScene } from '../../src/drawing/voidPlan.ts';
import type { Job, Void } from '../../src/job/job.ts';
import { sectionName } from '../../src/job/section.ts';
import { type Hardest, hardestBundle } from '../../src/plan/hardest.ts';
import type { Plan } from '../../src/plan/plan.ts';
import { alikeBars, pieceLength } from '../../src/plan/stops.ts';
import { kg, MM, plain } from './figures.ts';
import { breathe, closePaper, newPage, openPaper, type Paper, type PaperOptions, writeParagraph } from './page.ts';
import { drawScene } from './pdfScene.ts';
import { writeTable } from './table.ts';
import { TRY_WORDS as W } from './words.ts';

export async function writeTryFirst(job: Job, plan: Plan, options: PaperOptions, out: Writable): Promise<void> {
  const paper = openPaper(W.title, job, plan, options, out);
  newPage(paper);
  const hardest = hardestBundle(job, plan);
  if (hardest) writeHardest(paper, plan, hardest);
  await writeFirstCuts(paper, job, plan);
  for (const space of job.voids) {
    if (plan.bundles.some((bundle) => bundle.void === space.void)) await writeTemplates(paper, plan, space);
  }
  await closePaper(paper);
}

function writeHardest(paper: Paper, plan: Plan, hardest: Hardest): void {
  const { doc, letters, left, width } = paper;
  const { bundle, space, opening, way } = hardest;
  const head = W.hardest(bundle.bundle, voidTitle(space));
  paper.y = letters.fitted(head, left, paper.y, { width, height: 40, least: 8 }, { size: 15, weight: 'bold' }) + 2;
  const { along, across, up } = bundle.size;
  const words = [
    W.what(bundle.slots.length, plain(bundle.length), sectionName(bundle.section), kg(bundle.mass)),
    W.size(plain(along), plain(across), plain(up)),
    opening
      ? W.opening(plain(opening.along), plain(opening.across), way === 'endFirst', plain(100 * hardest.tightness, 0))
      : W.noOpening(plain(100 * hardest.tightness, 0), plain(100 * hardest.heaviness, 0)),
    W.steps,
  ];
  for (const sentence of words) writeParagraph(paper, sentence, { size: 10 }, { below: 3 });
  const scene = bundleScene(bundle, { width: 60, height: 55, numbers: true });
  const planScene = voidPlanScene(space, plan, {
    width: width / MM - 66,
    height: 60,
    marked: new Set([bundle.bundle]),
    tier: bundle.tier,
  });
  drawScene(doc, letters, scene, left, paper.y + 6);
  drawScene(doc, letters, planScene, left + 64 * MM, paper.y + 2);
  paper.y += Math.max(scene.height + 2, planScene.height) * MM + 8;
}

/** The first ten pieces at the saw, with room for what the rule says. */
async function writeFirstCuts(paper: Paper, job: Job, plan: Plan): Promise<void> {
  writeParagraph(paper, W.cutsHead, { size: 12, weight: 'bold' }, { above: 4, keep: 60 });
  writeParagraph(paper, W.cutsIntro, { size: 9.5 }, { above: 2, below: 3 });
  const pieces = alikeBars(job, plan)
    .flat()
    .flatMap((bar) => bar.pieces.map((piece) => ({ bar: bar.bar, piece: piece.piece, length: pieceLength(piece) })))
    .sort((p, q) => q.length - p.length)
    .slice(0, 10);
  const columns = [
    { head: W.cutHeads.piece, share: 2, bold: true },
    { head: W.cutHeads.bar, share: 2 },
    { head: W.cutHeads.asked, width: 60, align: 'right' as const, bold: true },
    { head: W.cutHeads.measured, share: 3 },
    { head: W.cutHeads.kerf, share: 3 },
    { head: W.cutHeads.mass, share: 3 },
  ];
  const rows = pieces.map((each) => [each.piece, each.bar, plain(each.length), '', '', '']);
  await writeTable(paper, columns, rows, { size: 10, rowHeight: 19 });
}

async function writeTemplates(paper: Paper, plan: Plan, space: Void): Promise<void> {
  const laid = laidVoid(space, plan);
  const places = laid.stations ? laid.stations.map((station) => station.along) : [0];
  for (const along of places) {
    const where = laid.stations ? W.station(plain(along)) : W.everywhere;
    writeTiles(paper, templateScene(laid, along), `${voidTitle(space)}, ${where}`);
    await breathe(paper);
  }
}

/** Words above a tile and the check line below it, points. */
const TILE_HEAD = 48;
const TILE_FOOT = 26;

/** A scene at full size over as many pages as it needs, register crosses at the corners of each tile. */
function writeTiles(paper: Paper, scene: Scene, words: string): void {
  const { doc, letters, left, width } = paper;
  const tile = {
    width: Math.floor(width / MM),
    height: Math.floor((paper.bottom - paper.top - TILE_HEAD - TILE_FOOT) / MM),
  };
  const across = Math.ceil(scene.width / tile.width);
  const down = Math.ceil(scene.height / tile.height);
  for (let row = 0; row < down; row += 1) {
    for (let column = 0; column < across; column += 1) {
      newPage(paper);
      const name = W.tile(row + 1, column + 1, down, across);
      letters.fitted(
        `${W.template} ${words}`,
        left,
        paper.y - 4,
        { width: width - letters.width(name, 10) - 12, height: 30, least: 6 },
        { size: 12, weight: 'bold' },
      );
      letters.set(name, left + width, paper.y + 8, { size: 10, align: 'right' });
      const x = left;
      const y = paper.top + TILE_HEAD - 6;
      const w = Math.min(tile.width, scene.width - column * tile.width) * MM;
      const h = Math.min(tile.height, scene.height - row * tile.height) * MM;
      doc.save().rect(x, y, w, h).clip();
      drawScene(doc, letters, scene, x - column * tile.width * MM, y - row * tile.height * MM);
      doc.restore();
      for (const [px, py] of [
        [x, y],
        [x + w, y],
        [x, y + h],
        [x + w, y + h],
      ] as const)
        register(paper, px, py);
      checkLine(paper);
    }
  }
}

function register(paper: Paper, x: number, y: number): void {
  const arm = 4 * MM;
  paper.doc.undash().lineWidth(0.5).strokeColor(COLD);
  paper.doc
    .moveTo(x - arm, y)
    .lineTo(x + arm, y)
    .moveTo(x, y - arm)
    .lineTo(x, y + arm)
    .circle(x, y, arm / 2)
    .stroke();
}

/** A line of exactly 100 mm, to find out whether the printer kept the size. */
function checkLine(paper: Paper): void {
  const { doc, letters, left } = paper;
  const y = paper.bottom - 4;
  doc.undash().lineWidth(0.8).strokeColor(INK);
  doc
    .moveTo(left, y)
    .lineTo(left + 100 * MM, y)
    .moveTo(left, y - 4)
    .lineTo(left, y + 4);
  doc
    .moveTo(left + 100 * MM, y - 4)
    .lineTo(left + 100 * MM, y + 4)
    .stroke();
  letters.set(W.check, left + 100 * MM + 8, y + 3, { size: 9 });
}
