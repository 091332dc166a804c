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
      bundleShape(
        bundle,
        numberAt(bundle, present, way, scale),
        options.marked?.has(bundle.bundle) ?? false,
        way,
        place,
      ),
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
/** Half of how wide a figure of it is, and of how high, mm of paper. */
const HALF = { wide: NUMBER * 0.29, high: NUMBER * 0.36 };
/** Where else on its top a number is tried, in shares of its length and of its breadth from the far side. */
const ELSEWHERE = [0.5, 0.35, 0.25, 0.2, 0.15].flatMap((across) =>
  [0.5, 0.25, 0.75, 0.1, 0.9].map((along) => ({ along, across })),
);

/** So far it may then reach over the edge of its top, mm of paper. */
const EDGE = 0.4;

/** A place in the void by how far along, how near to who looks, and how high it is, mm. */
interface Seen {
  along: number;
  near: number;
  up: number;
}

/**
 * Where on its top a bundle is numbered; null where nowhere on it the whole number is in sight, for half of a figure reads as
 * another. In the usual place, wherever that is in sight, it may reach over the edge of a small top.
 */
function numberAt(
  bundle: PlanBundle,
  present: PlanBundle[],
  way: Way,
  scale: number,
): { along: number; across: number } | null {
  const { order, at, size } = bundle;
  const isNarrow = size.across / scale < 1.5 * NUMBER && size.along / scale > 6 * NUMBER;
  const usual = { along: isNarrow ? 0.5 + 0.25 * ((order % 3) - 1) : 0.5, across: 0.5 };
  for (const share of [usual, ...ELSEWHERE]) {
    const along = at.along + share.along * size.along;
    const across = at.across + (way > 0 ? share.across : 1 - share.across) * size.across;
    const seen = { along, near: way * across, up: at.up + size.up };
    const corners = cornersOf(String(order).length * HALF.wide, seen, scale);
    if (share !== usual && !corners.every((corner) => isOnTop(corner, bundle, way, EDGE * scale))) continue;
    if ([seen, ...corners].every((one) => !present.some((other) => other !== bundle && hides(other, one, way))))
      return { along, across };
  }
  return null;
}

/** The places of a level top that the corners of what is written round `middle` cover on paper. */
function cornersOf(wide: number, middle: Seen, scale: number): Seen[] {
  return [-1, 1].flatMap((right) =>
    [-1, 1].map((down) => {
      // x = cos 30° (along + near), y = (near - along) / 2 at one height: solved for along and near.
      const [sum, difference] = [(right * wide * scale) / COS, 2 * down * HALF.high * scale];
      return {
        along: middle.along + (sum - difference) / 2,
        near: middle.near + (sum + difference) / 2,
        up: middle.up,
      };
    }),
  );
}

/** True of a place on the top of a bundle, or no more than `edge` beside it. */
function isOnTop({ along, near }: Seen, { at, size }: PlanBundle, way: Way, edge: number): boolean {
  const across = way * near;
  return (
    at.along - edge <= along &&
    along <= at.along + size.along + edge &&
    at.across - edge <= across &&
    across <= at.across + size.across + edge
  );
}

/** True where the bundle stands between a place and who looks: they look from it as far aft as near as up. */
function hides({ at, size }: PlanBundle, { along, near, up }: Seen, way: Way): boolean {
  const [least, most] = way > 0 ? [at.across, at.across + size.across] : [-at.across - size.across, -at.across];
  const enter = Math.max(along - at.along - size.along, least - near, at.up - up, 0);
  const leave = Math.min(along - at.along, most - near, at.up + size.up - up);
  return leave - enter > 1e-6;
}

function bundleShape(
  { bundle, order, at, size }: PlanBundle,
  numbered: { along: number; across: number } | null,
  marked: boolean,
  way: Way,
  place: Place,
): Shape {
  const solid: Solid = {
    along: [at.along, at.along + size.along],
    across: [at.across, at.across + size.across],
    up: [at.up, at.up + size.up],
  };
  const numberShapes = ({ along, across }: { along: number; across: number }): Shape[] => {
    const top = place(along, across, at.up + size.up);
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
