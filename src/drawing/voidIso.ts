/**
 * A void as a solid thing, seen from above its after starboard corner (athwartships: from its after port one): every
 * station's outline, keep-outs, and the bundles that are in. Isometric: along runs up to the right, up is up, and what lies
 * to the right of who looks along (starboard; athwartships aft, where across is least) is down to the right; all three to
 * one scale.
 *
 * Bundles are painted far ones first: runs from the far end, in a run from the bottom up, at one height from the far
 * side. Boxes in tiers, that neither overlap nor reach from one run into another, hide each other rightly in that order.
 */
import type { Void } from '../job/job.ts';
import type { Plan, PlanBundle } from '../plan/plan.ts';
import type { LaidVoid } from '../stow/laid.ts';
import { keepOutsIn, keepOutTop, laidVoid, voidTitle } from './laid.ts';
import { bottomLine, crossOutline, widestSides } from './outline.ts';
import { centredText, group, line, type Point, polygon, type Role, type Scene, type Shape, text } from './scene.ts';
import type { VoidSceneOptions } from './voidPlan.ts';
import { DRAWING_WORDS as W } from './words.ts';

const MARGIN = 7;
/** cos 30°. */
const COS = Math.sqrt(3) / 2;

type Place = (along: number, across: number, up: number) => Point;

/** Which way across runs on the drawing: 1 down to the right, -1 up to the left. */
type Way = 1 | -1;

interface Solid {
  along: readonly [number, number];
  across: readonly [number, number];
  up: readonly [number, number];
}

export function voidIsoScene(space: Void, plan: Plan, options: VoidSceneOptions): Scene {
  const laid = laidVoid(space, plan);
  const sides = widestSides(laid);
  const wide = sides.to - sides.from;
  const room = { x: options.width - 2 * MARGIN, y: options.height - 2 * MARGIN };
  const scale = Math.max((COS * (laid.length + wide)) / room.x, ((laid.length + wide) / 2 + laid.height) / room.y);
  // Across is to starboard of along, or forward of it athwartships, to its left: drawn alike, that void were its own mirror image.
  const way: Way = laid.axis === 'fore-and-aft' ? 1 : -1;
  const nearer = (across: number): number => (way > 0 ? across - sides.from : sides.to - across);
  const place: Place = (along, across, up) => ({
    x: MARGIN + (COS * (along + nearer(across))) / scale,
    y: MARGIN + (laid.height - up + (laid.length - along) / 2 + nearer(across) / 2) / scale,
  });
  const present = plan.bundles.filter(
    (bundle) => bundle.void === space.void && (options.present?.has(bundle.bundle) ?? true),
  );
  const shapes: Shape[] = [
    ...outline(laid, place),
    ...keepOutsIn(laid).flatMap((keepOut) =>
      faces({ ...keepOut, up: [keepOut.up[0], keepOutTop(laid, keepOut)] }, 'keepOut', way, place),
    ),
    ...inSight(present, way).map((bundle) =>
      bundleShape(bundle, numberAt(bundle, present, scale), options.marked?.has(bundle.bundle) ?? false, way, place),
    ),
    ...words(laid, sides, place),
  ];
  return {
    width: options.width,
    height: MARGIN * 2 + ((laid.length + wide) / 2 + laid.height) / scale,
    title: W.iso(voidTitle(space)),
    description: W.voidInWords(present.map((bundle) => bundle.order).join(', ')),
    shapes,
  };
}

/** Every station's outline, and the lines that run from one to the next along the bottom and the rim. */
function outline(laid: LaidVoid, place: Place): Shape[] {
  const stations = bottomLine(laid).map(({ x: along }) => {
    const points = crossOutline(laid, along).map(({ x, y }) => place(along, x, y));
    const half = points.length / 2;
    return { points, corners: [points[0]!, points[half - 1]!, points[half]!, points.at(-1)!] };
  });
  const shapes: Shape[] = [];
  for (const [n, { points, corners }] of stations.entries()) {
    const inner = n > 0 && n < stations.length - 1;
    shapes.push({ kind: 'polyline', role: inner ? 'clearance' : 'void', points: [...points, points[0]!] });
    const next = stations[n + 1];
    if (next) shapes.push(...corners.map((a, i) => line('void', a.x, a.y, next.corners[i]!.x, next.corners[i]!.y)));
  }
  return shapes;
}

/** The three faces of a box that are seen: its least end, its nearer side, its top. */
function faces({ along, across, up }: Solid, role: Role, way: Way, place: Place): Shape[] {
  const [a, b] = along;
  const [c, d] = way > 0 ? across : [across[1], across[0]];
  const [e, f] = up;
  return [
    polygon(role, [place(a, c, e), place(a, d, e), place(a, d, f), place(a, c, f)]),
    polygon(role, [place(a, d, e), place(b, d, e), place(b, d, f), place(a, d, f)]),
    polygon(role, [place(a, c, f), place(a, d, f), place(b, d, f), place(b, c, f)]),
  ];
}

function inSight(bundles: PlanBundle[], way: Way): PlanBundle[] {
  return [...bundles].sort((p, q) => q.run - p.run || p.at.up - q.at.up || way * (p.at.across - q.at.across));
}

/** How large a number is written, mm of paper. Tops narrower than that have theirs at every third of their length by turns. */
const NUMBER = 2.8;

/** Where along its top a bundle is numbered, mm in its void; null where another lies over that place. */
function numberAt({ order, at, size }: PlanBundle, present: PlanBundle[], scale: number): number | null {
  const isNarrow = size.across / scale < 1.5 * NUMBER && size.along / scale > 6 * NUMBER;
  const along = at.along + size.along * (isNarrow ? 0.5 + 0.25 * ((order % 3) - 1) : 0.5);
  const across = at.across + size.across / 2;
  const top = at.up + size.up;
  const isUnder = present.some(
    (other) =>
      other.at.up >= top - 1 &&
      other.at.along <= along &&
      along <= other.at.along + other.size.along &&
      other.at.across <= across &&
      across <= other.at.across + other.size.across,
  );
  return isUnder ? null : along;
}

function bundleShape(
  { bundle, order, at, size }: PlanBundle,
  numbered: number | null,
  marked: boolean,
  way: Way,
  place: Place,
): Shape {
  const solid: Solid = {
    along: [at.along, at.along + size.along],
    across: [at.across, at.across + size.across],
    up: [at.up, at.up + size.up],
  };
  const numberShapes = (along: number): Shape[] => {
    const top = place(along, at.across + size.across / 2, at.up + size.up);
    return [centredText(marked ? 'labelOnDark' : 'label', top.x, top.y, String(order), NUMBER, true)];
  };
  return group(
    { x: 0, y: 0 },
    [...faces(solid, marked ? 'marked' : 'bundle', way, place), ...(numbered === null ? [] : numberShapes(numbered))],
    bundle,
    `${bundle} (${order})`,
  );
}

function words(laid: LaidVoid, sides: { from: number; to: number }, place: Place): Shape[] {
  const ends = W.ends[laid.axis];
  const near = place(0, (sides.from + sides.to) / 2, 0);
  const far = place(laid.length, (sides.from + sides.to) / 2, laid.height);
  return [
    text('note', near.x - 2, near.y + 4.5, ends.least, 2.6, 'end'),
    text('note', far.x + 1, far.y - 1.5, ends.most, 2.6, 'start'),
  ];
}
