/**
 * What lies under and beside the bundles of a void: matting, notched battens, packing, chocks. Mm, areas m². The shape of
 * the void is read at the level of the bundles, so that hollow sides get longer chocks and shorter battens.
 */

import type { KeepOut } from '../job/job.ts';
import { ALLOWANCES } from '../plan/materials.ts';
import type { Plan, PlanBundle, PlanRun } from '../plan/plan.ts';
import type { LaidVoid } from '../stow/laid.ts';
import { keepOutTop } from './laid.ts';
import { sidesAt } from './outline.ts';

export interface Bed {
  run: number;
  length: number;
  /** Clear width under the ground tier, mm. */
  width: number;
  matting: number;
  battens: { count: number; length: number; height: number };
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
      packing: Math.max(...over) > 0.5 ? over : null,
    };
  });
}

export interface Chock {
  /** Where it goes: `V1 run 1 tier 2 port` is marked `V1/1/2 port`. */
  void: string;
  run: number;
  tier: number;
  side: 'least' | 'most' | 'first end' | 'last end';
  /** The gap to fill, less the finger room: never wedged tight. */
  size: number;
  height: number;
  /** How long a stretch it steadies, mm; side chocks lie from `from` to `to` along. */
  length: number;
  from: number;
  to: number;
  /** Least corner across and up of a side chock, or of the tier that an end chock steadies. */
  across: number;
  up: number;
}

/** What a chock is smaller than its gap, mm: the finger room, and never none. */
export function looseness(laid: LaidVoid): number {
  return Math.max(3, laid.gap.across);
}

function overlap(range: readonly [number, number], from: number, to: number): boolean {
  return range[0] < to && range[1] > from;
}

/** A chock shorter than this steadies nothing, mm. */
const LEAST_LENGTH = 60;

/** The stretches of a run that none of the keep-outs takes: nothing bears on a bolt or a seacock. */
function stretchesBeside(run: PlanRun, taken: readonly KeepOut[]): { from: number; to: number }[] {
  const stretches: { from: number; to: number }[] = [];
  let from = run.from;
  for (const keepOut of [...taken].sort((p, q) => p.along[0] - q.along[0])) {
    stretches.push({ from, to: Math.min(keepOut.along[0], run.to) });
    from = Math.max(from, keepOut.along[1]);
  }
  stretches.push({ from, to: run.to });
  return stretches.filter((stretch) => stretch.to - stretch.from >= LEAST_LENGTH);
}

/** Gaps under this need no chock, mm. */
const LEAST_CHOCK = 15;

/** Side gaps of each tier and the gaps at the void's two ends. */
export function chocksOf(laid: LaidVoid, plan: Plan): Chock[] {
  const runs = runsOf(laid, plan);
  return runs.flatMap(({ run, bundles }, i) => {
    const tiers = [...new Set(bundles.map((bundle) => bundle.tier))].sort((p, q) => p - q);
    return tiers.flatMap((tier) => {
      const here = bundles.filter((bundle) => bundle.tier === tier);
      const low = Math.min(...here.map((bundle) => bundle.at.up));
      const height = Math.max(...here.map((bundle) => bundle.size.up));
      const sides = narrowest(laid, run, low);
      const least = Math.min(...here.map((bundle) => bundle.at.across));
      const most = Math.max(...here.map((bundle) => bundle.at.across + bundle.size.across));
      const length = run.to - run.from;
      const chock = (side: Chock['side'], gap: number, reach: number, across: number): Chock[] => {
        const size = Math.floor(gap - looseness(laid));
        if (size < LEAST_CHOCK) return [];
        const chocked = { void: laid.void, run: run.run, tier, side, size, height, across, up: low };
        if (side === 'first end' || side === 'last end') return [{ ...chocked, length: reach, from: 0, to: 0 }];
        const taken = laid.keepOut.filter(
          (keepOut) =>
            overlap(keepOut.across, across, across + size) &&
            overlap([keepOut.up[0], keepOutTop(laid, keepOut)], low, low + height),
        );
        return stretchesBeside(run, taken).map(({ from, to }) => ({ ...chocked, length: to - from, from, to }));
      };
      const wide = most - least;
      return [
        ...chock('least', least - sides.from, length, sides.from),
        ...chock('most', sides.to - most, length, most + looseness(laid)),
        ...(i === 0 ? chock('first end', run.from, wide, least) : []),
        ...(i === runs.length - 1 ? chock('last end', laid.length - run.to, wide, least) : []),
      ];
    });
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
