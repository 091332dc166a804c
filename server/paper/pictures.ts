/** The plan's drawings as SVG files of their own, made one at a time. */
import { barScene } from '../../src/drawing/bar.ts';
import { bundleScene } from '../../src/drawing/bundle.ts';
import { holdCrossScene, sectionFittings } from '../../src/drawing/holdCross.ts';
import { holdView } from '../../src/drawing/holdPlace.ts';
import { holdPlanScene } from '../../src/drawing/holdPlan.ts';
import { laidVoid } from '../../src/drawing/laid.ts';
import { personScene } from '../../src/drawing/person.ts';
import type { Scene } from '../../src/drawing/scene.ts';
import { svgOf } from '../../src/drawing/svg.ts';
import { vesselScene } from '../../src/drawing/vessel.ts';
import { voidCrossScene } from '../../src/drawing/voidCross.ts';
import { voidLongScene } from '../../src/drawing/voidLong.ts';
import { voidPlanScene } from '../../src/drawing/voidPlan.ts';
import { holdDownOf } from '../../src/hold/holdDown.ts';
import type { Job } from '../../src/job/job.ts';
import { liftOf } from '../../src/lift/route.ts';
import { chocksOf } from '../../src/plan/chocks.ts';
import type { Plan } from '../../src/plan/plan.ts';
import { alikeBars } from '../../src/plan/stops.ts';
import type { Units } from '../../src/units.ts';
import { inOrder } from './tags.ts';

export interface Picture {
  file: string;
  svg(): string;
}

const ROOM = { width: 180, height: 90 };

/** Vessel, voids (plan of each tier, long section, who lifts there, a section a run, what holds it down), bundles, and one bar of each alike. */
export function* picturesOf(job: Job, plan: Plan, units: Units = 'metric'): Generator<Picture> {
  const room = { ...ROOM, units };
  yield picture('vessel', () => vesselScene(job, plan, room));
  const held = new Map(holdDownOf(job, plan).map((entry) => [entry.void, entry]));
  for (const [i, space] of job.voids.entries()) {
    const name = `void-${fileMark(i, space.void)}`;
    yield picture(`${name}-plan`, () => voidPlanScene(space, plan, room));
    yield picture(`${name}-long`, () => voidLongScene(space, plan, room));
    const lift = space.handling && liftOf(job, space.handling);
    if (lift) yield picture(`${name}-lift`, () => personScene(space, lift, room));
    const bundles = plan.bundles.filter((bundle) => bundle.void === space.void);
    const all = chocksOf(laidVoid(space, plan), plan);
    for (const tier of [...new Set(bundles.map((bundle) => bundle.tier))].sort((p, q) => p - q)) {
      const chocks = all.filter((chock) => chock.tier === tier);
      yield picture(`${name}-tier-${tier}`, () => voidPlanScene(space, plan, { ...room, tier, chocks }));
    }
    for (const run of plan.runs.filter((entry) => entry.void === space.void)) {
      yield picture(`${name}-run-${run.run}`, () => voidCrossScene(space, plan, (run.from + run.to) / 2, room));
    }
    const hold = holdView(space, held.get(space.void) ?? null);
    if (!hold) continue;
    yield picture(`${name}-hold`, () => holdPlanScene(space, plan, hold, room));
    for (const one of sectionFittings(hold)) {
      yield picture(`${name}-hold-${one.mark}`, () => holdCrossScene(space, plan, hold, one, room));
    }
  }
  for (const [i, bundle] of inOrder(job, plan).entries()) {
    yield picture(`bundle-${fileMark(i, bundle.bundle)}`, () => bundleScene(bundle, { width: 80, height: 80, units }));
  }
  for (const [i, bars] of alikeBars(job, plan).entries()) {
    const bar = bars[0]!;
    yield picture(`bar-${fileMark(i, bar.bar)}`, () => barScene(job, bar, { width: 180, units }));
  }
}

function picture(name: string, scene: () => Scene): Picture {
  return { file: `${name}.svg`, svg: () => svgOf(scene(), { standalone: true }) };
}

/** A number that keeps names apart, and what of the mark any file system takes. */
function fileMark(i: number, mark: string): string {
  const safe = mark.replace(/[^A-Za-z0-9_-]+/g, '_').slice(0, 40);
  return `${String(i + 1).padStart(3, '0')}-${safe}`;
}
