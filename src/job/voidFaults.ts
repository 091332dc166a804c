/** What can not be true of a void. */
import type { Fault } from '../fault.ts';
import { carryFaults } from './carryFaults.ts';
import { holdFaults, roomOver } from './holdFaults.ts';
import { holdPlaceFaults } from './holdPlaceFaults.ts';
import type { Void } from './job.ts';
import { openingFaults } from './openingFaults.ts';
import { stationFaults } from './stationFaults.ts';
import { ALONG, ATHWART, metresFaults, UPRIGHT, wrongUnit } from './wrongUnit.ts';

/** A void or opening smaller than this was written in metres, mm. */
export const SMALLEST = 10;

/** Every contradiction in one void; `path` is its place in the file. */
export function voidFaults(space: Void, path: string): Fault[] {
  const units = unitFaults(space, path);
  return [
    ...units,
    ...(units.length === 0 ? roomFaults(space, path) : []),
    ...capFaults(space, path),
    ...space.keepOut.flatMap((keepOut, i) => rangeFaults(keepOut, `${path}.keepOut[${i}]`)),
    ...stationFaults(space, path),
    ...carryFaults(space, path),
    ...openingFaults(space, path),
    ...(space.holdDown ? holdFaults(space.holdDown, roomOver(space), `${path}.holdDown`) : []),
    ...(space.holdDown ? holdPlaceFaults(space.holdDown, space, `${path}.holdDown`) : []),
  ];
}

function unitFaults(space: Void, path: string): Fault[] {
  const sizes: [string, number | undefined][] = [
    ['length', space.length],
    ['width', space.width],
    ['height', space.height],
    ['opening.along', space.opening?.along],
    ['opening.across', space.opening?.across],
    ...(space.otherOpenings ?? []).flatMap((opening, i): [string, number][] => [
      [`otherOpenings[${i}].along`, opening.along],
      [`otherOpenings[${i}].across`, opening.across],
    ]),
  ];
  const { x, y, z } = space.origin;
  const origin = [
    ...metresFaults(`${path}.origin.x`, 'x', x, ALONG),
    ...metresFaults(`${path}.origin.y`, 'y', y, ATHWART),
    ...metresFaults(`${path}.origin.z`, 'z', z, UPRIGHT),
  ];
  const small = sizes.flatMap(([field, value]): Fault[] => {
    if (value === undefined || value >= SMALLEST) return [];
    const message = `The void “${space.void}” has a ${field.replace('.', ' ')} of ${value} mm.`;
    return [wrongUnit(`${path}.${field}`, message, value, 1000, 'mm')];
  });
  return [...small, ...origin];
}

/** Clearances and dunnage that leave nothing of the void. */
function roomFaults(space: Void, path: string): Fault[] {
  const { length, width, height, clear, dunnage } = space;
  const faults: Fault[] = [];
  const tell = (field: string, message: string) => {
    const remedy = 'Write smaller clearances, or measure the void again.';
    faults.push({ path: `${path}.${field}`, code: 'contradiction', message, remedy });
  };
  if (2 * clear.ends >= length)
    tell('clear.ends', `Two ends of ${clear.ends} mm leave nothing of a length of ${length} mm.`);
  if (!space.stations && 2 * clear.sides >= width)
    tell('clear.sides', `Two sides of ${clear.sides} mm leave nothing of a width of ${width} mm.`);
  if (dunnage + clear.top >= height)
    tell(
      'clear.top',
      `Dunnage of ${dunnage} mm and ${clear.top} mm at the top leave nothing of a height of ${height} mm.`,
    );
  return faults;
}

function capFaults(space: Void, path: string): Fault[] {
  const { target, most } = space;
  if (target === undefined || most === undefined || target <= most) return [];
  const message = `The target of ${target} kg is over the ${most} kg that are never passed.`;
  const remedy = 'Lower the target, or raise “most” where the structure allows it.';
  return [{ path: `${path}.target`, code: 'contradiction', message, remedy }];
}

function rangeFaults(ranges: Record<'along' | 'across' | 'up', [number, number]>, path: string): Fault[] {
  return (['along', 'across', 'up'] as const).flatMap((axis): Fault[] => {
    const [from, to] = ranges[axis];
    if (from <= to) return [];
    const message = `The keep-out runs from ${from} to ${to} mm, backwards.`;
    return [{ path: `${path}.${axis}`, code: 'contradiction', message, remedy: 'Write the lesser figure first.' }];
  });
}
