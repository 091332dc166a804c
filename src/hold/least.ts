/** The least of each kind of hold-down that would carry a load case: one step of what the user has, never a design. */
import type { HoldDown } from '../job/holdDown.ts';
import { forceAt } from './beam.ts';
import { leastBolt } from './bolts.ts';
import { STEEL_FACTOR } from './carriers.ts';
import { demandOf, GRAVITY, type LoadCase } from './loads.ts';
import { directCapacity, directFriction, overCapacity, upliftCapacity } from './straps.ts';

/** Of the whole stow's weight, the most that any bar across of a row has to hold, by the row's number. */
export type BarShares = readonly number[];

/** Sentences; empty where nothing was entered that could be made stronger, and then what is missing is said. */
export function leastFor(
  hold: HoldDown,
  shares: BarShares,
  load: LoadCase,
  mass: number,
  alongTheBars: boolean,
): string[] {
  const demand = demandOf(load, mass);
  if (load.direction === 'down') return [`Floors or bearers under it that carry ${(demand / 1000).toFixed(2)} kN.`];
  return load.direction === 'up'
    ? leastUp(hold, shares, demand)
    : leastSideways(hold, load, demand, mass, alongTheBars);
}

function leastUp(hold: HoldDown, shares: BarShares, demand: number): string[] {
  const least: string[] = [];
  for (const [row, bar] of hold.bars.entries()) {
    const share = demand * shares[row]!;
    // Stress falls as the square of what stands up: width on edge, thickness flat.
    const stands = bar.onEdge ? bar.width : bar.thickness;
    const factor = Math.sqrt(share / forceAt(bar, bar.yield / STEEL_FACTOR));
    const height = Math.ceil(stands * factor);
    const bolt = leastBolt(bar.bolts.grade, (share / bar.bolts.perBar) * STEEL_FACTOR);
    const size = `${height} mm ${bar.onEdge ? 'high on edge' : 'thick'} over ${bar.span} mm`;
    least.push(
      `The bar across at least ${size}, with bolts ${bolt ? `${bolt} or larger` : `stronger than any ${bar.bolts.grade} of the table`}.`,
    );
  }
  for (const strap of hold.straps) {
    if (strap.kind !== 'over') continue;
    const number = Math.ceil((demand * strap.count) / upliftCapacity(strap));
    least.push(`${number} straps over the top like this one, at ${strap.angle}°.`);
  }
  return least.length > 0 ? least : ['Nothing is entered that holds it down: a bar across it, or straps over it.'];
}

function leastSideways(hold: HoldDown, load: LoadCase, demand: number, mass: number, alongTheBars: boolean): string[] {
  const least: string[] = [];
  const tight = `That side blocked by what carries ${(demand / 1000).toFixed(2)} kN.`;
  for (const strap of hold.straps) {
    if (strap.kind === 'direct' && strap.against === load.direction) {
      const short = demand - directFriction(mass, hold.friction);
      least.push(
        `${Math.ceil((short * strap.count) / directCapacity(strap, hold.friction))} direct straps like this one.`,
      );
    }
    if (strap.kind === 'over' && !alongTheBars && hold.friction > 0) {
      const short = demand - hold.friction * mass * GRAVITY;
      const one = overCapacity(strap, hold.friction, load.direction === 'forward') / strap.count;
      least.push(`${Math.ceil(short / one)} straps over the top like this one.`);
    }
  }
  return [...least, tight];
}
