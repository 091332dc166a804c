/** Access cards: for each keep-out, what comes out to get at it, in which order, and how heavy it is. */
import type { Writable } from 'node:stream';
import { keepOutIn, voidTitle } from '../../src/drawing/laid.ts';
import { INK } from '../../src/drawing/style.ts';
import { voidPlanScene } from '../../src/drawing/voidPlan.ts';
import type { Job } from '../../src/job/job.ts';
import { type Access, accessOf } from '../../src/plan/access.ts';
import type { Plan } from '../../src/plan/plan.ts';
import { kg, MM, plain } from './figures.ts';
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
import { ACCESS_WORDS as W } from './stowageWords.ts';
import { type Column, writeTable } from './table.ts';

/** Room to work in beside a keep-out, mm; bundles nearer come out first. */
const WORKING_ROOM = 100;

export async function writeAccessCards(job: Job, plan: Plan, options: PaperOptions, out: Writable): Promise<void> {
  const paper = openPaper(W.title, job, plan, options, out);
  newPage(paper);
  writeParagraph(paper, W.intro(plain(WORKING_ROOM)), { size: 9 }, { below: 6 });
  const cards = accessOf(job, plan, WORKING_ROOM);
  if (cards.length === 0) writeParagraph(paper, W.none, { size: 11 });
  for (const card of cards) {
    await writeCard(paper, plan, card);
    await breathe(paper);
  }
  await closePaper(paper);
}

async function writeCard(paper: Paper, plan: Plan, { laid, keepOut, bundles, mass }: Access): Promise<void> {
  const { doc, letters, left, right, width } = paper;
  const marked = new Set(bundles.map((bundle) => bundle.bundle));
  const scene = voidPlanScene(laid, plan, { width: width / MM, height: 64, marked });
  const head = letters.fit(`${keepOut.what || W.keepOut}: ${voidTitle(laid)}`, width, 34, 13, 7, 'bold');
  const inVoid = keepOutIn(laid, keepOut);
  const where = W.where(
    inVoid.along.map((v) => plain(v)),
    inVoid.across.map((v) => plain(v)),
    inVoid.up.map((v) => plain(v)),
  );
  const lines = letters.lines(`${where} ${W.out(bundles.length, kg(mass, 1))}`, width, 10);
  ensureRoom(paper, head.lines.length * head.size * 1.22 + lines.length * 12.2 + scene.height * MM + 70);
  doc.undash().lineWidth(1.2).strokeColor(INK).moveTo(left, paper.y).lineTo(right, paper.y).stroke();
  paper.y = letters.block(head.lines, left, paper.y + 5, { size: head.size, weight: 'bold' });
  paper.y = letters.block(lines, left, paper.y + 2, { size: 10 }) + 3;
  drawScene(doc, letters, scene, left, paper.y);
  paper.y += scene.height * MM + 2;
  if (bundles.length > 0) {
    const columns: Column[] = [
      { head: '', tick: true, width: 22 },
      { head: W.heads.out, width: 34, align: 'right' },
      { head: W.heads.bundle, share: 2, bold: true },
      { head: W.heads.order, width: 60, align: 'right' },
      { head: W.heads.mass, width: 66, align: 'right', bold: true },
      { head: W.heads.place, share: 2 },
    ];
    const rows = bundles.map((bundle, i) => [
      '',
      String(i + 1),
      bundle.bundle,
      String(bundle.order),
      kg(bundle.mass),
      W.place(bundle.run, bundle.tier),
    ]);
    await writeTable(paper, columns, rows, { size: 10, rowHeight: 18 });
  }
  paper.y += 14;
}
