/**
 * Ceilings: what a void can be worth at most at given prices, over every whole-millimetre length and every run and tier
 * of the plan format. Nothing here is a plan; everything here errs upward:
 * - sizes are not rounded up, and bundles are counted at the lightest mass per metre of their section, bars at the heaviest;
 * - a tier's bars are bounded by whole columns shared out evenly, which no sharing beats (the bars of a bundle grow less
 *   and less with its columns); nested bundles by the concave hull of bars over width;
 * - what lies above need not be carried; a run may mix the lengths of its class freely.
 */
import type { BundleRules, Saw } from '../job/job.ts';
import { alongSize, longestIn } from './bundle.ts';
import { bestCount, worthOfCount } from './counts.ts';
import { jointShare } from './jointShare.ts';
import { Ends, type Level, stackWorth } from './knapsack.ts';
import type { LaidVoid } from './laid.ts';
import { TOGETHER } from './lengthClass.ts';
import { Levels } from './levels.ts';
import {
  type Ceiling,
  type CeilingPrices,
  type CeilingRun,
  isOneOf,
  PileCeiling,
  partOfRun,
  worthOfBar,
} from './pileCeiling.ts';
import { Sides } from './profile.ts';
import type { Steel } from './steel.ts';
import { type Kept, type TierCeiling, tierCeilings } from './tierCeilings.ts';

/** A tier at its best count of bundles. */
interface Filled extends Level {
  steel: number;
  length: number;
  bars: number;
  bundles: number;
}

/** Where a kilogram is worth so much more at most in one place than in another, kg, one chord will do. */
const FLAT = 0.03;
/** Of so many lengths, whether to go on is asked at one. */
const OFTEN = 128;
const NONE = new Float64Array(0);

/** The ceiling of one laid void; geometry is worked out once. */
export class BerthCeiling {
  private readonly laid: LaidVoid;
  private readonly steels: Steel[];
  private readonly rules: BundleRules;
  private readonly least: number;
  private readonly most: number;
  private readonly height: number;
  private readonly along: (length: number) => number;
  /** Distinct lengths that may share a run, mm. */
  private readonly window: number;
  private readonly tiers: TierCeiling[][];
  private readonly pile: PileCeiling;
  /** What the bars of a bundle lack of its length on average at most, where they are jointed, mm. */
  private readonly lacking: number;
  private readonly poll: () => void;

  /** `least`: the shortest piece, mm. */
  constructor(
    laid: LaidVoid,
    steels: Steel[],
    rules: BundleRules,
    saw: Saw,
    least: number,
    poll: () => void = () => undefined,
  ) {
    this.laid = laid;
    this.steels = steels;
    this.rules = rules;
    this.least = least;
    this.most = longestIn(laid.length - 2 * laid.clear.ends, saw, rules);
    this.window = Math.floor(2 * saw.tolerance);
    this.lacking = jointShare(rules) * saw.tolerance;
    this.poll = poll;
    this.along = (length) => alongSize(length, saw, rules);
    this.height = Math.floor((laid.height - laid.clear.top - laid.dunnage) * 2 + 1e-9);
    const width = new Sides(laid).widest / 2;
    this.tiers = [];
    this.pile = new PileCeiling(laid, steels, rules, saw, least);
    const kept: Kept = { tiers: new Map(), hulls: new Map(), lacking: this.lacking };
    for (let length = least; length <= this.most; length++) {
      if (length % OFTEN === 0) poll();
      this.tiers.push(tierCeilings(laid, steels, rules, length, width, this.height, kept));
    }
  }

  /** The ceiling at these prices. Cost: lengths × (tiers + height) + lengths × room. */
  at(prices: CeilingPrices): Ceiling {
    if (this.most < this.least) return { value: 0, runs: [] };
    const { extraPerKg } = prices;
    if (!extraPerKg) return this.fillLength(prices, [{ extra: 0, worths: this.stackWorths(prices, 0) }], null);
    const { ends } = this.laid.clear;
    const room = this.laid.length - 2 * ends;
    const middles = this.mostNear(Array.from({ length: 2 * room + 1 }, (_, half) => extraPerKg(ends + half / 2)));
    let low = Math.min(...middles);
    let high = Math.max(...middles);
    if (high - low < 1e-9) high = low + 1e-9;
    const knots = high - low < FLAT ? 2 : 4;
    const at = Array.from({ length: knots }, (_, i) => low + ((high - low) * i) / (knots - 1));
    low = at[0]!;
    const cells = at.map((extra) => ({ extra, worths: this.stackWorths(prices, extra) }));
    return this.fillLength(prices, cells, Float64Array.from(middles));
  }

  /**
   * The most of what a kilogram is worth more, by half millimetres, at the middle of any bundle of a run whose longest has its
   * middle there: others begin up to {@link TOGETHER} before or after it, and are shorter by the window.
   */
  private mostNear(extras: number[]): number[] {
    const [before, after] = [this.window + 2 * TOGETHER, 2 * TOGETHER];
    return extras.map((own, half) => {
      let most = own;
      const last = Math.min(extras.length - 1, half + after);
      for (let near = Math.max(0, half - before); near <= last; near++) if (extras[near]! > most) most = extras[near]!;
      return most;
    });
  }

  /** The most that a stack of each length is worth, bars worth `extra` more for each kg. */
  private stackWorths(prices: CeilingPrices, extra: number): Float64Array {
    const { some } = prices;
    const count = this.tiers.length;
    const perBundle = prices.perBundle - Math.max(0, extra) * this.rules.wrapping;
    const perBar = new Float64Array(this.steels.length);
    const worthOf = this.tiers.map((tiers, i) => {
      if (some && !isOneOf(some, this.least + i)) return NONE;
      for (let s = 0; s < perBar.length; s++) perBar[s] = worthOfBar(prices, this.steels[s]!, this.least + i, extra);
      const own = new Float64Array(tiers.length);
      for (let t = 0; t < own.length; t++) {
        const { steel, bars } = tiers[t]!;
        const each = perBar[steel]!;
        own[t] = worthOfCount(bars, bestCount(bars, each, perBundle), each, perBundle);
      }
      return own;
    });
    const worths = new Float64Array(count);
    const value = new Float64Array(this.height + 1);
    const levels = new Levels(this.height);
    for (let i = 0; i < count; i++) {
      if (i % OFTEN === 0) this.poll();
      if (worthOf[i] === NONE) continue;
      levels.clear();
      for (let j = this.firstOf(prices, i); j <= i; j++) {
        const tiers = this.tiers[j]!;
        const own = worthOf[j]!;
        for (let t = 0; t < tiers.length; t++) if (own[t]! > 0) levels.add(tiers[t]!.up, own[t]!);
      }
      const stack = levels.worth(this.height, value);
      worths[i] = stack > 0 ? Math.min(stack, this.pile.at(prices, i, extra)) : 0;
    }
    return worths;
  }

  /** The first length of the class of `least + i` mm. */
  private firstOf({ some }: CeilingPrices, i: number): number {
    return some ? i : Math.max(0, i - this.window);
  }

  private worthOfTiers(prices: CeilingPrices, tiers: TierCeiling[], length: number, extra: number): Filled[] {
    const items: Filled[] = [];
    const perBar = this.steels.map((steel) => worthOfBar(prices, steel, length, extra));
    const perBundle = prices.perBundle - Math.max(0, extra) * this.rules.wrapping;
    for (const { steel, up, bars } of tiers) {
      const bundles = bestCount(bars, perBar[steel]!, perBundle);
      const worth = worthOfCount(bars, bundles, perBar[steel]!, perBundle);
      if (worth > 0) insertUndominated(items, { up, worth, steel, length, bars: bars[bundles - 1]!, bundles });
    }
    return items;
  }

  /** The run that comes to the worth of a class at an extra worth of a kilogram. */
  private runOf(prices: CeilingPrices, i: number, extra: number, middle: number): CeilingRun {
    const items: Filled[] = [];
    for (let j = this.firstOf(prices, i); j <= i; j++) {
      for (const tier of this.worthOfTiers(prices, this.tiers[j]!, this.least + j, extra))
        insertUndominated(items, tier);
    }
    const value = new Float64Array(this.height + 1);
    const all = stackWorth(items, this.height, value);
    const run: CeilingRun = { middle, bars: [], bundles: 0 };
    for (let h = this.height; h > 0; ) {
      const chosen =
        value[h]! > value[h - 1]!
          ? items.find(({ up, worth }) => up <= h && value[h - up]! + worth >= value[h]! - 1e-9)
          : undefined;
      if (chosen) {
        run.bars.push({ steel: chosen.steel, length: chosen.length, bars: chosen.bars });
        run.bundles += chosen.bundles;
      }
      h -= chosen ? chosen.up : 1;
    }
    return partOfRun(run, all, this.pile.at(prices, i, extra));
  }

  /**
   * Runs along the void. The worth of a stack is convex in the extra worth of a kilogram, so that between two knots the
   * chord is above it.
   */
  private fillLength(prices: CeilingPrices, cells: Cell[], middles: Float64Array | null): Ceiling {
    const gap = this.laid.gap.runs;
    const room = Math.floor((this.laid.length - 2 * this.laid.clear.ends + gap) * 2 + 1e-9);
    const { kept, sizes } = this.worthwhile(cells, middles === null);
    const halves = sizes.map((size) => Math.round(size / 2 + gap));
    const own = cells.map(({ worths }) => Float64Array.from(kept, (i) => worths[i]!));
    const chords = middles && chordsAt(cells, middles);
    const { value, last } = chords ? fillByPlace(room, sizes, halves, own, chords) : fillAlike(room, sizes, own[0]!);
    const runs: CeilingRun[] = [];
    for (let end = room; end > 0; ) {
      const k = last[end]!;
      if (k < 0) {
        end--;
        continue;
      }
      const half = end - halves[k]!;
      const middle = this.laid.clear.ends + half / 2;
      runs.push(this.runOf(prices, kept[k]!, middles ? middles[half]! : 0, middle));
      end -= sizes[k]!;
    }
    return { value: value[room]!, runs };
  }

  /** The lengths of which a stack is worth anything, where all places are alike more than one of any shorter; and their runs with a gap, half mm. */
  private worthwhile(cells: Cell[], alike: boolean): { kept: Int32Array; sizes: Int32Array } {
    const kept: number[] = [];
    let record = 0;
    for (let i = 0; i < this.tiers.length; i++) {
      let best = 0;
      for (let c = 0; c < cells.length; c++) best = Math.max(best, cells[c]!.worths[i]!);
      if (best <= 0 || (alike && best <= record)) continue;
      record = best;
      kept.push(i);
    }
    const sizeOf = (i: number) => Math.round((this.along(this.least + i) + this.laid.gap.runs) * 2);
    return { kept: Int32Array.from(kept), sizes: Int32Array.from(kept, sizeOf) };
  }
}

/** What stacks are worth by length where a kilogram is worth `extra` more. */
interface Cell {
  extra: number;
  worths: Float64Array;
}

/** The most that runs are worth up to every half millimetre, and the last of them; −1 for none. */
interface Filling {
  value: Float64Array;
  last: Int32Array;
}

/** Runs end to end, worth the same wherever they lie. Sizes rise. */
function fillAlike(room: number, sizes: Int32Array, worths: Float64Array): Filling {
  const value = new Float64Array(room + 1);
  const last = new Int32Array(room + 1).fill(-1);
  const ends = new Ends(sizes, room);
  for (let end = 1; end <= room; end++) {
    const before = value[end - 1]!;
    value[end] = before;
    if (!ends.has(end)) continue;
    let most = before;
    for (let k = 0; k < sizes.length && sizes[k]! <= end; k++) {
      const worth = value[end - sizes[k]!]! + worths[k]!;
      if (worth <= most + 1e-12) continue;
      most = worth;
      last[end] = k;
    }
    value[end] = most;
    if (most > before) ends.begin(end);
  }
  return { value, last };
}

/** The same where they are worth more at some places, `halves` before their ends; `worths` by cell. */
function fillByPlace(
  room: number,
  sizes: Int32Array,
  halves: Int32Array,
  worths: Float64Array[],
  { cell, share }: Chords,
): Filling {
  const value = new Float64Array(room + 1);
  const last = new Int32Array(room + 1).fill(-1);
  for (let end = 1; end <= room; end++) {
    let most = value[end - 1]!;
    for (let k = 0; k < sizes.length && sizes[k]! <= end; k++) {
      const half = end - halves[k]!;
      const part = share[half]!;
      const at = cell[half]!;
      const own = worths[at - 1]![k]! * (1 - part) + worths[at]![k]! * part;
      const worth = value[end - sizes[k]!]! + own;
      if (worth <= most + 1e-12) continue;
      most = worth;
      last[end] = k;
    }
    value[end] = most;
  }
  return { value, last };
}

/** By place: the cell over its extra worth, and how far that lies from the cell under it to that one. */
interface Chords {
  cell: Uint8Array;
  share: Float64Array;
}

function chordsAt(cells: Cell[], middles: Float64Array): Chords {
  const cell = new Uint8Array(middles.length);
  const share = new Float64Array(middles.length);
  middles.forEach((extra, half) => {
    let k = 1;
    while (k < cells.length - 1 && cells[k]!.extra < extra) k++;
    const under = cells[k - 1]!.extra;
    cell[half] = k;
    share[half] = (extra - under) / (cells[k]!.extra - under);
  });
  return { cell, share };
}

/** Keeps `items` sorted by height and free of items that another beats or equals, being no higher. */
function insertUndominated<Item extends Level>(items: Item[], item: Item): void {
  let at = 0;
  while (at < items.length && items[at]!.up <= item.up) {
    if (items[at]!.worth >= item.worth) return;
    at++;
  }
  let end = at;
  while (end < items.length && items[end]!.worth <= item.worth) end++;
  if (at > 0 && items[at - 1]!.up === item.up) at--;
  items.splice(at, end - at, item);
}
