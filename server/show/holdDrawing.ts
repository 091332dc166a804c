/** A void with what holds its stow down, drawn, and the table of its marks: as last planned, where that still is this void. */
import { holdCrossScene, sectionFittings } from '../../src/drawing/holdCross.ts';
import { holdView } from '../../src/drawing/holdPlace.ts';
import { holdPlanScene } from '../../src/drawing/holdPlan.ts';
import { laidVoid } from '../../src/drawing/laid.ts';
import { svgOf } from '../../src/drawing/svg.ts';
import { widenScene } from '../../src/drawing/widen.ts';
import { type FittingRow, fittingRows } from '../../src/hold/fittingRows.ts';
import type { HeldVoid } from '../../src/hold/holdDown.ts';
import type { Job, Void } from '../../src/job/job.ts';
import type { WeighedMasses } from '../../src/plan/massNow.ts';
import type { Plan } from '../../src/plan/plan.ts';
import type { Axis } from '../../src/stow/laid.ts';
import type { Units } from '../../src/units.ts';
import { emptyPlan } from '../form/sketch.ts';
import { tellIn } from '../otherUnits.ts';

/** Room for the drawing from above and for a section, mm of paper; a narrower one would be blown up on the page. */
const ROOM = { width: 104, height: 90 };
const CROSS_ROOM = { width: 84, height: 60 };
const NARROWEST = 84;

export interface Planned {
  plan: Plan;
  job: Job;
  /** kg off the scale by bundle of the plan. */
  weighed: WeighedMasses;
}

export interface HoldDrawing {
  axis: Axis;
  pictures: { title: string; svg: string }[];
  rows: FittingRow[];
}

/** Whether the void is as it was planned, but for what holds it down: then its stow is known. */
export function isAsPlanned(space: Void, { job }: Planned): boolean {
  const planned = job.voids.find((one) => one.void === space.void);
  const shape = (one: Void) => JSON.stringify({ ...one, holdDown: undefined });
  return planned !== undefined && shape(planned) === shape(space);
}

/** Null of a void for which nothing is entered. `plan` is one that holds its stow; null draws it empty. */
export function drawHold(space: Void, held: HeldVoid | null, plan: Plan | null, units: Units): HoldDrawing | null {
  const view = holdView(space, held);
  if (!view) return null;
  const stowed = plan ?? emptyPlan({ ...space, axis: space.axis === 'athwartships' ? 'athwartships' : 'fore-and-aft' });
  const laid = laidVoid(space, stowed);
  const bundles = stowed.bundles.filter((bundle) => bundle.void === space.void);
  return {
    axis: laid.axis,
    pictures: [
      { title: 'from above', svg: svgOf(holdPlanScene(space, stowed, view, { ...ROOM, units }), { id: 'hold-above' }) },
      ...(bundles.length > 0 ? sectionFittings(view) : []).map((one) => ({
        title: one.settled
          ? tellIn(units, `cut across at ${one.mark}, ${one.middle} mm along`)
          : `cut across where ${one.mark} is taken to lie`,
        svg: svgOf(widenScene(holdCrossScene(space, stowed, view, one, { ...CROSS_ROOM, units }), NARROWEST), {
          id: `hold-${one.mark}`,
        }),
      })),
    ],
    rows: fittingRows(space, laid.length, held?.covers ?? [], bundles).map((row) => ({
      ...row,
      what: tellIn(units, row.what),
      over: tellIn(units, row.over),
      fixed: tellIn(units, row.fixed),
    })),
  };
}
