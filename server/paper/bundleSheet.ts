/** The bundle sheet: what to tie, bundle by bundle, with the mass to expect on the scale and a box for the mass weighed. */
import type { Writable } from 'node:stream';
import { bundleScene } from '../../src/drawing/bundle.ts';
import { laidVoid } from '../../src/drawing/laid.ts';
import { INK } from '../../src/drawing/style.ts';
import { DRAWING_WORDS as D } from '../../src/drawing/words.ts';
import type { Job, Void } from '../../src/job/job.ts';
import { sectionName } from '../../src/job/section.ts';
import { becketsOf } from '../../src/lift/becket.ts';
import { calloutsOf } from '../../src/lift/callouts.ts';
import { heaviestBundle } from '../../src/lift/limit.ts';
import { atMassNow, countWeighed } from '../../src/plan/massNow.ts';
import { massTolerances } from '../../src/plan/massTolerance.ts';
import { bandsOn } from '../../src/plan/materials.ts';
import type { Plan, PlanBundle } from '../../src/plan/plan.ts';
import { printPounds } from '../../src/units.ts';
import { inchesOf, lengthIn, massIn, tell, unitsOf } from './feet.ts';
import { kg, MM, plain } from './figures.ts';
import { type JointedPiece, jointedPieces } from './joints.ts';
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
import { tickBox } from './table.ts';
import { inOrder } from './tags.ts';
import { BUNDLE_WORDS as W } from './words.ts';

const PICTURE = { width: 44, height: 36 };

export async function writeBundleSheet(job: Job, plan: Plan, options: PaperOptions, out: Writable): Promise<void> {
  const paper = openPaper(W.title, job, plan, options, out);
  newPage(paper);
  writeParagraph(paper, W.intro, { size: 9 }, { below: 2 });
  const rules = [
    W.rules,
    ...(options.feet ? [W.scaleUnit] : []),
    ...(countWeighed(plan.bundles, options.weighed) > 0 ? [W.filledIn] : []),
  ];
  writeParagraph(paper, rules.join(' '), { size: 9 }, { below: 4 });
  const voids = new Map(job.voids.map((space) => [space.void, space]));
  const tolerances = massTolerances(job, plan);
  const jointed = jointedPieces(plan);
  writeParagraph(paper, W.pieces(jointed.size > 0), { size: 9 }, { below: 4 });
  if (jointed.size > 0) writeParagraph(paper, W.jointRules, { size: 9 }, { below: 4 });
  for (const bundle of inOrder(job, plan)) {
    const space = voids.get(bundle.void)!;
    const pieces = piecesOf(paper, bundle, jointed, D.ends[laidVoid(space, plan).axis].least);
    writeBundle(paper, job, bundle, space, { tolerance: tolerances.get(bundle.bundle) ?? 0, pieces });
    await breathe(paper);
  }
  await closePaper(paper);
}

function jointsIn(bundle: PlanBundle): string {
  const joints = bundle.slots.filter((slot) => slot.length > 1).length;
  return joints === 0 ? '' : `, ${W.joints(joints)}`;
}

interface Told {
  tolerance: number;
  /** Its pieces by row, in words. */
  pieces: string;
}

function writeBundle(paper: Paper, job: Job, bundle: PlanBundle, space: Void, told: Told): void {
  const { doc, letters, left, right } = paper;
  const box = { width: 96, height: 40 };
  const x = left + PICTURE.width * MM + 14;
  const width = right - x - box.width - 10;
  const name = letters.fit(space.name || bundle.void, width, 26, 10, 5);
  const lines = factLines(paper, job, bundle, space, told.tolerance).flatMap((fact) => letters.lines(fact, width, 9));
  const pieces = letters.lines(told.pieces, right - x, 9.5, 'bold');
  const id = letters.fit(bundle.bundle, width, 24, 16, 6, 'bold');
  const idHeight = id.lines.length * id.size * 1.22;
  const textHeight = idHeight + name.lines.length * name.size * 1.22 + lines.length * 11 + 6;
  const height = Math.max(PICTURE.height * MM + 6, Math.max(textHeight, 68) + pieces.length * 11.6 + 8);
  ensureRoom(paper, height);
  const top = paper.y + 5;
  tickBox(paper, left, top, 13);
  drawScene(
    doc,
    letters,
    bundleScene(bundle, { ...PICTURE, width: PICTURE.width - 7, units: unitsOf(paper) }),
    left + 7 * MM,
    top,
  );
  let y = letters.block(id.lines, x, top - 2, { size: id.size, weight: 'bold' });
  y = letters.block(name.lines, x, y, { size: name.size });
  y = letters.block(lines, x, y + 2, { size: 9 });
  const mass = W.expected(kg(bundle.mass), plain(told.tolerance));
  const massBox = { width: box.width, height: 16, least: 5 };
  letters.fitted(mass, right - box.width, top, massBox, { size: 12, weight: 'bold' });
  doc
    .undash()
    .lineWidth(1.1)
    .strokeColor(INK)
    .rect(right - box.width, top + 18, box.width, box.height)
    .stroke();
  letters.set(paper.options.feet ? W.weighedEither : W.weighed, right - box.width + 4, top + 28, { size: 8 });
  const weighed = paper.options.weighed?.get(bundle.bundle);
  if (weighed !== undefined) {
    const filled = { width: box.width - 8, height: 20, least: 5 };
    letters.fitted(massIn(paper, weighed), right - box.width + 4, top + 34, filled, { size: 13, weight: 'bold' });
  }
  letters.block(pieces, x, Math.max(y, top + 62) + 1, { size: 9.5, weight: 'bold' });
  paper.y += height;
  doc.lineWidth(0.4).moveTo(left, paper.y).lineTo(right, paper.y).stroke();
}

function factLines(paper: Paper, job: Job, bundle: PlanBundle, space: Void, tolerance: number): string[] {
  const { feet } = paper.options;
  const limit = heaviestBundle(job, space);
  const bands = bandsOn(bundle);
  const rules = job.bundle.becket;
  const { size } = bundle;
  const count = rules ? becketsOf(bundle.size, rules).count : 1;
  return [
    ...(feet ? [W.expectedPounds(printPounds(bundle.mass), printPounds(tolerance, 'down'))] : []),
    `${W.bars(bundle.slots.length, plain(bundle.length), sectionName(bundle.section), inchesOf(paper, [bundle.length], ''))}${jointsIn(bundle)}`,
    W.rows(bundle.arrangement, bundle.columns.join(' + '), bundle.onEdge),
    tell(paper, W.bands(bands, plain(Math.min(100, bundle.length / 4), 0))),
    bundle.becket === undefined
      ? W.becketNone
      : tell(paper, W.becket(count, plain(bundle.becket / count), rules ? plain(rules.cord) : null)),
    ...calloutsOf(job, atMassNow([bundle], paper.options.weighed)).flatMap((callout) =>
      callout.text === null ? [] : [tell(paper, callout.text)],
    ),
    W.limit(plain(limit), feet ? printPounds(limit, 'down') : ''),
    W.size(
      plain(size.along),
      plain(size.across),
      plain(size.up),
      inchesOf(paper, [size.along, size.across, size.up], ' × ', 'up'),
    ),
  ];
}

/** `row 1: p0001, p0002; row 2: p0003 403 + p0004 254 (jointed, from aft)`: a joint's pieces with their lengths, from `end`. */
function piecesOf(paper: Paper, bundle: PlanBundle, jointed: Map<string, JointedPiece>, end: string): string {
  let next = 0;
  return bundle.columns
    .map((count, row) => {
      const slots = bundle.slots.slice(next, next + count);
      next += count;
      const marks = slots.map((slot) => {
        if (slot.length < 2) return slot.join('');
        return W.jointed(
          slot.map((mark) => W.part(mark, lengthIn(paper, jointed.get(mark)?.length ?? 0))).join(' + '),
          end,
        );
      });
      return W.row(row + 1, marks.join(', '));
    })
    .join('; ');
}
