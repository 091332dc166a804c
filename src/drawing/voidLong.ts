/** A void in long section: bottom, tiers of each run with their loading numbers, dunnage and packing, chocks at ends, keep-outs, opening. */
import type { Void } from '../job/job.ts';
import type { Plan, PlanBundle } from '../plan/plan.ts';
import type { LaidVoid } from '../stow/laid.ts';
import type { Units } from '../units.ts';
import { fittedBeside, ringsBeside } from './fitted.ts';
import { hatchPolygon } from './hatch.ts';
import { laidVoid, voidTitle } from './laid.ts';
import { fitSize } from './letter.ts';
import { bottomLine } from './outline.ts';
import { chooseScale, dimensionUp, lengthOn } from './scale.ts';
import { centredText, group, line, type Point, polygon, rect, type Scene, type Shape, text } from './scene.ts';
import type { VoidSceneOptions } from './voidPlan.ts';
import { woodBeside } from './wood.ts';
import { DRAWING_WORDS as W } from './words.ts';

const MARGIN = { left: 12, right: 7, top: 4, bottom: 5 };

/** The scale, real mm for one of paper, at which {@link voidLongScene} draws a void in this room. */
export function voidLongScale(space: Void, plan: Plan, options: VoidSceneOptions): number {
  const laid = laidVoid(space, plan);
  const room = { x: options.width - MARGIN.left - MARGIN.right, y: options.height - MARGIN.top - MARGIN.bottom };
  return options.scale ?? chooseScale(laid.length, laid.height, room.x, room.y);
}

/** Seen from starboard with the bow to the right; an athwartships void from aft with starboard to the right. */
export function voidLongScene(space: Void, plan: Plan, options: VoidSceneOptions): Scene {
  const laid = laidVoid(space, plan);
  const scale = voidLongScale(space, plan, options);
  const place = (along: number, up: number): Point => ({
    x: MARGIN.left + along / scale,
    y: MARGIN.top + (laid.height - up) / scale,
  });
  const fitted = fittedBeside(laid, place, options.named ?? false);
  const shapes: Shape[] = [...bed(laid, plan, place), ...fitted.under];
  const chocks = woodBeside(laid, plan, place, options.present);
  shapes.push(...chocks.flatMap(({ wood }) => wood));
  const tiers = tiersOf(laid, plan, options.present);
  for (const tier of tiers) shapes.push(tierShape(tier, place, options.marked));
  shapes.push(
    ...frame(laid, place, options.units ?? 'metric'),
    ...fitted.over,
    ...ringsBeside(options.doubts ?? [], place),
    ...chocks.flatMap(({ mark }) => mark),
  );
  return {
    width: MARGIN.left + laid.length / scale + MARGIN.right,
    height: MARGIN.top + laid.height / scale + MARGIN.bottom,
    title: W.longSection(voidTitle(laid)),
    description: W.voidInWords(tiers.map((tier) => tier.numbers).join('; ')),
    shapes,
  };
}

type Place = (along: number, up: number) => Point;

/** Bundles of one run and tier, which one sees as one row from the side. */
interface SeenTier {
  bundles: PlanBundle[];
  numbers: string;
}

function tiersOf(laid: LaidVoid, plan: Plan, present: ReadonlySet<string> | undefined): SeenTier[] {
  const tiers = new Map<string, PlanBundle[]>();
  for (const bundle of plan.bundles) {
    if (bundle.void !== laid.void || !(present?.has(bundle.bundle) ?? true)) continue;
    const key = `${bundle.run}/${bundle.tier}/${bundle.at.up}`;
    const tier = tiers.get(key);
    if (tier) tier.push(bundle);
    else tiers.set(key, [bundle]);
  }
  return [...tiers.values()].map((bundles) => ({ bundles, numbers: rangesOf(bundles.map((bundle) => bundle.order)) }));
}

/** `1–4, 7`: numbers told by their ranges. */
export function rangesOf(numbers: number[]): string {
  const sorted = [...numbers].sort((p, q) => p - q);
  const parts: string[] = [];
  for (let i = 0; i < sorted.length; ) {
    let j = i;
    while (sorted[j + 1] === sorted[j]! + 1) j += 1;
    parts.push(j === i ? String(sorted[i]) : `${sorted[i]}–${sorted[j]}`);
    i = j + 1;
  }
  return parts.join(', ');
}

function tierShape(tier: SeenTier, place: Place, marked: ReadonlySet<string> | undefined): Shape {
  const first = tier.bundles[0]!;
  const along = Math.min(...tier.bundles.map((bundle) => bundle.at.along));
  const end = Math.max(...tier.bundles.map((bundle) => bundle.at.along + bundle.size.along));
  const top = Math.max(...tier.bundles.map((bundle) => bundle.at.up + bundle.size.up));
  const a = place(along, top);
  const b = place(end, first.at.up);
  const isMarked = tier.bundles.some((bundle) => marked?.has(bundle.bundle));
  const shapes: Shape[] = [rect(isMarked ? 'marked' : 'bundle', a.x, a.y, b.x - a.x, b.y - a.y)];
  const size = fitSize(tier.numbers, b.x - a.x - 1, Math.min(3.6, (b.y - a.y) * 0.95), 1.3, true);
  if (size !== null) {
    const role = isMarked ? 'labelOnDark' : 'label';
    shapes.push(centredText(role, (a.x + b.x) / 2, (a.y + b.y) / 2, tier.numbers, size, true));
  }
  return group({ x: 0, y: 0 }, shapes);
}

/** Dunnage and packing of each run, from the bottom of the void to the underside of the ground tier. */
function bed(laid: LaidVoid, plan: Plan, place: Place): Shape[] {
  const bottom = bottomLine(laid);
  return plan.runs
    .filter((run) => run.void === laid.void)
    .flatMap((run): Shape[] => {
      const ground = plan.bundles.find((b) => b.void === laid.void && b.run === run.run && b.tier === 1);
      if (!ground) return [];
      const inside = bottom.filter((point) => point.x > run.from && point.x < run.to);
      const under = [endOf(bottom, run.from), ...inside, endOf(bottom, run.to)];
      const outline = [
        ...under.map((point) => place(point.x, point.y)),
        place(run.to, ground.at.up),
        place(run.from, ground.at.up),
      ];
      return [polygon('dunnage', outline), ...hatchPolygon(outline, 1)];
    });
}

function endOf(bottom: Point[], along: number): Point {
  const i = bottom.findIndex((point) => point.x >= along);
  const after = bottom[i] ?? bottom.at(-1)!;
  const before = bottom[i - 1] ?? after;
  const share = after.x > before.x ? (along - before.x) / (after.x - before.x) : 0;
  return { x: along, y: before.y + (after.y - before.y) * share };
}

function frame(laid: LaidVoid, place: Place, units: Units): Shape[] {
  const ends = W.ends[laid.axis];
  const bottom = bottomLine(laid);
  const outline = [
    place(0, laid.height),
    ...bottom.map((point) => place(point.x, point.y)),
    place(laid.length, laid.height),
  ];
  const low = place(laid.length, 0);
  const start = place(0, laid.height);
  const shapes: Shape[] = [polygon('void', outline)];
  shapes.push(dimensionUp(start.x - 2.4, start.y, low.y, lengthOn(units, laid.height)));
  shapes.push({ ...text('note', start.x - 7, (start.y + low.y) / 2, ends.least, 2.6, 'middle'), turn: -90 });
  shapes.push({ ...text('note', low.x + 4.4, (start.y + low.y) / 2, ends.most, 2.6, 'middle'), turn: -90 });
  const ceiling = place(laid.length, laid.height - laid.clear.top);
  shapes.push(line('clearance', start.x, ceiling.y, ceiling.x, ceiling.y));
  return shapes;
}
