/**
 * What readings afloat say of her hydrostatics: a known weight put aboard, moved, or moved across, and marks or an angle
 * read. Each answer has the range that the error of the readings gives it.
 */
import { overCorners, type Range } from './range.ts';

/** A mark is read to half a centimetre in calm water. */
const MARK_ERROR_CM = 0.5;
/** A change of trim smaller than this says nothing of the moment to trim, cm. */
export const TRIM_LEAST_CM = 2;

/** Draughts at the ends of the waterline, m. */
export interface Draughts {
  forward: number;
  aft: number;
}

function about(value: number, error: number): Range {
  return { low: value - error, likely: value, high: value + error };
}

/** GM, m, from `mass` kg moved `distance` m athwartships, her displacement in kg, and tan(angle): deflection over length of a pendulum. */
export function gmFromInclining(mass: number, distance: number, displacement: number, tangent: Range): Range {
  return overCorners({ tangent }, (v) => (mass * distance) / (displacement * v.tangent));
}

/** The mean change at the centre of flotation, cm, from marks before and after; `lcf` and `length` in m. */
export function sinkageFromMarks(before: Draughts, after: Draughts, lcf: number, length: number): number {
  const aft = (after.aft - before.aft) * 100;
  const forward = (after.forward - before.forward) * 100;
  return aft + ((forward - aft) * lcf) / length;
}

/** Change of trim, cm, by the head positive. */
export function trimFromMarks(before: Draughts, after: Draughts): number {
  return (after.forward - before.forward - (after.aft - before.aft)) * 100;
}

/** Hydrostatics corrected from `mass` kg added at `x` m. Null where the change is too small to be read. */
export function correctFromMarks(
  mass: number,
  x: number,
  before: Draughts,
  after: Draughts,
  lcf: number,
  length: number,
): { kgPerCm: Range | null; kgmPerCm: Range | null } {
  const sinkage = sinkageFromMarks(before, after, lcf, length);
  const trim = trimFromMarks(before, after);
  const sinks = sinkage > 2 * MARK_ERROR_CM;
  const trims = Math.abs(trim) >= TRIM_LEAST_CM && Math.sign(trim) === Math.sign(mass * (x - lcf));
  return {
    kgPerCm: sinks ? overCorners({ sinkage: about(sinkage, MARK_ERROR_CM) }, (v) => mass / v.sinkage) : null,
    kgmPerCm: trims ? overCorners({ trim: about(trim, MARK_ERROR_CM * 2) }, (v) => (mass * (x - lcf)) / v.trim) : null,
  };
}

/** The centre of flotation, m: where weights that left the trim unchanged have their common centre. */
export function lcfFromUnchangedTrim(loads: readonly { mass: number; x: number }[]): number {
  const mass = loads.reduce((sum, load) => sum + load.mass, 0);
  return loads.reduce((sum, load) => sum + load.mass * load.x, 0) / mass;
}

/** How the readings are taken, step by step. */
export const HOW_TO_READ = {
  marks: [
    'Calm water, slack lines, everyone aboard in the same place each time, tanks as they are and left so.',
    'Read the draught or the height of a fixed point above the water at both ends of the waterline, to half a centimetre.',
    'Put a known weight aboard near the middle, at least one in fifty of what she weighs; read both ends again.',
    'For the trim, move the same weight a measured distance fore and aft and read both ends again.',
  ],
  roll: [
    'Calm water, lines slack, well clear of the quay, loose gear and tanks secured.',
    'One person pushes the rail in time with her until she rolls a few degrees, then lets her roll freely.',
    'Time five whole rolls, there and back; do it three times and take the mean for one roll.',
  ],
  inclining: [
    'Calm water, slack lines, tanks full or empty, nobody moving but who reads.',
    'Hang a plumb line of a metre or more with a ruler across its end and read it.',
    'Move a known weight a measured distance straight across; read again once she is still; move it back and check.',
    'The movement of the line over its length is the tangent of the angle.',
  ],
} as const;
