/** The making list: what must still be bought and made, each with its reckoning in one line. */
import type { Writable } from 'node:stream';
import { type Bed, bedsOf } from '../../src/drawing/bed.ts';
import { laidVoid } from '../../src/drawing/laid.ts';
import type { Job } from '../../src/job/job.ts';
import { chocksOf, looseness } from '../../src/plan/chocks.ts';
import { coatingOf, tyingOf } from '../../src/plan/materials.ts';
import type { Plan } from '../../src/plan/plan.ts';
import { shortages } from '../../src/plan/shortages.ts';
import type { LaidVoid } from '../../src/stow/laid.ts';
import { limitsPassed } from './balanceSheet.ts';
import { kg, plain } from './figures.ts';
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
  const list = makingsOf(job, plan);
  for (const key of Object.keys(W.groups) as (keyof typeof W.groups)[]) {
    const group = W.groups[key];
    const items = list.filter((item) => item.group === group);
    if (items.length === 0) continue;
    const passed = key === 'steel' ? limitsPassed(job, plan) : [];
    const note = passed.length > 0 ? W.limits(passed.join(' ')) : W.notes[key];
    await writeGroup(paper, group, note, items);
  }
  writeParagraph(paper, W.foot, { size: 9 }, { above: 6 });
  await closePaper(paper);
}

async function writeGroup(paper: Paper, group: string, note: string, items: Making[]): Promise<void> {
  ensureRoom(paper, 80);
  writeParagraph(paper, group, { size: 12, weight: 'bold' }, { above: 6, keep: 60 });
  writeParagraph(paper, note, { size: 8.5 });
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

/** Every line of the list, in the order in which it is worked off. */
export function makingsOf(job: Job, plan: Plan): Making[] {
  return [
    ...toBuy(job, plan),
    ...beds(job, plan),
    ...chocks(job, plan),
    ...tying(job, plan),
    ...coating(job, plan),
    ...holding(job, plan),
  ];
}

function toBuy(job: Job, plan: Plan): Making[] {
  const short = shortages(job, plan);
  if (short.length === 0) return [{ group: W.groups.steel, what: W.noSteel, quantity: '0', reckoning: W.noSteelWhy }];
  return short.map((each) => {
    const left = each.left > 0.005 ? kg(each.left, 1) : null;
    const figures = { short: kg(each.short), left, spare: each.spare === null ? null : kg(each.spare, 1) };
    const { lack, void: space } = each;
    if (lack !== 'steel')
      return {
        group: W.groups.steel,
        what: W.steel(W.noSteel, space),
        quantity: '0',
        reckoning: W.notSteelWhy(figures, lack),
      };
    return {
      group: W.groups.steel,
      what: W.steel(each.section, space),
      quantity: W.metres(plain(each.metres, 1)),
      reckoning: W.steelWhy(figures, plain(each.massPerMetre, 3), each.within > 0.005 ? kg(each.within, 1) : null),
    };
  });
}

function filledVoids(job: Job, plan: Plan) {
  const filled = new Set(plan.bundles.map((bundle) => bundle.void));
  return job.voids.filter((space) => filled.has(space.void)).map((space) => laidVoid(space, plan));
}

function beds(job: Job, plan: Plan): Making[] {
  const group = W.groups.bed;
  return filledVoids(job, plan).flatMap((laid): Making[] => {
    const runs = bedsOf(laid, plan);
    const area = runs.reduce((sum, bed) => sum + bed.matting, 0);
    const matting = runs.map((bed) => W.mattingRun(bed.run, plain(bed.length), plain(bed.width, 0))).join(', ');
    const items = [{ group, what: W.matting(laid.void), quantity: W.area(plain(area, 2)), reckoning: matting }];
    if (laid.bearers) return [...items, ...onBearers(laid, runs)];
    const lengths = [...new Set(runs.map((bed) => bed.battens.length))].sort((p, q) => q - p);
    for (const length of laid.dunnage > 0 ? lengths : []) {
      const alike = runs.filter((bed) => bed.battens.length === length);
      const count = alike.reduce((sum, bed) => sum + bed.battens.count, 0);
      items.push({
        group,
        what: W.battens(laid.void, plain(laid.dunnage)),
        quantity: W.pieces(count, plain(length, 0)),
        reckoning: alike.map((bed) => W.battensRun(bed.run, plain(bed.length))).join(', '),
      });
    }
    for (const bed of runs) {
      if (!bed.packing) continue;
      const [first, last] = bed.packing;
      items.push({
        group,
        what: W.packing(W.run(laid.void, bed.run)),
        quantity: W.wedge(plain(first), plain(last)),
        reckoning: W.packingWhy(plain(laid.dunnage)),
      });
    }
    return items;
  });
}

/** What levels the ground tier on the stated bearers: a block on each, alike ones together. */
function onBearers(laid: LaidVoid, runs: Bed[]): Making[] {
  const blocks = new Map<string, { size: string; length: string; places: string[] }>();
  for (const bed of runs) {
    for (const { along, width, height } of bed.bearers) {
      const size = W.bearerBlock(laid.void, plain(width), plain(height, 1));
      const length = plain(bed.battens.length);
      const block = blocks.get(`${size} ${length}`) ?? { size, length, places: [] };
      blocks.set(`${size} ${length}`, { ...block, places: [...block.places, W.bearerAt(bed.run, plain(along))] });
    }
  }
  return [...blocks.values()].map(({ size, length, places }) => ({
    group: W.groups.bed,
    what: size,
    quantity: W.pieces(places.length, length),
    reckoning: places.join(', '),
  }));
}

function chocks(job: Job, plan: Plan): Making[] {
  return filledVoids(job, plan).flatMap((laid) =>
    chocksOf(laid, plan).map((chock) => {
      const end = !['least', 'most', 'inner'].includes(chock.side);
      return {
        group: W.groups.chocks,
        what: W.chock(chock.mark, W.side(chock.side, laid.axis)),
        quantity: W.block(W.wedgeOf(chock.size, chock.sizeAtHead, plain), plain(chock.height), end),
        reckoning: W.chockWhy(plain(chock.length, 0), plain(looseness(laid)), end),
      };
    }),
  );
}

function tying(job: Job, plan: Plan): Making[] {
  const group = W.groups.tying;
  const need = tyingOf(job, plan);
  const items: Making[] = [
    {
      group,
      what: W.bands,
      quantity: W.counted(need.bands),
      reckoning: W.bandsWhy(plain(need.bandMetres, 1)),
    },
  ];
  if (need.cordMetres > 0) {
    const cord = job.bundle.becket?.cord;
    items.push({
      group,
      what: W.cord(cord === undefined ? null : plain(cord)),
      quantity: W.metres(plain(need.cordMetres, 1)),
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

function coating(job: Job, plan: Plan): Making[] {
  const group = W.groups.coating;
  const need = coatingOf(job, plan);
  return [
    { group, what: W.paint, quantity: W.area(plain(need.surface, 2)), reckoning: W.paintWhy(need.pieces) },
    { group, what: W.zincPaint, quantity: W.area(plain(need.ends, 3)), reckoning: W.zincPaintWhy(need.pieces) },
    { group, what: W.blades, quantity: W.squareCm(plain(need.cutArea, 0)), reckoning: W.bladesWhy(need.cuts) },
  ];
}

/** Straps and bars as entered for the voids that carry bundles. */
function holding(job: Job, plan: Plan): Making[] {
  const group = W.groups.holding;
  return filledVoids(job, plan).flatMap(({ void: space, holdDown }): Making[] => {
    const straps = (holdDown?.straps ?? []).map((strap) => ({
      group,
      what: W.strap(space, strap.kind),
      quantity: W.counted(strap.count),
      reckoning: W.strapWhy(plain(strap.lashingCapacity)),
    }));
    const bars = (holdDown?.bars ?? []).map((bar) => ({
      group,
      what: W.bar(space, `${plain(bar.width)} × ${plain(bar.thickness)}`),
      quantity: W.counted(bar.count),
      reckoning: W.barWhy(plain(bar.span), bar.count * bar.bolts.perBar, bar.bolts.size, bar.bolts.grade),
    }));
    return [...straps, ...bars];
  });
}
