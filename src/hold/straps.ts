/**
 * Straps. Over the top, against sliding (the form of EN 12195-1, from memory): n ≥ (c − μ·c_z)·m·g·f_s / (2·μ·sin α·F_T),
 * f_s 1.25 forward and 1.1 otherwise, F_T the tension that is left in the strap or half its lashing capacity. Direct:
 * m·g·(c − μ·f_μ·c_z) ≤ n·LC·(cos α·cos β + μ·f_μ·sin α), f_μ 0.75. α from the floor, β in plan from the direction held.
 * Forces in newtons here.
 */
import type { Strap } from '../job/holdDown.ts';
import { GRAVITY } from './loads.ts';

const SAFETY_FORWARD = 1.25;
const SAFETY_OTHERWISE = 1.1;
const DIRECT_FRICTION = 0.75;

export type Over = Extract<Strap, { kind: 'over' }>;
type Direct = Extract<Strap, { kind: 'direct' }>;

/** More of its lashing capacity than this, where a strap is tensioned, is more than usual: what a tensioner leaves by default. */
export const USUAL_TENSION = 0.5;

/** Newtons that a strap over the top presses with, F_T in the formula. */
export function tensionOf(strap: Over): number {
  return 1000 * (strap.tension ?? USUAL_TENSION * strap.lashingCapacity);
}

/** How many straps over the top (a fraction) keep `mass` kg from sliding at `c` times gravity; infinite without friction. */
export function strapsNeeded(
  mass: number,
  c: number,
  friction: number,
  angle: number,
  tension: number,
  forward: boolean,
): number {
  const safety = forward ? SAFETY_FORWARD : SAFETY_OTHERWISE;
  const short = c - friction;
  if (short <= 0) return 0;
  if (friction <= 0) return Number.POSITIVE_INFINITY;
  return (short * mass * GRAVITY * safety) / (2 * friction * sine(angle) * tension);
}

/** Newtons sideways that straps over the top add by pressing the stow down, its own weight not counted. */
export function overCapacity(strap: Over, friction: number, forward: boolean): number {
  const safety = forward ? SAFETY_FORWARD : SAFETY_OTHERWISE;
  return (strap.count * 2 * friction * sine(strap.angle) * tensionOf(strap)) / safety;
}

/** Newtons upwards that straps over the top carry, two ends each. */
export function upliftCapacity(strap: Over): number {
  return strap.count * 2 * strap.lashingCapacity * 1000 * sine(strap.angle);
}

/** Newtons against its side that direct straps carry, friction of their downward pull included. */
export function directCapacity(strap: Direct, friction: number): number {
  const pull = cosine(strap.angle) * cosine(strap.aside) + friction * DIRECT_FRICTION * sine(strap.angle);
  return strap.count * strap.lashingCapacity * 1000 * pull;
}

/** Newtons of a demand that the stow's own weight takes by friction beside direct straps. */
export function directFriction(mass: number, friction: number): number {
  return friction * DIRECT_FRICTION * mass * GRAVITY;
}

function sine(degrees: number): number {
  return Math.sin((degrees * Math.PI) / 180);
}

function cosine(degrees: number): number {
  return Math.cos((degrees * Math.PI) / 180);
}
