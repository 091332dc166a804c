/** Bundle tags to cut out and tie on, and the same in plain text for a paint marker. */
import type { Writable } from 'node:stream';
import { laidVoid, voidTitle } from '../../src/drawing/laid.ts';
import { INK, QUIET } from '../../src/drawing/style.ts';
import { voidPlanScene } from '../../src/drawing/voidPlan.ts';
import type { Job, Void } from '../../src/job/job.ts';
import { sectionName } from '../../src/job/section.ts';
import { becketsOf } from '../../src/lift/becket.ts';
import { type Callout, calloutsOf, OUTSIDE_WORDS } from '../../src/lift/callouts.ts';
import { heaviestBundle } from '../../src/lift/limit.ts';
import { wayIn } from '../../src/plan/hardest.ts';
import { atMassNow, countWeighed } from '../../src/plan/massNow.ts';
import type { Plan, PlanBundle } from '../../src/plan/plan.ts';
import { printFeet, printPounds } from '../../src/units.ts';
import { columnsAsked } from './columns.ts';
import { massIn, tell } from './feet.ts';
import { dayHere, MM, plain } from './figures.ts';
import { LEADING } from './letters.ts';
import { byColumn, byNote } from './massBy.ts';
import { breathe, closePaper, newPage, openPaper, type Paper, type PaperOptions, writeParagraph } from './page.ts';
import { drawScene } from './pdfScene.ts';
import { qrScene, tagCode } from './qr.ts';
import { writeTable } from './table.ts';
import { DEFAULT_TAGS, type TagSheet } from './tagSheet.ts';
import { FRAME_WORDS as F, TAG_WORDS as W } from './words.ts';

interface Box {
  x: number;
  y: number;
  width: number;
  height: number;
}

/** One tag a bundle, in the order of voids and of loading. */
export async function writeTags(job: Job, plan: Plan, options: PaperOptions, out: Writable): Promise<void> {
  const sheet = options.tags ?? DEFAULT_TAGS;
  const size = sheet.kind === 'roll' ? { width: sheet.width * MM, height: sheet.height * MM } : undefined;
  const paper = openPaper(W.title, job, plan, options, out, { bare: true, ...(size ? { size } : {}) });
  const voids = new Map(job.voids.map((space) => [space.void, space]));
  const perPage = sheet.kind === 'roll' ? 1 : sheet.rows * sheet.columns;
  const bundles = atMassNow(inOrder(job, plan), options.weighed);
  const callouts = calloutsOf(job, bundles);
  const pages = Math.ceil(bundles.length / perPage);
  const isWeighed = countWeighed(bundles, options.weighed) > 0;
  for (const [i, bundle] of bundles.entries()) {
    if (i % perPage === 0) {
      await breathe(paper);
      newPage(paper);
      if (sheet.kind === 'grid') sheetFoot(paper, sheet, { page: Math.floor(i / perPage) + 1, pages, isWeighed });
    }
    const space = voids.get(bundle.void)!;
    const lift = { callout: calloutOf(paper, callouts[i]), limit: heaviestBundle(job, space) };
    writeTag(paper, plan, bundle, space, lift, boxOf(paper, sheet, i % perPage));
  }
  if (bundles.length === 0) newPage(paper);
  await closePaper(paper);
}

/** The mass stands large on the tag already, so that what is said of the lift has no mass of its own. */
function calloutOf(paper: Paper, callout: Callout | undefined): TagCallout | null {
  if (!callout || (callout.over === null && !callout.outside)) return null;
  const words = [
    ...(callout.over === null ? [] : [W.heavyWhy(callout.tackle, callout.over)]),
    ...(callout.outside ? [OUTSIDE_WORDS] : []),
  ];
  const stamp = callout.over === null ? null : callout.tackle ? W.tackle : W.twoPeople;
  return { text: tell(paper, words.join(' ')), stamp };
}

interface TagCallout {
  text: string;
  /** Who or what lifts it, a line each; null where one person does. */
  stamp: readonly string[] | null;
}

export function inOrder(job: Job, plan: Plan): PlanBundle[] {
  const place = new Map(job.voids.map((space, i) => [space.void, i]));
  return [...plan.bundles].sort((p, q) => (place.get(p.void) ?? 0) - (place.get(q.void) ?? 0) || p.order - q.order);
}

function boxOf(paper: Paper, sheet: TagSheet, i: number): Box {
  const page = paper.doc.page;
  if (sheet.kind === 'roll') return { x: 0, y: 0, width: page.width, height: page.height };
  const width = (page.width - (2 * sheet.marginX + (sheet.columns - 1) * sheet.gapX) * MM) / sheet.columns;
  const height = (page.height - (2 * sheet.marginY + (sheet.rows - 1) * sheet.gapY) * MM) / sheet.rows;
  const column = i % sheet.columns;
  const row = Math.floor(i / sheet.columns);
  return {
    x: sheet.marginX * MM + column * (width + sheet.gapX * MM),
    y: sheet.marginY * MM + row * (height + sheet.gapY * MM),
    width,
    height,
  };
}

function sheetFoot(
  paper: Paper,
  sheet: TagSheet & { kind: 'grid' },
  { page, pages, isWeighed }: { page: number; pages: number; isWeighed: boolean },
): void {
  const { doc, letters } = paper;
  if (sheet.marginY < 7) return;
  const margin = Math.max(sheet.marginX, 6) * MM;
  const width = doc.page.width - 2 * margin;
  const high = sheet.marginY * MM;
  const words = F.pageOf(page, pages);
  letters.set(words, doc.page.width - margin, high - 8, { size: 8, align: 'right' });
  const room = width - letters.width(words, 8) - 10;
  letters.fitted(W.head, margin, high - 17, { width: room, height: 11, least: 4 }, { size: 8 });
  const box = { width, height: high - 12, least: 4 };
  letters.fitted(F.caution(isWeighed), margin, doc.page.height - high + 3, box, { size: 7, colour: QUIET });
}

/** Shares of a tag's height: mark, name, mass, what it is; then key plan and initials, and the foot. */
const LYING = { id: 0.17, name: 0.1, mass: 0.262, facts: 0.234, foot: 0.045 } as const;
/** Low tags want their words as large as they can be more than a large key plan. */
const LOW = { id: 0.15, name: 0.09, mass: 0.22, facts: 0.33, foot: 0.045 } as const;
/** A lying tag under this is low, points. */
const LOW_UNDER = 45 * MM;
const UPRIGHT = { id: 0.11, name: 0.075, mass: 0.2, facts: 0.2, foot: 0.045 } as const;

/** Everything stands in bands that share the height out, each with words as large as it allows. */
function writeTag(
  paper: Paper,
  plan: Plan,
  bundle: PlanBundle,
  space: Void,
  { callout, limit }: { callout: TagCallout | null; limit: number },
  box: Box,
): void {
  const { doc, letters, options, digest } = paper;
  outline(paper, box);
  const pad = 2.2 * MM;
  const eyelet = 8 * MM;
  const upright = box.height > box.width;
  const x = box.x + (upright ? pad : eyelet + pad / 2);
  const top = box.y + (upright ? eyelet : pad * 0.7);
  const width = box.x + box.width - pad - x;
  const height = box.y + box.height - pad * 0.7 - top;
  const shares = upright ? UPRIGHT : box.height < LOW_UNDER ? LOW : LYING;
  const band = (name: keyof typeof shares): number => height * shares[name];
  const used = shares.id + shares.name + shares.mass + shares.facts + shares.foot;
  // The code stands beside the mass on a lying tag, and below everything on an upright one.
  const side = upright ? Math.min(width * 0.6, height * (1 - used)) : Math.min(width * 0.4, height * 0.5, 34 * MM);
  const left = upright ? width : width - side - pad / 2;
  const codeY = upright ? top + height - band('foot') - side : top;
  const number = plan.bundles.findIndex((one) => one.bundle === bundle.bundle) + 1;
  const code = tagCode(bundle.bundle, number, digest, options);
  drawScene(doc, letters, qrScene(code, side / MM), x + width - side, codeY);
  let y = top;
  const idBox = { width: left, height: band('id'), least: 5 };
  letters.fitted(bundle.bundle, x, y, idBox, { size: band('id') * 0.79, weight: 'bold' });
  y += band('id');
  letters.fitted(space.name || ' ', x, y, { width: left, height: band('name') * 0.9, least: 3.5 }, { size: 10 });
  y += band('name');
  const { feet = false } = options;
  const mass = massIn(paper, bundle.mass);
  const stampWidth = callout?.stamp ? left * STAMP : 0;
  const massWidth = left - (stampWidth > 0 ? stampWidth + pad : 0);
  const massSize = Math.min(band('mass') * 0.91, massWidth / letters.width(mass, 1, 'bold'));
  if (callout?.stamp)
    writeStamp(paper, callout.stamp, { x: x + left - stampWidth, y, width: stampWidth, height: band('mass') * 0.84 });
  letters.set(mass, x, y + band('mass') * 0.4 + massSize * 0.365, { size: massSize, weight: 'bold' });
  y += band('mass');
  const facts = [
    `${W.place(bundle.run, bundle.tier, bundle.order)}${bundle.share === 'trim' ? `, ${W.trim}` : ''}${options.weighed?.has(bundle.bundle) ? `, ${W.byScale}` : ''}`,
    barsOf(bundle, feet),
    callout?.text ?? W.lift(plain(limit), feet ? printPounds(limit, 'down') : ''),
    ...becketOf(paper, bundle),
    ...(wayIn(bundle, laidVoid(space, plan)) === 'endFirst' ? [W.endFirst] : []),
  ];
  writeFacts(paper, facts, callout?.text ?? null, { x, y, width, height: band('facts') });
  y += band('facts');
  const rest = top + height - band('foot') - y;
  const key = voidPlanScene(space, plan, {
    width: (upright ? width - side - pad : width * 0.5) / MM,
    height: Math.max(3, ((upright ? rest * 0.5 : rest) - 3) / MM),
    bare: true,
    tier: bundle.tier,
    marked: new Set([bundle.bundle]),
  });
  drawScene(doc, letters, key, x, y + 1.5);
  if (upright) initials(paper, x, y + rest * 0.55, width - side - pad, rest * 0.45);
  else initials(paper, x + width * 0.53, y, width * 0.47, rest);
  const foot = `${paper.job.name}  ${dayHere(options.date)}  ${W.plan} ${`${options.planSerial ?? ''} ${digest}`.trim()}`;
  letters.fitted(
    foot,
    x,
    top + height - band('foot'),
    { width, height: band('foot'), least: 3 },
    { size: 6.5, colour: QUIET },
  );
}

/** So much of the width of a tag's words is the stamp, where it has one. */
const STAMP = 0.38;

/** Who or what lifts it, as large as its box allows: read from where the tag hangs. */
function writeStamp({ doc, letters }: Paper, lines: readonly string[], { x, y, width, height }: Box): void {
  const widest = Math.max(...lines.map((line) => letters.width(line, 1, 'bold')));
  const size = Math.min((height * 0.92) / (lines.length * 1.05), (width * 0.9) / widest);
  const high = size * 1.05 * lines.length + height * 0.08;
  const top = y + (height - high) / 2;
  doc.rect(x, top, width, high).fillColor(INK).fill();
  lines.forEach((line, i) => {
    const base = top + high / 2 + (i - (lines.length - 1) / 2) * size * 1.05 + size * 0.365;
    letters.set(line, x + width / 2, base, { size, weight: 'bold', colour: '#ffffff', align: 'centre' });
  });
}

/** Every fact in one size, the largest at which all of them fit: nothing of a lift note is ever left out. */
function writeFacts(paper: Paper, facts: string[], callout: string | null, box: Box): void {
  const { letters } = paper;
  const weightOf = (fact: string) => (fact === callout ? 'bold' : 'plain');
  const linesAt = (size: number) =>
    facts.map(
      (fact) => ({ lines: letters.lines(fact, box.width, size, weightOf(fact)), weight: weightOf(fact) }) as const,
    );
  let size = Math.min(11, box.height / (facts.length * LEADING));
  while (size > 2 && linesAt(size).flatMap(({ lines }) => lines).length * size * LEADING > box.height + 0.01)
    size *= 0.94;
  let { y } = box;
  for (const { lines, weight } of linesAt(size)) y = letters.block(lines, box.x, y, { size, weight });
}

/** `3 × 678 mm, round 25`, and how many of them are made of shorter pieces. */
function barsOf(bundle: PlanBundle, feet = false): string {
  const joints = bundle.slots.filter((slot) => slot.length > 1).length;
  const bars = W.bars(
    bundle.slots.length,
    plain(bundle.length),
    sectionName(bundle.section),
    feet ? printFeet(bundle.length, 32) : '',
  );
  return joints === 0 ? bars : `${bars}, ${W.jointed(joints)}`;
}

/** The cord of its loops, where the job has beckets. */
function becketOf(paper: Paper, bundle: PlanBundle): string[] {
  const rules = paper.job.bundle.becket;
  if (!rules || bundle.becket === undefined) return [];
  const { count } = becketsOf(bundle.size, rules);
  return [tell(paper, W.becket(count, plain(bundle.becket / count), plain(rules.cord)))];
}

function initials(paper: Paper, x: number, y: number, width: number, height: number): void {
  const { doc, letters } = paper;
  const half = (width - 6) / 2;
  const size = Math.min(7, half / letters.width(W.stowed, 1), half / letters.width(W.tied, 1));
  [W.tied, W.stowed].forEach((words, i) => {
    const at = x + i * (half + 6);
    letters.set(words, at, y + 1 + size, { size, colour: QUIET });
    const line = y + Math.min(height - 3, 26);
    doc
      .undash()
      .lineWidth(0.5)
      .strokeColor(INK)
      .moveTo(at, line)
      .lineTo(at + half, line)
      .stroke();
  });
}

/** A tag as a tag: cut corners at the eyelet's end. */
function outline(paper: Paper, box: Box): void {
  const { doc } = paper;
  const cut = 5 * MM;
  const inset = 0.6;
  const l = box.x + inset;
  const r = box.x + box.width - inset;
  const t = box.y + inset;
  const b = box.y + box.height - inset;
  doc.undash().lineWidth(0.8).strokeColor(INK);
  if (box.height > box.width) {
    doc
      .moveTo(l + cut, t)
      .lineTo(r - cut, t)
      .lineTo(r, t + cut)
      .lineTo(r, b)
      .lineTo(l, b)
      .lineTo(l, t + cut)
      .closePath()
      .stroke();
    doc.circle((l + r) / 2, t + 4.5 * MM, 2 * MM).stroke();
  } else {
    doc
      .moveTo(l + cut, t)
      .lineTo(r, t)
      .lineTo(r, b)
      .lineTo(l + cut, b)
      .lineTo(l, b - cut)
      .lineTo(l, t + cut)
      .closePath()
      .stroke();
    doc.circle(l + 4.5 * MM, (t + b) / 2, 2 * MM).stroke();
  }
}

/** What to paint on each bundle where a paper tag would not last. */
export async function writeTagList(job: Job, plan: Plan, options: PaperOptions, out: Writable): Promise<void> {
  const paper = openPaper(W.listTitle, job, plan, options, out);
  newPage(paper);
  const note = byNote(plan.bundles, options.weighed);
  writeParagraph(paper, note === '' ? W.listIntro : `${W.listIntro} ${note}`, { size: 10 }, { above: 2, below: 6 });
  const by = byColumn(plan.bundles, options.weighed);
  const heads = [
    { head: '', tick: true, width: 20 },
    { head: W.heads.paint, share: 2, bold: true },
    { head: W.heads.mass, align: 'right' as const, bold: true },
    ...by.heads,
    { head: W.heads.place },
    { head: W.heads.bars, share: 5 },
  ];
  const bundles = atMassNow(inOrder(job, plan), options.weighed);
  const cells = bundles.map((bundle) => [
    '',
    bundle.bundle,
    massIn(paper, bundle.mass),
    ...by.cells(bundle),
    W.shortPlace(bundle.run, bundle.tier, bundle.order),
    barsOf(bundle, options.feet),
  ]);
  const columns = columnsAsked(paper, heads, cells, 11);
  for (const space of job.voids) {
    const rows = cells.filter((_, i) => bundles[i]!.void === space.void);
    if (rows.length === 0) continue;
    writeParagraph(paper, voidTitle(space), { size: 12, weight: 'bold' }, { above: 8, below: 1, keep: 50 });
    await writeTable(paper, columns, rows, { size: 11, rowHeight: 22 });
  }
  await closePaper(paper);
}
