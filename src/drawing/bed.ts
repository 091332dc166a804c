/**
 * What lies under the bundles of a void: matting, notched battens, packing. Mm, areas m². The shape of the void is read at
 * the level of the bundles, so that hollow sides get shorter battens.
 */

import { type Batten, battensUnder, onBed, partsAcross } from '../plan/battens.ts';
import type { Plan, PlanBundle, PlanRun } from '../plan/plan.ts';
import type { LaidVoid } from '../stow/laid.ts';
import { bottomAt, sidesAt } from './outline.ts';

export interface Bed {
  run: number;
  length: number;
  /** Clear width under the ground tier, mm. */
  width: number;
  matting: number;
  /** What is cut out of the matting, where it stands on the bed: its place, no farther than the matting goes. */
  cutOuts: { what: string | undefined; along: [number, number]; across: [number, number] }[];
  battens: Batten[];
  /** The stated bearers under the run, whose blocks take the place of battens, and how high the ground tier stands over each, mm. */
  bearers: (Batten & { width: number; height: number })[];
  /** Height of packing over the dunnage at the run's two ends; null where the dunnage alone levels it. */
  packing: [number, number] | null;
}

/** Under each run that carries bundles. Battens lie across the bars, notched so that water runs on. */
export function bedsOf(laid: LaidVoid, plan: Plan): Bed[] {
  return runsOf(laid, plan).map(({ run, bundles }) => {
    const level = Math.min(...bundles.map((bundle) => bundle.at.up));
    const length = run.to - run.from;
    const sides = narrowest(laid, run, level);
    const hull = { from: sides.from + laid.clear.sides, to: sides.to - laid.clear.sides };
    const width = Math.max(0, hull.to - hull.from);
    const bearers = (laid.bearers ?? [])
      .filter(({ along }) => run.from <= along && along <= run.to)
      .map(({ along, width: wide }) => ({
        along,
        width: wide,
        height: level - bottomAt(laid, along),
        parts: partsAcross(laid, { from: along - wide / 2, to: along + wide / 2 }, hull, level),
      }))
      .filter(({ parts }) => parts.length > 0);
    const over = run.packing.map((height) => Math.max(0, height - laid.dunnage)) as [number, number];
    return {
      run: run.run,
      length,
      width,
      matting: (length * width) / 1e6,
      cutOuts: onBed(laid, run, level).flatMap(({ what, along, across }) => {
        const [from, to] = [Math.max(along[0], run.from), Math.min(along[1], run.to)];
        const [least, most] = [Math.max(across[0], hull.from), Math.min(across[1], hull.to)];
        return least < most ? [{ what, along: [from, to], across: [least, most] }] : [];
      }),
      battens: battensUnder(laid, run, hull, level),
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

/** How long a part of a batten or a block is sawn, mm: down, so that it drops in. */
export function partLength({ from, to }: Batten['parts'][number]): number {
  return Math.floor(to - from);
}

/** The sides at `level` where they stand closest over the run, each taken by itself. */
function narrowest(laid: LaidVoid, run: PlanRun, level: number): { from: number; to: number } {
  const between = (laid.stations ?? [])
    .map((station) => station.along)
    .filter((along) => along > run.from && along < run.to);
  const sides = [run.from, ...between, run.to].map((along) => sidesAt(laid, along, level));
  return { from: Math.max(...sides.map((side) => side.from)), to: Math.min(...sides.map((side) => side.to)) };
}
