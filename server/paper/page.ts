/**
 * The frame that every paper has: title, job, date, plan digest, page n of m, and the caution in one line. A paper is
 * sent page by page as it is written. Given the same date, the bytes are the same.
 */

import { once } from 'node:events';
import type { Writable } from 'node:stream';
import { pipeline } from 'node:stream/promises';
import PDFDocument from 'pdfkit';
import type { Weight } from '../../src/balance/moments.ts';
import type { Taken, Written } from '../../src/balance/taken.ts';
import { INK, QUIET, WARM } from '../../src/drawing/style.ts';
import type { Job } from '../../src/job/job.ts';
import { guideRoute } from '../../src/lift/route.ts';
import { countWeighed, type WeighedMasses } from '../../src/plan/massNow.ts';
import type { Plan } from '../../src/plan/plan.ts';
import type { Entry } from '../../src/plan/record.ts';
import { digest8, planDigest } from '../planDigest.ts';
import { dayHere, MM } from './figures.ts';
import { type Doc, LEADING, type Lettering, Letters } from './letters.ts';
import { PageCount } from './pageCount.ts';
import type { TagSheet } from './tagSheet.ts';
import { FRAME_WORDS as W } from './words.ts';

export interface PaperOptions {
  /** Printed as its day where the machine stands, and the only time in the file. */
  date: Date;
  paper?: 'a4' | 'letter';
  /** Feet, inches and pounds beside the metric figures (`feet.ts`). */
  feet?: boolean;
  /** The plan's own digest, where some of its bundles were moved since it was made. */
  digest?: string;
  /** Address of the web application; with `planSerial`, tags carry `BASE/b/PLAN/BUNDLE`. */
  base?: string;
  planSerial?: number;
  /** How tags are laid out; default two by four on the chosen paper. */
  tags?: TagSheet;
  /** kg off the scale by bundle, where bundles were weighed. */
  weighed?: WeighedMasses;
  /** What was written of bundles being stowed and lifted out. */
  record?: readonly Entry[];
  /** What was read afloat: every text that was written of it. */
  taken?: readonly Written[];
  /** What was read with the jobs before, of which this one is what was left. */
  earlier?: readonly Taken[];
  /** Names of the voids that are to be broken out; all where none are named. */
  breakOut?: readonly string[];
  /** Serials of other plans of the job that have such a record. */
  recordedBy?: readonly number[];
  /** Marks, by ranges, of what stays by this plan, where what was left of it is planned anew. */
  stands?: string;
  /**
   * The plans of which this one is a plan of the rest, the last first. Marks, by ranges: `lacking` still go in by them; `twice`
   * are in by their record and count as not in, `gone` are out and count as in, `moved` count where they lay before.
   */
  before?: readonly { serial: number; lacking: string; twice?: string; gone?: string; moved?: string }[];
  /** What lies in her by other plans (`after`: those of what was left of this one): on top of this plan's own figures, kg; `before`: of plans before. */
  others?: {
    weights: readonly Weight[];
    before: number;
    after: readonly { serial: number; mass: number; voids: readonly string[] }[];
  };
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
  pages: number;
  /** The number of pages to come, on papers with a frame. */
  count: PageCount | null;
  out: Writable;
  /** Settles when all is written to `out`, or when that failed. */
  sent: Promise<void>;
  /** Pages when the world was last let in. */
  breathedAt: number;
  /** At the foot of every framed page. */
  caution: string;
  /** What a page goes on with that ends on no page yet, told in its frame: a page may come loose. Absent: nothing. */
  goesOn?: string | undefined;
  /** Written at the top of every page, below the frame. */
  heading?: (paper: Paper) => void;
}

/** Size of date, plan and page number, points. */
const NUMBER_SIZE = 9;
/** What `page 1234 of 1234` takes of the line, points. */
const NUMBER_ROOM = 100;

const SIZES = { a4: { width: 595.28, height: 841.89 }, letter: { width: 612, height: 792 } } as const;

export interface Layout {
  /** Page size in points; default the chosen paper upright. */
  size?: { width: number; height: number };
  /** Pages without the frame: tags and templates. */
  bare?: boolean;
}

/** Opens a paper with no page yet, and begins to send it to `out`, which it ends. */
export function openPaper(
  title: string,
  job: Job,
  plan: Plan,
  options: PaperOptions,
  out: Writable,
  layout: Layout = {},
): Paper {
  const size = layout.size ?? SIZES[options.paper ?? 'a4'];
  const doc = new PDFDocument({
    size: [size.width, size.height],
    margin: 0,
    autoFirstPage: false,
    lang: 'en',
    displayTitle: true,
    info: { Title: `${title}: ${job.name}`, Creator: `kentledge ${plan.engine}`, CreationDate: options.date },
  });
  const sent = pipeline(doc as unknown as NodeJS.ReadableStream, out);
  // Whoever writes the paper is told by `breathe` or `closePaper`; until then a failure must not go unheard.
  sent.catch(() => {});
  const left = layout.bare ? 0 : 17 * MM;
  const right = size.width - (layout.bare ? 0 : 12 * MM);
  return {
    doc,
    letters: new Letters(doc),
    count: layout.bare ? null : new PageCount(doc, NUMBER_SIZE),
    out,
    sent,
    pages: 0,
    breathedAt: 0,
    title,
    job,
    options,
    digest: digest8(options.digest ?? planDigest(plan)),
    caution: cautionOf(job, plan, options.weighed),
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
  paper.pages += 1;
  if (paper.count) frame(paper, paper.count);
  paper.y = paper.top;
  paper.heading?.(paper);
}

/** Begins a page with something new, which the pages after it go on with by its name. */
export function newPart(paper: Paper, name: string): void {
  paper.goesOn = undefined;
  newPage(paper);
  paper.goesOn = name;
}

/** Room for `height` points: begins a new page where this one has less left. True where it did. */
export function ensureRoom(paper: Paper, height: number): boolean {
  if (paper.y + height <= paper.bottom) return false;
  newPage(paper);
  return true;
}

export interface Spacing {
  /** Points left free above and below. */
  above?: number;
  below?: number;
  /** Room for this much more must be left on the page, so that a heading does not stand alone. */
  keep?: number;
  /** Begins as an item of a list: a dash, and its lines set in behind it. */
  item?: boolean;
}

/** How far the lines of an item are set in, in its letters' size. */
const SET_IN = 1.1;

/** Writes a paragraph at `paper.y` over the whole width; on a new page where it does not fit, over several where none holds it. */
export function writeParagraph(paper: Paper, words: string, lettering: Lettering, spacing: Spacing = {}): void {
  const { letters } = paper;
  const { above = 0, below = 0, keep = 0, item = false } = spacing;
  const step = lettering.size * LEADING;
  const left = paper.left + (item ? SET_IN * lettering.size : 0);
  let lines = letters.lines(words, paper.right - left, lettering.size, lettering.weight);
  const turned = ensureRoom(paper, Math.min(above + lines.length * step + keep, paper.bottom - paper.top));
  if (!turned) paper.y += above;
  if (item) letters.block(['–'], paper.left, paper.y, lettering);
  while (lines.length > 0) {
    const room = Math.floor((paper.bottom - paper.y) / step + 1e-6);
    if (room < 1) {
      newPage(paper);
      continue;
    }
    paper.y = letters.block(lines.slice(0, room), left, paper.y, lettering);
    lines = lines.slice(room);
  }
  paper.y += below;
}

function frame(paper: Paper, count: PageCount): void {
  const { doc, letters, left, right, options } = paper;
  const height = doc.page.height;
  const top = 11 * MM;
  const titleWidth = paper.width * 0.46;
  letters.fitted(paper.title, left, top - 4, { width: titleWidth, height: 24, least: 9 }, { size: 18, weight: 'bold' });
  const serial = options.planSerial === undefined ? '' : ` ${options.planSerial}`;
  const facts = W.facts(dayHere(options.date), `${serial} ${paper.digest}`.trim());
  letters.set(facts, left, top + 32, { size: NUMBER_SIZE, colour: QUIET });
  const number = W.page(paper.pages);
  const numberAt = left + letters.width(facts, NUMBER_SIZE) + 16;
  letters.set(number, numberAt, top + 32, { size: NUMBER_SIZE, weight: 'bold' });
  count.show(numberAt + letters.width(`${number} `, NUMBER_SIZE, 'bold'), top + 32);
  if (paper.goesOn !== undefined) {
    const from = numberAt + NUMBER_ROOM;
    const room = { width: right - from, height: NUMBER_SIZE * LEADING, least: 6 };
    letters.fitted(W.goesOn(paper.goesOn), from, top + 23, room, { size: NUMBER_SIZE, weight: 'bold', align: 'right' });
  }
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
  letters.fitted(paper.caution, left, height - 13 * MM, { width: paper.width, height: 24, least: 6 }, { size: 8 });
}

/** Marks of voids told in the foot; the rest is counted. */
const VOIDS_TOLD = 8;

/** The caution of every paper; where a way into a filled void is outside the lifting method, that too. */
function cautionOf(job: Job, plan: Plan, weighed: WeighedMasses | undefined): string {
  const filled = new Set(plan.bundles.map((bundle) => bundle.void));
  const outside = job.voids.filter((space) => {
    const { legs, applies } = guideRoute(job, space);
    return filled.has(space.void) && legs.length > 0 && !applies;
  });
  const caution = W.caution(countWeighed(plan.bundles, weighed) > 0);
  if (outside.length === 0) return caution;
  const marks = outside.slice(0, VOIDS_TOLD).map((space) => space.void);
  return `${caution} ${W.outside(marks.join(', '), outside.length - marks.length)}`;
}

/** Lets other work and the reader of `out` go on when pages have been written; call between blocks. Fails where `out` did. */
export async function breathe(paper: Paper): Promise<void> {
  if (paper.pages === paper.breathedAt) return;
  paper.breathedAt = paper.pages;
  await new Promise((resolve) => setImmediate(resolve));
  if (paper.out.writableNeedDrain && !paper.out.destroyed) {
    await Promise.race([once(paper.out, 'drain'), paper.sent]);
  }
  if (paper.out.destroyed) await paper.sent;
}

/** Ends the file; resolves when all of it is written. */
export async function closePaper(paper: Paper): Promise<void> {
  paper.doc.font('bold');
  paper.count?.finish(paper.pages);
  paper.doc.end();
  await paper.sent;
}
