/** What can not be true of a vessel: mostly figures in another unit. */
import type { Fault } from '../fault.ts';
import type { Vessel } from './job.ts';
import { wrongUnit } from './wrongUnit.ts';

/** A vessel lighter than this was written in tonnes, kg. */
const LIGHTEST = 100;

/**
 * Places and heights in metres, and the greatest that a small displacement vessel can have: beyond it the figure was
 * written in cm (up to a hundredfold the greatest) or mm.
 */
const GREATEST: Partial<Record<keyof Vessel, number>> = {
  lcg: 150,
  lcf: 150,
  vcg: 20,
  gm: 20,
  freeboard: 20,
  freeboardLeast: 20,
  draughtForward: 20,
  draughtAft: 20,
  waterlineLength: 150,
  beam: 50,
};

/** Every contradiction in the vessel's data. */
export function vesselFaults(vessel: Vessel): Fault[] {
  const faults: Fault[] = [];
  for (const field of ['displacement', 'displacementMost'] as const) {
    const value = vessel[field];
    if (value === undefined || value >= LIGHTEST) continue;
    faults.push(wrongUnit(`vessel.${field}`, `The vessel displaces ${value} kg.`, value, 1000, 'kg'));
  }
  for (const [field, greatest] of Object.entries(GREATEST) as [keyof Vessel, number][]) {
    const value = vessel[field];
    if (typeof value !== 'number' || Math.abs(value) <= greatest) continue;
    faults.push(wrongUnit(`vessel.${field}`, `“${field}” is ${value} m.`, value, 0.01, 'm'));
  }
  const { displacement, displacementMost } = vessel;
  if (displacement !== undefined && displacementMost !== undefined && displacementMost < displacement) {
    const message = `The most she may displace (${displacementMost} kg) is less than what she displaces now (${displacement} kg).`;
    const remedy = 'Write both in kg; if she is overloaded already, no ballast can be planned for her.';
    faults.push({ path: 'vessel.displacementMost', code: 'contradiction', message, remedy });
  }
  return faults;
}
