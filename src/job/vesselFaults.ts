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
  faults.push(...tonnesFaults(vessel));
  for (const [field, bounds] of Object.entries(METRES) as [keyof Vessel, Bounds][]) {
    const value = vessel[field];
    if (typeof value === 'number') faults.push(...metresFaults(`vessel.${field}`, field, value, bounds));
  }
  faults.push(...stiffnessFaults(vessel), ...sinkageFaults(vessel), ...beyondWaterline(vessel));
  const { displacement, displacementMost } = vessel;
  if (displacement !== undefined && displacementMost !== undefined && displacementMost < displacement) {
    const message = `The most she may displace (${displacementMost} kg) is less than what she displaces now (${displacement} kg).`;
    const remedy = 'Write both in kg; if she is overloaded already, no ballast can be planned for her.';
    faults.push({ path: 'vessel.displacementMost', code: 'contradiction', message, remedy });
  }
  return faults;
}

/** A share of the block round her underwater body; finer than this she can not be. */
const FINEST = 0.02;

/** A displacement over the limit of {@link LIGHTEST} and yet far too little for her size is in tonnes too. */
function tonnesFaults(vessel: Vessel): Fault[] {
  const { waterlineLength, beam, draughtForward, draughtAft, water = 1025 } = vessel;
  const draught = Math.min(draughtForward ?? Number.NaN, draughtAft ?? Number.NaN);
  if (waterlineLength === undefined || beam === undefined || !(draught > 0)) return [];
  if (waterlineLength > ALONG.greatest || beam > ATHWART.greatest || draught > UPRIGHT.greatest) return [];
  const block = waterlineLength * beam * draught * water;
  return (['displacement', 'displacementMost'] as const).flatMap((field): Fault[] => {
    const value = vessel[field];
    if (value === undefined || value < LIGHTEST || value >= FINEST * block || value * 1000 > 2 * block) return [];
    const message = `${value} kg is too little for ${waterlineLength} × ${beam} m at a draught of ${draught} m.`;
    return [wrongUnit(`vessel.${field}`, message, value, 1000, 'kg')];
  });
}

/** GM over twice the beam is no GM of anything that floats: it was written in cm, or in mm. */
function stiffnessFaults({ gm, beam }: Vessel): Fault[] {
  if (gm === undefined || beam === undefined || beam > ATHWART.greatest || gm <= 2 * beam) return [];
  if (gm > UPRIGHT.greatest) return [];
  return [wrongUnit('vessel.gm', `A GM of ${gm} m is more than twice her beam of ${beam} m.`, gm, 0.01, 'm')];
}

/** Lighter than this for 1 cm is tonnes per centimetre. */
const LIGHTEST_PER_CM = 1;

/** No waterplane is larger than the oblong round it. */
function sinkageFaults({ kgPerCm, waterlineLength, beam, water = 1025 }: Vessel): Fault[] {
  if (kgPerCm === undefined) return [];
  const path = 'vessel.kgPerCm';
  if (kgPerCm < LIGHTEST_PER_CM)
    return [wrongUnit(path, `${kgPerCm} kg would sink her 1 cm.`, kgPerCm, 1000, 'kg per cm')];
  if (waterlineLength === undefined || beam === undefined) return [];
  const most = (waterlineLength * beam * water) / 100;
  if (kgPerCm <= most * 1.01 || waterlineLength > ALONG.greatest || beam > ATHWART.greatest) return [];
  const message = `${kgPerCm} kg to sink her 1 cm is more than an oblong of ${waterlineLength} × ${beam} m would take (${Math.round(most)} kg).`;
  const remedy =
    'Did you mean kilograms per inch, or another length or beam at the waterline? Put a known weight aboard and read the marks.';
  return [{ path, code: 'contradiction', message, remedy }];
}

/** Her centres lie between the ends of her waterline: 0 is the after end. */
function beyondWaterline({ waterlineLength, ...vessel }: Vessel): Fault[] {
  if (waterlineLength === undefined || waterlineLength > ALONG.greatest) return [];
  return (['lcf', 'lcg'] as const).flatMap((field): Fault[] => {
    const value = vessel[field];
    if (value === undefined || (value >= 0 && value <= waterlineLength) || Math.abs(value) > ALONG.greatest) return [];
    const message = `“${field}” is ${value} m, outside a waterline of ${waterlineLength} m.`;
    const remedy =
      value < 0
        ? `Did you mean ${Math.round((waterlineLength / 2 + value) * 1000) / 1000}? It is measured forward from the after end of the waterline, not from amidships.`
        : 'Measure it forward from the after end of the waterline, in m.';
    return [{ path: `vessel.${field}`, code: 'contradiction', message, remedy }];
  });
}
