/** A void drawn as typed, before anything is planned for it, with what a page needs to move what is fitted in it. */
import { mirrorScene } from '../../src/drawing/mirror.ts';
import { widestSides } from '../../src/drawing/outline.ts';
import { chooseScale } from '../../src/drawing/scale.ts';
import type { Scene } from '../../src/drawing/scene.ts';
import { svgOf } from '../../src/drawing/svg.ts';
import { voidCrossScene } from '../../src/drawing/voidCross.ts';
import { voidIsoScene } from '../../src/drawing/voidIso.ts';
import { voidLongScene } from '../../src/drawing/voidLong.ts';
import { voidPlanScene } from '../../src/drawing/voidPlan.ts';
import { widenScene } from '../../src/drawing/widen.ts';
import type { Void } from '../../src/job/job.ts';
import { voidSchema } from '../../src/job/job.ts';
import { stationNotes } from '../../src/job/stationNotes.ts';
import type { Plan } from '../../src/plan/plan.ts';
import type { LaidVoid } from '../../src/stow/laid.ts';
import type { Units } from '../../src/units.ts';
import { tellIn } from '../otherUnits.ts';
import { isRecord, listAt, valueAt } from './path.ts';

export const VIEWS = { aft: 'from aft', port: 'from port', above: 'from above', solid: 'as a solid' } as const;
export type View = keyof typeof VIEWS;
const ALL = Object.keys(VIEWS) as View[];

export function isView(text: string): text is View {
  return Object.hasOwn(VIEWS, text);
}

/** Which way a coordinate of the void runs on the drawing: `+along` to the right (or down), `-up` against it. */
export type Way = `${'+' | '-'}${'along' | 'across' | 'up'}`;

export interface Drawn {
  /** Null where it was not asked for. */
  svg: string | null;
  /** Real mm for one of the drawing; null where nothing can be moved in it. */
  scale: number | null;
  x: Way;
  y: Way;
}

/** Where something fitted lies, mm: what can be moved, by its path in the void. */
export type Places = Record<string, { along?: [number, number]; across?: [number, number]; up?: [number, number] }>;

export interface VoidSketch {
  /** Views that can be drawn of the readings as they stand. */
  views: Partial<Record<View, Drawn>>;
  places: Places;
  /** Readings that may be slips of the tape, in sentences. */
  slips: string[];
}

/** Room for one drawing, and what of it names and dimensions may take, mm of paper. */
const ROOM = { width: 100, height: 70 };
const EDGES = { width: 22, height: 22 };
/** A narrower drawing, as of a void whose width is mistyped, would be blown up on the page. */
const NARROWEST = 60;

/**
 * Every view; across it is cut at `along` (the station or the bolt in hand), else at half length. No views where the
 * readings are not enough, or not possible, to draw. `id` begins the ids of the drawings; only those `wanted` are drawn.
 */
export function sketchVoid(
  raw: unknown,
  id: string,
  along?: number,
  wanted: readonly View[] = ALL,
  units: Units = 'metric',
): VoidSketch {
  const space = voidSchema.safeParse(withoutUnmeasured(raw)).data;
  if (!space) return { views: {}, places: {}, slips: [] };
  const laid: LaidVoid = { ...space, axis: space.axis === 'athwartships' ? 'athwartships' : 'fore-and-aft' };
  const plan = emptyPlan(laid);
  const wide = widestSides(laid);
  const width = wide.to - wide.from;
  const scaleFor = (first: number, second: number): number =>
    chooseScale(first, second, ROOM.width - EDGES.width, ROOM.height - EDGES.height);
  const draw = (view: View, scene: () => Scene, scale: number | null, x: Way, y: Way): Drawn => {
    if (!wanted.includes(view)) return { svg: null, scale, x, y };
    const drawn = x.startsWith('-') ? mirrorScene(scene()) : scene();
    return { svg: svgOf(widenScene(drawn, NARROWEST), { id: `${id}-${view}` }), scale, x, y };
  };
  const at = Math.min(Math.max(0, along ?? space.length / 2), space.length);
  const above = scaleFor(laid.length, width);
  const long = scaleFor(laid.length, laid.height);
  const cross = scaleFor(width, laid.height);
  const doubts = stationNotes(space);
  const how = { ...ROOM, named: true, doubts, units };
  const longScene = (): Scene => voidLongScene(space, plan, { ...how, scale: long });
  const crossScene = (): Scene => voidCrossScene(space, plan, at, { ...how, scale: cross });
  const planScene = (): Scene => voidPlanScene(space, plan, { ...how, scale: above });
  const lengthwise = laid.axis === 'fore-and-aft';
  return {
    views: {
      aft: lengthwise
        ? draw('aft', crossScene, cross, '+across', '-up')
        : draw('aft', longScene, long, '+along', '-up'),
      port: lengthwise
        ? draw('port', longScene, long, '-along', '-up')
        : draw('port', crossScene, cross, '-across', '-up'),
      above: draw('above', planScene, above, '+along', lengthwise ? '+across' : '-across'),
      solid: draw('solid', () => voidIsoScene(space, plan, ROOM), null, '+along', '-up'),
    },
    places: placesOf(space),
    slips: doubts.map(({ text }) => tellIn(units, text)),
  };
}

/** What has to be measured of something fitted before it is drawn, by its list. */
const MEASURED = {
  keepOut: ['along', 'across', 'up'],
  bearers: ['along', 'width'],
  otherOpenings: ['along', 'across'],
};

/** Without what was added to its lists last and is not measured yet: the rest is drawn meanwhile. */
function withoutUnmeasured(raw: unknown): unknown {
  if (!isRecord(raw)) return raw;
  const space = { ...raw };
  for (const [list, names] of Object.entries(MEASURED)) {
    const rows = listAt(space, [list]);
    const last = rows.findLastIndex((row) => names.every((name) => valueAt(row, [name]) !== undefined));
    if (last >= 0) space[list] = rows.slice(0, last + 1);
    else if (rows.length > 0) delete space[list];
  }
  return space;
}

function placesOf(space: Void): Places {
  const places: Places = {};
  for (const [n, { along, across, up }] of space.keepOut.entries()) places[`keepOut[${n}]`] = { along, across, up };
  for (const [n, { along }] of (space.bearers ?? []).entries()) places[`bearers[${n}]`] = { along: [along, along] };
  const middle = (at: { along: number; across: number } | undefined): Places[string] => {
    const { along, across } = at ?? { along: space.length / 2, across: 0 };
    return { along: [along, along], across: [across, across] };
  };
  if (space.opening) places.opening = middle(space.opening.at);
  for (const [n, { at }] of (space.otherOpenings ?? []).entries()) places[`otherOpenings[${n}]`] = middle(at);
  return places;
}

export function emptyPlan(space: LaidVoid): Plan {
  return {
    format: 'kentledge-plan/1',
    job: '',
    jobDigest: '',
    engine: '',
    effort: 'quick',
    seed: 0,
    bars: [],
    bundles: [],
    runs: [],
    voids: [{ void: space.void, mass: 0, bundles: 0, fill: 0, centre: null, axis: space.axis }],
    totals: {
      stockMass: 0,
      placedMass: 0,
      keptMass: 0,
      scrapMass: 0,
      kerfMass: 0,
      squaringMass: 0,
      spoiledMass: 0,
      bars: 0,
      pieces: 0,
      cuts: 0,
      stops: 0,
      bundles: 0,
      minutes: 0,
    },
    bound: { value: 0, valueAtMost: null, gap: null },
    centre: null,
    cautions: [],
  };
}
