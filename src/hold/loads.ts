/**
 * The load cases of a stow. The defaults: twice its weight towards any side and upwards, the analogue of a published
 * restraint test for boat batteries (33 CFR 183.420) and no rule for ballast; and upside down, its weight with no credit
 * for friction. One downwards, a slam or a grounding, only where its acceleration is stated. Forces in newtons.
 */
import type { HoldDown, Side } from '../job/holdDown.ts';
import { SIDES } from '../job/holdDown.ts';

export const GRAVITY = 9.81;

export type Direction = Side | 'up' | 'down';

export interface LoadCase {
  name: string;
  direction: Direction;
  /** Multiples of the stow's weight. */
  factor: number;
  /** Its weight presses it on the floor and friction counts; not when she is upside down or it is thrown up. */
  weightHolds: boolean;
  /** True of the usual cases, of heavier ones in their place, and of one downwards: a void is held when all are carried. */
  required: boolean;
  /** Why a case lighter than the usual one is looked at beside it; printed with it. */
  reason: string | null;
}

const DEFAULT_FACTOR = 2;

/** The cases for one void, in a fixed order: the four sides, up, upside down, down; a lighter one after the usual one. */
export function loadCases(loads: HoldDown['loads']): LoadCase[] {
  const cases: LoadCase[] = [];
  const add = (where: string, direction: Direction, stated: number | undefined) => {
    const weightHolds = direction !== 'up';
    const usual = Math.max(stated ?? DEFAULT_FACTOR, DEFAULT_FACTOR);
    cases.push({ ...named(usual, where), direction, weightHolds, required: true, reason: null });
    if (stated === undefined || stated >= DEFAULT_FACTOR) return;
    const reason = loads.reason ?? null;
    cases.push({ ...named(stated, where), direction, weightHolds, required: false, reason });
  };
  for (const side of SIDES) {
    add(SIDE_WORDS[side], side, side === 'forward' || side === 'aft' ? loads.along : loads.across);
  }
  add('upwards', 'up', loads.up);
  cases.push({ name: 'upside down', direction: 'up', factor: 1, weightHolds: false, required: true, reason: null });
  if (loads.down !== undefined) {
    cases.push({
      ...named(loads.down, 'downwards'),
      direction: 'down',
      weightHolds: true,
      required: true,
      reason: null,
    });
  }
  return cases;
}

function named(factor: number, where: string): { name: string; factor: number } {
  const times = factor === 2 ? 'twice' : factor === 1 ? 'once' : `${factor} times`;
  return { name: `${times} its weight ${where}`, factor };
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
