/** A figure that was written in another unit: told with the figure that was probably meant. */
import type { Fault } from '../fault.ts';

/** The fault of `value` at `path`; it was probably meant times `factor`, in `unit`. `message` says what was read. */
export function wrongUnit(path: string, message: string, value: number, factor: number, unit: string): Fault {
  const meant = Number((value * factor).toPrecision(12));
  return { path, code: 'wrong-unit', message, remedy: `Did you mean ${meant}? It is read in ${unit}.` };
}
