/** What the fields of a job say of each other: each alone may be right, and together they can not be. */
import type { Fault } from '../fault.ts';
import type { LiftRules } from './handling.ts';
import type { Aims, BundleRules, Lot, Saw, Vessel, Void } from './job.ts';
import { lotFaults } from './lotFaults.ts';
import { nearestName } from './nearestName.ts';
import { placeFaults } from './placeFaults.ts';
import { vesselFaults } from './vesselFaults.ts';
import { voidFaults } from './voidFaults.ts';
import { CENTRE, metresFaults, wrongUnit } from './wrongUnit.ts';

/** The parts of a job that could be read. A lot or void that could not is its name, or undefined where that failed too. */
export interface StatedParts {
  density: number;
  pile: (Lot | string | undefined)[];
  saw?: Saw | undefined;
  bundle?: BundleRules | undefined;
  voids: (Void | string | undefined)[];
  vessel?: Vessel | undefined;
  aims?: Aims | undefined;
  lift?: LiftRules | undefined;
}

/** Less ballast than this, and yet some, was written in tonnes, kg. */
export const LEAST_BALLAST = 2;

/** Every contradiction, in the order of the file. */
export function jobFaults(parts: StatedParts): Fault[] {
  const { pile, voids, saw, bundle, aims, vessel } = parts;
  return [
    ...repeated(
      pile.map((lot) => (typeof lot === 'object' ? lot.lot : lot)),
      'pile',
      'lot',
    ),
    ...pile.flatMap((lot, i) => (typeof lot === 'object' ? lotFaults(lot, `pile[${i}]`, saw, parts.density) : [])),
    ...(bundle ? bundleFaults(bundle) : []),
    ...repeated(
      voids.map((space) => (typeof space === 'object' ? space.void : space)),
      'voids',
      'void',
    ),
    ...voids.flatMap((space, i) => {
      if (typeof space !== 'object') return [];
      const path = `voids[${i}]`;
      const own = voidFaults(space, path);
      // A figure already told as another unit is not told again for lying outside the vessel.
      const told = own.some((fault) => fault.path.startsWith(`${path}.origin`));
      return [...own, ...(vessel && !told ? placeFaults(space, vessel, path) : [])];
    }),
    ...(vessel ? vesselFaults(vessel) : []),
    ...(aims ? aimFaults(aims) : []),
    ...repeated(
      (parts.lift?.legs ?? []).map((leg) => leg.leg),
      'lift.legs',
      'leg',
    ),
    ...routeFaults(voids, parts.lift),
  ];
}

function repeated(names: (string | undefined)[], list: string, key: string): Fault[] {
  const first = new Map<string, number>();
  const faults: Fault[] = [];
  for (const [i, name] of names.entries()) {
    if (name === undefined) continue;
    const painted = asPainted(name);
    const earlier = first.get(painted);
    if (earlier === undefined) {
      first.set(painted, i);
      continue;
    }
    const message = `The name “${name}” is taken by ${list}[${earlier}].`;
    const remedy = `Give every ${key} a name of its own.`;
    faults.push({ path: `${list}[${i}].${key}`, code: 'not-unique', message, remedy });
  }
  return faults;
}

/** Painted on a bundle, names are one that differ by spaces, by what is never seen, or by how a letter and its accent are kept. */
function asPainted(name: string): string {
  return name
    .normalize('NFC')
    .replace(/\p{Cf}/gu, '')
    .replace(/\s+/gu, ' ')
    .trim();
}

function bundleFaults(bundle: BundleRules): Fault[] {
  if (bundle.wrapping < bundle.limit) return [];
  const message = `The wrapping alone (${bundle.wrapping} kg) reaches the lift limit (${bundle.limit} kg).`;
  const remedy = 'Write the mass of bands, cord and covers of one bundle, in kg.';
  return [{ path: 'bundle.wrapping', code: 'contradiction', message, remedy }];
}

function aimFaults(aims: Aims): Fault[] {
  const faults: Fault[] = [];
  for (const axis of ['x', 'y', 'z'] as const) {
    const range = aims.centre?.[axis];
    if (range === undefined) continue;
    for (const [i, value] of range.entries())
      faults.push(...metresFaults(`aims.centre.${axis}[${i}]`, axis, value, CENTRE[axis]));
    if (range[0] <= range[1]) continue;
    const message = `The range of the centre runs from ${range[0]} to ${range[1]}, backwards.`;
    faults.push({
      path: `aims.centre.${axis}`,
      code: 'contradiction',
      message,
      remedy: 'Write the lesser figure first.',
    });
  }
  if (aims.ballast !== undefined && aims.ballast > 0 && aims.ballast < LEAST_BALLAST) {
    faults.push(wrongUnit('aims.ballast', `The ballast asked for is ${aims.ballast} kg.`, aims.ballast, 1000, 'kg'));
  }
  return faults;
}

/** A route names legs that are stated. */
function routeFaults(voids: StatedParts['voids'], lift: LiftRules | undefined): Fault[] {
  const legs = (lift?.legs ?? []).map((leg) => leg.leg);
  return voids.flatMap((space, i) =>
    (typeof space === 'object' ? (space.route ?? []) : []).flatMap((name, j): Fault[] => {
      if (legs.includes(name)) return [];
      const message = `The way into this void begins with “${name}”, and there is no such leg.`;
      const near = nearestName(name, legs);
      const remedy = near === undefined ? 'State it under lift.legs, or take it out.' : `Did you mean “${near}”?`;
      return [{ path: `voids[${i}].route[${j}]`, code: 'contradiction', message, remedy }];
    }),
  );
}

/** A spread is planned only from a stated centre of flotation. `raw` is the job as written. */
export function spreadFaults(raw: unknown): Fault[] {
  const { aims, vessel } = raw as { aims?: { spread?: unknown }; vessel?: { lcf?: unknown } };
  if (aims?.spread === undefined || vessel?.lcf !== undefined) return [];
  const message = 'A spread is asked for, and it is measured from the centre of flotation, which is not given.';
  const remedy = 'Add vessel.lcf (m forward of the after end of the waterline), or take aims.spread out.';
  return [{ path: 'vessel.lcf', code: 'missing-field', message, remedy }];
}
