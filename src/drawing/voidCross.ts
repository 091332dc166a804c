/** A void's cross-section at a place: true outline and clear outline, bundles with every bar, dunnage, keep-outs, numbers. */
import type { Void } from '../job/job.ts';
import type { Plan, PlanBundle } from '../plan/plan.ts';
import type { LaidVoid } from '../stow/laid.ts';
import { chocksOf } from './bed.ts';
import { bundleSteel } from './bundle.ts';
import { fittedAcross } from './fitted.ts';
import { laidVoid, voidTitle } from './laid.ts';
import { fitSize } from './letter.ts';
import { bottomAt, crossOutline, sidesAt, widestSides } from './outline.ts';
import { chooseScale, dimensionAcross, dimensionUp, figure } from './scale.ts';
import { centredText, group, line, type Point, polygon, rect, type Scene, type Shape, text } from './scene.ts';
import type { VoidSceneOptions } from './voidPlan.ts';
import { DRAWING_WORDS as W } from './words.ts';

const MARGIN = { left: 9, right: 3, top: 8, bottom: 5 };

/** The least-across side (port, or aft where bars lie athwartships) is to the left. */
export function voidCrossScene(space: Void, plan: Plan, along: number, options: VoidSceneOptions): Scene {
  const laid = laidVoid(space, plan);
  const sides = widestSides(laid);
  const wide = sides.to - sides.from;
  const room = { x: options.width - MARGIN.left - MARGIN.right, y: options.height - MARGIN.top - MARGIN.bottom };
  const scale = options.scale ?? chooseScale(wide, laid.height, room.x, room.y);
  const place = (across: number, up: number): Point => ({
    x: MARGIN.left + (across - sides.from) / scale,
    y: MARGIN.top + (laid.height - up) / scale,
  });
  const bundles = bundlesAt(laid, plan, along, options.present);
  const shapes: Shape[] = [
    polygon(
      'void',
      crossOutline(laid, along).map((p) => place(p.x, p.y)),
    ),
  ];
  const fitted = fittedAcross(laid, along, place, options.named ?? false);
  shapes.push(...bed(laid, plan, along, place), ...fitted.under);
  if (bundles.length > 0) shapes.push(...chocks(laid, plan, along, place));
  for (const bundle of bundles) shapes.push(bundleShape(bundle, place, scale));
  for (const bundle of bundles) shapes.push(...numberOf(bundle, place, scale, options.marked));
  shapes.push(...frame(laid, along, sides, place), ...fitted.over);
  return {
    width: MARGIN.left + wide / scale + MARGIN.right,
    height: MARGIN.top + laid.height / scale + MARGIN.bottom,
    title: W.crossSection(voidTitle(laid), figure(along)),
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

function bundleShape(bundle: PlanBundle, place: Place, scale: number): Shape {
  const corner = place(bundle.at.across, bundle.at.up + bundle.size.up);
  const outline = rect('clearance', corner.x, corner.y, bundle.size.across / scale, bundle.size.up / scale);
  const steel = bundleSteel(bundle, corner.x, corner.y, 1 / scale);
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

/** Side chocks at this place, crossed as wood is drawn end on. */
function chocks(laid: LaidVoid, plan: Plan, along: number, place: Place): Shape[] {
  return chocksOf(laid, plan)
    .filter((chock) => (chock.side === 'least' || chock.side === 'most') && chock.from <= along && along <= chock.to)
    .flatMap((chock): Shape[] => {
      const a = place(chock.across, chock.up + chock.height);
      const b = place(chock.across + chock.size, chock.up);
      return [
        rect('chock', a.x, a.y, b.x - a.x, b.y - a.y),
        line('chock', a.x, a.y, b.x, b.y),
        line('chock', a.x, b.y, b.x, a.y),
      ];
    });
}

function frame(laid: LaidVoid, along: number, sides: { from: number; to: number }, place: Place): Shape[] {
  const names = W.sides[laid.axis];
  const top = sidesAt(laid, along, laid.height);
  const left = place(top.from, laid.height);
  const right = place(top.to, laid.height);
  const low = place(0, bottomAt(laid, along));
  const ceiling = place(0, laid.height - laid.clear.top);
  const edge = place(sides.from, 0).x;
  return [
    line('clearance', left.x, ceiling.y, right.x, ceiling.y),
    line('guide', place(0, 0).x, left.y - 1, place(0, 0).x, low.y + 1.5),
    dimensionAcross(left.x, right.x, left.y - 1.8, figure(top.to - top.from)),
    dimensionUp(edge - 2.4, left.y, low.y, figure(laid.height - bottomAt(laid, along))),
    text('note', left.x, low.y + 3.6, names.least, 2.6),
    text('note', right.x, low.y + 3.6, names.most, 2.6, 'end'),
  ];
}
