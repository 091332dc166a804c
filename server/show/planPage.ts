/** What a plan's page shows, drawn and counted from the plan and the job that it was made for. */
import { barScene } from '../../src/drawing/bar.ts';
import { bundleScene } from '../../src/drawing/bundle.ts';
import { laidVoid } from '../../src/drawing/laid.ts';
import type { Scene } from '../../src/drawing/scene.ts';
import { readableWidth, svgOf } from '../../src/drawing/svg.ts';
import { voidCrossScene } from '../../src/drawing/voidCross.ts';
import { voidIsoScene } from '../../src/drawing/voidIso.ts';
import { voidLongScene } from '../../src/drawing/voidLong.ts';
import { voidPlanScene } from '../../src/drawing/voidPlan.ts';
import { widenScene } from '../../src/drawing/widen.ts';
import type { Job, Lot, Void } from '../../src/job/job.ts';
import { lotSquaring, type Span } from '../../src/job/lot.ts';
import { sectionName } from '../../src/job/section.ts';
import { becketsOf } from '../../src/lift/becket.ts';
import { type Callout, calloutsOf } from '../../src/lift/callouts.ts';
import { type BearerLoad, bearerLoads } from '../../src/plan/bearing.ts';
import type { Plan, PlanBar, PlanBundle, PlanVoid } from '../../src/plan/plan.ts';
import { slideLines } from '../../src/plan/slides.ts';
import { alikeBars, cutsBefore, markRanges } from '../../src/plan/stops.ts';
import type { Axis } from '../../src/stow/laid.ts';
import type { Units } from '../../src/units.ts';
import { type RunLying, runsLying } from './lying.ts';

/** Room for a drawing, mm of paper. */
const ROOM = { width: 120, height: 85 };
const CROSS_ROOM = { width: 95, height: 85 };
/** A narrower drawing would be blown up on the page. */
const NARROWEST = 60;

/** More voids are shown page by page: four drawings of each, of many bundles, and a page is to stay under a megabyte. */
export const VOIDS_SHOWN = 8;
/** More bars cut in different ways are shown page by page. */
export const BARS_SHOWN = 30;

/** Bundles of one void that are lifted out in the picture. */
export interface LiftedOut {
  void: string;
  count: number;
}

export interface BundleLine {
  bundle: PlanBundle;
  section: string;
  bars: number;
  /** Bars made of more than one piece. */
  jointed: number;
  out: boolean;
}

/** A bundle of a void with what is said of lifting it there. */
export interface LiftedLine extends BundleLine {
  lift: Callout;
}

export interface PlanVoidView extends PlanVoid {
  name: string;
  id: string;
  target: number | undefined;
  most: number | undefined;
  /** In loading order. */
  lines: LiftedLine[];
  out: number;
  /** The bundle that comes out next, and the one that went out last. */
  next: string | null;
  last: string | null;
  pictures: { title: string; svg: string }[];
  /** Which way its bars lie, and its runs. */
  lies: Axis;
  runs: RunLying[];
  /** What each bearer carries, where bearers are stated. */
  bearers: BearerLoad[];
  /** Bundles that nothing keeps from sliding, over the run beside theirs or along, in sentences. */
  over: string[];
}

export interface BarGroup {
  /** Its place on the page. */
  id: string;
  lot: string;
  section: string;
  /** Their marks, by ranges. */
  bars: string;
  count: number;
  svg: string;
  /** `to`: where it is cut, mm, from the cut at `behind` that parts its bar, or from the squared end where that is 0. */
  pieces: { to: number; behind: number; length: number; bundles: string[] }[];
  /** What is left of the bar, mm, in the order of the bar. */
  left: { length: number; fate: PlanBar['remainders'][number]['fate'] }[];
}

/** A stretch of a long list: the first shown, and how many. */
export interface Stretch {
  first: number;
  count: number;
}

/** The voids of the plan in a stretch of them. `prefix` keeps the ids of two plans on one page apart. */
export function showVoids(
  job: Job,
  plan: Plan,
  stretch: Stretch,
  lifted: LiftedOut | null,
  prefix = '',
  units: Units = 'metric',
): PlanVoidView[] {
  const spaces = new Map(job.voids.map((space) => [space.void, space]));
  return plan.voids.slice(stretch.first, stretch.first + stretch.count).flatMap((placed, n) => {
    const space = spaces.get(placed.void);
    const id = `${prefix}void-${stretch.first + n + 1}`;
    return space
      ? [showVoid(job, space, placed, plan, id, lifted?.void === placed.void ? lifted.count : 0, units)]
      : [];
  });
}

function showVoid(
  job: Job,
  space: Void,
  placed: PlanVoid,
  plan: Plan,
  id: string,
  wanted: number,
  units: Units,
): PlanVoidView {
  const bundles = plan.bundles.filter((bundle) => bundle.void === placed.void).sort((p, q) => p.order - q.order);
  const out = Math.min(Math.max(0, wanted), bundles.length);
  const present = bundles.slice(0, bundles.length - out);
  const lifts = calloutsOf(job, bundles);
  const laid = laidVoid(space, plan);
  return {
    ...placed,
    name: space.name,
    id,
    target: space.target,
    most: space.most,
    lines: bundles.map((bundle, n) => ({ ...lineOf(bundle), out: n >= present.length, lift: lifts[n]! })),
    out,
    next: present.at(-1)?.bundle ?? null,
    last: bundles[present.length]?.bundle ?? null,
    pictures: bundles.length === 0 ? [] : drawVoid(space, plan, id, present, units),
    lies: laid.axis,
    runs: runsLying(plan, bundles),
    bearers: bundles.length === 0 ? [] : bearerLoads(laid, { bundles }),
    over: slideLines(laid, plan),
  };
}

function drawVoid(
  space: Void,
  plan: Plan,
  id: string,
  present: PlanBundle[],
  units: Units,
): { title: string; svg: string }[] {
  const there = new Set(present.map((bundle) => bundle.bundle));
  const runs = plan.runs.filter((run) => run.void === space.void);
  const longest = runs.reduce(
    (best, run) => (run.to - run.from > best.to - best.from ? run : best),
    runs[0] ?? { from: 0, to: space.length },
  );
  const middle = (longest.from + longest.to) / 2;
  const draw = { ...ROOM, present: there, units };
  return [
    { title: 'from above', svg: svgOf(voidPlanScene(space, plan, draw), { id: `${id}-above` }) },
    { title: 'as a solid', svg: svgOf(voidIsoScene(space, plan, draw), { id: `${id}-solid` }) },
    { title: 'from the side', svg: svgOf(voidLongScene(space, plan, draw), { id: `${id}-side` }) },
    {
      title: 'across, through the longest run',
      svg: svgOf(widenScene(voidCrossScene(space, plan, middle, { ...CROSS_ROOM, present: there, units }), NARROWEST), {
        id: `${id}-across`,
      }),
    },
  ];
}

function lineOf(bundle: PlanBundle): Omit<BundleLine, 'out'> {
  return {
    bundle,
    section: sectionName(bundle.section),
    bars: bundle.slots.length,
    jointed: bundle.slots.filter((slot) => slot.length > 1).length,
  };
}

/** How wide the longest bar of a page is drawn, mm, and shown at least, rem: its letters are then as high as those around it. */
const LONGEST_BAR = 125;
const LONGEST_SHOWN = 40;

/** A stretch of the bars cut alike, each group one drawing, all to one scale. */
export function showBars(job: Job, groups: PlanBar[][], stretch: Stretch, units: Units = 'metric'): BarGroup[] {
  const shown = groups.slice(stretch.first, stretch.first + stretch.count);
  const full = shown.reduce((longest, [bar]) => Math.max(longest, bar?.length ?? 0), 1);
  const scenes = shown.map(([bar]) => barScene(job, bar as PlanBar, { width: LONGEST_BAR, full, named: true, units }));
  const remOfOne = Math.max(LONGEST_SHOWN / LONGEST_BAR, ...scenes.map((one) => readableWidth(one) / one.width));
  const lots = new Map(job.pile.map((lot) => [lot.lot, lot]));
  return shown.map((bars, n) => {
    const first = bars[0] as PlanBar;
    const scene = scenes[n] as Scene;
    const lot = lots.get(first.lot);
    return {
      id: cutId(stretch.first + n),
      lot: first.lot,
      section: lot ? sectionName(lot.section) : '',
      bars: markRanges(bars.map((bar) => bar.bar)).join(', '),
      count: bars.length,
      svg: svgOf(scene, { id: `bar-${stretch.first + n + 1}`, width: remOfOne * scene.width }),
      pieces: first.pieces.map((piece, index) => ({
        ...cutOf(piece, index, first, job, lot),
        length: piece.to - piece.from,
        bundles: [...new Set(bars.map((bar) => bar.pieces[index]?.bundle ?? ''))],
      })),
      left: first.remainders.map(({ from, to, fate }) => ({ length: to - from, fate })),
    };
  });
}

/** Where a piece is cut as the saw sheet tells it: from the squared end, or from the cut that parts its bar before it. */
function cutOf(piece: Span, index: number, bar: PlanBar, job: Job, lot?: Lot): { to: number; behind: number } {
  const squaring = lot ? lotSquaring(lot, job.saw) : 0;
  const { behind } = cutsBefore(bar, job.saw.kerf, squaring)[index]!;
  return { to: piece.to - squaring - behind, behind };
}

/** Where a piece lies as the saw sheet tells it: mm from the squared end of its bar, of which the plan counts the raw one. */
function fromSquaredEnd({ from, to }: Span, squaring = 0): Span {
  return { from: from - squaring, to: to - squaring };
}

/** The id of the n-th group of bars cut alike. */
function cutId(n: number): string {
  return `cut-${n + 1}`;
}

/** Where on the plan's page a bar is drawn, by its mark: the query of the page that shows it, and the place on it. */
export function placesOfBars(job: Job, plan: Plan): Map<string, string> {
  const places = new Map<string, string>();
  for (const [n, bars] of alikeBars(job, plan).entries()) {
    const page = Math.floor(n / BARS_SHOWN) + 1;
    for (const bar of bars) places.set(bar.bar, `${page > 1 ? `?bar=${page}` : ''}#${cutId(n)}`);
  }
  return places;
}

/** The same of the voids, by their marks. */
export function placesOfVoids(plan: Pick<Plan, 'voids'>): Map<string, string> {
  return new Map(
    plan.voids.map(({ void: mark }, n) => {
      const page = Math.floor(n / VOIDS_SHOWN) + 1;
      return [mark, `${page > 1 ? `?void=${page}` : ''}#void-${n + 1}`];
    }),
  );
}

export interface BundleView extends Omit<BundleLine, 'out'> {
  void: Void | undefined;
  /** Which way the bars of its void lie. */
  lies: Axis;
  lift: Callout;
  picture: string;
  where: string;
  /** How many it is lifted by: none where the job states none. */
  beckets: number;
  /** A line for each bar of the bundle: its pieces and the bars that they come from. */
  pieces: { bar: string; place: string; length: number; from: number; to: number }[][];
}

/** One bundle, as its tag leads to it; lifted at a mass of so many kg. */
export function showBundle(
  job: Job,
  plan: Plan,
  bundle: PlanBundle,
  mass: number,
  units: Units = 'metric',
): BundleView {
  const places = placesOfBars(job, plan);
  const sources = new Map(
    plan.bars.flatMap((bar) =>
      bar.pieces.map((piece) => [piece.piece, { bar: bar.bar, lot: bar.lot, ...piece }] as const),
    ),
  );
  const squarings = new Map(job.pile.map((lot) => [lot.lot, lotSquaring(lot, job.saw)]));
  const space = job.voids.find((candidate) => candidate.void === bundle.void);
  const rules = job.bundle.becket;
  return {
    ...lineOf(bundle),
    void: space,
    lies: space ? laidVoid(space, plan).axis : 'fore-and-aft',
    lift: calloutsOf(job, [{ ...bundle, mass }])[0]!,
    picture: svgOf(bundleScene(bundle, { width: 110, height: 80, units }), { id: 'bundle' }),
    where: space
      ? svgOf(voidPlanScene(space, plan, { ...ROOM, tier: bundle.tier, marked: new Set([bundle.bundle]), units }), {
          id: 'where',
        })
      : '',
    beckets: bundle.becket === undefined ? 0 : rules ? becketsOf(bundle.size, rules).count : 1,
    pieces: bundle.slots.map((slot) =>
      slot.flatMap((id) => {
        const piece = sources.get(id);
        return piece
          ? [
              {
                bar: piece.bar,
                place: places.get(piece.bar) ?? '',
                length: piece.to - piece.from,
                ...fromSquaredEnd(piece, squarings.get(piece.lot)),
              },
            ]
          : [];
      }),
    ),
  };
}
