/**
 * A void cut across where a bar or a strap holds its stow: the bar on the uppermost bundles with its bolts and the span
 * between them; the strap over the top, at its stated angle as far as the void goes. What it is made fast to is not stated.
 */
import { topOf, uppermost } from '../hold/tops.ts';
import type { BarAcross } from '../job/holdDown.ts';
import type { Void } from '../job/job.ts';
import type { Plan, PlanBundle } from '../plan/plan.ts';
import type { LaidVoid } from '../stow/laid.ts';
import type { Units } from '../units.ts';
import { breakMark, type DrawnBar, drawnBar, PAST_BOLT } from './holdBar.ts';
import { type HoldView, type PlacedFitting, placedFittings } from './holdPlace.ts';
import { type HoldRoom, markPlate, middleAt } from './holdPlan.ts';
import { laidVoid, voidTitle } from './laid.ts';
import { textWidth } from './letter.ts';
import { bottomAt, sidesAt } from './outline.ts';
import { chooseScale, dimensionAcross, lengthOn, withUnit } from './scale.ts';
import { circle, group, line, type Point, polyline, rect, type Scene, type Shape, text } from './scene.ts';
import { crossPlace, voidCrossScene } from './voidCross.ts';
import { DRAWING_WORDS as W } from './words.ts';

/** Room beside the section for what reaches past the sides, and below it for the span and words, mm of paper. */
const BELOW = 10;
const NOTE = 2.4;
const MARGINS = { across: 16, up: 15 };

type Place = (across: number, up: number) => Point;

/** The first of each row with a place, stated or taken, over a bundle, else over none: where sections are drawn. */
export function sectionFittings(view: HoldView): PlacedFitting[] {
  const drawn = placedFittings(view);
  const idle = new Set(view.covers.flatMap((cover) => cover.idle));
  return drawn.filter((one) => {
    const row = drawn.filter(({ letter }) => letter === one.letter);
    return one === (row.find(({ mark }) => !idle.has(mark)) ?? row[0]);
  });
}

export function holdCrossScene(space: Void, plan: Plan, view: HoldView, one: PlacedFitting, room: HoldRoom): Scene {
  const { units = 'metric' } = room;
  const laid = laidVoid(space, plan);
  const bar = one.kind === 'bar' ? view.marked.bars[one.entry]!.bar : null;
  const sides = sidesAt(laid, one.middle, laid.height);
  const middle = middleAt(laid, one.middle);
  const drawn = bar && drawnBar(laid, one.middle, bar);
  const reach = drawn ? Math.max(0, drawn.half + PAST_BOLT - (sides.to - sides.from) / 2) : 0;
  const scale = chooseScale(
    sides.to - sides.from + 2 * reach,
    laid.height,
    room.width - MARGINS.across,
    room.height - MARGINS.up - BELOW,
  );
  const along = cutAt(plan, laid.void, one);
  // What stands out past the sides, and the plate of its mark.
  const shift = reach / scale;
  const base = voidCrossScene(space, plan, along, {
    width: room.width,
    height: room.height,
    scale,
    aside: shift,
    units,
  });
  const at = crossPlace(laid, scale);
  const place: Place = (across, up) => ({ x: at(across, up).x + shift, y: at(across, up).y });
  const bundles = plan.bundles.filter((bundle) => bundle.void === laid.void);
  const tops = uppermost(bundles, one.middle - one.half - 1, one.middle + one.half + 1);
  const held =
    bar && drawn
      ? barShapes(bar, drawn, one, middle, topFor(tops, laid), place)
      : strapShapes(one, view, laid, tops, place);
  const below = place(0, bottomAt(laid, one.middle)).y + (bar ? 8 : 4.4);
  const span = bar && drawn ? spanShape(bar, drawn.half, middle, place, below, units) : [];
  const notes = [...notesOf(one, bar === null), ...(drawn && drawn.breakAt !== null ? [W.brokenOff] : [])];
  const least = Math.max(...notes.map((words) => textWidth(words, NOTE) + 2), 0);
  const width = Math.max(base.width + 2 * shift, least);
  return {
    width,
    height: below + 2 + notes.length * 3.6,
    title: one.settled
      ? W.holdCross(voidTitle(laid), one.mark, withUnit(units, one.middle))
      : W.holdAssumedAt(voidTitle(laid), one.mark),
    description: base.description,
    shapes: [
      group({ x: shift, y: 0 }, base.shapes),
      group({ x: 0, y: 0 }, held, one.mark),
      ...span,
      ...notes.map((words, i) => text('note', 1, below + 3.6 * (i + 1), words, NOTE)),
    ],
  };
}

/** A place in the run that it lies over where it lies over the gap between two: a cut there would show no bundle. */
function cutAt(plan: Plan, name: string, { middle, half }: PlacedFitting): number {
  const over = plan.bundles.filter(
    ({ void: space, at, size }) =>
      space === name && at.along <= middle + half && at.along + size.along >= middle - half,
  );
  const first = over[0];
  if (!first || over.some(({ at, size }) => at.along <= middle && middle <= at.along + size.along)) return middle;
  return Math.min(Math.max(middle, first.at.along + 1), first.at.along + first.size.along - 1);
}

/** The bar lies on the highest of them; without any, as high as a stow may reach. */
function topFor(tops: readonly PlanBundle[], laid: LaidVoid): number {
  return tops.length > 0 ? Math.max(...tops.map(topOf)) : laid.height - laid.clear.top;
}

function barShapes(
  bar: BarAcross,
  drawn: DrawnBar,
  one: PlacedFitting,
  middle: number,
  under: number,
  place: Place,
): Shape[] {
  const height = bar.onEdge ? bar.width : bar.thickness;
  const { half, breakAt } = drawn;
  const [a, b] = [place(middle - half - PAST_BOLT, under + height), place(middle + half + PAST_BOLT, under)];
  const bolts = [middle - half, middle + half].flatMap((across) => {
    const head = place(across, under + height);
    const foot = place(across, under - 3 * height);
    return [line('joint', head.x, head.y - 0.9, foot.x, foot.y), circle('ink', head.x, head.y - 0.6, 0.7)];
  });
  return [
    rect(one.settled ? 'steel' : 'unsettled', a.x, a.y, b.x - a.x, b.y - a.y),
    ...(breakAt === null ? [] : [middle - breakAt, middle + breakAt]).flatMap((across) =>
      breakMark({ x: place(across, under).x, y: (a.y + b.y) / 2 }, b.y - a.y, false),
    ),
    ...bolts,
    ...markPlate(one.mark, b.x - 2.4, a.y - 4.2),
  ];
}

function spanShape(bar: BarAcross, half: number, middle: number, place: Place, y: number, units: Units): Shape[] {
  const [a, b] = [place(middle - half, 0), place(middle + half, 0)];
  return [dimensionAcross(a.x, b.x, y, W.betweenBolts(lengthOn(units, bar.span)))];
}

/** Over the upper corners of the stow, then down at its angle to the floor until it meets the side or the bottom. */
function strapShapes(
  one: PlacedFitting,
  { marked }: HoldView,
  laid: LaidVoid,
  tops: readonly PlanBundle[],
  place: Place,
): Shape[] {
  const { angle } = marked.straps[one.entry]!.strap;
  const hull = upperHull(tops.flatMap((bundle) => cornersOf(bundle)));
  const [first, last] = [hull[0], hull.at(-1)];
  if (!first || !last) return markPlate(one.mark, place(0, laid.height).x, place(0, laid.height).y + 4);
  const slope = Math.tan((angle * Math.PI) / 180);
  const points = [outward(first, -1, slope, laid, one), ...hull, outward(last, 1, slope, laid, one)];
  const highest = hull.reduce((top, point) => (point.y > top.y ? point : top));
  const mark = place(highest.x, highest.y);
  return [
    polyline(
      one.settled ? 'strap' : 'unsettled',
      points.map((point) => place(point.x, point.y)),
    ),
    ...markPlate(one.mark, mark.x, mark.y - 3),
  ];
}

function cornersOf(bundle: PlanBundle): Point[] {
  const top = topOf(bundle);
  return [
    { x: bundle.at.across, y: top },
    { x: bundle.at.across + bundle.size.across, y: top },
  ];
}

/** Of points (across, up), those that a cord drawn tight over them touches, least across first. */
function upperHull(points: readonly Point[]): Point[] {
  const hull: Point[] = [];
  for (const point of [...points].sort((p, q) => p.x - q.x || q.y - p.y)) {
    // Right under one that it touches already: a strap that leans outward from there passes clear of it.
    if (hull.at(-1)?.x === point.x) continue;
    while (hull.length > 1 && turns(hull.at(-2)!, hull.at(-1)!, point) >= 0) hull.pop();
    hull.push(point);
  }
  return hull;
}

function turns(a: Point, b: Point, c: Point): number {
  return (b.x - a.x) * (c.y - a.y) - (b.y - a.y) * (c.x - a.x);
}

function outward(from: Point, way: -1 | 1, slope: number, laid: LaidVoid, { middle }: PlacedFitting): Point {
  const bottom = bottomAt(laid, middle);
  const steps = 200;
  let last = from;
  for (let i = 1; i <= steps; i += 1) {
    const y = from.y - ((from.y - bottom) * i) / steps;
    const x = from.x + (way * (from.y - y)) / slope;
    const sides = sidesAt(laid, middle, y);
    if (x < sides.from || x > sides.to) break;
    last = { x, y };
  }
  return last;
}

function notesOf(one: PlacedFitting, strap: boolean): string[] {
  return [...(strap ? [W.anchorage] : []), ...(one.settled ? [] : [W.unsettled])];
}
