/** Access cards: for each keep-out, what comes out to get at it, in which order, how heavy it is, and what to know first. */
import type { Writable } from 'node:stream';
import { byScale } from '../../src/balance/byScale.ts';
import { meanwhile } from '../../src/balance/meanwhile.ts';
import { keepOutIn, voidTitle } from '../../src/drawing/laid.ts';
import { INK } from '../../src/drawing/style.ts';
import { voidPlanScene } from '../../src/drawing/voidPlan.ts';
import { markHold, marksOf } from '../../src/hold/fittings.ts';
import type { HoldDown } from '../../src/job/holdDown.ts';
import type { Job } from '../../src/job/job.ts';
import { calloutsOf } from '../../src/lift/callouts.ts';
import { type Access, accessOf } from '../../src/plan/access.ts';
import { type Chock, chocksOf } from '../../src/plan/chocks.ts';
import type { Plan, PlanBundle } from '../../src/plan/plan.ts';
import { markRanges } from '../../src/plan/stops.ts';
import { inchesOf, massIn, tell, unitsOf } from './feet.ts';
import { kg, MM, plain } from './figures.ts';
import { byColumn, massBy } from './massBy.ts';
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
import { STOWAGE_WORDS, ACCESS_WORDS as W } from './stowageWords.ts';
import { type Column, writeTable } from './table.ts';

/** Room to work in beside a keep-out, mm; bundles nearer come out first. */
const WORKING_ROOM = 100;

export async function writeAccessCards(job: Job, made: Plan, options: PaperOptions, out: Writable): Promise<void> {
  const paper = openPaper(W.title, job, made, options, out);
  const plan = byScale(job, made, options.weighed);
  newPage(paper);
  writeParagraph(paper, tell(paper, W.intro(plain(WORKING_ROOM))), { size: 9 }, { below: 6 });
  const cards = accessOf(job, plan, WORKING_ROOM);
  if (cards.length === 0) writeParagraph(paper, W.none, { size: 11 });
  for (const card of cards) {
    await writeCard(paper, job, plan, card);
    await breathe(paper);
  }
  await closePaper(paper);
}

async function writeCard(paper: Paper, job: Job, plan: Plan, card: Access): Promise<void> {
  const { laid, keepOut, number, bundles, chocks, mass } = card;
  const { doc, letters, left, right, width } = paper;
  const { weighed, feet } = paper.options;
  const marked = new Set(bundles.map((bundle) => bundle.bundle));
  const marks = new Set(chocks.map(({ mark }) => mark));
  const scene = voidPlanScene(laid, plan, {
    width: width / MM,
    height: 64,
    marked,
    sought: number,
    chocks,
    units: unitsOf(paper),
  });
  const title = `${keepOut.what || W.keepOut}: ${voidTitle(laid)}`;
  const head = letters.fit(title, width, 34, 13, 7, 'bold');
  const inVoid = keepOutIn(laid, keepOut);
  const where = W.where(
    inVoid.along.map((v) => plain(v)),
    inVoid.across.map((v) => plain(v)),
    inVoid.up.map((v) => plain(v)),
    [inVoid.along, inVoid.across, inVoid.up].map((range) => inchesOf(paper, range, ' to ')),
  );
  const then = marksBetween(chocks, bundles.at(-1), undefined);
  const lines = letters.lines(
    `${where} ${tell(paper, W.out(bundles.length, kg(mass, 1), massBy(bundles, plan, weighed), then))}`,
    width,
    10,
  );
  const first = firstOf(job, plan, card).map((words) => tell(paper, words));
  const firstHeight = first.reduce((sum, words) => sum + letters.lines(words, width, 9.5, 'bold').length * 11.6 + 2, 0);
  paper.goesOn = undefined;
  ensureRoom(paper, head.lines.length * head.size * 1.22 + lines.length * 12.2 + firstHeight + scene.height * MM + 70);
  paper.goesOn = title;
  doc.undash().lineWidth(1.2).strokeColor(INK).moveTo(left, paper.y).lineTo(right, paper.y).stroke();
  paper.y = letters.block(head.lines, left, paper.y + 5, { size: head.size, weight: 'bold' });
  paper.y = letters.block(lines, left, paper.y + 2, { size: 10 }) + 3;
  for (const words of first) writeParagraph(paper, words, { size: 9.5, weight: 'bold' }, { below: 2 });
  drawScene(doc, letters, scene, left, paper.y);
  paper.y += scene.height * MM + 2;
  if (bundles.length > 0) {
    const by = byColumn(bundles, weighed, { width: 40 });
    const columns: Column[] = [
      { head: '', tick: true, width: 22 },
      { head: W.heads.out, width: 34, align: 'right' },
      { head: W.heads.bundle, share: 2, bold: true },
      { head: W.heads.order, width: 60, align: 'right' },
      { head: W.heads.mass, width: feet ? 106 : 66, align: 'right', bold: true, even: true },
      ...by.heads,
      { head: W.heads.place, share: 3 },
    ];
    const all = chocksOf(laid, plan);
    const rows = bundles.map((bundle, i) => [
      '',
      String(i + 1),
      bundle.bundle,
      String(bundle.order),
      massIn(paper, bundle.mass),
      ...by.cells(bundle),
      W.place(
        bundle.run,
        bundle.tier,
        marksBetween(
          all.filter((chock) => chock.after === bundle.order || marks.has(chock.mark)),
          bundles[i - 1],
          bundle,
        ),
      ),
    ]);
    await writeTable(paper, columns, rows, { size: 10, rowHeight: 18 });
  }
  paper.y += 14;
}

/** Marks of the chocks that come out after one bundle and before the next; `undefined` is before the first, or after the last. */
function marksBetween(chocks: readonly Chock[], one: PlanBundle | undefined, next: PlanBundle | undefined): string[] {
  const { order: most } = one ?? { order: Number.POSITIVE_INFINITY };
  const { order: least } = next ?? { order: 0 };
  return chocks
    .filter(({ after }) => after < most && after >= least)
    .sort((p, q) => q.after - p.after)
    .map(({ mark }) => mark);
}

/** What to know and do before the first bundle or chock comes out, in sentences; nothing where none has to. */
function firstOf(job: Job, plan: Plan, { laid, bundles, chocks }: Access): string[] {
  if (bundles.length === 0) return chocks.length === 0 ? [] : [holdOff(laid.holdDown)];
  const callouts = calloutsOf(job, bundles).filter((each) => each.text !== null);
  return [
    holdOff(laid.holdDown),
    ...[...new Set(callouts.map(({ text }) => text ?? ''))].map((text) => {
      const those = callouts.filter((each) => each.text === text).map((each) => each.bundle);
      return STOWAGE_WORDS.lifts(markRanges(those).join(', '), text);
    }),
    meanwhile(job, plan, bundles),
  ].filter((words) => words !== '');
}

/** By the marks of the hold-down sheet; what blocks a side may stay. */
function holdOff(hold: HoldDown | undefined): string {
  if (!hold) return W.holdNone;
  const { bars, straps } = markHold(hold);
  const marks = [
    ...(bars.length > 0 ? [W.bars(bars.map(({ fittings }) => marksOf(fittings)).join(', '))] : []),
    ...(straps.length > 0
      ? [W.straps(straps.map(({ letter, fittings }) => marksOf(fittings) || letter).join(', '))]
      : []),
  ];
  return marks.length === 0 ? W.holdNone : W.holdOff(marks.join('; '));
}
