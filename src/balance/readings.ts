/**
 * What readings afloat say of her hydrostatics: a known weight put aboard, moved, or moved across, and marks or an angle
 * read. Each answer has the range that the error of the readings gives it.
 */
import { overCorners, type Range } from './range.ts';

/** How far a mark moved is read to half a centimetre in calm water. */
export const MARK_ERROR_CM = 0.5;
/** A change of trim, cm, is that of two marks. */
export const TRIM_ERROR_CM = 2 * MARK_ERROR_CM;
/** A change of trim smaller than this says nothing of the moment to trim, cm. */
const TRIM_LEAST_CM = 2;

/** Draughts at the ends of the waterline, m. */
export interface Draughts {
  forward: number;
  aft: number;
}

function about(value: number, error: number): Range {
  return { low: value - error, likely: value, high: value + error };
}

/** GM, m, from `mass` kg moved `distance` m athwartships, her displacement in kg, and tan(angle): deflection over length of a pendulum. */
export function gmFromInclining(mass: number, distance: number, displacement: Range, tangent: Range): Range {
  return overCorners({ displacement, tangent }, (v) => (mass * distance) / (v.displacement * v.tangent));
}

/** A plumb line against a ruler is read to this, mm. */
const PLUMB_ERROR = 1;
/** Under this the line hardly moved, tan(0.3°); over the other she leans too far for the formula, tan(7°). */
const TANGENT = { least: 0.00524, most: 0.12278 };

/** A plumb line shorter than this, mm, was written in metres, or says too little. */
const LINE_LEAST = 100;

/** tan(angle) from the movement of a plumb line and its length, mm; the reason where it says nothing. */
export function tangentOf(moved: number, length: number): { tangent: Range } | { why: string } {
  const why = [...lengthFaults(length), ...movedFaults(moved)];
  if (why.length > 0) return { why: why.join(' ') };
  const tangent = moved / length;
  if (tangent < TANGENT.least || moved <= PLUMB_ERROR)
    return { why: 'It hardly moved: a heavier weight, a longer way, or a longer line.' };
  if (tangent > TANGENT.most)
    return { why: 'She leans more than 7°, too far for this: a lighter weight, or a shorter way.' };
  return { tangent: { low: (moved - PLUMB_ERROR) / length, likely: tangent, high: (moved + PLUMB_ERROR) / length } };
}

function lengthFaults(length: number): string[] {
  if (!(length > 0)) return ['The length of the plumb line is written in mm, as a number over 0.'];
  if (length >= LINE_LEAST) return [];
  const meant = length <= 20 ? ` Did you mean ${length} m? That is ${Math.round(length * 1000)} mm.` : '';
  return [`The plumb line is said to be ${length} mm long: its length is wanted in mm, a metre or more.${meant}`];
}

function movedFaults(moved: number): string[] {
  if (moved < 0)
    return [`The line is said to have moved by ${moved} mm: write ${-moved}, without a sign, whichever way it went.`];
  return moved === 0 ? ['The line did not move: a heavier weight, or a longer way.'] : [];
}

/** Moment to trim 1 cm, kg·m, from `mass` kg moved `distance` m forward and the marks; null where the trim is too small to read or goes the other way. */
export function trimMomentFromShift(mass: number, distance: number, before: Draughts, after: Draughts): Range | null {
  const trim = trimFromMarks(before, after);
  if (Math.abs(trim) < TRIM_LEAST_CM || Math.sign(trim) !== Math.sign(distance)) return null;
  return overCorners({ trim: about(trim, TRIM_ERROR_CM) }, (v) => (mass * distance) / v.trim);
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
    kgmPerCm: trims ? overCorners({ trim: about(trim, TRIM_ERROR_CM) }, (v) => (mass * (x - lcf)) / v.trim) : null,
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
