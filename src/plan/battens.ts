/**
 * Where battens lie under a run, and blocks on bearers: clear of what stands on the bed (keep-outs and the drain), or in
 * parts that stop short on either side of it. Mm, in the void's own frame. Places are found by going from one to the next,
 * not the fewest that there are.
 */
import type { KeepOut } from '../job/job.ts';
import { drainIn } from '../stow/drain.ts';
import { bottomAt } from '../stow/envelope.ts';
import type { LaidVoid } from '../stow/laid.ts';
import type { Interval } from './chockRoom.ts';
import { ALLOWANCES } from './materials.ts';

/** A batten or a block: its middle along, and its parts across, one unless something stands in its way. */
export interface Batten {
  along: number;
  parts: Interval[];
}

/** A part shorter than this across carries nothing worth cutting it. */
const LEAST_PART = 30;
/** Wood is notched over a drain that leaves so much of it. */
const LEAST_OVER = 3;

/** What stands between the floor of a stretch and bundles at `level`, so that neither batten nor matting can lie there. */
export function onBed(laid: LaidVoid, { from, to }: Interval, level: number): KeepOut[] {
  const floor = Math.min(bottomAt(laid, from), bottomAt(laid, to));
  const keepOuts = laid.keepOut.filter(
    ({ along, up }) => along[0] < to && along[1] > from && up[0] < level && up[1] > floor,
  );
  return [...keepOuts, ...drainIn(laid, from, to).filter(({ up }) => up[1] > level - LEAST_OVER)];
}

/** The parts of a piece of wood across `hull` that stop short of what stands on the bed of a stretch. */
export function partsAcross(laid: LaidVoid, stretch: Interval, hull: Interval, level: number): Interval[] {
  if (hull.to <= hull.from) return [];
  const taken = onBed(laid, stretch, level).filter(({ across }) => across[0] < hull.to && across[1] > hull.from);
  if (taken.length === 0) return [hull];
  const parts: Interval[] = [];
  let { from } = hull;
  for (const { across } of taken.sort((p, q) => p.across[0] - q.across[0])) {
    parts.push({ from, to: across[0] });
    from = Math.max(from, across[1]);
  }
  parts.push({ from, to: hull.to });
  return parts.filter((part) => part.to - part.from >= LEAST_PART);
}

/** How wide battens under a stretch are taken to be, mm: less under a very short one. */
export function battenWidth({ from, to }: Interval): number {
  return Math.min(ALLOWANCES.battenWidth, (to - from) / 3);
}

/**
 * The battens under a run, from along 0 on: their middles at most `ALLOWANCES.battenEvery` apart, the first and the last at
 * the run's ends or, where something stands there, at most half of that from them. One that can lie clear nowhere near
 * its place is in parts.
 */
export function battensUnder(laid: LaidVoid, run: Interval, hull: Interval, level: number): Batten[] {
  const every = ALLOWANCES.battenEvery;
  const half = battenWidth(run) / 2;
  const [least, most] = [run.from + half, run.to - half];
  const taken = onBed(laid, run, level)
    .filter(({ across }) => across[0] < hull.to && across[1] > hull.from)
    .filter(({ along }) => along[0] > run.from || along[1] < run.to);
  const isClear = (x: number) => taken.every(({ along }) => along[1] <= x - half || along[0] >= x + half);
  const beside = taken.flatMap(({ along }) => [along[0] - half, along[1] + half]);
  /** The clear place nearest to `wanted` within a range; `wanted` itself where there is none. */
  const nearest = (wanted: number, from: number, to: number): number => {
    const places = [wanted, ...beside].filter((x) => x >= from && x <= to && isClear(x));
    return places.reduce((best, x) => (Math.abs(x - wanted) < Math.abs(best - wanted) ? x : best), places[0] ?? wanted);
  };
  const middle = (least + most) / 2;
  const first = nearest(least, least, Math.min(run.from + every / 2, middle - half));
  const last = nearest(most, Math.max(run.to - every / 2, middle + half), most);
  const places = [first];
  for (let at = first; last - at > every; ) {
    const step = (last - at) / Math.ceil((last - at) / every);
    at = nearest(at + step, at + every / 2, Math.min(at + every, last - 2 * half));
    places.push(at);
  }
  return [...places, last]
    .map((along) => ({ along, parts: partsAcross(laid, { from: along - half, to: along + half }, hull, level) }))
    .filter(({ parts }) => parts.length > 0);
}
