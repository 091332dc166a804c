/**
 * Stacks: the tiers of one run, bottom to top, worth most at given prices. A dynamic program over the height; where the
 * space is the same at every height the tiers are chosen first and then ordered so that each is carried.
 */
import { climb } from './climb.ts';
import type { Interval } from './envelope.ts';
import { knapsack, type Level, stackWorth } from './knapsack.ts';
import { heightOf, type RunSpace } from './runSpace.ts';
import {
  bestFill,
  capFill,
  carrying,
  type Fill,
  isCarried,
  type Lying,
  layFill,
  type TierKind,
  width,
} from './tier.ts';

/** A tier as it stands: its kind, the height of its bundles' undersides, and the bundles from least across. */
export interface Tier {
  kind: TierKind;
  up: number;
  lying: Lying[];
}

/** The tiers of one run, ground tier first, all of one bundle length. */
export interface Stack {
  length: number;
  tiers: Tier[];
  /** Bars by steel. */
  bars: number[];
  bundles: number;
}

/** What a bar and a bundle of the run's length are worth: kg of value by steel, and the cost of a bundle. */
export interface StackPrices {
  perBar: ArrayLike<number>;
  perBundle: number;
}

/** The stack worth most, and its value; null where nothing is worth stowing. Carried area is kept. */
export function bestStack(run: RunSpace, prices: StackPrices, steels: number): { stack: Stack; value: number } | null {
  if (!run.rest.stands) return null;
  const tiers = run.uniform ? orderTiers(run, bestTiers(run, prices, heightOf(run))) : climb(run, prices);
  if (tiers.length === 0) return null;
  const stack = stackOf(run.length, tiers, steels);
  const value = stackValue(stack, prices);
  return value > 1e-9 ? { stack, value } : null;
}

/** A stack from its tiers. */
export function stackOf(length: number, tiers: Tier[], steels: number): Stack {
  const bars = new Array<number>(steels).fill(0);
  let bundles = 0;
  for (const tier of tiers) {
    for (const { tie } of tier.lying) bars[tier.kind.steel] = bars[tier.kind.steel]! + tie.bars;
    bundles += tier.lying.length;
  }
  return { length, tiers, bars, bundles };
}

/** The same for stacks of one run with as many bars of each steel and as many bundles: at any prices they are worth the same. */
export function stackKey({ length, bars, bundles }: Stack): string {
  return `${length}:${bundles}:${bars.join()}`;
}

/** What a stack is worth at given prices. */
export function stackValue(stack: Stack, prices: StackPrices): number {
  let value = -stack.bundles * prices.perBundle;
  for (let steel = 0; steel < stack.bars.length; steel++) value += stack.bars[steel]! * prices.perBar[steel]!;
  return value;
}

/** What all bars are worth that the pile could yield at a length. */
export function worthOfYields(yields: number[], { perBar }: StackPrices): number {
  let all = 0;
  for (let steel = 0; steel < yields.length; steel++) all += yields[steel]! * Math.max(0, perBar[steel]!);
  return all;
}

/** No stack of `most` kg is worth more than this, a bar of each steel weighing `masses`. */
export function worthOfMass(most: number, masses: number[], { perBar }: StackPrices): number {
  if (most === Number.POSITIVE_INFINITY) return most;
  let perKg = 0;
  for (let steel = 0; steel < masses.length; steel++) perKg = Math.max(perKg, perBar[steel]! / masses[steel]!);
  return most * perKg;
}

/** Room for the working of `uniformWorth`: as long as the kinds of a run, and as the height in half millimetres and one. */
export interface Room {
  ups: Int32Array;
  worths: Float64Array;
  value: Float64Array;
}

interface Choice extends Level {
  kind: TierKind;
  fill: Fill;
}

/** The kinds worth choosing, lowest first, each worth more than every lower one. Only where the space is uniform. */
function choicesOf(run: RunSpace, prices: StackPrices, spent?: Set<number>): Choice[] {
  const choices: Choice[] = [];
  let record = 0;
  for (let i = 0; i < run.kinds.length; i++) {
    const kind = run.kinds[i]!;
    const perBar = prices.perBar[kind.steel]!;
    if (perBar <= 0 || spent?.has(kind.steel)) continue;
    const best = bestFill(run.fills[i]!, perBar, prices.perBundle);
    if (!best || best.value <= record + 1e-12) continue;
    record = best.value;
    if (choices[choices.length - 1]?.up === kind.up * 2) choices.pop();
    choices.push({ up: kind.up * 2, worth: best.value, kind, fill: best.fill });
  }
  return choices;
}

/**
 * The worth of the best stack before it is ordered: never less than `bestStack` finds, and just that where the pile is
 * scarce. 0 where it is sure to be no more than `atLeast`. Only where the space is uniform.
 */
export function uniformWorth(run: RunSpace, prices: StackPrices, room: Room, atLeast: number): number {
  const { perBar, perBundle } = prices;
  const { ups, worths, value } = room;
  const height = heightOf(run);
  const all = worthOfYields(run.yields, prices);
  if (all <= atLeast) return 0;
  if (run.scarce) return bestStack(run, prices, run.yields.length)?.value ?? 0;
  let count = 0;
  let record = 0;
  let density = 0;
  for (let i = 0; i < run.kinds.length; i++) {
    const each = perBar[run.kinds[i]!.steel]!;
    if (each <= 0) continue;
    const fills = run.fills[i]!;
    let worth = 0;
    for (let m = 0; m < fills.length; m++) {
      const filled = fills[m]!.bars * each - fills[m]!.ties.length * perBundle;
      if (filled > worth) worth = filled;
    }
    if (worth <= record + 1e-12) continue;
    record = worth;
    const up = run.kinds[i]!.up * 2;
    if (count > 0 && ups[count - 1] === up) count--;
    ups[count] = up;
    worths[count] = worth;
    count++;
    if (worth > density * up) density = worth / up;
  }
  if (count === 0 || density * height <= atLeast) return 0;
  return Math.min(knapsack(ups, worths, count, height, value), all);
}

/** Bundles of one kind side by side, not yet at any height. */
export type LooseTier = Pick<Tier, 'kind' | 'lying'>;

/**
 * The tiers worth most within `height` half millimetres, in no order. Only where the space is uniform. A steel of which
 * the pile could not yield so many bars is given what it yields, and the rest of the height to the others (heuristic).
 */
export function bestTiers(run: RunSpace, prices: StackPrices, height: number): LooseTier[] {
  const [interval] = run.space.clear(run.space.bottom, run.space.top);
  if (!interval) return [];
  const lay = ({ kind }: Choice, fill: Fill): LooseTier => ({ kind, lying: layFill(kind, fill, interval, run.gap) });
  const settled: LooseTier[] = [];
  const spent = new Set<number>();
  let left = height;
  for (;;) {
    const chosen = chooseTiers(choicesOf(run, prices, spent), left);
    const over = overdrawn(run, chosen);
    if (over < 0) return [...settled, ...chosen.map((choice) => lay(choice, choice.fill))];
    let bars = run.yields[over]!;
    for (const choice of chosen) {
      if (choice.kind.steel !== over || bars <= 0) continue;
      const fill = capFill(choice.kind, choice.fill, bars);
      if (!fill || fill.bars * prices.perBar[over]! <= fill.ties.length * prices.perBundle) continue;
      settled.push(lay(choice, fill));
      bars -= fill.bars;
      left -= choice.up;
    }
    spent.add(over);
  }
}

/** A steel of which more bars are chosen than the pile could yield; −1 where there is none. */
function overdrawn(run: RunSpace, chosen: Choice[]): number {
  const bars = run.yields.map(() => 0);
  for (const { kind, fill } of chosen) bars[kind.steel]! += fill.bars;
  return bars.findIndex((count, steel) => count > run.yields[steel]!);
}

/** The choices of the best stack within `height` half millimetres. */
function chooseTiers(choices: Choice[], height: number): Choice[] {
  const value = new Float64Array(height + 1);
  if (stackWorth(choices, height, value) === 0) return [];
  const chosen: Choice[] = [];
  for (let h = height; h > 0; ) {
    const all = value[h]!;
    const choice =
      all > value[h - 1]! ? choices.find(({ up, worth }) => up <= h && value[h - up]! + worth >= all) : undefined;
    if (choice) chosen.push(choice);
    h -= choice ? choice.up : 1;
  }
  return chosen;
}

/** Sets tiers one on another, the widest carrying ones lowest; what is not carried is left out. */
export function orderTiers(run: RunSpace, loose: LooseTier[]): Tier[] {
  return setTiers(
    run,
    loose.map((tier) => carrierOf(run, tier)),
  );
}

/** A tier with what carries the next one: over which intervals across, and over how much of it, mm. */
export interface CarryingTier extends LooseTier {
  carrying: Interval[];
  carries: number;
}

export function carrierOf(run: RunSpace, { kind, lying }: LooseTier): CarryingTier {
  const intervals = lying.map((bundle) => carrying(kind, bundle, run.wrap));
  return { kind, lying, carrying: intervals, carries: intervals.reduce((sum, interval) => sum + width(interval), 0) };
}

/** The same as `orderTiers` of tiers that are asked for again and again. Changes the order of `loose`. */
export function setTiers(run: RunSpace, loose: CarryingTier[]): Tier[] {
  loose.sort((p, q) => q.carries - p.carries || q.kind.up - p.kind.up || p.kind.steel - q.kind.steel);
  const tiers: Tier[] = [];
  let up = run.space.bottom;
  let below: Interval[] | null = null;
  for (const tier of loose) {
    const { kind, lying } = tier;
    const support: Interval[] | null = below;
    const carried: Lying[] = support ? lying.filter((bundle) => isCarried(bundle, support)) : lying;
    if (carried.length === 0) continue;
    tiers.push({ kind, up, lying: carried });
    const all = carried.length === lying.length;
    below = all ? tier.carrying : carried.map((bundle) => carrying(kind, bundle, run.wrap));
    up += kind.up;
  }
  return tiers;
}

/**
 * The stack with no more bars of each steel than `bars`: filled anew, or where the space is uniform with one of its tiers
 * made lighter, whichever is worth more; null where nothing is left.
 */
export function stackWithin(run: RunSpace, stack: Stack, bars: number[], prices: StackPrices): Stack | null {
  const within = { ...run, yields: bars, scarce: true };
  const anew = bestStack(within, prices, bars.length)?.stack;
  const ways = run.uniform ? lighterTiers(run, stack.tiers, bars) : [];
  const stacks = ways.map((tiers) => stackOf(run.length, orderTiers(run, tiers), bars.length));
  let best: Stack | null = null;
  for (const one of anew ? [anew, ...stacks] : stacks) {
    const value = stackValue(one, prices);
    if (value > (best ? stackValue(best, prices) : 0)) best = one;
  }
  return best;
}

/**
 * The ways of making one tier of each steel that is too many lighter. Beside them the smallest tier of it may be left out first, and is
 * where none has so many bars: no more ways than the square of the tiers for a steel.
 */
function lighterTiers(run: RunSpace, tiers: LooseTier[], bars: number[]): LooseTier[][] {
  const counts = bars.map(() => 0);
  for (const tier of tiers) counts[tier.kind.steel]! += barsOf(tier);
  const steel = counts.findIndex((count, i) => count > bars[i]!);
  if (steel < 0) return [tiers];
  const excess = counts[steel]! - bars[steel]!;
  const own = tiers.filter((tier) => tier.kind.steel === steel);
  const smallest = own.reduce((a, b) => (barsOf(b) < barsOf(a) ? b : a));
  const without = barsOf(smallest) < excess ? lighterTiers(run, tiers.toSpliced(tiers.indexOf(smallest), 1), bars) : [];
  return tiers.reduce((ways, tier, i) => {
    if (tier.kind.steel !== steel || barsOf(tier) < excess) return ways;
    const lighter = lighterTier(run, tier, barsOf(tier) - excess);
    return ways.concat(lighterTiers(run, lighter ? tiers.with(i, lighter) : tiers.toSpliced(i, 1), bars));
  }, without);
}

/** A tier with so many bars at most; null for none. */
function lighterTier(run: RunSpace, { kind, lying }: LooseTier, most: number): LooseTier | null {
  const ties = lying.map(({ tie }) => kind.ties.findIndex((own) => own.bars === tie.bars && own.widest === tie.widest));
  const fill =
    most > 0 && ties.every((tie) => tie >= 0) ? capFill(kind, { bars: barsOf({ lying }), ties }, most) : null;
  const [interval] = run.space.clear(run.space.bottom, run.space.top);
  return fill && interval ? { kind, lying: layFill(kind, fill, interval, run.gap) } : null;
}

function barsOf({ lying }: Pick<LooseTier, 'lying'>): number {
  return lying.reduce((sum, { tie }) => sum + tie.bars, 0);
}

/** Sets tiers one on another as they come, from `up` mm: for reckoning, not for stowing. */
export function pileTiers(loose: LooseTier[], up: number): Tier[] {
  let height = up;
  return loose.map((tier) => {
    const placed = { ...tier, up: height };
    height += tier.kind.up;
    return placed;
  });
}
