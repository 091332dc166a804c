/** The making list: what must still be bought and made, each with its reckoning in one line. */
import type { Writable } from 'node:stream';
import { bedsOf } from '../../src/drawing/bed.ts';
import { laidVoid } from '../../src/drawing/laid.ts';
import type { BarAcross } from '../../src/job/holdDown.ts';
import type { Job } from '../../src/job/job.ts';
import { type ChockMade, chockMade } from '../../src/plan/chockMade.ts';
import { chocksOf, isAtEnd, looseness } from '../../src/plan/chocks.ts';
import { coatingOf, tyingOf } from '../../src/plan/materials.ts';
import type { Plan } from '../../src/plan/plan.ts';
import { shortages } from '../../src/plan/shortages.ts';
import { limitsPassed } from './balanceSheet.ts';
import { bedItems } from './bedItems.ts';
import { figureIn, lengthIn, lengthWithUnit, METRIC, massTold, tell, type Wanted } from './feet.ts';
import { plain } from './figures.ts';
import { MAKING_WORDS as W } from './makingWords.ts';
import { closePaper, ensureRoom, newPage, openPaper, type Paper, type PaperOptions, writeParagraph } from './page.ts';
import { writeTable } from './table.ts';

/** One line of the list. */
export interface Making {
  group: string;
  what: string;
  quantity: string;
  reckoning: string;
}

export async function writeMakingList(job: Job, plan: Plan, options: PaperOptions, out: Writable): Promise<void> {
  const paper = openPaper(W.title, job, plan, options, out);
  newPage(paper);
  const list = makingsOf(job, plan, paper);
  for (const key of Object.keys(W.groups) as (keyof typeof W.groups)[]) {
    const group = W.groups[key];
    const items = list.filter((item) => item.group === group);
    if (items.length === 0) continue;
    const passed = key === 'steel' ? limitsPassed(job, plan) : [];
    const notes = key === 'chocks' ? [W.notes.chocks, W.madeNotes(chocksMade(job, plan))] : [W.notes[key]];
    const note = passed.length > 0 ? W.limits(passed.join(' ')) : notes.filter((words) => words !== '').join(' ');
    await writeGroup(paper, group, note, items);
  }
  writeParagraph(paper, W.foot, { size: 9 }, { above: 6 });
  await closePaper(paper);
}

async function writeGroup(paper: Paper, group: string, note: string, items: Making[]): Promise<void> {
  ensureRoom(paper, 80);
  writeParagraph(paper, group, { size: 12, weight: 'bold' }, { above: 6, keep: 60 });
  writeParagraph(paper, tell(paper, note), { size: 8.5 });
  const columns = [
    { head: '', tick: true, width: 22 },
    { head: W.heads.what, share: 4 },
    { head: W.heads.quantity, share: 3, bold: true },
    { head: W.heads.reckoning, share: 5 },
  ];
  await writeTable(
    paper,
    columns,
    items.map((item) => ['', item.what, item.quantity, item.reckoning]),
    { size: 9, rowHeight: 17 },
  );
}

/**
 * Every line of the list, in the order in which it is worked off. In the other units too where they are wanted: what is
 * bought goes up, what is cut to fit goes down.
 */
export function makingsOf(job: Job, plan: Plan, wanted: Wanted = METRIC): Making[] {
  return [
    ...toBuy(job, plan, wanted),
    ...beds(job, plan, wanted),
    ...chocks(job, plan, wanted),
    ...tying(job, plan, wanted),
    ...coating(job, plan, wanted),
    ...holding(job, plan, wanted),
  ];
}

function metres(wanted: Wanted, length: number): string {
  return figureIn(wanted, length, 'm', `${plain(length, 1)} m`, 'up');
}

function area(wanted: Wanted, squareMetres: number, decimals = 2): string {
  return figureIn(wanted, squareMetres, 'm²', `${plain(squareMetres, decimals)} m²`, 'up');
}

function toBuy(job: Job, plan: Plan, wanted: Wanted): Making[] {
  const short = shortages(job, plan);
  if (short.length === 0)
    return [{ group: W.groups.steel, what: W.noSteel, quantity: W.noQuantity, reckoning: W.noSteelWhy }];
  return short.map((each) => {
    const left = each.left > 0.005 ? massTold(wanted, each.left, 1) : null;
    const spare = each.spare === null ? null : massTold(wanted, each.spare, 1, 'down');
    const figures = { short: massTold(wanted, each.short, undefined, 'up'), left, spare };
    const { lack, void: space } = each;
    if (lack !== 'steel')
      return {
        group: W.groups.steel,
        what: W.nothing(space),
        quantity: W.noQuantity,
        reckoning: W.notSteelWhy(figures, lack),
      };
    return {
      group: W.groups.steel,
      what: W.steel(each.section, space),
      quantity: metres(wanted, each.metres),
      reckoning: W.steelWhy(
        figures,
        figureIn(wanted, each.massPerMetre, 'kg/m', `${plain(each.massPerMetre, 3)} kg/m`),
        each.within > 0.005 ? massTold(wanted, each.within, 1) : null,
      ),
    };
  });
}

function filledVoids(job: Job, plan: Plan) {
  const filled = new Set(plan.bundles.map((bundle) => bundle.void));
  return job.voids.filter((space) => filled.has(space.void)).map((space) => laidVoid(space, plan));
}

function beds(job: Job, plan: Plan, wanted: Wanted): Making[] {
  return filledVoids(job, plan).flatMap((laid) => bedItems(laid, bedsOf(laid, plan), wanted));
}

function chocksMade(job: Job, plan: Plan): ChockMade[] {
  return filledVoids(job, plan).flatMap((laid) => chocksOf(laid, plan).map((chock) => chockMade(laid, chock)));
}

function chocks(job: Job, plan: Plan, wanted: Wanted): Making[] {
  return filledVoids(job, plan).flatMap((laid) =>
    chocksOf(laid, plan).map((chock) => {
      const end = isAtEnd(chock);
      const cut = (mm: number) => lengthIn(wanted, mm, 2, 'down');
      return {
        group: W.groups.chocks,
        what: W.chock(chock.mark, W.side(chock, laid.axis)),
        quantity: [
          W.block(W.wedgeOf(chock.size, chock.sizeAtHead, cut), cut(chock.height), end),
          W.made(chockMade(laid, chock), end, cut),
        ]
          .filter((words) => words !== '')
          .join(': '),
        reckoning: W.chockWhy(
          lengthWithUnit(wanted, chock.length, 0, 'down'),
          lengthWithUnit(wanted, looseness(laid)),
          end,
        ),
      };
    }),
  );
}

function tying(job: Job, plan: Plan, wanted: Wanted): Making[] {
  const group = W.groups.tying;
  const need = tyingOf(job, plan);
  const items: Making[] = [
    {
      group,
      what: W.bands,
      quantity: W.counted(need.bands),
      reckoning: W.bandsWhy(metres(wanted, need.bandMetres)),
    },
  ];
  if (need.cordMetres > 0) {
    const cord = job.bundle.becket?.cord;
    items.push({
      group,
      what: W.cord(cord === undefined ? null : lengthWithUnit(wanted, cord)),
      quantity: metres(wanted, need.cordMetres),
      reckoning: W.cordWhy,
    });
  }
  if (need.endCaps > 0)
    items.push({ group, what: W.endCaps, quantity: W.counted(need.endCaps), reckoning: W.endCapsWhy });
  items.push({
    group,
    what: W.tags,
    quantity: W.counted(need.tags + need.spareTags),
    reckoning: W.tagsWhy(need.tags, need.spareTags),
  });
  return items;
}

function coating(job: Job, plan: Plan, wanted: Wanted): Making[] {
  const group = W.groups.coating;
  const need = coatingOf(job, plan);
  return [
    { group, what: W.paint, quantity: area(wanted, need.surface), reckoning: W.paintWhy(need.pieces) },
    { group, what: W.zincPaint, quantity: area(wanted, need.ends, 3), reckoning: W.zincPaintWhy(need.pieces) },
    {
      group,
      what: W.blades,
      quantity: figureIn(wanted, need.cutArea, 'cm²', `${plain(need.cutArea, 0)} cm²`, 'up'),
      reckoning: W.bladesWhy(need.cuts),
    },
  ];
}

/** Straps and bars as entered for the voids that carry bundles. */
function holding(job: Job, plan: Plan, wanted: Wanted): Making[] {
  const group = W.groups.holding;
  return filledVoids(job, plan).flatMap(({ void: space, holdDown }): Making[] => {
    const straps = (holdDown?.straps ?? []).map((strap) => ({
      group,
      what: W.strap(space, strap.kind),
      quantity: W.counted(strap.count),
      reckoning: W.strapWhy(figureIn(wanted, strap.lashingCapacity, 'kN', `${plain(strap.lashingCapacity)} kN`, 'up')),
    }));
    const bars = (holdDown?.bars ?? []).map((bar) => ({
      group,
      what: W.bar(space, sizeOf(wanted, bar)),
      quantity: W.counted(bar.count),
      reckoning: W.barWhy(
        lengthWithUnit(wanted, bar.span),
        bar.count * bar.bolts.perBar,
        bar.bolts.size,
        bar.bolts.grade,
      ),
    }));
    return [...straps, ...bars];
  });
}

/** `40 × 10 mm` of a bar across. */
function sizeOf(wanted: Wanted, { width, thickness }: BarAcross): string {
  return tell(wanted, `${plain(width)} × ${plain(thickness)} mm`);
}
