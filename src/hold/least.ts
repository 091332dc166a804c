/** The least of each kind of hold-down that would carry a load case: one step of what the user has, never a design. */
import type { HoldDown, Strap } from '../job/holdDown.ts';
import { forceAt } from './beam.ts';
import { boltsSharing, leastBolt } from './bolts.ts';
import { kN, STEEL_FACTOR } from './carriers.ts';
import { demandOf, GRAVITY, type LoadCase } from './loads.ts';
import { evenPlaces, type HeldRun, holdShares, spreadOver } from './runs.ts';
import { directCapacity, directFriction, overCapacity, upliftCapacity } from './straps.ts';

/** What was entered and could be made stronger: rows that leave a run without anything over it are left out. */
export interface Usable {
  hold: HoldDown;
  /** Of the whole stow's weight, the most that any bar across of a row has to hold, by the row's number. */
  shares: readonly number[];
  /** Over how much of its span the stow presses on it, mm, by the row's number. */
  pressed: readonly number[];
  /** Which share of a bar's load its nearer end has, at most, by the row's number. */
  ends: readonly number[];
  /** Null where no plan says how the void is divided. */
  runs: readonly HeldRun[] | null;
  /** kg */
  mass: number;
}

/** Sentences; empty where nothing was entered that could be made stronger, and then what is missing is said. */
export function leastFor(usable: Usable, load: LoadCase, alongTheBars: boolean): string[] {
  const demand = demandOf(load, usable.mass);
  if (load.direction === 'down') return [`Floors or bearers under it that carry ${kN(demand, 'up')}.`];
  return load.direction === 'up' ? leastUp(usable, demand) : leastSideways(usable, load, demand, alongTheBars);
}

function leastUp({ hold, shares, pressed, ends, runs }: Usable, demand: number): string[] {
  const least: string[] = [];
  for (const [row, bar] of hold.bars.entries()) {
    const share = demand * shares[row]!;
    // Stress falls as the square of what stands up: width on edge, thickness flat.
    const stands = bar.onEdge ? bar.width : bar.thickness;
    const factor = Math.sqrt(share / forceAt({ ...bar, pressed: pressed[row]! }, bar.yield / STEEL_FACTOR));
    const height = Math.ceil(stands * factor);
    const bolt = leastBolt(bar.bolts, ((share * ends[row]!) / (boltsSharing(bar.bolts.perBar) / 2)) * STEEL_FACTOR);
    const size = `${height} mm ${bar.onEdge ? 'high on edge' : 'thick'} over ${bar.span} mm`;
    least.push(
      `The bar across at least ${size}, with bolts ${bolt ? `${bolt} or larger` : `stronger than any ${bar.bolts.grade} of the table`}.`,
    );
  }
  for (const strap of hold.straps) {
    if (strap.kind !== 'over') continue;
    const most = (run: HeldRun, count: number) => Math.max(...holdShares(run, evenPlaces(run, count)));
    least.push(`${strapsOver(runs, demand / upliftCapacity({ ...strap, count: 1 }), most)}, at ${strap.angle}°.`);
  }
  return least.length > 0 ? least : ['Nothing is entered that holds it down: a bar across it, or straps over it.'];
}

function leastSideways({ hold, runs, mass }: Usable, load: LoadCase, demand: number, alongTheBars: boolean): string[] {
  const least: string[] = [];
  const tight = `That side blocked by what carries ${kN(demand, 'up')}.`;
  for (const strap of hold.straps) {
    if (strap.kind === 'direct' && strap.against === load.direction) {
      const short = demand - directFriction(mass, hold.friction);
      const one = directCapacity({ ...strap, count: 1 }, hold.friction);
      least.push(`${strapsAlike(Math.ceil(short / one), 'direct')}.`);
    }
    if (strap.kind === 'over' && !alongTheBars && hold.friction > 0) {
      const short = demand - hold.friction * mass * GRAVITY;
      const one = overCapacity({ ...strap, count: 1 }, hold.friction, load.direction === 'forward');
      least.push(`${strapsOver(runs, short / one, (_, count) => 1 / count)}.`);
    }
  }
  return [...least, tight];
}

/** No row has more. */
const MOST = 100;

/**
 * How many alike carry `times` what one of them does, spread over the runs as those without a place are; `most` is what
 * one of `count` over a run has to hold of it at most.
 */
function strapsOver(
  runs: readonly HeldRun[] | null,
  times: number,
  most: (run: HeldRun, count: number) => number,
): string {
  if (!runs) return strapsAlike(Math.ceil(times), 'over');
  const total = runs.reduce((sum, { mass }) => sum + mass, 0);
  for (let count = runs.length; count <= MOST; count += 1) {
    const numbers: number[] = spreadOver(runs, count)!;
    if (!runs.every((run, i) => (run.mass / total) * most(run, numbers[i]!) * times <= 1)) continue;
    const where = runs.map(({ run }, i) => `${numbers[i]} over run ${run}`).join(', ');
    return `${strapsAlike(count, 'over')}${runs.length > 1 ? ` (${where})` : ''}`;
  }
  return `More than ${MOST} straps over the top like this one`;
}

function strapsAlike(count: number, kind: Strap['kind']): string {
  const straps = count === 1 ? 'strap' : 'straps';
  return `${count} ${kind === 'direct' ? `direct ${straps}` : `${straps} over the top`} like this one`;
}
