/** Templates at full size, to cut in cardboard: turned where that takes fewer sheets, small parts several on a page. */
import { laidVoid, voidTitle } from '../../src/drawing/laid.ts';
import type { Scene } from '../../src/drawing/scene.ts';
import { COLD, INK } from '../../src/drawing/style.ts';
import { templateScene } from '../../src/drawing/template.ts';
import { DRAWING_WORDS as D } from '../../src/drawing/words.ts';
import type { Job } from '../../src/job/job.ts';
import type { Plan } from '../../src/plan/plan.ts';
import { lengthWithUnit, tell, unitsOf } from './feet.ts';
import { MM, plain } from './figures.ts';
import { breathe, newPage, type Paper } from './page.ts';
import { drawScene } from './pdfScene.ts';
import { TRY_WORDS as W } from './words.ts';

/** A template of every void that holds bundles, one for each of its stations. */
export async function writeTemplates(paper: Paper, job: Job, plan: Plan): Promise<void> {
  // The first begins a page.
  paper.y = paper.bottom;
  for (const space of job.voids) {
    if (plan.bundles.every((bundle) => bundle.void !== space.void)) continue;
    const laid = laidVoid(space, plan);
    const places = laid.stations ? laid.stations.map((station) => station.along) : [0];
    for (const along of places) {
      const where = laid.stations ? tell(paper, W.station(plain(along))) : W.everywhere;
      writeTemplate(
        paper,
        templateScene(laid, along, unitsOf(paper)),
        `${voidTitle(space)}, ${where}`,
        D.sides[laid.axis].least,
      );
      await breathe(paper);
    }
  }
}

/** Words above a tile and the check line below it, points. */
const TILE_HEAD = 42;
const TILE_FOOT = 32;
/** Points between a template and the words of the next on the page: the arm of its register crosses, and as much again. */
const APART = 8 * MM;

interface Size {
  width: number;
  height: number;
}

/**
 * A scene at full size in as many parts as it needs, each below the last where the page has room. `side` is what lies to its
 * left: cardboard can be held up either way round.
 */
function writeTemplate(paper: Paper, scene: Scene, words: string, side: string): void {
  const tile = {
    width: Math.floor(paper.width / MM),
    height: Math.floor((paper.bottom - paper.top - TILE_HEAD - TILE_FOOT) / MM),
  };
  const onItsSide = { width: scene.height, height: scene.width };
  const turned = partsOf(onItsSide, tile) < partsOf(scene, tile);
  const size = turned ? onItsSide : scene;
  const across = Math.ceil(size.width / tile.width);
  const down = Math.ceil(size.height / tile.height);
  const title = turned ? W.turned(words, side) : W.upright(words, side);
  for (let row = 0; row < down; row += 1) {
    for (let column = 0; column < across; column += 1) {
      const from = { x: column * tile.width, y: row * tile.height };
      const part = {
        width: Math.min(tile.width, size.width - from.x),
        height: Math.min(tile.height, size.height - from.y),
      };
      if (paper.y + TILE_HEAD + part.height * MM > paper.bottom - TILE_FOOT) {
        newPage(paper);
        checkLine(paper);
      }
      writeHead(paper, title, W.tile(row + 1, column + 1, down, across));
      paper.y += TILE_HEAD;
      writeTile(paper, scene, turned, from, part);
      paper.y += part.height * MM + APART;
    }
  }
}

function partsOf(size: Size, tile: Size): number {
  return Math.ceil(size.width / tile.width) * Math.ceil(size.height / tile.height);
}

function writeHead({ letters, left, width, y }: Paper, words: string, name: string): void {
  const room = { width: width - letters.width(name, 10) - 12, height: 30, least: 6 };
  letters.fitted(`${W.template} ${words}`, left, y - 4, room, { size: 12, weight: 'bold' });
  letters.set(name, left + width, y + 8, { size: 10, align: 'right' });
}

/** The part of a scene that begins at `from`, mm, register crosses at its corners; turned with its top to the right. */
function writeTile(paper: Paper, scene: Scene, turned: boolean, from: { x: number; y: number }, part: Size): void {
  const { doc, letters, left: x, y } = paper;
  const w = part.width * MM;
  const h = part.height * MM;
  doc.save().rect(x, y, w, h).clip();
  doc.translate(x - from.x * MM + (turned ? scene.height * MM : 0), y - from.y * MM);
  if (turned) doc.rotate(90);
  drawScene(doc, letters, scene, 0, 0);
  doc.restore();
  for (const [px, py] of [
    [x, y],
    [x + w, y],
    [x, y + h],
    [x + w, y + h],
  ] as const)
    register(paper, px, py);
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
  letters.set(W.check(lengthWithUnit(paper, 100)), left + 100 * MM + 8, y + 3, { size: 9 });
}
