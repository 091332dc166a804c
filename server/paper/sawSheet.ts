/** The saw sheet: the stops in cutting order on the first page, then bar by bar, bars alike as one drawing. */
import type { Writable } from 'node:stream';
import { barScene } from '../../src/drawing/bar.ts';
import { DRAWING_WORDS as D } from '../../src/drawing/words.ts';
import type { Job, Lot } from '../../src/job/job.ts';
import { lotMassPerMetre, lotSquaring, type Span } from '../../src/job/lot.ts';
import { sectionName } from '../../src/job/section.ts';
import { wholeBarLimit } from '../../src/lift/limit.ts';
import { needsNoCut } from '../../src/plan/cutAgain.ts';
import type { Plan, PlanBar } from '../../src/plan/plan.ts';
import { alikeBars, cutsBefore, markRanges, pieceLength, stopsOf, tightBars } from '../../src/plan/stops.ts';
import { printFeet } from '../../src/units.ts';
import { lengthIn, lengthWithUnit, unitsOf } from './feet.ts';
import { duration, MM, plain } from './figures.ts';
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
import { type Column, tickBox, writeTable } from './table.ts';
import { SAW_WORDS as W } from './words.ts';

export async function writeSawSheet(job: Job, plan: Plan, options: PaperOptions, out: Writable): Promise<void> {
  const paper = openPaper(W.title, job, plan, options, out);
  newPage(paper);
  await writeStops(paper, job, plan);
  await writeBars(paper, job, plan);
  await closePaper(paper);
}

async function writeStops(paper: Paper, job: Job, plan: Plan): Promise<void> {
  writeParagraph(paper, W.stopsHead, { size: 13, weight: 'bold' }, { above: 4, below: 4, keep: 60 });
  const stops = stopsOf(job, plan);
  const { feet = false } = paper.options;
  const columns: Column[] = [
    { head: '', tick: true, width: 20 },
    { head: W.stops.stop, width: 50, align: 'right', bold: true },
    ...(feet ? [{ head: W.stops.stopInches, width: 66, align: 'right', bold: true } as const] : []),
    { head: W.stops.pieces, width: 42, align: 'right', bold: true },
    { head: W.stops.running, width: 40, align: 'right' },
    { head: W.stops.minutes, width: 48, align: 'right' },
    { head: W.stops.sections, share: 2 },
    { head: W.stops.bars, share: 4 },
    { head: W.stops.found, width: 54 },
  ];
  const rows = stops.map((stop) => [
    '',
    plain(stop.length),
    ...(feet ? [printFeet(stop.length, 32)] : []),
    String(stop.pieces),
    String(stop.running),
    duration(stop.minutes),
    stop.sections.join(', '),
    markRanges(stop.bars).join(', '),
    '',
  ]);
  const minutes = stops.reduce((sum, stop) => sum + stop.minutes, 0);
  rows.push(['', W.sum, ...(feet ? [''] : []), String(plan.totals.pieces), '', duration(minutes), '', '', '']);
  await writeTable(paper, columns, rows, { size: 10, rowHeight: 20, boldRows: new Set([rows.length - 1]) });
  const words = [
    `${W.totals(plan.totals.pieces, plan.totals.bars, plan.totals.cuts)} ${W.gang(job.saw.gang)}`,
    W.rules(lengthWithUnit(paper, job.saw.kerf), lengthWithUnit(paper, job.saw.tolerance, 2, 'down'), W.distances),
    ...partedOnes(job, plan),
    ...uncutOnes(plan),
    ...tightOnes(paper, job, plan),
    ...(feet ? [W.inches] : []),
    W.marking(jointedPieces(plan).size > 0),
    W.safety,
    ...heavyBars(job, plan),
  ];
  for (const sentence of words) {
    writeParagraph(paper, sentence, { size: 9 }, { above: 6 });
  }
}

/** Bars that are parted before the first stop is set: which of their lengths lies behind the cut, the stops do not ask. */
function partedOnes(job: Job, plan: Plan): string[] {
  const lots = new Map(job.pile.map((lot) => [lot.lot, lot]));
  const parted = plan.bars.filter((bar) => {
    const lot = lots.get(bar.lot);
    return lot && partsOf(bar, job.saw.kerf, lotSquaring(lot, job.saw)).length > 0;
  });
  return parted.length === 0 ? [] : [W.partFirst(markRanges(parted.map(({ bar }) => bar)).join(', '))];
}

function uncutOnes({ bars }: Plan): string[] {
  const uncut = bars.filter(needsNoCut).map(({ bar }) => bar);
  return uncut.length === 0 ? [] : [W.uncut(uncut.length, markRanges(uncut).join(', '))];
}

/** So much wider than stated a kerf is easily, mm: another blade, a disc that wobbles. */
const WIDER = 0.5;

/** Bars of which such a kerf would make the last piece short. */
function tightOnes(paper: Paper, job: Job, plan: Plan): string[] {
  const bars = tightBars(job, plan, WIDER);
  if (bars.length === 0) return [];
  const marks = markRanges(bars).join(', ');
  const [wider, tolerance] = [lengthWithUnit(paper, WIDER), lengthWithUnit(paper, job.saw.tolerance, 2, 'down')];
  return [W.tight(wider, tolerance, bars.length, plan.bars.length, marks)];
}

/** Bars of the plan that are heavier whole than one person's lift. */
function heavyBars(job: Job, plan: Plan): string[] {
  const limit = wholeBarLimit(job);
  const perMetre = new Map(job.pile.map((lot) => [lot.lot, lotMassPerMetre(lot, job.steel.density)]));
  const heavy = plan.bars.filter((bar) => (bar.length * (perMetre.get(bar.lot) ?? 0)) / 1000 > limit);
  return heavy.length === 0 ? [] : [W.twoPeople(markRanges(heavy.map((bar) => bar.bar)).join(', '))];
}

async function writeBars(paper: Paper, job: Job, plan: Plan): Promise<void> {
  const lots = new Map(job.pile.map((lot) => [lot.lot, lot]));
  const jointed = jointedPieces(plan);
  const full = Math.max(1, ...plan.bars.map((bar) => bar.length));
  newPage(paper);
  for (const bars of alikeBars(job, plan)) {
    const lot = lots.get(bars[0]!.lot);
    if (lot) writeAlike(paper, job, lot, bars, full, jointed);
    await breathe(paper);
  }
}

/** Pieces of a bar that stand side by side in one table; feet, inches and fractions need more room. */
function piecesAcross({ options }: Paper): number {
  return options.feet ? 5 : 8;
}

function writeAlike(
  paper: Paper,
  job: Job,
  lot: Lot,
  bars: PlanBar[],
  full: number,
  jointed: Map<string, JointedPiece>,
): void {
  const { doc, letters, left, right, width } = paper;
  const bar = bars[0]!;
  const head = W.alike(bars.length, markRanges(bars.map((each) => each.bar)).join(', '));
  const squaring = lotSquaring(lot, job.saw);
  const facts = [
    W.barFacts(sectionName(lot.section), lengthWithUnit(paper, bar.length), lot.lot, W.coatings[lot.coating]),
    ...(squaring > 0 ? [W.squaring(lengthWithUnit(paper, squaring))] : []),
    ...(lot.spoiled.length > 0 ? [W.spoiled(lot.spoiled.map((span) => spanOf(paper, span, squaring)).join(', '))] : []),
  ].join('; ');
  const hollow = lot.section.shape === 'tube' || lot.section.shape === 'box';
  const sawing = needsNoCut(bar) ? [W.noCut] : [W.cares[lot.coating], hollow ? W.vent : ''];
  const cares = [...sawing, lot.note ?? ''].filter((care) => care.trim() !== '');
  const careLines = cares.flatMap((care) => letters.lines(care, width, 9, 'bold'));
  const parting = partsOf(bar, job.saw.kerf, squaring).map((at) => lengthIn(paper, at));
  const partLines = parting.length > 0 ? letters.lines(W.parting(parting), width, 9, 'bold') : [];
  const headLines = letters.lines(head, width, 12, 'bold');
  const factLines = letters.lines(facts, width, 9);
  const scene = barScene(job, bar, { width: width / MM - 0.5, full, units: unitsOf(paper) });
  const leftOver = letters.lines(`${W.left} ${remaindersOf(paper, bar, squaring)}`, width, 9);
  const high =
    headLines.length * 15 +
    (factLines.length + careLines.length + leftOver.length + partLines.length) * 11 +
    scene.height * MM +
    (paper.options.feet ? 102 : 78);
  if (!ensureRoom(paper, high) && paper.y > paper.top + 1) {
    doc.undash().lineWidth(1).strokeColor('#1c1a17').moveTo(left, paper.y).lineTo(right, paper.y).stroke();
  }
  paper.y = letters.block(headLines, left, paper.y + 5, { size: 12, weight: 'bold' });
  paper.y = letters.block(factLines, left, paper.y + 1, { size: 9 });
  paper.y = letters.block(careLines, left, paper.y, { size: 9, weight: 'bold' });
  drawScene(doc, letters, scene, left, paper.y + 4);
  paper.y += 4 + scene.height * MM;
  paper.y = letters.block(leftOver, left, paper.y + 1, { size: 9 }) + 2;
  if (partLines.length > 0) paper.y = letters.block(partLines, left, paper.y, { size: 9, weight: 'bold' }) + 2;
  for (let from = 0; from < bar.pieces.length || from === 0; from += piecesAcross(paper))
    writeBand(paper, { kerf: job.saw.kerf, squaring, jointed }, bars, from, head);
  paper.y += 12;
}

/** Where a bar is parted before it is cut at its stops, from its squared end. */
function partsOf(bar: PlanBar, kerf: number, squaring: number): number[] {
  return cutsBefore(bar, kerf, squaring).flatMap(({ behind, frees }) => (frees ? [behind] : []));
}

/** A stretch of a bar as a tape hooked on its squared end reads it; what was squared off is not there any more. */
function spanOf(paper: Paper, { from, to }: Span, squaring: number): string {
  const at = (mm: number) => lengthIn(paper, Math.max(0, mm - squaring));
  return W.span(at(from), at(to));
}

function remaindersOf(paper: Paper, bar: PlanBar, squaring: number): string {
  const parts = bar.remainders.map((remainder) => {
    const length = lengthIn(paper, remainder.to - remainder.from, 2, 'down');
    const words = remainder.fate === 'keep' ? D.keep(length) : D.scrap(length);
    return `${words} (${spanOf(paper, remainder, squaring)})`;
  });
  return parts.join(', ') || W.nothingLeft;
}

interface Sawing {
  kerf: number;
  squaring: number;
  jointed: Map<string, JointedPiece>;
}

/** Marks of the pieces from the `from`-th on, a row a bar, under their numbers, stops and running distances. */
function writeBand(paper: Paper, sawing: Sawing, bars: PlanBar[], from: number, title: string): void {
  const { letters } = paper;
  const across = piecesAcross(paper);
  const pieces = bars[0]!.pieces.slice(from, from + across);
  const tick = 20;
  const markWidth = 58;
  const cell = (paper.width - tick - markWidth - 62) / Math.max(5, Math.min(across, bars[0]!.pieces.length));
  const cuts = cutsBefore(bars[0]!, sawing.kerf, sawing.squaring).slice(from, from + across);
  const starts = cuts.map(({ behind, frees }) => (frees ? behind : null));
  const told = (name: string, places: readonly (number | null)[], metric: string[]): [string, string[], boolean][] => {
    const inches = places.map((place) => (place === null ? '' : printFeet(place, 32)));
    return [
      [name, metric, false],
      ...(paper.options.feet ? [[W.distanceInches, inches, false] as (typeof heads)[number]] : []),
    ];
  };
  const distances = pieces.map((piece, i) => piece.to - sawing.squaring - cuts[i]!.behind);
  const heads: [string, string[], boolean][] = [
    [W.piece, pieces.map((_, i) => String(from + i + 1)), false],
    [W.stop, pieces.map((piece) => plain(pieceLength(piece))), true],
    ...(starts.some((start) => start !== null)
      ? told(
          W.start,
          starts,
          starts.map((start) => (start === null ? '' : plain(start))),
        )
      : []),
    ...told(
      W.distance,
      distances,
      distances.map((distance) => plain(distance)),
    ),
  ];
  const writeHeads = (): void => {
    for (const [name, words, bold] of heads) {
      const weight = bold ? 'bold' : 'plain';
      letters.set(name, paper.left + tick + 3, paper.y + 9, { size: 8.5 });
      words.forEach((word, i) => {
        const x = paper.left + tick + markWidth + i * cell + 13.5;
        letters.set(word, x, paper.y + 9, { size: bold ? 11 : 9, weight });
      });
      paper.y += 11.5;
    }
    letters.set(W.note, paper.right - 59, paper.y - 2.5, { size: 8.5 });
    rule(paper, 0.8);
  };
  const goOn = (): void => {
    writeParagraph(paper, W.continued(title), { size: 10, weight: 'bold' }, { below: 4 });
    writeHeads();
  };
  if (ensureRoom(paper, heads.length * 11.5 + 28)) goOn();
  else writeHeads();
  for (const bar of bars) {
    const marks = bar.pieces.slice(from, from + across).map((piece) => ({
      piece: letters.fit(piece.piece, cell - 14.5, 14, 11, 4, 'bold'),
      bundle: letters.fit(goesTo(piece, sawing.jointed), cell - 14.5, 22, 9, 4),
    }));
    const name = letters.fit(bar.bar, markWidth - 5, 24, 10, 5, 'bold');
    const height = Math.max(28, ...marks.map((mark) => 16 + mark.bundle.lines.length * mark.bundle.size * 1.22 + 3));
    if (ensureRoom(paper, height)) goOn();
    tickBox(paper, paper.left + 3, paper.y + (height - 12) / 2, 12);
    const nameTop = paper.y + (height - name.lines.length * name.size * 1.22) / 2;
    letters.block(name.lines, paper.left + tick + 3, nameTop, { size: name.size, weight: 'bold' });
    marks.forEach((mark, i) => {
      const x = paper.left + tick + markWidth + i * cell;
      tickBox(paper, x + 2, paper.y + 5, 8);
      letters.block(mark.piece.lines, x + 13.5, paper.y + 2, { size: mark.piece.size, weight: 'bold' });
      letters.block(mark.bundle.lines, x + 13.5, paper.y + 15, { size: mark.bundle.size });
    });
    paper.y += height;
    rule(paper, 0.3);
  }
}

/** The bundle of a piece, and which part of one of its bars where that is jointed. */
function goesTo({ piece, bundle }: PlanBar['pieces'][number], jointed: Map<string, JointedPiece>): string {
  const joint = jointed.get(piece);
  return joint ? W.part(bundle, joint.part, joint.parts) : bundle;
}

function rule(paper: Paper, width: number): void {
  paper.doc.undash().lineWidth(width).strokeColor('#1c1a17');
  paper.doc.moveTo(paper.left, paper.y).lineTo(paper.right, paper.y).stroke();
}
