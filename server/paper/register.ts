/** The ballast register: for the ship's papers, what is stowed where, planned, weighed and recorded. */
import type { Writable } from 'node:stream';
import { byScale } from '../../src/balance/byScale.ts';
import { allInVoids } from '../../src/balance/moments.ts';
import { unplacedLines } from '../../src/balance/unplaced.ts';
import { laidVoid, voidTitle } from '../../src/drawing/laid.ts';
import { INK } from '../../src/drawing/style.ts';
import { vesselScene } from '../../src/drawing/vessel.ts';
import { holdDownOf } from '../../src/hold/holdDown.ts';
import { contentsNotCounted } from '../../src/hold/securing.ts';
import type { Job } from '../../src/job/job.ts';
import type { Plan } from '../../src/plan/plan.ts';
import { bundleMassOf } from '../../src/plan/totals.ts';
import { effectLines } from './balanceSheet.ts';
import { columnsAsked } from './columns.ts';
import { cellIn, either, massCell, massTold, tell, unitsOf } from './feet.ts';
import { dayHere, kg, MM, plain } from './figures.ts';
import { closePaper, ensureRoom, newPage, openPaper, type Paper, type PaperOptions, writeParagraph } from './page.ts';
import { drawScene } from './pdfScene.ts';
import { linesOfBefore, writeLoosened, writeRecord } from './registerRecord.ts';
import { writeTaken } from './registerTaken.ts';
import { allHeld, writeHeld, writeNotSecured } from './secured.ts';
import { type Column, writeTable } from './table.ts';
import { sumWeighed, tooHeavyLines, type Weighing, weighingsOf } from './weighing.ts';
import { RECORD_WORDS, REGISTER_WORDS as W } from './words.ts';

export async function writeRegister(job: Job, plan: Plan, options: PaperOptions, out: Writable): Promise<void> {
  const paper = openPaper(W.title, job, plan, options, out);
  const masses = options.weighed ?? new Map();
  const asWeighed = byScale(job, plan, masses);
  const held = holdDownOf(job, asWeighed, masses);
  paper.heading = allHeld(held) ? writeHeld : writeNotSecured;
  newPage(paper);
  const { doc, letters, left, width } = paper;
  const isScaled = asWeighed !== plan;
  const intro = W.intro(dayHere(options.date), either(paper, W.places, W.placesFeet));
  writeParagraph(paper, isScaled ? `${intro} ${W.introNow}` : intro, { size: 9.5 }, { below: 4 });
  const scene = vesselScene(job, plan, { width: width / MM, height: 52, units: unitsOf(paper) });
  drawScene(doc, letters, scene, left, paper.y);
  paper.y += scene.height * MM + 4;
  const weighings = weighingsOf(job, plan, masses);
  for (const words of unplacedLines(job, plan)) writeParagraph(paper, words, { size: 9, weight: 'bold' }, { below: 4 });
  await writeVoids(paper, job, plan, asWeighed, weighings);
  writeWeighed(paper, weighings);
  for (const words of tooHeavyLines(paper, job, plan, masses))
    writeParagraph(paper, words, { size: 9, weight: 'bold' }, { above: 4 });
  const { stands, before = [], recordedBy = [] } = options;
  const otherPlans = [
    ...(recordedBy.length === 0 ? [] : [RECORD_WORDS.others(recordedBy.join(', '))]),
    ...(stands === undefined ? [] : [RECORD_WORDS.stands(stands)]),
    ...(before.length === 0 ? [] : [RECORD_WORDS.restOf(before.map(({ serial }) => serial))]),
    ...linesOfBefore(options),
  ];
  for (const line of otherPlans) writeParagraph(paper, line, { size: 9, weight: 'bold' }, { above: 4 });
  await writeRecord(paper, job, plan, options.record ?? [], masses);
  await writeTaken(paper, job, plan, options.taken ?? []);
  const holds = held.filter((entry) => entry.mass > 0);
  const marks = (is: boolean) => holds.filter((entry) => entry.held === is).map((entry) => entry.void);
  writeParagraph(paper, W.hold(marks(true), marks(false)), { size: 9 }, { above: 6 });
  const besides = contentsNotCounted(job);
  if (besides !== '') writeParagraph(paper, tell(paper, besides), { size: 9, weight: 'bold' }, { above: 3 });
  writeLoosened(paper, plan, options.record ?? []);
  const effects = effectLines(job, asWeighed);
  if (((options.record ?? []).length > 0 || (isScaled && job.vessel)) && effects.length > 0)
    writeParagraph(
      paper,
      isScaled ? RECORD_WORDS.plannedScaled : RECORD_WORDS.planned,
      { size: 9 },
      { above: 3, keep: 24 },
    );
  for (const words of effects) {
    writeParagraph(paper, tell(paper, words), { size: 9 }, { above: 3 });
  }
  writeLines(paper);
  await closePaper(paper);
}

/** `made` is the plan, `plan` the same by the scale: the masses now, and the places of their centres. */
async function writeVoids(paper: Paper, job: Job, made: Plan, plan: Plan, weighings: Weighing[]): Promise<void> {
  const isScaled = plan !== made;
  const now = (mass: number): string[] => (isScaled ? [massCell(paper, mass)] : []);
  const plans = new Map(made.voids.map((entry) => [entry.void, entry.mass]));
  // With what was weighed the page is full: then the columns are as wide as what stands in them asks.
  const wide = (width: number) => (isScaled ? {} : { width });
  const place = { ...wide(42), align: 'right' as const, even: true };
  const columns: Column[] = [
    { head: W.heads.void, share: 4 },
    { head: W.heads.bundles, ...wide(48), align: 'right' },
    { head: W.heads.planned, ...wide(66), align: 'right', bold: !isScaled, even: true },
    { head: either(paper, W.heads.weighed, W.heads.weighedEither), ...wide(68), even: true },
    ...(isScaled ? [{ head: W.heads.now, align: 'right' as const, bold: true, even: true }] : []),
    { head: 'x', ...place },
    { head: 'y', ...place },
    { head: 'z', ...place },
    { head: W.heads.lie, ...wide(68) },
  ];
  const names = new Map(job.voids.map((space) => [space.void, space]));
  const filled = plan.voids.filter((entry) => entry.bundles > 0);
  const rows = filled.map((entry) => {
    const space = names.get(entry.void)!;
    return [
      voidTitle(space),
      String(entry.bundles),
      massCell(paper, plans.get(entry.void) ?? entry.mass),
      weighedCell(
        paper,
        weighings.filter((each) => each.bundle.void === entry.void),
      ),
      ...now(entry.mass),
      ...placeOf(paper, entry.centre),
      W.lie[laidVoid(space, plan).axis],
    ];
  });
  const more = allInVoids(job, plan);
  const planned = bundleMassOf(made);
  const total = more ? W.totalOfPlan : W.total;
  rows.push([
    total,
    String(plan.bundles.length),
    massCell(paper, planned),
    weighedCell(paper, weighings),
    ...now(bundleMassOf(plan)),
    ...placeOf(paper, plan.centre),
    '',
  ]);
  const boldRows = new Set([rows.length - 1]);
  if (more) {
    for (const each of more.lying)
      rows.push([
        W.lying(each.void, each.what, each.aboard),
        '',
        massCell(paper, each.mass),
        '',
        ...now(each.mass),
        ...placeOf(paper, each),
        '',
      ]);
    const lying = more.lying.reduce((sum, each) => sum + each.mass, 0);
    rows.push([
      W.inAll,
      '',
      massCell(paper, planned + lying),
      '',
      ...now(more.all.mass),
      ...placeOf(paper, more.all),
      '',
    ]);
    boldRows.add(rows.length - 1);
  }
  // The sums are bold: no column is too narrow for that.
  const bold = columns.map((column) => ({ ...column, bold: true }));
  const asked = isScaled ? columnsAsked(paper, bold, rows, 9) : columns;
  const widths = asked.map(({ width }, i) => ({ ...columns[i]!, ...(width === undefined ? {} : { width }) }));
  await writeTable(paper, widths, rows, { size: 9, rowHeight: 18, boldRows });
}

function placeOf(paper: Paper, centre: { x: number; y: number; z: number } | null): string[] {
  if (!centre) return ['', '', ''];
  return [centre.x, centre.y, centre.z].map((metres) => cellIn(paper, metres, 'm', plain(metres, 3)));
}

/** What was weighed; of how many bundles where not all were; nothing, for a pencil, where none was. */
function weighedCell(paper: Paper, weighings: Weighing[]): string {
  const { count, mass } = sumWeighed(weighings);
  if (count === 0) return '';
  const told = paper.options.feet ? massCell(paper, mass) : plain(mass);
  if (count === weighings.length) return told;
  return W.weighedPart(told, count, weighings.length, either(paper, ' ', '\n'));
}

/** How the weighed bundles stand against what was reckoned, and those that want looking into by name. */
function writeWeighed(paper: Paper, weighings: Weighing[]): void {
  const done = weighings.filter((each) => each.weighed !== null);
  if (done.length === 0) return;
  const reckoned = done.reduce((sum, each) => sum + each.bundle.mass, 0);
  const { count, mass } = sumWeighed(done);
  writeParagraph(
    paper,
    tell(paper, W.weighedOf(count, weighings.length, kg(mass), kg(reckoned))),
    { size: 9 },
    { above: 6 },
  );
  const told = (each: Weighing) =>
    W.differs(
      each.bundle.bundle,
      massTold(paper, each.weighed ?? 0),
      massTold(paper, each.bundle.mass),
      paper.options.feet ? massTold(paper, each.tolerance, undefined, 'down') : plain(each.tolerance),
    );
  const beyond = done.filter((each) => each.beyond).map(told);
  if (beyond.length > 0) writeParagraph(paper, W.beyond(beyond.join('; ')), { size: 9, weight: 'bold' }, { above: 4 });
}

/** What is filled in by hand: weighed total, hold-down, marks, changes, signatures. */
function writeLines(paper: Paper): void {
  const { doc, letters, left, right, width } = paper;
  const notes = letters.lines(W.after, width, 9);
  const need = notes.length * 11 + (W.lines.length + 1) * 24 + 24;
  ensureRoom(paper, need);
  paper.y = letters.block(notes, left, paper.y + 8, { size: 9 });
  for (const words of [either(paper, W.weighedTotal, W.weighedTotalEither), ...W.lines]) {
    paper.y += 24;
    letters.set(words, left, paper.y, { size: 9.5 });
    const from = left + letters.width(words, 9.5) + 6;
    doc
      .undash()
      .lineWidth(0.5)
      .strokeColor(INK)
      .moveTo(from, paper.y + 1.5)
      .lineTo(right, paper.y + 1.5)
      .stroke();
  }
}
