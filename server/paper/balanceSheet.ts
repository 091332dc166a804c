/** The balance sheet: what was assumed, the moments void by void, what the ballast does to her, her limits, what to read. */
import type { Writable } from 'node:stream';
import { amount } from '../../src/balance/amount.ts';
import { byScale } from '../../src/balance/byScale.ts';
import { type Effect, effectOf, type Marks } from '../../src/balance/float.ts';
import { hydrostaticsOf } from '../../src/balance/hydrostatics.ts';
import { marginsOf } from '../../src/balance/limits.ts';
import { missLines } from '../../src/balance/miss.ts';
import { spreadAbout, sumMoments, weightsAboard, weightsByVoid } from '../../src/balance/moments.ts';
import { listNow, presentList } from '../../src/balance/present.ts';
import { questionsOf } from '../../src/balance/questions.ts';
import { HOW_TO_READ } from '../../src/balance/readings.ts';
import { rollByVoid, sentenceOf } from '../../src/balance/telling.ts';
import { stowedWeights } from '../../src/balance/trial.ts';
import { unplacedLines } from '../../src/balance/unplaced.ts';
import { afloatScene } from '../../src/drawing/afloat.ts';
import { voidTitle } from '../../src/drawing/laid.ts';
import { listedScene } from '../../src/drawing/listed.ts';
import type { Scene } from '../../src/drawing/scene.ts';
import type { Job } from '../../src/job/job.ts';
import { addedContents, contentsOf } from '../../src/plan/contents.ts';
import type { Plan, PlanVoid } from '../../src/plan/plan.ts';
import { firstPart, shareIn } from '../../src/plan/share.ts';
import { cellIn, tell } from './feet.ts';
import { MM, plain } from './figures.ts';
import { closePaper, ensureRoom, newPage, openPaper, type Paper, type PaperOptions, writeParagraph } from './page.ts';
import { drawScene } from './pdfScene.ts';
import { linesOfAway } from './registerRecord.ts';
import { type Column, writeTable } from './table.ts';
import { BALANCE_WORDS as W } from './words.ts';

export async function writeBalanceSheet(job: Job, made: Plan, options: PaperOptions, out: Writable): Promise<void> {
  const paper = openPaper(W.title, job, made, options, out);
  const plan = byScale(job, made, options.weighed);
  newPage(paper);
  const effect = effectWith(job, plan);
  const answer = effect ? tell(paper, sentenceOf(effect)) : W.noVessel;
  writeParagraph(paper, answer, { size: 12, weight: 'bold' }, { below: 2, keep: 60 });
  writeParagraph(paper, plan === made ? W.intro : `${W.intro} ${W.scaled}`, { size: 9 });
  for (const words of linesOfAway(paper, plan))
    writeParagraph(paper, words, { size: 10, weight: 'bold' }, { above: 3 });
  for (const question of [...unplacedLines(job, plan), ...questionsOf(job, plan)]) {
    writeParagraph(paper, tell(paper, question), { size: 10, weight: 'bold' }, { above: 3 });
  }
  for (const line of missLines(job, plan)) {
    writeParagraph(paper, tell(paper, line), { size: 10 }, { above: 3 });
  }
  if (effect?.marks.kind === 'answer') drawMarks(paper, job, effect.marks);
  if (effect) drawList(paper, effect);
  await writeMoments(paper, job, plan, plan !== made);
  if (effect) {
    await writeResult(paper, effect, ballastSpread(job, plan));
    const { margins, unanswered } = marginsOf(job.vessel!, effect);
    const limits = [...margins.map((margin) => margin.text), ...unanswered];
    writeSentences(paper, W.limits, limits.length > 0 ? limits : [W.noLimits]);
    const inHer = contentsOf(job).filter((content) => content.aboard);
    const aboard = inHer.map((content) => W.aboard(content.what, content.void, plain(content.mass, 1)));
    writeSentences(paper, W.assumed, [...effect.assumed, ...aboard]);
    await writeTrial(paper, job, plan);
    writeRoll(paper, job);
  }
  writeSentences(paper, W.how.marks, HOW_TO_READ.marks);
  writeSentences(paper, W.how.roll, HOW_TO_READ.roll);
  writeSentences(paper, W.how.inclining, HOW_TO_READ.inclining);
  await closePaper(paper);
}

function drawMarks(paper: Paper, job: Job, marks: Marks): void {
  const { draughtForward, draughtAft } = job.vessel ?? {};
  const change = { forward: marks.forward.likely, aft: marks.aft.likely, draughtForward, draughtAft };
  draw(paper, afloatScene(change, { width: paper.width / MM, height: 46, tell: (words) => tell(paper, words) }));
}

/** Where her list now is stated, and what she lists in the end can be told. */
function drawList(paper: Paper, { stability }: Effect): void {
  if (stability.kind !== 'answer' || stability.listBefore === null) return;
  const listed = { before: stability.listBefore, after: stability.list.likely };
  draw(paper, listedScene(listed, { width: paper.width / MM, height: 40 }));
}

function draw(paper: Paper, scene: Scene): void {
  ensureRoom(paper, scene.height * MM + 4);
  drawScene(paper.doc, paper.letters, scene, paper.left, paper.y);
  paper.y += scene.height * MM + 4;
}

/** Mass tried in each void, kg, to tell which way it moves the roll. */
const TRIED = 50;

function writeRoll(paper: Paper, job: Job): void {
  const names = new Map(job.voids.map((space) => [space.void, voidTitle(space)]));
  const moves = rollByVoid(job, TRIED);
  if (!moves) return;
  const lines = moves.map((move) =>
    W.rollOf(names.get(move.void) ?? move.void, move.way, Math.abs(move.change).toFixed(3)),
  );
  writeSentences(paper, W.roll, [W.rollIntro(`${TRIED} kg`), ...lines]);
}

/** The effect of all bundles, and of what lies in the voids besides, on the vessel; null where nothing is stated of her. */
function effectWith(job: Job, plan: Plan): Effect | null {
  return job.vessel ? effectOf(job.vessel, weightsAboard(job, plan)) : null;
}

/** For the register: what the ballast does to her and every limit, in sentences; none where the vessel is not stated. */
export function effectLines(job: Job, plan: Plan): string[] {
  const effect = effectWith(job, plan);
  if (!effect || !job.vessel) return [W.noVessel];
  return [
    sentenceOf(effect),
    marginsOf(job.vessel, effect)
      .margins.map((margin) => margin.text)
      .join(' '),
  ];
}

/** For every stowage sheet: the limits that the ballast passes or may pass. */
export function limitsPassed(job: Job, plan: Plan): string[] {
  const effect = effectWith(job, plan);
  if (!effect || !job.vessel) return [];
  const { margins } = marginsOf(job.vessel, effect);
  return margins.filter((margin) => !margin.holds).map((margin) => margin.text);
}

/** `scaled`: with masses off the scale, which the centres that the plan tells do not know. */
async function writeMoments(paper: Paper, job: Job, plan: Plan, scaled: boolean): Promise<void> {
  head(paper, W.moments);
  const right = { align: 'right' as const, even: true };
  const heads = paper.options.feet ? W.headsFeet : W.heads;
  const columns: Column[] = [
    { head: W.heads.void, share: 1 },
    { head: heads.mass, width: 52, ...right, bold: true },
    { head: heads.x, width: 42, ...right },
    { head: heads.y, width: 42, ...right },
    { head: heads.z, width: 42, ...right },
    { head: heads.mx, width: 64, ...right },
    { head: heads.my, width: 64, ...right },
    { head: heads.mz, width: 64, ...right },
  ];
  const momentCell = (moment: number) => cellIn(paper, moment, 'kg·m', plain(moment, 1));
  const byVoid = weightsByVoid(job, plan);
  // A centre that the plan tells is printed from there, as on the register: else the same one could be rounded otherwise.
  const row = (name: string, weights: Parameters<typeof sumMoments>[0], told?: PlanVoid['centre']): string[] => {
    const { mass, alongMoment, acrossMoment, heightMoment } = sumMoments(weights);
    const { x, y, z } = told ?? { x: alongMoment / mass, y: acrossMoment / mass, z: heightMoment / mass };
    const centre = [x, y, z].map((metres) => cellIn(paper, metres, 'm', plain(metres, 3)));
    const moments = [alongMoment, acrossMoment, heightMoment].map(momentCell);
    return [name, cellIn(paper, mass, 'kg', plain(mass, 1)), ...centre, ...moments];
  };
  const filled = job.voids.filter((space) => (byVoid.get(space.void)?.length ?? 0) > 0);
  const centres = new Map(scaled ? [] : plan.voids.map((entry) => [entry.void, entry.centre]));
  const rows = filled.map((space) => row(voidTitle(space), byVoid.get(space.void) ?? [], centres.get(space.void)));
  for (const content of addedContents(job)) rows.push(row(W.content(content.what, content.void), [content]));
  const all = weightsAboard(job, plan);
  rows.push(row(W.total, all, addedContents(job).length === 0 && !scaled ? plan.centre : null));
  const boldRows = new Set([rows.length - 1]);
  const present = job.vessel && presentList(job.vessel);
  if (present?.moment) {
    const moment = (across: number): string[] => ['', '', '', '', '', momentCell(across), ''];
    const { likely } = present.moment;
    rows.push([W.listNow(listNow(present.degrees)), ...moment(likely)]);
    rows.push([W.withList, ...moment(likely + sumMoments(all).acrossMoment)]);
    boldRows.add(rows.length - 1);
  }
  await writeTable(paper, columns, rows, { size: 9, rowHeight: 16, boldRows });
}

/** r.m.s. distance of the bundles alone from the centre of flotation, m; null where that is not known. */
function ballastSpread(job: Job, plan: Plan): number | null {
  const lcf = hydrostaticsOf(job.vessel!).lcf;
  return lcf && spreadAbout([...weightsByVoid(job, plan).values()].flat(), lcf.likely);
}

async function writeResult(paper: Paper, effect: Effect, spread: number | null): Promise<void> {
  head(paper, W.result);
  const { marks, stability } = effect;
  const rows: string[][] = [];
  if (marks.kind === 'answer') {
    for (const key of ['sinkage', 'trim', 'forward', 'aft'] as const) {
      rows.push([W.results[key], amount(marks[key], 1, 'cm')]);
    }
  } else rows.push([W.results.sinkage, W.refusal(marks.why, marks.remedy)]);
  if (stability.kind === 'answer') {
    if (stability.listBefore !== null) rows.push([W.results.listBefore, `${plain(stability.listBefore, 1)}°`]);
    rows.push([W.results.list, amount(stability.list, 1, '°')]);
    for (const key of ['vcg', 'gmBefore', 'gm'] as const) rows.push([W.results[key], amount(stability[key], 2, 'm')]);
    for (const key of ['periodBefore', 'period'] as const) {
      rows.push([W.results[key], amount(stability[key], 1, 's')]);
    }
  } else rows.push([W.results.gm, W.refusal(stability.why, stability.remedy)]);
  if (spread !== null) rows.push([W.results.spread, `${plain(spread)} m`]);
  const columns: Column[] = [
    { head: '', share: 2 },
    { head: '', share: 3, bold: true },
  ];
  const told = rows.map(([what = '', figure = '']) => [what, tell(paper, figure)]);
  await writeTable(paper, columns, told, { size: 9, rowHeight: 15 });
}

/** The forecast for the fixed share, with room for what is read. */
async function writeTrial(paper: Paper, job: Job, plan: Plan): Promise<void> {
  const { counts: first, whole } = firstPart(job, plan, job.aims.fixedShare);
  const stowed = stowedWeights(job, plan, first);
  // The marks are read before and after, with what lies in her voids in her both times; she lists and rolls with it, too.
  const { marks } = effectOf(job.vessel!, stowed);
  const { stability } = effectOf(job.vessel!, [...stowed, ...addedContents(job)]);
  head(
    paper,
    W.trial(plain(100 * shareIn(plan, first), 0), plain(100 * job.aims.fixedShare), [...whole.keys()].join(', ')),
    110,
  );
  const columns: Column[] = [
    { head: W.trialHeads.what, share: 3 },
    { head: W.trialHeads.forecast, share: 3, bold: true },
    { head: W.trialHeads.read, share: 2 },
    { head: W.trialHeads.differs, share: 2 },
  ];
  const told = marks.kind === 'answer' ? marks : null;
  const rolls = stability.kind === 'answer' ? stability : null;
  const rows = [
    [W.trialRows.forward, told ? tell(paper, amount(told.forward, 1, 'cm')) : W.unknown, '', ''],
    [W.trialRows.aft, told ? tell(paper, amount(told.aft, 1, 'cm')) : W.unknown, '', ''],
    [W.trialRows.list, rolls ? amount(rolls.list, 1, '°') : W.unknown, '', ''],
    [W.trialRows.period, rolls ? amount(rolls.period, 1, 's') : W.unknown, '', ''],
  ];
  await writeTable(paper, columns, rows, { size: 9.5, rowHeight: 20 });
}

function head(paper: Paper, words: string, room = 60): void {
  ensureRoom(paper, room);
  writeParagraph(paper, words, { size: 11, weight: 'bold' }, { above: 8, keep: 60 });
}

function writeSentences(paper: Paper, words: string, sentences: readonly string[]): void {
  head(paper, words);
  for (const sentence of sentences) {
    writeParagraph(paper, tell(paper, sentence), { size: 9 }, { above: 2 });
  }
}
