/**
 * A void from above with what holds its stow: bars across with their bolts, straps over the top, what blocks its sides, each
 * with its mark, and measured along where the job states a place. What has no stated place is dashed and has no measure.
 */
import type { MarkedBlock } from '../hold/fittings.ts';
import { runsOf } from '../hold/runs.ts';
import type { Side } from '../job/holdDown.ts';
import type { Void } from '../job/job.ts';
import type { Plan } from '../plan/plan.ts';
import type { LaidVoid } from '../stow/laid.ts';
import type { Units } from '../units.ts';
import { fittedAbove } from './fitted.ts';
import { hatchRect } from './hatch.ts';
import { breakMark, drawnBar, PAST_BOLT } from './holdBar.ts';
import { type HoldView, type PlacedFitting, placedFittings } from './holdPlace.ts';
import { laidVoid, voidTitle } from './laid.ts';
import { fitSize, textWidth } from './letter.ts';
import { planOutline, sidesAt, widestSides } from './outline.ts';
import { chooseScale, dimensionAcross, lengthOn, scaleBar } from './scale.ts';
import { centredText, circle, group, line, type Point, polygon, rect, type Scene, type Shape, text } from './scene.ts';
import { DRAWING_WORDS as W } from './words.ts';

/** Room for dimension and names above; below for runs and scale bar, and for each line of words. Mm of paper. */
const MARGIN = { above: 6.5, below: 15.4, note: 4 };
const NAME = 2.6;
const NAME_LINE = 3.2;
/** Of what blocks a side, mm of paper: nothing is stated of its size. */
const BLOCK = 3.2;
const MARK = 3.2;
const MARK_ROW = 4.6;
const CHAIN = 5;

type Place = (along: number, across: number) => Point;

/** Room for a drawing, mm of paper. */
export interface HoldRoom {
  width: number;
  height: number;
  units?: Units;
}

/** Fore-and-aft the bow is to the right and starboard below; athwartships port is to the left and forward above. */
export function holdPlanScene(space: Void, plan: Plan, view: HoldView, room: HoldRoom): Scene {
  const { units = 'metric' } = room;
  const laid = laidVoid(space, plan);
  const sides = widestSides(laid);
  const drawn = placedFittings(view);
  const reach = reachOf(laid, view, drawn, sides);
  const settled = drawn.filter((one) => one.settled);
  const chain = settled.length > 0 ? CHAIN : 0;
  const wide = reach.to - reach.from;
  const beside = besideOf(laid);
  const notes = notesOf(laid, view, drawn);
  const under = MARGIN.below + MARGIN.note * notes.length;
  // Marks stand in as many rows as they need; that is known once the scale is.
  const scale = chooseScale(
    laid.length,
    wide,
    room.width - beside.left - beside.right,
    room.height - MARGIN.above - under - chain - 2 * MARK_ROW,
  );
  const rows = markRows(drawn, scale);
  const marks = MARGIN.above + chain + MARK_ROW * Math.max(1, ...rows.map((row) => row + 1)) + 1;
  // What blocks the upper side stands between marks and void where no bar reaches as far.
  const top = marks + (view.marked.blocks.length > 0 ? Math.max(0, BLOCK - (sides.from - reach.from) / scale) : 0);
  const down = laid.axis === 'fore-and-aft';
  const place: Place = (along, across) => ({
    x: beside.left + along / scale,
    y: top + (down ? across - reach.from : reach.to - across) / scale,
  });
  const [start, end] = [place(0, 0).x, place(laid.length, 0).x];
  const low = Math.max(place(0, reach.from).y, place(0, reach.to).y);
  const bundles = plan.bundles.filter((bundle) => bundle.void === laid.void).sort((p, q) => p.at.up - q.at.up);
  const fitted = fittedAbove(laid, place, { bare: false, named: false, labelled: bundles.length === 0 });
  const outline = planOutline(laid, laid.height).map((p) => place(p.x, p.y));
  const bar = scaleBar(scale, (end - start) * 0.45, units);
  const shapes: Shape[] = [
    ...view.marked.blocks.flatMap((block) => blockShape(block, laid, place, sides, drawn)),
    polygon('void', outline),
    ...fitted.under,
    ...bundles.map(({ bundle, at, size }) => {
      const [a, b] = [place(at.along, at.across), place(at.along + size.along, at.across + size.across)];
      return group({ x: 0, y: 0 }, [rect('bundle', a.x, Math.min(a.y, b.y), b.x - a.x, Math.abs(b.y - a.y))], bundle);
    }),
    ...fitted.over,
    ...drawn.map((one, i) => {
      const markAt = marks - 1 - MARK_ROW * (rows[i]! + 0.5);
      return group({ x: 0, y: 0 }, fittingShapes(one, laid, view, place, markAt), one.mark);
    }),
    ...chainOf(settled, laid, place, MARGIN.above + chain - 1.5, units),
    dimensionAcross(start, end, 4, lengthOn(units, laid.length)),
    ...runMarks(runsOf(plan, laid.void), place, low + BLOCK + 3.4),
    ...names(laid, place, sides),
    group({ x: start, y: low + BLOCK + 6 }, bar.shapes),
    ...notes.map((words, i) => {
      const size = fitSize(words, room.width - beside.left - 2, 2.6, 1.5) ?? 1.5;
      return text('note', start, low + BLOCK + 14 + 3.6 * i, words, size);
    }),
  ];
  return {
    width: Math.max(beside.left + laid.length / scale + beside.right, start + bar.width),
    height: low + under,
    title: W.holdPlan(voidTitle(laid)),
    description: inWords(view, drawn, units),
    shapes,
  };
}

/** Room for the names of ends and sides, past what blocks them, mm of paper. */
function besideOf({ axis }: LaidVoid): { left: number; right: number } {
  const [{ least, most }, sides] = [W.ends[axis], W.sides[axis]];
  const names = [textWidth(least, NAME, true), textWidth(sides.least, NAME), textWidth(sides.most, NAME)];
  return { left: BLOCK + 1.8 + Math.max(...names), right: BLOCK + 1.8 + textWidth(most, NAME, true) };
}

/** As far across as anything reaches: bolts stand outside the stow. */
function reachOf(
  laid: LaidVoid,
  { marked }: HoldView,
  drawn: readonly PlacedFitting[],
  sides: { from: number; to: number },
): { from: number; to: number } {
  const ends = drawn.flatMap((one) => {
    if (one.kind !== 'bar') return [];
    const middle = middleAt(laid, one.middle);
    const half = drawnBar(laid, one.middle, marked.bars[one.entry]!.bar).half + PAST_BOLT;
    return [middle - half, middle + half];
  });
  return { from: Math.min(sides.from, ...ends), to: Math.max(sides.to, ...ends) };
}

/** Half-way between the sides, at the top: nothing else is stated of where a bar across lies that way. */
export function middleAt(laid: LaidVoid, along: number): number {
  const { from, to } = sidesAt(laid, along, laid.height - laid.clear.top);
  return (from + to) / 2;
}

/** The bar or strap, its bolts, and its mark above it. */
function fittingShapes(
  one: PlacedFitting,
  laid: LaidVoid,
  { marked }: HoldView,
  place: Place,
  markAt: number,
): Shape[] {
  const { from, to } = sidesAt(laid, one.middle, laid.height);
  const middle = middleAt(laid, one.middle);
  const row = one.kind === 'bar' ? marked.bars[one.entry]!.bar : null;
  const { half, breakAt } = row ? drawnBar(laid, one.middle, row) : { half: 0, breakAt: null };
  const ends = row ? [middle - half - PAST_BOLT, middle + half + PAST_BOLT] : [from, to];
  const [a, b] = [place(one.middle - one.half, ends[0]!), place(one.middle + one.half, ends[1]!)];
  const [high, low] = [Math.min(a.y, b.y), Math.max(a.y, b.y)];
  const x = (a.x + b.x) / 2;
  const body = row
    ? [rect(one.settled ? 'steel' : 'unsettled', a.x, high, b.x - a.x, low - high)]
    : [line(one.settled ? 'strap' : 'unsettled', x, high, x, low)];
  const bolts = row ? [middle - half, middle + half].flatMap((across) => bolt(place(one.middle, across))) : [];
  const breaks = breakAt === null ? [] : [middle - breakAt, middle + breakAt];
  const broken = breaks.flatMap((across) => breakMark({ x, y: place(one.middle, across).y }, b.x - a.x, true));
  return [
    ...body,
    ...broken,
    ...bolts,
    line('dimension', x, markAt + MARK * 0.6, x, high),
    ...markPlate(one.mark, x, markAt),
  ];
}

function bolt({ x, y }: Point): Shape[] {
  return [circle('hollow', x, y, 0.9), circle('ink', x, y, 0.35)];
}

export function markPlate(mark: string, x: number, y: number): Shape[] {
  const width = textWidth(mark, MARK, true) + 0.8;
  return [
    rect('hollow', x - width / 2, y - MARK * 0.62, width, MARK * 1.24),
    centredText('label', x, y, mark, MARK, true),
  ];
}

/** For each, the lowest row in which its mark stands clear of those before it. */
function markRows(drawn: readonly PlacedFitting[], scale: number): number[] {
  const taken: number[] = [];
  return drawn.map(({ middle, mark }) => {
    const half = (textWidth(mark, MARK, true) + 1.4) / 2;
    const x = middle / scale;
    const free = taken.findIndex((end) => end <= x - half);
    const row = free < 0 ? taken.length : free;
    taken[row] = x + half;
    return row;
  });
}

/** From end to stated place, from place to place, and to the other end. */
function chainOf(settled: readonly PlacedFitting[], laid: LaidVoid, place: Place, y: number, units: Units): Shape[] {
  if (settled.length === 0) return [];
  const stops = [...new Set([0, ...settled.map(({ middle }) => middle), laid.length])];
  return stops.slice(1).map((to, i) => {
    const from = stops[i]!;
    const [x1, x2] = [place(from, 0).x, place(to, 0).x];
    const words = lengthOn(units, to - from);
    const size = fitSize(words, x2 - x1 - 0.4, 2.6, 1.7);
    return dimensionAcross(x1, x2, y, size === null ? '' : words, size ?? 2.6);
  });
}

function runMarks(runs: ReturnType<typeof runsOf>, place: Place, y: number): Shape[] {
  return runs.map((run) => dimensionAcross(place(run.from, 0).x, place(run.to, 0).x, y, W.run(run.run), 2.4));
}

/** A hatched band along the side it blocks, as long as that: how much of it stands there is not stated. */
function blockShape(
  block: MarkedBlock,
  laid: LaidVoid,
  place: Place,
  sides: { from: number; to: number },
  drawn: readonly PlacedFitting[],
): Shape[] {
  if (block.side === 'down') return [];
  const { start, end, above } = DRAWN[laid.axis];
  const [a, b] = [place(0, sides.from), place(laid.length, sides.to)];
  const [high, low] = [Math.min(a.y, b.y), Math.max(a.y, b.y)];
  const across = block.side === start || block.side === end;
  const box = across
    ? rect('chock', block.side === start ? a.x - BLOCK : b.x, high, BLOCK, low - high)
    : rect('chock', a.x, block.side === above ? high - BLOCK : low, b.x - a.x, BLOCK);
  const middle = {
    x: across ? box.x + box.width / 2 : place(widestGap([0, ...drawn.map((one) => one.middle), laid.length]), 0).x,
    y: box.y + box.height / 2,
  };
  const shapes = [
    box,
    ...hatchRect(box.x, box.y, box.width, box.height, 1.3),
    ...markPlate(block.letter, middle.x, middle.y),
  ];
  return [group({ x: 0, y: 0 }, shapes, block.letter, block.by)];
}

/** The middle of the widest gap between `stops`, which rise: a mark there stands clear of the bars. */
function widestGap(stops: readonly number[]): number {
  const gaps = stops.slice(1).map((to, i) => ({ middle: (to + stops[i]!) / 2, width: to - stops[i]! }));
  return gaps.reduce((best, gap) => (gap.width > best.width + 1 ? gap : best)).middle;
}

/** Which of the sides that `blocked` names is where on the drawing; the fourth is below. */
const DRAWN: Readonly<Record<LaidVoid['axis'], { start: Side; end: Side; above: Side }>> = {
  'fore-and-aft': { start: 'aft', end: 'forward', above: 'port' },
  athwartships: { start: 'port', end: 'starboard', above: 'forward' },
};

/** What lies at the ends and sides, beside the drawing, clear of marks. */
function names(laid: LaidVoid, place: Place, sides: { from: number; to: number }): Shape[] {
  const [ends, beside] = [W.ends[laid.axis], W.sides[laid.axis]];
  const [a, b] = [place(0, sides.from), place(laid.length, sides.to)];
  const [high, low] = [Math.min(a.y, b.y), Math.max(a.y, b.y)];
  const [above, below] = a.y < b.y ? [beside.least, beside.most] : [beside.most, beside.least];
  const out = BLOCK + 1.2;
  const middle = (high + low) / 2 + 1;
  // In a void drawn low the three names beside it still stand clear of each other.
  return [
    text('note', a.x - out, Math.min(high + 1.8, middle - NAME_LINE), above, NAME, 'end'),
    text('label', a.x - out, middle, ends.least, NAME, 'end', true),
    text('note', a.x - out, Math.max(low, middle + NAME_LINE), below, NAME, 'end'),
    text('label', b.x + out, middle, ends.most, NAME, 'start', true),
  ];
}

/** What dashes and breaks mean. */
function notesOf(laid: LaidVoid, { marked }: HoldView, drawn: readonly PlacedFitting[]): string[] {
  const broken = drawn.some(
    (one) => one.kind === 'bar' && drawnBar(laid, one.middle, marked.bars[one.entry]!.bar).breakAt !== null,
  );
  const left = [...marked.bars, ...marked.straps]
    .flatMap(({ fittings }) => fittings)
    .filter(({ mark }) => drawn.every((one) => one.mark !== mark));
  return [
    ...(drawn.every((one) => one.settled) ? [] : [W.unsettled]),
    ...(broken ? [W.brokenOff] : []),
    ...(left.length > 0 ? [W.notDrawn(left.map(({ mark }) => mark).join(', '))] : []),
  ];
}

function inWords({ marked }: HoldView, drawn: readonly PlacedFitting[], units: Units): string {
  const placed = drawn.filter((one) => one.settled).map(({ mark, middle }) => `${mark} ${lengthOn(units, middle)}`);
  const assumed = drawn.filter((one) => !one.settled).map(({ mark }) => mark);
  const blocks = marked.blocks.map(({ letter, side }) => `${letter} ${side}`);
  return W.holdInWords(
    placed.join(', '),
    assumed.join(', '),
    blocks.join(', '),
    units === 'metric' ? undefined : ' along',
  );
}
