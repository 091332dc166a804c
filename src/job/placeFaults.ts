/** Voids that can not be where they are said to be in the vessel: mostly an origin in another unit. */
import type { Fault } from '../fault.ts';
import { withoutDust } from '../units.ts';
import type { Vessel, Void } from './job.ts';
import { wrongUnit } from './wrongUnit.ts';

/** A void may lie so far beyond the ends of the waterline, as a share of its length: under a counter or a clipper bow. */
const OVERHANG = 0.2;

/** Every void outside the hull that the vessel's waterline and beam allow. `path` is the void's place in the file. */
export function placeFaults(space: Void, vessel: Vessel, path: string): Fault[] {
  const faults: Fault[] = [];
  const { waterlineLength, beam } = vessel;
  const { x, y } = space.origin;
  const across = space.axis === 'athwartships';
  // An either-way void is given as for fore-and-aft.
  const ahead = across ? space.width / 2000 : space.length / 1000;
  const astern = across ? space.width / 2000 : 0;
  if (waterlineLength !== undefined) {
    const over = OVERHANG * waterlineLength;
    if (x + ahead > waterlineLength + over || x - astern < -over) {
      const message = `“${space.void}” reaches from x = ${withoutDust(x - astern)} to ${withoutDust(x + ahead)} m, and her waterline is ${waterlineLength} m long.`;
      faults.push(outside(`${path}.origin.x`, message, x, waterlineLength));
    }
  }
  if (beam !== undefined) {
    const [port, starboard] = across ? ([y, y + space.length / 1000] as const) : ([y, y] as const);
    if (Math.max(-port, starboard) > beam / 2) {
      const lies = across
        ? `reaches from y = ${withoutDust(port)} to ${withoutDust(starboard)} m`
        : `lies at y = ${y} m`;
      const message = `“${space.void}” ${lies}, outside a beam of ${beam} m.`;
      faults.push(outside(`${path}.origin.y`, message, y, beam / 2));
    }
  }
  return faults;
}

/** Told as a wrong unit where mm or cm would bring it inside. */
function outside(path: string, message: string, value: number, most: number): Fault {
  for (const factor of [0.01, 0.001]) {
    if (Math.abs(value) > 10 * most && Math.abs(value * factor) <= most)
      return wrongUnit(path, message, value, factor, 'm');
  }
  const remedy =
    'Measure x forward from the after end of the waterline and y from the centreline, starboard positive, in m.';
  return { path, code: 'contradiction', message, remedy };
}
