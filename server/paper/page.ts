/**
 * The frame that every paper has: title, job, date, plan digest, page n of m, and the caution in one line. A paper is
 * written page by page; the numbers of pages go on at the end. Given the same date, the bytes are the same.
 */
import type { Writable } from 'node:stream';
import { pipeline } from 'node:stream/promises';
import PDFDocument from 'pdfkit';
import { INK, QUIET, WARM } from '../../src/drawing/style.ts';
import { FRAME_WORDS as W } from '../../src/drawing/words.ts';
import type { Job } from '../../src/job/job.ts';
import type { Plan } from '../../src/plan/plan.ts';
import { digest8, planDigest } from '../planDigest.ts';
import { dayOf, MM } from './figures.ts';
import { type Doc, Letters } from './letters.ts';
import type { TagSheet } from './tagSheet.ts';

export interface PaperOptions {
  /** Printed as its day (UTC), and the only time in the file. */
  date: Date;
  paper?: 'a4' | 'letter';
  /** Address of the web application; with `planSerial`, tags carry `BASE/b/PLAN/BUNDLE`. */
  base?: string;
  planSerial?: number;
  /** How tags are laid out; default two by four on the chosen paper. */
  tags?: TagSheet;
  /** Room to work in beside a keep-out, mm; bundles nearer come out first. Default 100. */
  workingRoom?: number;
}

/** A paper being written. Places in points; `y` is where the next thing goes. */
export interface Paper {
  doc: Doc;
  letters: Letters;
  title: string;
  job: Job;
  options: PaperOptions;
  digest: string;
  left: number;
  right: number;
  top: number;
  bottom: number;
  width: number;
  y: number;
  /** Written at the top of every page, below the frame. */
  heading?: (paper: Paper) => void;
}

export const SIZES = { a4: { width: 595.28, height: 841.89 }, letter: { width: 612, height: 792 } } as const;

export interface Layout {
  /** Page size in points; default the chosen paper upright. */
  size?: { width: number; height: number };
  /** Pages without the frame: tags and templates. */
  bare?: boolean;
}

/** Opens a paper with no page yet. */
export function openPaper(title: string, job: Job, plan: Plan, options: PaperOptions, layout: Layout = {}): Paper {
  const size = layout.size ?? SIZES[options.paper ?? 'a4'];
  const doc = new PDFDocument({
    size: [size.width, size.height],
    margin: 0,
    autoFirstPage: false,
    bufferPages: true,
    lang: 'en',
    displayTitle: true,
    info: { Title: `${title}: ${job.name}`, Creator: `kentledge ${plan.engine}`, CreationDate: options.date },
  });
  const left = layout.bare ? 0 : 17 * MM;
  const right = size.width - (layout.bare ? 0 : 12 * MM);
  return {
    doc,
    letters: new Letters(doc),
    title,
    job,
    options,
    digest: digest8(planDigest(plan)),
    left,
    right,
    top: layout.bare ? 0 : 27 * MM,
    bottom: size.height - (layout.bare ? 0 : 17 * MM),
    width: right - left,
    y: 0,
  };
}

/** Begins a page with the frame about it. */
export function newPage(paper: Paper): void {
  paper.doc.addPage();
  frame(paper);
  paper.y = paper.top;
  paper.heading?.(paper);
}

/** Room for `height` points: begins a new page where this one has less left. True where it did. */
export function ensureRoom(paper: Paper, height: number): boolean {
  if (paper.y + height <= paper.bottom) return false;
  newPage(paper);
  return true;
}

function frame(paper: Paper): void {
  const { doc, letters, left, right, options } = paper;
  const height = doc.page.height;
  const top = 11 * MM;
  const titleWidth = paper.width * 0.46;
  letters.fitted(paper.title, left, top - 4, { width: titleWidth, height: 24, least: 9 }, { size: 18, weight: 'bold' });
  const serial = options.planSerial === undefined ? '' : ` ${options.planSerial}`;
  const facts = W.facts(dayOf(options.date), `${serial} ${paper.digest}`.trim());
  letters.set(facts, left, top + 32, { size: 9, colour: QUIET });
  const jobWidth = paper.width - titleWidth - 8;
  const box = { width: jobWidth, height: 28, least: 5 };
  letters.fitted(paper.job.name, right - jobWidth, top - 4, box, { size: 11, align: 'right' });
  doc
    .lineWidth(1.4)
    .strokeColor(INK)
    .moveTo(left, top + 38)
    .lineTo(right, top + 38)
    .stroke();
  doc
    .lineWidth(0.6)
    .strokeColor(WARM)
    .moveTo(left - 9, 8 * MM)
    .lineTo(left - 9, height - 8 * MM)
    .stroke();
  doc
    .lineWidth(0.5)
    .strokeColor(INK)
    .moveTo(left, height - 14 * MM)
    .lineTo(right, height - 14 * MM)
    .stroke();
  letters.fitted(W.caution, left, height - 13 * MM, { width: paper.width, height: 24, least: 6 }, { size: 8 });
}

/** Numbers the pages and sends the file to `out`; resolves when all of it is written. `bare` pages carry no number. */
export async function closePaper(paper: Paper, out: Writable, numbered = true): Promise<void> {
  const { doc, letters, right } = paper;
  if (numbered) {
    const { start, count } = doc.bufferedPageRange();
    for (let i = start; i < start + count; i += 1) {
      doc.switchToPage(i);
      const size = 9;
      letters.set(W.page(i - start + 1, count), right, 11 * MM + 32, { size, align: 'right', weight: 'bold' });
    }
  }
  const sent = pipeline(doc as unknown as NodeJS.ReadableStream, out);
  doc.end();
  await sent;
}
