/** A void from above: true outline, keep-outs, and the bundles numbered in loading order, all together or one tier. */
import type { KeepOut, Void } from '../job/job.ts';
import type { Chock } from '../plan/chocks.ts';
import type { Plan, PlanBundle } from '../plan/plan.ts';
import type { LaidVoid } from '../stow/laid.ts';
import type { Units } from '../units.ts';
import { type Doubt, fittedAbove, ringsAbove } from './fitted.ts';
import { keepOutsIn, laidVoid, voidTitle } from './laid.ts';
import { fitSize, textWidth } from './letter.ts';
import { bottomAt, planOutline, widestSides } from './outline.ts';
import { chooseScale, dimensionAcross, lengthOn, scaleBar } from './scale.ts';
import {
  centredText,
  group,
  line,
  type Point,
  polygon,
  type Rect,
  rect,
  type Scene,
  type Shape,
  text,
} from './scene.ts';
import { woodAbove } from './wood.ts';
import { DRAWING_WORDS as W } from './words.ts';

export interface VoidSceneOptions {
  /** Room for the picture, mm. */
  width: number;
  height: number;
  /** Real mm for one of paper; default: the largest usual scale that fits. */
  scale?: number;
  /** Bundles drawn filled in. */
  marked?: ReadonlySet<string>;
  /** What is fitted is named by its path in the void, so that a page can find and move it. */
  named?: boolean;
  /** Readings to be taken once more: ringed. */
  doubts?: readonly Doubt[];
  /** Only these bundles are there, as when some are not in yet or were lifted out; default all. */
  present?: ReadonlySet<string>;
  units?: Units;
}

export interface VoidPlanOptions extends VoidSceneOptions {
  /** Only this tier, those below it faint; default: all tiers, upper over lower. */
  tier?: number;
  /** These chocks are drawn too. */
  chocks?: readonly Chock[];
  /** This keep-out of the void, by its number there, is framed: a card tells what comes out to get at it. */
  sought?: number;
  /** A key plan: outline and bundles only, no words. */
  bare?: boolean;
  /** Without dimension and scale bar, where a picture beside it has them. */
  brief?: boolean;
}

/** Room for the words at the ends and sides, mm. */
const MARGIN = { left: 7, right: 7, top: 9, bottom: 12 };
const BRIEF = { left: 7, right: 7, top: 4.2, bottom: 4.6 };
const BARE = { left: 0.4, right: 0.4, top: 0.4, bottom: 0.4 };

/** The scale, real mm for one of paper, at which {@link voidPlanScene} draws a void in `width` × `height` mm. */
export function voidPlanScale(space: Void, plan: Plan, width: number, height: number): number {
  const laid = laidVoid(space, plan);
  const sides = widestSides(laid);
  const room = { x: width - MARGIN.left - MARGIN.right, y: height - MARGIN.top - MARGIN.bottom };
  return chooseScale(laid.length, sides.to - sides.from, room.x, room.y);
}

/**
 * Along runs to the right. Fore-and-aft the bow is to the right and starboard below; athwartships port is to the left
 * and forward above: both as one looking down sees them.
 */
export function voidPlanScene(space: Void, plan: Plan, options: VoidPlanOptions): Scene {
  const laid = laidVoid(space, plan);
  const margin = options.bare ? BARE : options.brief ? BRIEF : MARGIN;
  const sides = widestSides(laid);
  const wide = sides.to - sides.from;
  const room = { x: options.width - margin.left - margin.right, y: options.height - margin.top - margin.bottom };
  const scale =
    options.scale ??
    (options.bare ? Math.max(laid.length / room.x, wide / room.y) : chooseScale(laid.length, wide, room.x, room.y));
  const down = laid.axis === 'fore-and-aft';
  const place = (along: number, across: number): Point => ({
    x: margin.left + along / scale,
    y: margin.top + (down ? across - sides.from : sides.to - across) / scale,
  });
  const bundles = shownBundles(laid, plan, options);
  const level = Math.min(...bundles.here.map((bundle) => bundle.at.up), bottomAt(laid, laid.length / 2) + laid.dunnage);
  const shapes: Shape[] = [];
  shapes.push(
    polygon(
      'void',
      planOutline(laid, laid.height).map((p) => place(p.x, p.y)),
    ),
  );
  if (laid.stations && !options.bare) {
    shapes.push(
      polygon(
        'clearance',
        planOutline(laid, level).map((p) => place(p.x, p.y)),
      ),
    );
  }
  const fitted = fittedAbove(laid, place, {
    bare: options.bare ?? false,
    named: options.named ?? false,
    labelled: bundles.here.length === 0,
  });
  shapes.push(...fitted.under);
  for (const bundle of bundles.below) shapes.push(rectOf(bundle, place, 'faint'));
  const middle = [place(0, 0), place(laid.length, 0)] as const;
  if (!options.bare) shapes.push(line('guide', middle[0].x - 1.5, middle[0].y, middle[1].x + 1.5, middle[1].y));
  // Under the bundles, so that none is hidden by what fills the gap beside an upper one.
  const chocks = [...(options.chocks ?? [])].sort((p, q) => p.up - q.up).map((chock) => woodAbove(laid, chock, place));
  shapes.push(...chocks.flatMap(({ wood }) => wood));
  for (const bundle of bundles.here) {
    const role = options.marked?.has(bundle.bundle) ? 'marked' : 'bundle';
    const title = `${bundle.bundle} (${bundle.order})`;
    shapes.push(group({ x: 0, y: 0 }, [rectOf(bundle, place, role)], bundle.bundle, title));
  }
  shapes.push(...fitted.over, ...ringsAbove(laid, options.doubts ?? [], place));
  shapes.push(...frameOf(options.sought === undefined ? undefined : keepOutsIn(laid)[options.sought], place));
  const covered = bundles.here.map((bundle) => rectOf(bundle, place, 'bundle'));
  shapes.push(
    ...marksSeen(
      chocks.map(({ mark }) => mark),
      covered,
    ),
  );
  // Numbers stand over everything, on a plate where the edge of an opening would cross them out.
  const edges = openingRects(fitted.over);
  bundles.here.forEach((bundle, i) => {
    shapes.push(...numberOf(bundle, bundles.here.slice(i + 1), edges, place, options));
  });
  const width = margin.left + laid.length / scale + margin.right;
  const height = margin.top + wide / scale + margin.bottom;
  if (!options.bare) shapes.push(...names(laid, place, sides));
  if (!options.bare && !options.brief)
    shapes.push(...measures(laid, place, scale, sides, width, height, options.units ?? 'metric'));
  const orders = bundles.here.map((bundle) => bundle.order).join(', ');
  return {
    width,
    height,
    title: options.tier === undefined ? W.plan(voidTitle(laid)) : W.planTier(voidTitle(laid), options.tier),
    description: W.voidInWords(orders),
    shapes,
  };
}

function shownBundles(
  laid: LaidVoid,
  plan: Plan,
  options: VoidPlanOptions,
): { here: PlanBundle[]; below: PlanBundle[] } {
  const all = plan.bundles
    .filter((bundle) => bundle.void === laid.void && (options.present?.has(bundle.bundle) ?? true))
    .sort((p, q) => p.at.up - q.at.up || p.order - q.order);
  const { tier } = options;
  if (tier === undefined) return { here: all, below: [] };
  return {
    here: all.filter((bundle) => bundle.tier === tier),
    below: all.filter((bundle) => bundle.tier < tier),
  };
}

type Place = (along: number, across: number) => Point;

/** How far outside of a keep-out its frame is drawn, mm on paper. */
const FRAME = 1;

function frameOf(keepOut: KeepOut | undefined, place: Place): Shape[] {
  if (!keepOut) return [];
  const [a, b] = [place(keepOut.along[0], keepOut.across[0]), place(keepOut.along[1], keepOut.across[1])];
  const [x, y] = [Math.min(a.x, b.x) - FRAME, Math.min(a.y, b.y) - FRAME];
  const [width, height] = [Math.abs(b.x - a.x) + 2 * FRAME, Math.abs(b.y - a.y) + 2 * FRAME];
  return [rect('halo', x, y, width, height), rect('doubt', x, y, width, height)];
}

function rectOf(bundle: PlanBundle, place: Place, role: 'bundle' | 'marked' | 'faint'): Shape & { kind: 'rect' } {
  const a = place(bundle.at.along, bundle.at.across);
  const b = place(bundle.at.along + bundle.size.along, bundle.at.across + bundle.size.across);
  return rect(role, a.x, Math.min(a.y, b.y), b.x - a.x, Math.abs(b.y - a.y));
}

/** A bundle's loading number, which is left out where one of the bundles `above` would cut it. */
function numberOf(
  bundle: PlanBundle,
  above: PlanBundle[],
  edges: Rect[],
  place: Place,
  options: VoidPlanOptions,
): Shape[] {
  const box = rectOf(bundle, place, 'bundle');
  const words = String(bundle.order);
  const size = options.bare ? null : fitSize(words, box.width - 0.6, Math.min(4.5, box.height), 1.3, true);
  const x = box.x + box.width / 2;
  const y = box.y + box.height / 2;
  const upper = above.filter((other) => other.at.up > bundle.at.up).map((other) => rectOf(other, place, 'bundle'));
  if (size === null || upper.some((over) => meets(over, x, y, 0.7 * size * words.length, 0.75 * size))) return [];
  const marked = options.marked?.has(bundle.bundle) ?? false;
  const number = centredText(marked ? 'labelOnDark' : 'label', x, y, words, size, true);
  const [w, h] = [textWidth(words, size, true) + 0.4, Math.min(0.95 * size, box.height - 0.3)];
  if (!edges.some((edge) => crosses(edge, x, y, w, h))) return [number];
  return [rect(marked ? 'darkPlate' : 'plate', x - w / 2, y - h / 2, w, h), number];
}

/** The outlines of openings, alone or in groups. */
function openingRects(shapes: Shape[]): Rect[] {
  return shapes.flatMap((shape) =>
    shape.kind === 'group'
      ? openingRects(shape.shapes)
      : shape.kind === 'rect' && shape.role === 'opening'
        ? [shape]
        : [],
  );
}

/** Whether an edge of the rectangle, not only what lies within it, meets one of `width` × `height` about (`x`, `y`). */
function crosses(box: Rect, x: number, y: number, width: number, height: number): boolean {
  const within =
    box.x < x - width / 2 &&
    x + width / 2 < box.x + box.width &&
    box.y < y - height / 2 &&
    y + height / 2 < box.y + box.height;
  return !within && meets(box, x, y, width, height);
}

/** Whether the rectangle meets one of `width` × `height` about (`x`, `y`). */
function meets(
  box: { x: number; y: number; width: number; height: number },
  x: number,
  y: number,
  width: number,
  height: number,
): boolean {
  return (
    box.x < x + width / 2 &&
    x - width / 2 < box.x + box.width &&
    box.y < y + height / 2 &&
    y - height / 2 < box.y + box.height
  );
}

/** Marks of chocks, from the lowest on: of those that would cross only the upper is told, and none over a bundle. */
function marksSeen(marks: readonly Shape[][], covered: readonly Rect[]): Shape[] {
  const taken = [...covered];
  return [...marks].reverse().flatMap((mark) => {
    const [plate] = mark;
    if (plate?.kind !== 'rect') return [];
    const { x, y, width, height } = plate;
    if (taken.some((other) => meets(other, x + width / 2, y + height / 2, width, height))) return [];
    taken.push(plate);
    return mark;
  });
}

/** What lies at the ends and sides. */
function names(laid: LaidVoid, place: Place, sides: { from: number; to: number }): Shape[] {
  const ends = W.ends[laid.axis];
  const beside = W.sides[laid.axis];
  const { start, end, top, bottom, leastAbove } = cornersOf(laid, place, sides);
  return [
    { ...text('note', start - 2.4, (top + bottom) / 2, ends.least, 2.6, 'middle'), turn: -90 },
    { ...text('note', end + 4.4, (top + bottom) / 2, ends.most, 2.6, 'middle'), turn: -90 },
    text('note', start, top - 1.2, leastAbove ? beside.least : beside.most, 2.6),
    text('note', end, bottom + 3.2, leastAbove ? beside.most : beside.least, 2.6, 'end'),
  ];
}

/** Its length, and the scale bar. */
function measures(
  laid: LaidVoid,
  place: Place,
  scale: number,
  sides: { from: number; to: number },
  width: number,
  height: number,
  units: Units,
): Shape[] {
  const { start, end, top } = cornersOf(laid, place, sides);
  const bar = scaleBar(scale, width * 0.4, units);
  return [
    dimensionAcross(start, end, top - 4.6, lengthOn(units, laid.length)),
    group({ x: start, y: height - 6.4 }, bar.shapes),
  ];
}

function cornersOf(laid: LaidVoid, place: Place, sides: { from: number; to: number }) {
  const low = place(0, sides.from);
  const high = place(laid.length, sides.to);
  const leastAbove = low.y < high.y;
  return { start: low.x, end: high.x, top: Math.min(low.y, high.y), bottom: Math.max(low.y, high.y), leastAbove };
}
