/** A figure that was written in another unit: told with the figure that was probably meant. */
import type { Fault } from '../fault.ts';
import { withoutDust } from '../units.ts';

/** The fault of `value` at `path`; it was probably meant times `factor`, in `unit`. `message` says what was read. */
export function wrongUnit(path: string, message: string, value: number, factor: number, unit: string): Fault {
  const meant = withoutDust(value * factor);
  return { path, code: 'wrong-unit', message, remedy: `Did you mean ${meant}? It is read in ${unit}.` };
}

/** What a place or height of a small vessel is at most, m: more is another unit, and so much is usual. */
export interface Bounds {
  greatest: number;
  usual: number;
}

export const ALONG: Bounds = { greatest: 150, usual: 30 };
export const ATHWART: Bounds = { greatest: 50, usual: 10 };
export const UPRIGHT: Bounds = { greatest: 20, usual: 5 };
/** Of a centre, axis by axis. */
export const CENTRE = { x: ALONG, y: ATHWART, z: UPRIGHT } as const;

/** The fault of a figure in metres that was written in cm or in mm; none where it is possible. */
export function metresFaults(
  path: string,
  name: string,
  value: number | undefined,
  { greatest, usual }: Bounds,
): Fault[] {
  if (value === undefined || Math.abs(value) <= greatest) return [];
  const factor = Math.abs(value) <= 100 * usual ? 0.01 : 0.001;
  return [wrongUnit(path, `“${name}” is ${value} m.`, value, factor, 'm')];
}
