/** What a void's stowage sheet says in words: its figures, what lies under and beside the bundles, how it is held. */
import { type Bed, bedsOf } from '../../src/drawing/bed.ts';
import { keepOutsIn, laidVoid } from '../../src/drawing/laid.ts';
import { DRAWING_WORDS as D } from '../../src/drawing/words.ts';
import type { HeldVoid } from '../../src/hold/holdDown.ts';
import type { Job, Void } from '../../src/job/job.ts';
import { bearerLoads, runLoads } from '../../src/plan/bearing.ts';
import type { Plan, PlanBundle, PlanVoid } from '../../src/plan/plan.ts';
import { recordIn, recordOf } from '../../src/plan/record.ts';
import { firstPart } from '../../src/plan/share.ts';
import { slideLines } from '../../src/plan/slides.ts';
import { markRanges } from '../../src/plan/stops.ts';
import type { LaidVoid } from '../../src/stow/laid.ts';
import { byParts, cutOutsOf } from './bedItems.ts';
import { writeChocks } from './chockTable.ts';
import { figureIn, lengthIn, tell } from './feet.ts';
import { kg, plain } from './figures.ts';
import { massBy } from './massBy.ts';
import { type Paper, writeParagraph } from './page.ts';
import { STOWAGE_WORDS as W } from './stowageWords.ts';

/** What a void holds, how its bars lie and what is kept free about them, in sentences; `plan` and `placed` are by the scale. */
export function factsOf(paper: Paper, plan: Plan, space: Void, placed: PlanVoid): string {
  const laid = laidVoid(space, plan);
  const { centre } = placed;
  const own = plan.bundles.filter((bundle) => bundle.void === space.void);
  return [
    tell(paper, W.bundles(own.length, kg(placed.mass, 1), massBy(own, plan, paper.options.weighed))),
    centre ? W.centre(...placeOf(paper, centre)) : '',
    tell(paper, partsOf(paper.job, plan, space)),
    movedHere(paper, plan, space),
    W.fill(plain(100 * placed.fill, 0)),
    W.lies(laid.axis),
    tell(paper, W.dunnage(plain(space.dunnage))),
    space.most === undefined ? '' : tell(paper, W.most(kg(space.most, 1))),
    tell(paper, W.gaps(plain(space.gap.runs), plain(space.gap.across), plain(space.clear.ends))),
  ]
    .filter((words) => words !== '')
    .join(' ');
}

/** Bundles that were moved into the void since the plan was made, by the record. */
function movedHere({ options }: Paper, plan: Plan, space: Void): string {
  const record = recordOf(options.record ?? []);
  const isMoved = ({ bundle, void: name }: PlanBundle): boolean =>
    name === space.void &&
    recordIn(record, bundle)
      .moves.findLast(({ did }) => did === 'moved')
      ?.note.startsWith('from') === true;
  const marks = plan.bundles.filter(isMoved).map(({ bundle }) => bundle);
  return marks.length > 0 ? W.moved(markRanges(marks).join(', ')) : '';
}

/** How much of the void is fixed and how much is trim, or what it waits for; nothing where it is all one. */
function partsOf(job: Job, plan: Plan, space: Void): string {
  const { whole, waiting } = firstPart(job, plan, job.aims.fixedShare);
  const [under, over] = [waiting.get(space.void), whole.get(space.void)];
  if (under) return W.waits(under.join(W.and));
  if (over) return W.whole(over.join(W.and));
  const bundles = plan.bundles.filter((bundle) => bundle.void === space.void);
  const trim = bundles.filter((bundle) => bundle.share === 'trim');
  if (trim.length === 0 || trim.length === bundles.length) return '';
  const sum = (some: readonly PlanBundle[]) => some.reduce((mass, bundle) => mass + bundle.mass, 0);
  return W.parts(kg(sum(bundles) - sum(trim), 1), kg(sum(trim), 1));
}

/** What lies under the bundles and how they come out again; `again` where the page says already what is so of every void. */
export async function writeNotes(
  paper: Paper,
  plan: Plan,
  space: Void,
  hold: HeldVoid | undefined,
  lifts: string[],
  again: boolean,
): Promise<void> {
  const laid = laidVoid(space, plan);
  writeSentences(paper, [...lifts, ...bedLines(paper, laid, plan)]);
  await writeChocks(paper, laid, plan);
  writeSentences(paper, slideLines(laid, plan));
  const always = again ? { chocks: '', breaking: '', frames: '' } : W;
  writeSentences(paper, [always.chocks, keepOutLine(paper, laid), always.breaking, always.frames]);
  writeHoldLines(paper, hold);
}

function writeSentences(paper: Paper, sentences: string[]): void {
  for (const sentence of sentences) {
    if (sentence === '') continue;
    writeParagraph(paper, tell(paper, sentence), { size: 9 }, { above: 3.5 });
  }
}

/** The hold-down in short, a line for every load case: how far what was entered carries it, and what to mind. */
function writeHoldLines(paper: Paper, hold: HeldVoid | undefined): void {
  if (!hold || hold.cases.length === 0) return;
  writeParagraph(paper, W.holdHead, { size: 9, weight: 'bold' }, { above: 3.5, keep: 24 });
  const heavier = hold.ifHeavier === null ? [] : [hold.ifHeavier];
  for (const line of [...hold.cases.map((each) => each.text), ...heavier, ...hold.notCounted, ...hold.cautions]) {
    writeParagraph(paper, tell(paper, line), { size: 9 }, { above: 1, item: true });
  }
  writeSentences(paper, [hold.minds.join(' ')]);
}

/** Openings, bearers and drain, battens and packing of the void, a sentence each. */
function bedLines(paper: Paper, laid: LaidVoid, plan: Plan): string[] {
  return [
    ...openingLines(paper, laid),
    bearerLine(paper, laid, plan),
    perMetreLine(laid, plan),
    laid.drain
      ? W.drain(
          lengthIn(paper, laid.drain.width),
          lengthIn(paper, laid.drain.height),
          laid.drain.where === 'middle',
          bedsOf(laid, plan).some((bed) => bed.cutOuts.some(({ what }) => what === 'drain')),
        )
      : '',
    battenLine(paper, laid, plan),
  ];
}

function keepOutLine(paper: Paper, laid: LaidVoid): string {
  const span = (range: readonly number[]) => W.span(lengthIn(paper, range[0] ?? 0), lengthIn(paper, range[1] ?? 0));
  const keepOuts = keepOutsIn(laid).map((keepOut) =>
    W.keepOut(
      keepOut.what ?? D.keepOut,
      span(keepOut.along),
      span(keepOut.across),
      keepOut.mass ? kg(keepOut.mass) : '',
    ),
  );
  return keepOuts.length > 0 ? W.keepOuts(keepOuts.join('; ')) : '';
}

function battenLine(paper: Paper, laid: LaidVoid, plan: Plan): string {
  const runs = new Map(plan.runs.filter((run) => run.void === laid.void).map((run) => [run.run, run]));
  const beds = bedsOf(laid, plan).map((bed) => {
    const run = runs.get(bed.run)!;
    const [from, to] = [lengthIn(paper, run.from), lengthIn(paper, run.to)];
    const cuts = cutOutsOf(bed, paper);
    const matting = cuts.length > 0 ? W.mattingCut(cuts) : '';
    if (laid.bearers) {
      const heights = byParts(bed, bed.bearers, paper).map(([parts, own]) => {
        const blocks = own.map(({ along, height }) => W.blockAt(plain(height, 1), lengthIn(paper, along)));
        return W.blocksParted(blocks.join(', '), parts);
      });
      return `${W.runOnBearers(bed.run, from, to, heights.join('; '))}${matting}`;
    }
    const battens = W.runLine(bed.run, from, to, battensTold(paper, bed));
    return `${battens}${bed.packing ? `, ${W.packed(plain(bed.packing[0]), plain(bed.packing[1]))}` : ''}.${matting}`;
  });
  return beds.join(' ');
}

/** The battens of a run that go right across, and those that do not. */
function battensTold(paper: Paper, bed: Bed): string[] {
  const length = lengthIn(paper, Math.floor(bed.width), 0, 'down');
  return byParts(bed, bed.battens, paper).map(([parts, own]) => {
    const places = own.map(({ along }) => lengthIn(paper, along, 0));
    return parts === '' ? W.wholeBattens(length, places) : W.partedBattens(places, parts);
  });
}

function openingLines(paper: Paper, laid: LaidVoid): string[] {
  return [...(laid.opening ? [laid.opening] : []), ...(laid.otherOpenings ?? [])].map(
    ({ along, across, endFirst, deck, at }) =>
      W.opening(
        lengthIn(paper, along, 2, 'down'),
        lengthIn(paper, across, 2, 'down'),
        at ? W.openingAt(lengthIn(paper, at.along), lengthIn(paper, at.across)) : W.openingAnywhere,
        endFirst ? W.endFirst(plain(deck)) : '',
      ),
  );
}

/** What each bearer carries, and the most that it may. */
function bearerLine(paper: Paper, laid: LaidVoid, plan: Plan): string {
  const loads = bearerLoads(laid, plan).map(({ along, width, load, most }) => {
    const carried = kg(load, 1);
    return W.bearer(
      lengthIn(paper, along),
      lengthIn(paper, width),
      most === undefined ? carried : W.ofMost(carried, kg(most, 1)),
    );
  });
  return loads.length === 0 ? '' : W.bearers(loads.join('; '));
}

function perMetreLine(laid: LaidVoid, plan: Plan): string {
  if (laid.mostPerMetre === undefined) return '';
  const runs = runLoads(laid, plan).map(({ run, perMetre }) => W.runPerMetre(run, kg(perMetre, 1)));
  return W.perMetre(plain(laid.mostPerMetre), runs.join(', '));
}

/** x, y and z of a centre; the unit of the metric ones stands behind the last. */
function placeOf(paper: Paper, { x, y, z }: NonNullable<PlanVoid['centre']>): [string, string, string] {
  const at = (metres: number) => figureIn(paper, metres, 'm', plain(metres));
  return [at(x), at(y), at(z)];
}
