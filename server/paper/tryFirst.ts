/** The try-first sheet: the bundle to make up before the rest is cut, the first ten cuts to measure, and full-size templates. */
import type { Writable } from 'node:stream';
import { bundleScene } from '../../src/drawing/bundle.ts';
import { voidTitle } from '../../src/drawing/laid.ts';
import { voidPlanScene } from '../../src/drawing/voidPlan.ts';
import type { Job } from '../../src/job/job.ts';
import { sectionName } from '../../src/job/section.ts';
import { type Hardest, hardestBundle } from '../../src/plan/hardest.ts';
import { massNow } from '../../src/plan/massNow.ts';
import type { Plan } from '../../src/plan/plan.ts';
import { alikeBars, pieceLength } from '../../src/plan/stops.ts';
import { either, lengthIn, lengthWithUnit, massIn, tell, unitsOf } from './feet.ts';
import { MM, plain } from './figures.ts';
import { massBy } from './massBy.ts';
import { closePaper, newPage, openPaper, type Paper, type PaperOptions, writeParagraph } from './page.ts';
import { drawScene } from './pdfScene.ts';
import { writeTable } from './table.ts';
import { writeTemplates } from './templates.ts';
import { TRY_WORDS as W } from './words.ts';

export async function writeTryFirst(job: Job, plan: Plan, options: PaperOptions, out: Writable): Promise<void> {
  const paper = openPaper(W.title, job, plan, options, out);
  newPage(paper);
  const hardest = hardestBundle(job, plan);
  if (hardest) writeHardest(paper, plan, hardest);
  await writeFirstCuts(paper, job, plan);
  await writeTemplates(paper, job, plan);
  await closePaper(paper);
}

function writeHardest(paper: Paper, plan: Plan, hardest: Hardest): void {
  const { doc, letters, left, width } = paper;
  const { bundle, space, opening, way } = hardest;
  const { weighed } = paper.options;
  const mass = massNow(bundle, weighed);
  const heaviness = (hardest.heaviness * mass) / bundle.mass;
  const head = W.hardest(bundle.bundle, voidTitle(space));
  paper.y = letters.fitted(head, left, paper.y, { width, height: 40, least: 8 }, { size: 15, weight: 'bold' }) + 2;
  const { along, across, up } = bundle.size;
  // So that what goes through on paper goes through.
  const bulk = (mm: number) => lengthWithUnit(paper, mm, 2, 'up');
  const hole = (mm: number) => lengthIn(paper, mm, 2, 'down');
  const words = [
    W.what(
      bundle.slots.length,
      lengthWithUnit(paper, bundle.length),
      sectionName(bundle.section),
      massIn(paper, mass),
      massBy([bundle], plan, weighed),
    ),
    W.size(bulk(along), bulk(across), bulk(up)),
    opening
      ? W.opening(hole(opening.along), hole(opening.across), way === 'endFirst', plain(100 * hardest.tightness, 0))
      : W.noOpening(plain(100 * hardest.tightness, 0), plain(100 * heaviness, 0)),
    W.steps,
    // Where an opening nobody placed may bar the way, every void that it concerns is told here: a batten tells before the saw.
    ...plan.cautions.flatMap(({ code, about, text }) =>
      code === 'end-first-room' ? [`${about.replace(/^void/, 'Void')}: ${tell(paper, text)}`] : [],
    ),
  ];
  for (const sentence of words) writeParagraph(paper, sentence, { size: 10 }, { below: 3 });
  const scene = bundleScene(bundle, { width: 60, height: 55, numbers: true, units: unitsOf(paper) });
  const planScene = voidPlanScene(space, plan, {
    width: width / MM - 66,
    height: 60,
    marked: new Set([bundle.bundle]),
    tier: bundle.tier,
    units: unitsOf(paper),
  });
  drawScene(doc, letters, scene, left, paper.y + 6);
  drawScene(doc, letters, planScene, left + 64 * MM, paper.y + 2);
  paper.y += Math.max(scene.height + 2, planScene.height) * MM + 8;
}

/** The first ten pieces at the saw, with room for what the rule says. */
async function writeFirstCuts(paper: Paper, job: Job, plan: Plan): Promise<void> {
  writeParagraph(paper, W.cutsHead, { size: 12, weight: 'bold' }, { above: 4, keep: 60 });
  writeParagraph(
    paper,
    either(paper, W.cutsIntro, `${W.cutsIntro} ${W.cutsUnits}`),
    { size: 9.5 },
    { above: 2, below: 3 },
  );
  const pieces = alikeBars(job, plan)
    .flat()
    .flatMap((bar) => bar.pieces.map((piece) => ({ bar: bar.bar, piece: piece.piece, length: pieceLength(piece) })))
    .sort((p, q) => q.length - p.length)
    .slice(0, 10);
  const columns = [
    { head: W.cutHeads.piece, share: 2, bold: true },
    { head: W.cutHeads.bar, share: 2 },
    { head: W.cutHeads.asked, width: paper.options.feet ? 104 : 60, align: 'right' as const, bold: true },
    { head: either(paper, W.cutHeads.measured, W.cutHeads.measuredEither), share: 3 },
    { head: either(paper, W.cutHeads.kerf, W.cutHeads.kerfEither), share: 3 },
    { head: either(paper, W.cutHeads.mass, W.cutHeads.massEither), share: 3 },
  ];
  const rows = pieces.map((each) => [each.piece, each.bar, lengthIn(paper, each.length), '', '', '']);
  await writeTable(paper, columns, rows, { size: 10, rowHeight: 19 });
}
