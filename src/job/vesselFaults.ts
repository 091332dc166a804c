/** What can not be true of a vessel: mostly figures in another unit. */
import type { Fault } from '../fault.ts';
import type { Vessel } from './job.ts';
import { ALONG, ATHWART, type Bounds, metresFaults, UPRIGHT, wrongUnit } from './wrongUnit.ts';

/** A vessel lighter than this was written in tonnes, kg. */
const LIGHTEST = 100;

/** Places and heights in metres. */
const METRES: Partial<Record<keyof Vessel, Bounds>> = {
  lcg: ALONG,
  lcf: ALONG,
  waterlineLength: ALONG,
  beam: ATHWART,
  vcg: UPRIGHT,
  gm: UPRIGHT,
  freeboard: UPRIGHT,
  freeboardLeast: UPRIGHT,
  draughtForward: UPRIGHT,
  draughtAft: UPRIGHT,
};

/** Every contradiction in the vessel's data. */
export function vesselFaults(vessel: Vessel): Fault[] {
  const faults: Fault[] = [];
  for (const field of ['displacement', 'displacementMost'] as const) {
    const value = vessel[field];
    if (value === undefined || value >= LIGHTEST) continue;
    faults.push(wrongUnit(`vessel.${field}`, `The vessel displaces ${value} kg.`, value, 1000, 'kg'));
  }
  for (const [field, bounds] of Object.entries(METRES) as [keyof Vessel, Bounds][]) {
    const value = vessel[field];
    if (typeof value === 'number') faults.push(...metresFaults(`vessel.${field}`, field, value, bounds));
  }
  const { displacement, displacementMost } = vessel;
  if (displacement !== undefined && displacementMost !== undefined && displacementMost < displacement) {
    const message = `The most she may displace (${displacementMost} kg) is less than what she displaces now (${displacement} kg).`;
    const remedy = 'Write both in kg; if she is overloaded already, no ballast can be planned for her.';
    faults.push({ path: 'vessel.displacementMost', code: 'contradiction', message, remedy });
  }
  return faults;
}
