/**
 * What lies under the bundles of a void: matting, notched battens, packing. Mm, areas m². The shape of the void is read at
 * the level of the bundles, so that hollow sides get shorter battens.
 */

import { ALLOWANCES } from '../plan/materials.ts';
import type { Plan, PlanBundle, PlanRun } from '../plan/plan.ts';
import type { LaidVoid } from '../stow/laid.ts';
import { bottomAt, sidesAt } from './outline.ts';

export interface Bed {
  run: number;
  length: number;
  /** Clear width under the ground tier, mm. */
  width: number;
  matting: number;
  battens: { count: number; length: number; height: number };
  /** The stated bearers under the run, which take the place of battens, and how high the ground tier stands over each, mm. */
  bearers: { along: number; width: number; height: number }[];
  /** Height of packing over the dunnage at the run's two ends; null where the dunnage alone levels it. */
  packing: [number, number] | null;
}

/** Under each run that carries bundles. Battens lie across the bars, notched so that water runs on. */
export function bedsOf(laid: LaidVoid, plan: Plan): Bed[] {
  return runsOf(laid, plan).map(({ run, bundles }) => {
    const level = Math.min(...bundles.map((bundle) => bundle.at.up));
    const length = run.to - run.from;
    const sides = narrowest(laid, run, level);
    const width = Math.max(0, sides.to - sides.from - 2 * laid.clear.sides);
    const bearers = (laid.bearers ?? [])
      .filter(({ along }) => run.from <= along && along <= run.to)
      .map(({ along, width: wide }) => ({ along, width: wide, height: level - bottomAt(laid, along) }));
    const over = run.packing.map((height) => Math.max(0, height - laid.dunnage)) as [number, number];
    return {
      run: run.run,
      length,
      width,
      matting: (length * width) / 1e6,
      battens: {
        count: Math.max(2, Math.ceil(length / ALLOWANCES.battenEvery) + 1),
        length: Math.floor(width),
        height: laid.dunnage,
      },
      bearers,
      packing: Math.max(...over) > 0.5 ? over : null,
    };
  });
}

function runsOf(laid: LaidVoid, plan: Plan): { run: PlanRun; bundles: PlanBundle[] }[] {
  return plan.runs
    .filter((run) => run.void === laid.void)
    .map((run) => ({
      run,
      bundles: plan.bundles.filter((bundle) => bundle.void === laid.void && bundle.run === run.run),
    }))
    .filter((entry) => entry.bundles.length > 0);
}

/** The sides at `level` where they stand closest over the run, each taken by itself. */
function narrowest(laid: LaidVoid, run: PlanRun, level: number): { from: number; to: number } {
  const between = (laid.stations ?? [])
    .map((station) => station.along)
    .filter((along) => along > run.from && along < run.to);
  const sides = [run.from, ...between, run.to].map((along) => sidesAt(laid, along, level));
  return { from: Math.max(...sides.map((side) => side.from)), to: Math.min(...sides.map((side) => side.to)) };
}
