/** A void drawn as typed, before anything is planned for it. */

import { svgOf } from '../../src/drawing/svg.ts';
import { voidCrossScene } from '../../src/drawing/voidCross.ts';
import { voidIsoScene } from '../../src/drawing/voidIso.ts';
import { voidLongScene } from '../../src/drawing/voidLong.ts';
import { voidPlanScene } from '../../src/drawing/voidPlan.ts';
import type { Void } from '../../src/job/job.ts';
import { voidSchema } from '../../src/job/job.ts';
import type { Plan } from '../../src/plan/plan.ts';

export const VIEWS = { aft: 'from aft', port: 'from the side', above: 'from above', solid: 'as a solid' } as const;
export type View = keyof typeof VIEWS;

/** Room for one drawing, mm of paper. */
const ROOM = { width: 100, height: 70 };

/**
 * The drawing as SVG text; across, it is cut at a station where one is named, else at half length. Null where the readings
 * are not enough, or not possible, to draw.
 */
export function sketchVoid(raw: unknown, view: View, id: string, station = -1): string | null {
  const space = voidSchema.safeParse(raw).data;
  if (!space) return null;
  const plan = emptyPlan(space);
  if (view === 'above') return svgOf(voidPlanScene(space, plan, ROOM), { id });
  if (view === 'solid') return svgOf(voidIsoScene(space, plan, ROOM), { id });
  if (view === 'port') return svgOf(voidLongScene(space, plan, ROOM), { id });
  return svgOf(voidCrossScene(space, plan, space.stations?.[station]?.along ?? space.length / 2, ROOM), { id });
}

function emptyPlan(space: Void): Plan {
  const axis = space.axis === 'athwartships' ? 'athwartships' : 'fore-and-aft';
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
    voids: [{ void: space.void, mass: 0, bundles: 0, fill: 0, centre: null, axis }],
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
