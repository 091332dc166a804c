/** The hold-down sheets: for each void what is fitted where, drawn; the assumed loads, what carries them and how far it is used. */
import type { Writable } from 'node:stream';
import { byScale } from '../../src/balance/byScale.ts';
import { laidVoid, voidTitle } from '../../src/drawing/laid.ts';
import { INK } from '../../src/drawing/style.ts';
import { kN } from '../../src/hold/carriers.ts';
import { type HeldCase, type HeldVoid, holdDownOf, sentenceOf } from '../../src/hold/holdDown.ts';
import { contentsNotCounted } from '../../src/hold/securing.ts';
import type { Job } from '../../src/job/job.ts';
import { contentsOf } from '../../src/plan/contents.ts';
import type { Plan } from '../../src/plan/plan.ts';
import { slideLines } from '../../src/plan/slides.ts';
import { figureIn, massTold, tell } from './feet.ts';
import { writeFitted } from './holdDrawing.ts';
import { HOLD_WORDS as W } from './holdWords.ts';
import {
  breathe,
  closePaper,
  ensureRoom,
  newPage,
  newPart,
  openPaper,
  type Paper,
  type PaperOptions,
  writeParagraph,
} from './page.ts';
import { writeHeld, writeNotSecured } from './secured.ts';
import { type Column, writeTable } from './table.ts';

export async function writeHoldSheets(job: Job, plan: Plan, options: PaperOptions, out: Writable): Promise<void> {
  const paper = openPaper(W.title, job, plan, options, out);
  const names = new Map(job.voids.map((space) => [space.void, voidTitle(space)]));
  const asWeighed = byScale(job, plan, options.weighed);
  const held = holdDownOf(job, asWeighed, options.weighed).filter((entry) => entry.mass > 0);
  for (const entry of held.filter((each) => each.cases.length > 0)) {
    paper.heading = entry.held ? writeHeld : writeNotSecured;
    newPart(paper, names.get(entry.void) ?? entry.void);
    const space = job.voids.find((one) => one.void === entry.void);
    const lying = contentsOf(job).filter((content) => content.void === entry.void);
    const beside = lying.reduce((sum, { mass }) => sum + mass, 0);
    const notes = [
      ...(asWeighed.bundles.some(({ void: name, bundle }) => name === entry.void && options.weighed?.has(bundle))
        ? [W.scaled]
        : []),
      ...(entry.ifHeavier === null ? [] : [entry.ifHeavier]),
      ...(beside > 0 ? [W.beside(massTold(paper, beside, 1, 'up'))] : []),
      ...slidesOf(job, plan, entry.void),
    ];
    await writeHold(paper, names.get(entry.void) ?? entry.void, entry, notes, async () => {
      if (space) await writeFitted(paper, plan, space, entry);
    });
    await breathe(paper);
  }
  const open = held.filter((each) => each.cases.length === 0);
  if (open.length > 0) writeOpen(paper, job, plan, open, names);
  if (held.length === 0) {
    newPage(paper);
    writeParagraph(paper, W.none, { size: 11 });
  }
  paper.goesOn = undefined;
  const besides = contentsNotCounted(job);
  if (besides !== '') writeParagraph(paper, tell(paper, besides), { size: 10, weight: 'bold' }, { above: 8 });
  await closePaper(paper);
}

async function writeHold(
  paper: Paper,
  title: string,
  entry: HeldVoid,
  notes: readonly string[],
  writeDrawing: () => Promise<void>,
): Promise<void> {
  const { letters, left, width } = paper;
  const head = W.void(title, massTold(paper, entry.mass, 1, 'up'));
  paper.y = letters.fitted(head, left, paper.y, { width, height: 40, least: 8 }, { size: 15, weight: 'bold' });
  writeParagraph(paper, W.intro, { size: 9 }, { above: 2, below: 4 });
  for (const words of [...notes, ...entry.notCounted, ...entry.cautions])
    writeParagraph(paper, tell(paper, words), { size: 9.5, weight: 'bold' }, { below: 3 });
  await writeDrawing();
  writeParagraph(
    paper,
    W.loads,
    { size: 11, weight: 'bold' },
    { above: 10, below: 3, keep: 36 * (1 + entry.cases.length) },
  );
  const columns: Column[] = [
    { head: W.heads.case, share: 3 },
    { head: W.heads.load, width: 58, align: 'right', bold: true },
    { head: W.heads.by, share: 4 },
    { head: W.heads.carries, width: 58, align: 'right' },
    { head: W.heads.used, share: 2.4, bold: true },
  ];
  const rows = entry.cases.map((each) => [
    each.reason === null ? each.name : `${each.name}\n${W.lighter(each.reason)}`,
    figureIn(paper, each.demand / 1000, 'kN', kN(each.demand, 'up'), 'up', '\n'),
    [
      each.best?.what ?? (each.notCounted.length > 0 ? W.nothingCounted(each.uncounted.join(', ')) : W.nothing),
      ...(each.besides.length > 0 ? [W.besides(each.besides)] : []),
    ]
      .map((words) => tell(paper, words))
      .join('\n'),
    each.best ? figureIn(paper, each.best.carries / 1000, 'kN', kN(each.best.carries, 'down'), 'down', '\n') : '',
    each.used === null ? W.notCarried : W.used(each.used),
  ]);
  await writeTable(paper, columns, rows, { size: 9.5, rowHeight: 20 });
  if (entry.heldLighter !== null) {
    writeParagraph(paper, W.heldLighter(entry.heldLighter), { size: 9.5, weight: 'bold' }, { above: 4 });
  }
  const worked = entry.cases.filter((each) => each.best?.stated === false);
  const working = byWords(worked, (each) => `${each.best?.what}. ${each.best?.working.join(' ')}`);
  if (entry.cases.some((each) => each.best?.stated)) working.unshift(W.asStated);
  if (entry.cases.some((each) => each.besides.length > 0)) working.unshift(W.alone);
  writeSentences(paper, W.working, working);
  writeSentences(
    paper,
    W.least,
    byWords(
      entry.cases.filter((each) => each.least.length > 0),
      (each) => each.least.join(W.or),
    ),
  );
  writeSentences(paper, W.assumed, entry.assumed);
  writeSentences(paper, W.minds, entry.minds);
  writeBlanks(paper);
}

/** A sentence for all the load cases of which the same is said. */
function byWords(cases: readonly HeldCase[], wordsOf: (each: HeldCase) => string): string[] {
  const said = new Map<string, string[]>();
  for (const each of cases) {
    const words = wordsOf(each);
    said.set(words, [...(said.get(words) ?? []), each.name]);
  }
  return [...said].map(([words, names]) => `${sentenceOf(names.join(', '))}: ${words}`);
}

/** What slides in a void of this name. */
function slidesOf(job: Job, plan: Plan, name: string): string[] {
  return job.voids.flatMap((space) => (space.void === name ? slideLines(laidVoid(space, plan), plan) : []));
}

/** Voids that carry bundles and for which nothing was entered, on one page. */
function writeOpen(paper: Paper, job: Job, plan: Plan, open: HeldVoid[], names: ReadonlyMap<string, string>): void {
  paper.heading = writeNotSecured;
  newPart(paper, W.open);
  const sentences = open.map((entry) =>
    W.void(names.get(entry.void) ?? entry.void, massTold(paper, entry.mass, 1, 'up')),
  );
  writeSentences(paper, W.open, sentences);
  for (const line of open.flatMap((entry) => slidesOf(job, plan, entry.void)))
    writeParagraph(paper, tell(paper, line), { size: 9.5, weight: 'bold' }, { above: 6 });
  for (const words of new Set(open.flatMap((entry) => entry.minds))) {
    writeParagraph(paper, tell(paper, words), { size: 9.5 }, { above: 6 });
  }
}

function writeSentences(paper: Paper, head: string, sentences: string[]): void {
  if (sentences.length === 0) return;
  ensureRoom(paper, 50);
  writeParagraph(paper, head, { size: 11, weight: 'bold' }, { above: 8, keep: 60 });
  for (const sentence of sentences) {
    writeParagraph(paper, tell(paper, sentence), { size: 9 }, { above: 3, item: sentences.length > 1 });
  }
}

function writeBlanks(paper: Paper): void {
  const { doc, letters, left, right } = paper;
  ensureRoom(paper, W.looked.length * 24 + 10);
  paper.y += 6;
  for (const words of W.looked) {
    paper.y += 24;
    letters.set(words, left, paper.y, { size: 9.5 });
    const from = left + letters.width(words, 9.5) + 6;
    doc.undash().lineWidth(0.5).strokeColor(INK);
    doc
      .moveTo(from, paper.y + 1.5)
      .lineTo(right, paper.y + 1.5)
      .stroke();
  }
}
