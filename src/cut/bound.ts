/**
 * Lower bounds that no rounding error can spoil.
 *
 * Duals are made whole numbers v_i ≤ π_i·unit, prices P_t ≤ price_t·unit. For any v (v ≥ 0 where more than the demand may be cut), with V_t the most that a bar of
 * type t can hold by these values (its end costs taken off),
 *
 *     cost · unit ≥ Σ_i demand_i·v_i + Σ_t count_t · min(0, P_t − V_t)
 *
 * where an unlimited type must have V_t ≤ P_t. Multiplying v by θ ≤ P_t / V_t brings that about (Farley); θ is also taken
 * at the limited types' ratios, since the bound is concave in θ with its corners there.
 */

import type { Scaled } from './scale.ts';

/** Whole values held in doubles stay exact below this. */
const EXACT = 2 ** 51;
/** A value below this, times a number near 1, is off by less than 2^-17: too little for the pieces of a bar to add up to 1. */
const ONE_VALUE = 2 ** 36;

export interface BoundStock {
  /** P_t. */
  price: number;
  /** Infinity for an unlimited type. */
  count: number;
  /** V_t, or more. */
  most: number;
}

/** The greatest power of two such that `pieces` values of up to `dearest` each add up exactly. */
export function chooseUnit(pieces: number, dearest: number): number {
  let unit = 1;
  const one = Math.max(dearest, 1e-9);
  const all = Math.max(1, pieces) * one;
  while (all * unit > EXACT || one * unit > ONE_VALUE) unit /= 2;
  while (all * unit * 2 <= EXACT && one * unit * 2 <= ONE_VALUE) unit *= 2;
  return unit;
}

/** No less than a bar that held `most` holds when its values are multiplied by θ and rounded down. */
export function stretchedMost(theta: number, price: number, most: number): number {
  if (theta === 1) return most;
  const held = Math.ceil(most * theta * (1 + 1e-15));
  // Where θ is this type's own ratio, the sum of values rounded down can't pass the price.
  return theta * most <= price * (1 + 1e-15) ? Math.min(held, price) : held;
}

/** Values with which a bound holds. */
export interface Bounded {
  /** In 1/unit of cost; -Infinity where an unlimited type rules it out. */
  bound: number;
  theta: number;
}

/** The best bound over θ; with θ = 1 only where `stretch` is false. */
export function lagrangianBound(
  values: Float64Array,
  demand: ArrayLike<number>,
  stocks: readonly BoundStock[],
  stretch: boolean,
): Bounded {
  if (!stretch) return { theta: 1, bound: boundAt(1, values, demand, stocks) };
  let most = Infinity;
  const ratios: number[] = [];
  for (const { price, count, most: value } of stocks) {
    if (value <= 0) continue;
    const ratio = price / value;
    if (count === Infinity) most = Math.min(most, ratio);
    ratios.push(ratio);
  }
  const best: Bounded = { bound: -Infinity, theta: 1 };
  for (const theta of ratios) {
    if (theta > most) continue;
    const bound = boundAt(theta, values, demand, stocks);
    if (bound > best.bound) Object.assign(best, { bound, theta });
  }
  return best;
}

function boundAt(
  theta: number,
  values: Float64Array,
  demand: ArrayLike<number>,
  stocks: readonly BoundStock[],
): number {
  let sum = 0;
  for (let i = 0; i < values.length; i++) {
    const value = values[i]!;
    sum += demand[i]! * (theta === 1 ? value : Math.floor(value * theta));
  }
  for (const { price, count, most } of stocks) {
    const held = stretchedMost(theta, price, most);
    if (held <= price) continue;
    if (count === Infinity) return -Infinity;
    sum += count * (price - held);
  }
  return sum;
}

/** A bound in cost from one in 1/unit, rounded up to a multiple of `step` (0: not rounded), with a little left for rounding errors. */
export function roundBoundUp(bound: number, unit: number, step: number): number {
  const cost = bound / unit;
  if (step === 0) return cost;
  return Math.ceil((cost / step) * (1 - 1e-12)) * step;
}

/** The cost of all pieces laid end to end at the cheapest price for a unit of capacity; 0 where ends cost. */
export function materialBound({ sizes, demand, stocks, ends, costStep }: Scaled): number {
  if (ends.length > 0) return 0;
  const rates = stocks.map(
    ({ price, capacities }) =>
      price /
      Math.max(
        1,
        capacities.reduce((sum, c) => sum + c, 0),
      ),
  );
  const units = sizes.reduce((sum, size, i) => sum + size * demand[i]!, 0);
  return roundBoundUp(units * Math.min(...rates), 1, costStep);
}
