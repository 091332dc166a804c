/** A void's cross-section at a place: true outline and clear outline, bundles with every bar, dunnage, keep-outs, numbers. */
import type { Void } from '../job/job.ts';
import { chocksOf, isAtEnd } from '../plan/chocks.ts';
import type { Plan, PlanBundle } from '../plan/plan.ts';
import type { LaidVoid } from '../stow/laid.ts';
import type { Units } from '../units.ts';
import { bundleSteel } from './bundle.ts';
import { fittedAcross, ringsAcross } from './fitted.ts';
import { laidVoid, voidTitle } from './laid.ts';
import { fitSize, textWidth } from './letter.ts';
import { bottomAt, crossOutline, sidesAt, widestSides } from './outline.ts';
import { chooseScale, dimensionAcross, dimensionUp, lengthOn, measured } from './scale.ts';
import { centredText, group, line, type Point, polygon, rect, type Scene, type Shape, text } from './scene.ts';
import type { VoidSceneOptions } from './voidPlan.ts';
import { crossedWood, type Wood, woodMark } from './wood.ts';
import { DRAWING_WORDS as W } from './words.ts';

const MARGIN = { left: 9, right: 3, top: 8, bottom: 5 };

export interface VoidCrossOptions extends VoidSceneOptions {
  /** Where no bundle is cut: draws those of the nearest run whose ends lie within so many mm as empty outlines. Default 0. */
  beyond?: number;
  /** The height is measured so much farther to the left, mm of paper, where something stands out of the void there. */
  aside?: number;
}

/** The scale, real mm for one of paper, at which {@link voidCrossScene} draws a void in this room. */
export function voidCrossScale(space: Void, plan: Plan, options: VoidSceneOptions): number {
  const laid = laidVoid(space, plan);
  const { from, to } = widestSides(laid);
  const room = { x: options.width - MARGIN.left - MARGIN.right, y: options.height - MARGIN.top - MARGIN.bottom };
  return options.scale ?? chooseScale(to - from, laid.height, room.x, room.y);
}

/** Where a point across and up lies in {@link voidCrossScene} of that scale. */
export function crossPlace(laid: LaidVoid, scale: number): (across: number, up: number) => Point {
  const { from } = widestSides(laid);
  return (across, up) => ({ x: MARGIN.left + (across - from) / scale, y: MARGIN.top + (laid.height - up) / scale });
}

/** The least-across side (port, or aft where bars lie athwartships) is to the left. */
export function voidCrossScene(space: Void, plan: Plan, along: number, options: VoidCrossOptions): Scene {
  const laid = laidVoid(space, plan);
  const sides = widestSides(laid);
  const wide = sides.to - sides.from;
  const scale = voidCrossScale(space, plan, options);
  const place = crossPlace(laid, scale);
  const cut = bundlesAt(laid, plan, along, options.present);
  const beyond = cut.length > 0 ? null : bundlesBeyond(laid, plan, along, options.beyond ?? 0, options.present);
  const bundles = beyond?.bundles ?? cut;
  const shapes: Shape[] = [
    polygon(
      'void',
      crossOutline(laid, along).map((p) => place(p.x, p.y)),
    ),
  ];
  const fitted = fittedAcross(laid, along, place, options.named ?? false);
  shapes.push(...bed(laid, plan, along, place), ...fitted.under);
  const chocked = cut.length > 0 ? chocks(laid, plan, along, place) : [];
  shapes.push(...chocked.flatMap((chock) => chock.wood));
  for (const bundle of bundles) shapes.push(bundleShape(bundle, place, scale, beyond !== null));
  const names = sideNames(laid, along, place);
  const units = options.units ?? 'metric';
  shapes.push(
    ...frame(laid, along, sides, place, options.aside ?? 0, units),
    ...names.shapes,
    ...fitted.over,
    ...ringsAcross(laid, along, options.doubts ?? [], place),
  );
  // Over the centreline, which would strike them through.
  shapes.push(...chocked.flatMap((chock) => chock.mark));
  for (const bundle of bundles) shapes.push(...numberOf(bundle, place, scale, options.marked));
  return {
    width: Math.max(MARGIN.left + wide / scale + MARGIN.right, names.end),
    height: MARGIN.top + laid.height / scale + MARGIN.bottom,
    title: W.crossSection(voidTitle(laid), lengthOn(units, along)),
    description: W.voidInWords(bundles.map((bundle) => bundle.order).join(', ')),
    shapes,
  };
}

type Place = (across: number, up: number) => Point;

function bundlesAt(laid: LaidVoid, plan: Plan, along: number, present: ReadonlySet<string> | undefined): PlanBundle[] {
  return plan.bundles.filter(
    (bundle) =>
      bundle.void === laid.void &&
      (present?.has(bundle.bundle) ?? true) &&
      bundle.at.along <= along &&
      along <= bundle.at.along + bundle.size.along,
  );
}

/**
 * Of the run that comes nearest to `along`, the bundles whose ends lie within `reach` mm of it, and how far off the
 * nearest is; null where there are none.
 */
export function bundlesBeyond(
  laid: LaidVoid,
  plan: Plan,
  along: number,
  reach: number,
  present?: ReadonlySet<string>,
): { bundles: PlanBundle[]; away: number } | null {
  const away = ({ at, size }: PlanBundle) => Math.max(at.along - along, along - at.along - size.along, 0);
  const near = plan.bundles
    .filter((bundle) => bundle.void === laid.void && (present?.has(bundle.bundle) ?? true) && away(bundle) <= reach)
    .sort((p, q) => away(p) - away(q));
  const first = near[0];
  if (!first) return null;
  return { bundles: near.filter((bundle) => bundle.run === first.run), away: away(first) };
}

function bundleShape(bundle: PlanBundle, place: Place, scale: number, beyond: boolean): Shape {
  const corner = place(bundle.at.across, bundle.at.up + bundle.size.up);
  const outline = rect('clearance', corner.x, corner.y, bundle.size.across / scale, bundle.size.up / scale);
  const steel = beyond ? [] : bundleSteel(bundle, corner.x, corner.y, 1 / scale);
  return group({ x: 0, y: 0 }, [outline, ...steel], bundle.bundle, `${bundle.bundle} (${bundle.order})`);
}

/** The loading number on a plate of its own, so that it reads over the steel. */
function numberOf(bundle: PlanBundle, place: Place, scale: number, marks: ReadonlySet<string> | undefined): Shape[] {
  const marked = marks?.has(bundle.bundle) ?? false;
  const words = String(bundle.order);
  const width = bundle.size.across / scale;
  const height = bundle.size.up / scale;
  const size = fitSize(words, width - 0.4, Math.min(3.8, height * 0.8), 1.3, true);
  if (size === null) return [];
  const { x, y } = place(bundle.at.across + bundle.size.across / 2, bundle.at.up + bundle.size.up / 2);
  const half = { w: size * (0.36 * words.length + 0.12), h: size * 0.48 };
  return [
    rect(marked ? 'marked' : 'hollow', x - half.w, y - half.h, 2 * half.w, 2 * half.h),
    centredText(marked ? 'labelOnDark' : 'label', x, y, words, size, true),
  ];
}

/** The dunnage under the ground tier, as high as it stands at this place. */
function bed(laid: LaidVoid, plan: Plan, along: number, place: Place): Shape[] {
  const run = plan.runs.find((entry) => entry.void === laid.void && entry.from <= along && along <= entry.to);
  const ground = run && plan.bundles.find((b) => b.void === laid.void && b.run === run.run && b.tier === 1);
  if (!ground) return [];
  const level = ground.at.up;
  const bottom = bottomAt(laid, along);
  const outline = crossOutline(laid, along).filter((point) => point.y <= level);
  const atLevel = sidesAt(laid, along, level);
  const starboard = outline.slice(0, outline.length / 2);
  const port = outline.slice(outline.length / 2);
  if (level <= bottom || starboard.length === 0) return [];
  const points = [...starboard, { x: atLevel.to, y: level }, { x: atLevel.from, y: level }, ...port];
  return [
    polygon(
      'dunnage',
      points.map((p) => place(p.x, p.y)),
    ),
  ];
}

/** Chocks beside and between the bundles at this place, crossed as wood is drawn end on; a leaning side wants a wedge. */
function chocks(laid: LaidVoid, plan: Plan, along: number, place: Place): Wood[] {
  return chocksOf(laid, plan)
    .filter((chock) => !isAtEnd(chock) && chock.from <= along && along <= chock.to)
    .map((chock) => {
      const against = chock.side === 'least' ? chock.across + chock.size : chock.across;
      const outward = chock.side === 'least' ? -1 : 1;
      const head = chock.up + chock.height;
      const corners = [
        place(against, chock.up),
        place(against + outward * chock.size, chock.up),
        place(against + outward * chock.sizeAtHead, head),
        place(against, head),
      ] as const;
      const [a, b, c, d] = corners;
      const middle = { x: (a.x + b.x + c.x + d.x) / 4, y: (a.y + d.y) / 2 };
      const thin = Math.min(Math.abs(b.x - a.x), Math.abs(c.x - d.x));
      return { wood: crossedWood(corners), mark: woodMark([chock.mark], middle, thin, Math.abs(a.y - d.y)) };
    });
}

function frame(
  laid: LaidVoid,
  along: number,
  sides: { from: number; to: number },
  place: Place,
  aside: number,
  units: Units,
): Shape[] {
  const top = sidesAt(laid, along, laid.height);
  const left = place(top.from, laid.height);
  const right = place(top.to, laid.height);
  const low = place(0, bottomAt(laid, along));
  const ceiling = place(0, laid.height - laid.clear.top);
  const edge = place(sides.from, 0).x;
  return [
    line('clearance', left.x, ceiling.y, right.x, ceiling.y),
    line('guide', place(0, 0).x, left.y - 1, place(0, 0).x, low.y + 1.5),
    dimensionAcross(left.x, right.x, left.y - 1.8, measured(units, top.to - top.from)),
    dimensionUp(edge - 2.4 - aside, left.y, low.y, measured(units, laid.height - bottomAt(laid, along))),
  ];
}

/** What lies to either side, under its corner, or where both would not fit there to either side of the middle. */
function sideNames(laid: LaidVoid, along: number, place: Place): { shapes: Shape[]; end: number } {
  const { least, most } = W.sides[laid.axis];
  const size = 2.6;
  const top = sidesAt(laid, along, laid.height);
  const [left, right] = [place(top.from, 0).x, place(top.to, 0).x];
  const y = place(0, bottomAt(laid, along)).y + 3.6;
  if (textWidth(least, size) + textWidth(most, size) + 1 <= right - left) {
    return { shapes: [text('note', left, y, least, size), text('note', right, y, most, size, 'end')], end: right };
  }
  const middle = (left + right) / 2;
  return {
    shapes: [text('note', middle - 0.6, y, least, size, 'end'), text('note', middle + 0.6, y, most, size)],
    end: middle + 0.6 + textWidth(most, size),
  };
}
