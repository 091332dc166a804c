/**
 * Ceilings: what a void can be worth at most at given prices, over every whole-millimetre length and every run and tier
 * of the plan format. Nothing here is a plan; everything here errs upward:
 * - sizes are not rounded up, and bundles are counted at the lightest mass per metre of their section, bars at the heaviest;
 * - a tier's bars are bounded by whole columns shared out evenly, which no sharing beats (the bars of a bundle grow less
 *   and less with its columns); nested bundles by the concave hull of bars over width;
 * - what lies above need not be carried; a run may mix the lengths of its class freely.
 */
import type { BundleRules, Saw } from '../job/job.ts';
import { outerSize, rolls } from '../job/section.ts';
import { alongSize, lies, longestIn, sagOf, type Tie, tiesOf } from './bundle.ts';
import { jointShare } from './jointShare.ts';
import { type Level, stackWorth } from './knapsack.ts';
import type { LaidVoid } from './laid.ts';
import { Sides } from './profile.ts';
import type { Steel } from './steel.ts';

/** A kind of tier at one length: its height in half millimetres, rounded down, and the most bars for 1, 2, … bundles. */
interface TierCeiling {
  steel: number;
  up: number;
  bars: number[];
}

/** A tier at its best count of bundles. */
interface Filled extends Level {
  steel: number;
  length: number;
  bars: number;
  bundles: number;
}

/** The concave hull of bars over width, in bar widths. */
type Hull = { width: number; bars: number }[];

export interface CeilingPrices {
  /** Value of a bar of `length` mm of a steel. */
  perBar(steel: number, length: number): number;
  perBundle: number;
  /** Half millimetres along → what a kilogram is worth more there; null where everywhere alike. */
  extraPerKg: ((along: number) => number) | null;
}

export interface Ceiling {
  value: number;
  /** The runs that come to it: worth, at the prices it was sought at, what it is. */
  runs: CeilingRun[];
}

/** One run of a ceiling: no run that could be stowed, but what its worth is reckoned from. */
export interface CeilingRun {
  /** Its middle, mm along. */
  middle: number;
  bars: { steel: number; length: number; bars: number }[];
  /** A part of one where the bars are all that the pile could yield. */
  bundles: number;
}

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
  /** What the bars of a bundle lack of its length on average at most, where they are jointed, mm. */
  private readonly lacking: number;

  /** `least`: the shortest piece, mm. */
  constructor(laid: LaidVoid, steels: Steel[], rules: BundleRules, saw: Saw, least: number) {
    this.laid = laid;
    this.steels = steels;
    this.rules = rules;
    this.least = least;
    this.most = longestIn(laid.length - 2 * laid.clear.ends, saw, rules);
    this.window = Math.floor(2 * saw.tolerance);
    this.lacking = jointShare(rules) * saw.tolerance;
    this.along = (length) => alongSize(length, saw, rules);
    this.height = Math.floor((laid.height - laid.clear.top - laid.dunnage) * 2 + 1e-9);
    const width = new Sides(laid).widest / 2;
    this.tiers = [];
    const kept: Kept = { tiers: new Map(), hulls: new Map(), lacking: this.lacking };
    for (let length = least; length <= this.most; length++) {
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
    const middles = Array.from({ length: 2 * room + 1 }, (_, half) => extraPerKg(ends + half / 2));
    let low = Math.min(...middles);
    let high = Math.max(...middles);
    if (high - low < 1e-9) high = low + 1e-9;
    const knots = 5;
    const at = Array.from({ length: knots }, (_, i) => low + ((high - low) * i) / (knots - 1));
    low = at[0]!;
    const cells = at.map((extra) => ({ extra, worths: this.stackWorths(prices, extra) }));
    return this.fillLength(prices, cells, Float64Array.from(middles));
  }

  /** The most that a stack of each length is worth, bars worth `extra` more for each kg. */
  private stackWorths(prices: CeilingPrices, extra: number): Float64Array {
    const count = this.most - this.least + 1;
    const tierWorths = this.tiers.map((tiers, i) => this.worthOfTiers(prices, tiers, this.least + i, extra));
    const worths = new Float64Array(count);
    const value = new Float64Array(this.height + 1);
    for (let i = 0; i < count; i++) {
      const items: Filled[] = [];
      for (let j = Math.max(0, i - this.window); j <= i; j++)
        for (const tier of tierWorths[j]!) insertUndominated(items, tier);
      worths[i] = Math.min(stackWorth(items, this.height, value), this.pileOf(prices, i, extra).worth);
    }
    return worths;
  }

  /** All bars that the pile could yield at the lengths of a class, each with its part of a bundle, and their worth. */
  private pileOf(prices: CeilingPrices, i: number, extra: number): { worth: number; run: Omit<CeilingRun, 'middle'> } {
    const run: Omit<CeilingRun, 'middle'> = { bars: [], bundles: 0 };
    let worth = 0;
    const perBundle = prices.perBundle - Math.max(0, extra) * this.rules.wrapping;
    const first = Math.max(0, i - this.window);
    for (const steel of this.steels) {
      const bars = steel.yieldOf(this.least + first);
      if (bars === 0) continue;
      let best = { length: 0, share: 0, perBar: 0 };
      for (let j = first; j <= i; j++) {
        const length = this.least + j;
        const share = 1 / Math.max(1, mostBars(this.laid, this.rules, steel, length - this.lacking));
        const perBar = worthOfBar(prices, steel, length, extra) - perBundle * share;
        if (perBar > best.perBar) best = { length, share, perBar };
      }
      if (best.perBar <= 0) continue;
      worth += best.perBar * bars;
      run.bars.push({ steel: steel.index, length: best.length, bars });
      run.bundles += best.share * bars;
    }
    return { worth, run };
  }

  private worthOfTiers(prices: CeilingPrices, tiers: TierCeiling[], length: number, extra: number): Filled[] {
    const items: Filled[] = [];
    const perBar = this.steels.map((steel) => worthOfBar(prices, steel, length, extra));
    const perBundle = prices.perBundle - Math.max(0, extra) * this.rules.wrapping;
    for (const { steel, up, bars } of tiers) {
      const each = perBar[steel]!;
      if (each <= 0) continue;
      let worth = 0;
      let most = -1;
      for (let m = 0; m < bars.length; m++) {
        const filled = bars[m]! * each - (m + 1) * perBundle;
        if (filled <= worth) continue;
        worth = filled;
        most = m;
      }
      if (most >= 0) insertUndominated(items, { up, worth, steel, length, bars: bars[most]!, bundles: most + 1 });
    }
    return items;
  }

  /** The stack that comes to the worth of a class at an extra worth of a kilogram. */
  private stackOf(prices: CeilingPrices, i: number, extra: number): Omit<CeilingRun, 'middle'> {
    const items: Filled[] = [];
    for (let j = Math.max(0, i - this.window); j <= i; j++) {
      for (const tier of this.worthOfTiers(prices, this.tiers[j]!, this.least + j, extra))
        insertUndominated(items, tier);
    }
    const value = new Float64Array(this.height + 1);
    const pile = this.pileOf(prices, i, extra);
    if (pile.worth < stackWorth(items, this.height, value)) return pile.run;
    const run: Omit<CeilingRun, 'middle'> = { bars: [], bundles: 0 };
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
    return run;
  }

  /**
   * Runs along the void. The worth of a stack is convex in the extra worth of a kilogram, so that between two knots the
   * chord is above it.
   */
  private fillLength(
    prices: CeilingPrices,
    cells: { extra: number; worths: Float64Array }[],
    middles: Float64Array | null,
  ): Ceiling {
    const gap = this.laid.gap.runs;
    const room = Math.floor((this.laid.length - 2 * this.laid.clear.ends + gap) * 2 + 1e-9);
    const value = new Float64Array(room + 1);
    const last = new Int32Array(room + 1).fill(-1);
    const sizes: number[] = [];
    const kept: number[] = [];
    const [first] = cells;
    let record = 0;
    for (let i = 0; i < first!.worths.length; i++) {
      const best = Math.max(...cells.map((cell) => cell.worths[i]!));
      if (best <= 0 || (!middles && best <= record)) continue;
      record = Math.max(record, best);
      kept.push(i);
      sizes.push(Math.round((this.along(this.least + i) + gap) * 2));
    }
    for (let end = 1; end <= room; end++) {
      value[end] = value[end - 1]!;
      for (let k = 0; k < kept.length; k++) {
        const size = sizes[k]!;
        if (size > end) break;
        const worth = middles
          ? chord(cells, kept[k]!, middles[end - Math.round(size / 2 + gap)]!)
          : first!.worths[kept[k]!]!;
        if (value[end - size]! + worth > value[end]! + 1e-12) {
          value[end] = value[end - size]! + worth;
          last[end] = k;
        }
      }
    }
    const runs: CeilingRun[] = [];
    for (let end = room; end > 0; ) {
      const k = last[end]!;
      if (k < 0) {
        end--;
        continue;
      }
      const half = end - Math.round(sizes[k]! / 2 + gap);
      const middle = this.laid.clear.ends + half / 2;
      runs.push({ middle, ...this.stackOf(prices, kept[k]!, middles ? middles[half]! : 0) });
      end -= sizes[k]!;
    }
    return { value: value[room]!, runs };
  }
}

/** The worth of a bar where a kilogram is worth `extra` more than the prices say. */
function worthOfBar(prices: CeilingPrices, steel: Steel, length: number, extra: number): number {
  const perKg = Math.max((extra * steel.heaviest * length) / 1000, (extra * steel.lightest * length) / 1000);
  return prices.perBar(steel.index, length) + perKg;
}

function chord(cells: { extra: number; worths: Float64Array }[], i: number, extra: number): number {
  let k = 1;
  while (k < cells.length - 1 && cells[k]!.extra < extra) k++;
  const p = cells[k - 1]!;
  const q = cells[k]!;
  const share = (extra - p.extra) / (q.extra - p.extra);
  return p.worths[i]! * (1 - share) + q.worths[i]! * share;
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

/** The most bars that a bundle of the lightest lots may hold; `length` of a bar on average, mm. */
function mostBars(laid: LaidVoid, rules: BundleRules, steel: Steel, length: number): number {
  const limit = laid.limit ?? rules.limit;
  const mass = (steel.lightest * length) / 1000;
  return Math.min(rules.maxBars, Math.floor((limit - rules.wrapping) / mass + 1e-9));
}

function tierCeilings(
  laid: LaidVoid,
  steels: Steel[],
  rules: BundleRules,
  length: number,
  width: number,
  height: number,
  kept: Kept,
): TierCeiling[] {
  const found: TierCeiling[] = [];
  for (const steel of steels) {
    const most = mostBars(laid, rules, steel, length - kept.lacking);
    if (most < 1) continue;
    const sag = sagOf(steel.bow, length);
    for (const onEdge of lies(steel.section)) {
      const bar = outerSize(steel.section, onEdge);
      for (let rows = 1; rows <= most; rows++) {
        const stack = rolls(steel.section) ? bar.up * (1 + ((rows - 1) * Math.sqrt(3)) / 2) : rows * bar.up;
        const up = Math.ceil((stack + 2 * rules.wrap + sag) * 2 - 1e-9);
        if (up > height) break;
        const hull = rolls(steel.section) && rows > 1 ? hullOf(steel, rows, most, kept) : null;
        const bars = barCeilings(hull, rows, most, width, laid.gap.across, 2 * rules.wrap + sag, bar.across);
        if (bars.length > 0) found.push(keepOne({ steel: steel.index, up, bars }, kept));
      }
    }
  }
  return found;
}

/** What lengths share: tiers that are alike, and hulls of nested bundles, kept once. */
interface Kept {
  tiers: Map<string, TierCeiling>;
  hulls: Map<string, Hull>;
  lacking: number;
}

function keepOne(tier: TierCeiling, { tiers }: Kept): TierCeiling {
  const key = `${tier.steel}:${tier.up}:${tier.bars.join()}`;
  const known = tiers.get(key);
  if (known) return known;
  tiers.set(key, tier);
  return tier;
}

function hullOf(steel: Steel, rows: number, most: number, { hulls }: Kept): Hull {
  const key = `${rows}:${most}`;
  let hull = hulls.get(key);
  if (!hull) {
    hull = nestedHull(tiesOf(steel.section, rows, most, true));
    hulls.set(key, hull);
  }
  return hull;
}

/** The most bars in 1, 2, … bundles side by side; stops where one bundle more can add none. */
function barCeilings(
  hull: Hull | null,
  rows: number,
  most: number,
  width: number,
  gap: number,
  around: number,
  bar: number,
): number[] {
  const ceilings: number[] = [];
  for (let m = 1; ; m++) {
    const free = width - (m - 1) * gap - m * around;
    const bars = hull ? nestedCeiling(hull, free / bar, m) : gridCeiling(rows, most, Math.floor(free / bar + 1e-9), m);
    if (bars <= (ceilings[m - 2] ?? 0)) break;
    ceilings.push(bars);
  }
  return ceilings;
}

function gridCeiling(rows: number, most: number, columns: number, m: number): number {
  if (columns < m) return 0;
  const each = Math.floor(columns / m);
  const wider = columns - each * m;
  return wider * Math.min(rows * (each + 1), most) + (m - wider) * Math.min(rows * each, most);
}

/** Bars of m nested bundles in so many bar widths: m times the concave hull at the mean width. */
function nestedCeiling(hull: Hull, widths: number, m: number): number {
  const mean = widths / m + 1e-9;
  if (mean < hull[0]!.width) return 0;
  for (let i = 1; i < hull.length; i++) {
    const p = hull[i - 1]!;
    const q = hull[i]!;
    if (mean < q.width)
      return Math.floor(m * (p.bars + ((q.bars - p.bars) * (mean - p.width)) / (q.width - p.width)) + 1e-9);
  }
  return m * hull[hull.length - 1]!.bars;
}

function nestedHull(ties: Tie[]): Hull {
  const hull: Hull = [];
  for (const tie of ties) {
    const point = { width: tie.widest, bars: tie.bars };
    while (hull.length > 1) {
      const p = hull[hull.length - 2]!;
      const q = hull[hull.length - 1]!;
      if ((q.bars - p.bars) * (point.width - q.width) > (point.bars - q.bars) * (q.width - p.width)) break;
      hull.pop();
    }
    hull.push(point);
  }
  return hull.length > 0 ? hull : [{ width: Number.POSITIVE_INFINITY, bars: 0 }];
}
