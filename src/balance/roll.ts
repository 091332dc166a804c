/**
 * How she rolls. Roll period T = f·B/√GM, the form of the rolling test in IMO resolution A.749(18); f = 0.80 in metres is
 * a small-craft design course's value, 0.05 the scatter that the resolution's table gives. From
 * T = 2π·k/√(g·GM) it follows that the roll gyradius is k = f·B·√g/(2π). For smooth water, moored slack, small angles.
 */
import { known, overCorners, type Range } from './range.ts';

export const ROLL_COEFFICIENT: Range = { low: 0.75, likely: 0.8, high: 0.85 };

const GRAVITY = 9.81;
/** √g/(2π): gyradius over coefficient × beam. */
const GYRADIUS_FACTOR = Math.sqrt(GRAVITY) / (2 * Math.PI);

/** Seconds for one whole roll, there and back, from GM in m and beam in m. */
export function periodFromGm(gm: Range, beam: Range, coefficient: Range = ROLL_COEFFICIENT): Range {
  return overCorners({ gm, beam, coefficient }, (v) => (v.coefficient * v.beam) / Math.sqrt(v.gm));
}

/** GM, m, from a timed period in seconds: GM = (f·B/T)². */
export function gmFromPeriod(period: Range, beam: Range, coefficient: Range = ROLL_COEFFICIENT): Range {
  return overCorners({ period, beam, coefficient }, (v) => ((v.coefficient * v.beam) / v.period) ** 2);
}

/** Her own coefficient, where both GM and a timed period are known. */
export function coefficientFrom(gm: number, beam: number, period: number): Range {
  return known((period * Math.sqrt(gm)) / beam);
}

/** The roll gyradius about her centre of gravity, m. */
export function rollGyradius(coefficient: number, beam: number): number {
  return coefficient * beam * GYRADIUS_FACTOR;
}

/** GM, m, of a vessel with the gyradius, m, that rolls once in `period` seconds. */
export function gmOf(gyradius: number, period: number): number {
  return (gyradius / (GYRADIUS_FACTOR * period)) ** 2;
}

/** Seconds for one whole roll of a vessel with the gyradius, m, and GM, m. */
export function periodOf(gyradius: number, gm: number): number {
  return gyradius / (GYRADIUS_FACTOR * Math.sqrt(gm));
}
