/**
 * The load cases of a stow. The defaults: twice its weight towards any side and upwards, the analogue of a published
 * restraint test for boat batteries (33 CFR 183.420) and no rule for ballast; and upside down, its weight with no credit
 * for friction. Forces in newtons.
 */
import type { HoldDown, Side } from '../job/holdDown.ts';
import { SIDES } from '../job/holdDown.ts';

export const GRAVITY = 9.81;

export type Direction = Side | 'up';

export interface LoadCase {
  name: string;
  direction: Direction;
  /** Multiples of the stow's weight. */
  factor: number;
  /** Its weight presses it on the floor and friction counts; not when she is upside down or it is thrown up. */
  weightHolds: boolean;
  /** Why the case is lighter than the default; printed with it. */
  reason: string | null;
}

const DEFAULT_FACTOR = 2;

/** The cases for one void, in a fixed order: the four sides, up, upside down. */
export function loadCases(loads: HoldDown['loads']): LoadCase[] {
  const cases: LoadCase[] = [];
  const add = (name: string, direction: Direction, factor: number, usual: number) => {
    const reason = factor < usual ? (loads.reason ?? null) : null;
    cases.push({ name, direction, factor, weightHolds: direction !== 'up', reason });
  };
  for (const side of SIDES) {
    const stated = side === 'forward' || side === 'aft' ? loads.along : loads.across;
    const factor = stated ?? DEFAULT_FACTOR;
    add(`${times(factor)} its weight ${SIDE_WORDS[side]}`, side, factor, DEFAULT_FACTOR);
  }
  const up = loads.up ?? DEFAULT_FACTOR;
  add(`${times(up)} its weight upwards`, 'up', up, DEFAULT_FACTOR);
  add('upside down', 'up', 1, 1);
  return cases;
}

function times(factor: number): string {
  return factor === 2 ? 'twice' : factor === 1 ? 'once' : `${factor} times`;
}

const SIDE_WORDS: Record<Side, string> = {
  forward: 'forward',
  aft: 'aft',
  port: 'to port',
  starboard: 'to starboard',
};

/** Newtons that the hold-down must carry for `mass` kg. */
export function demandOf(load: LoadCase, mass: number): number {
  return load.factor * mass * GRAVITY;
}
