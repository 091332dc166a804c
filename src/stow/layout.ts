/**
 * Layouts: the runs of one void, end to end, worth most at given prices. In a box the stack of a run does not depend on
 * where the run lies, so that one knapsack over the length chooses the runs; elsewhere runs begin at places worth trying.
 */
import type { BundleRules, Saw } from '../job/job.ts';
import { alongSize } from './bundle.ts';
import { Ends } from './knapsack.ts';
import { isPlaceless, isPlain, type LaidVoid } from './laid.ts';
import { RunBook, type RunSpace } from './runSpace.ts';
import { bestStack, type Room, type Stack, type StackPrices, stackOf, uniformWorth } from './stack.ts';
import type { Steel } from './steel.ts';
import { Stretches } from './stretches.ts';

/** A run: where its bundles begin, mm along, and its stack. */
export interface Run {
  from: number;
  stack: Stack;
}

/** The runs of one void as it is laid, from along 0. */
export interface Layout {
  laid: LaidVoid;
  runs: Run[];
}

/** Prices at which a layout is sought, in kg of value. */
export interface LayoutPrices {
  /** Bundle lengths to choose from, whole mm, rising. */
  lengths: number[];
  /** Value of a bar in a bundle of `lengths[i]`, by steel. */
  perBar: ArrayLike<number>[];
  perBundle: number;
  /** What a kilogram is worth more at this place along (mm) than `perBar` says; null where everywhere alike. */
  extraPerKg: ((along: number) => number) | null;
  /** Asked now and then while a layout is sought. */
  poll?: () => void;
}

/** One void as laid, with what depends on geometry alone kept between pricings. */
export class Berth {
  readonly laid: LaidVoid;
  private readonly steels: Steel[];
  private readonly rules: BundleRules;
  private readonly saw: Saw;
  private readonly spaces = new Map<number, RunSpace>();
  private readonly masses = new Map<number, number>();
  private readonly book: RunBook;
  private stretches: Stretches | null = null;
  private working: Room;
  /** True where a run's space does not depend on its place. */
  readonly uniform: boolean;
  /** True of a box with nothing in it and nothing over it. */
  private readonly plain: boolean;

  constructor(laid: LaidVoid, steels: Steel[], rules: BundleRules, saw: Saw) {
    this.laid = laid;
    this.steels = steels;
    this.rules = rules;
    this.saw = saw;
    this.book = new RunBook(laid, steels, rules, saw);
    this.working = workingRoom(64, 2 * Math.ceil(laid.height) + 2);
    this.uniform = isPlaceless(laid);
    this.plain = isPlain(laid);
  }

  /** The same berth with no bundle lighter than `least` kg. */
  without(least: number): Berth {
    return new Berth({ ...this.laid, leastBundle: least }, this.steels, this.rules, this.saw);
  }

  /** Forgets what stacks weighed that were chosen before, so that the next layouts do not depend on them. */
  forgetMasses(): void {
    this.masses.clear();
  }

  /** Room for runs, mm. */
  get room(): number {
    return this.laid.length - 2 * this.laid.clear.ends;
  }

  /** The space of a run of bundles of `length` mm beginning `from` mm along. */
  space(from: number, length: number): RunSpace {
    const key = (this.uniform ? 0 : Math.round(from * 2) * 200_000) + length;
    let space = this.spaces.get(key);
    if (!space) {
      space = this.book.space(from, length);
      this.spaces.set(key, space);
    }
    return space;
  }

  /** The layout worth most at these prices and its value; null where none is worth anything. Heuristic in the order of tiers. */
  best(prices: LayoutPrices): { layout: Layout; value: number } | null {
    return this.plain ? this.bestOfBox(prices) : this.bestOfShape(prices);
  }

  private bestOfShape(prices: LayoutPrices): { layout: Layout; value: number } | null {
    this.stretches ??= new Stretches(this.book);
    const at = (index: number, middle: number) => this.pricesAt(prices, index, middle);
    let value = 0;
    const runs: Run[] = [];
    for (const { from, index } of this.stretches.best(prices, at)) {
      const space = this.space(from, prices.lengths[index]!);
      const best = bestStack(space, at(index, from + space.along / 2), this.steels.length);
      if (!best) continue;
      value += best.value;
      runs.push({ from, stack: best.stack });
    }
    return runs.length > 0 ? { layout: { laid: this.laid, runs }, value } : null;
  }

  /** What the best stack of a run of the one length priced is worth, kg; where the space is uniform before it is ordered. */
  worthOf(from: number, prices: LayoutPrices): number {
    const space = this.space(from, prices.lengths[0]!);
    const at = this.pricesAt(prices, 0, from + space.along / 2);
    if (space.uniform) return uniformWorth(space, at, this.roomFor(space), 0);
    return bestStack(space, at, this.steels.length)?.value ?? 0;
  }

  /** Prices of the `index`th length with the extra worth of a place put on. */
  pricesAt(prices: LayoutPrices, index: number, middle: number): StackPrices {
    const plain = this.stackPrices(prices, index);
    if (!prices.extraPerKg) return plain;
    const extra = prices.extraPerKg(middle);
    const perBar = new Float64Array(this.steels.length);
    for (let i = 0; i < perBar.length; i++)
      perBar[i] = plain.perBar[i]! + (extra * this.steels[i]!.heaviest * prices.lengths[index]!) / 1000;
    return { perBar, perBundle: plain.perBundle - this.rules.wrapping * extra };
  }

  /** The best stacks of runs whose places and lengths are settled; null where none is worth anything. */
  fill(skeleton: { from: number; length: number }[], prices: LayoutPrices): Layout | null {
    const stacks = new Map<number, Stack>();
    const runs: Run[] = [];
    for (const { from, length } of skeleton) {
      const index = prices.lengths.indexOf(length);
      const key = this.uniform ? length : from;
      const stack = stacks.get(key) ?? this.stackAt(from, prices, index);
      stacks.set(key, stack);
      if (stack.bundles > 0) runs.push({ from, stack });
    }
    return runs.length > 0 ? { laid: this.laid, runs } : null;
  }

  private bestOfBox(prices: LayoutPrices): { layout: Layout; value: number } | null {
    const from = this.laid.clear.ends;
    const gap = this.laid.gap.runs;
    const items: { size: number; index: number; value: number; mass: number }[] = [];
    prices.lengths.forEach((length, index) => {
      if (alongSize(length, this.saw, this.rules) > this.room + 1e-9) return;
      const space = this.space(from, length);
      const atLeast = prices.extraPerKg ? 0 : (items[items.length - 1]?.value ?? 0);
      const value = uniformWorth(space, this.stackPrices(prices, index), this.roomFor(space), atLeast);
      if (value <= atLeast) return;
      const mass = prices.extraPerKg ? this.massAt(prices, index) : 0;
      items.push({ size: Math.round((space.along + gap) * 2), index, value, mass });
    });
    const room = Math.floor((this.room + gap) * 2 + 1e-9);
    const value = new Float64Array(room + 1);
    const last = new Int32Array(room + 1).fill(-1);
    const extra = prices.extraPerKg && this.extraByMiddle(prices.extraPerKg, room);
    const count = items.length;
    const sizes = new Int32Array(count);
    const halves = new Int32Array(count);
    const values = new Float64Array(count);
    const masses = new Float64Array(count);
    items.forEach(({ size, value: own, mass }, i) => {
      sizes[i] = size;
      halves[i] = Math.round(size / 2 + gap);
      values[i] = own;
      masses[i] = mass;
    });
    const ends = extra ? null : new Ends(sizes, room);
    for (let end = 1; end <= room; end++) {
      const before = value[end - 1]!;
      value[end] = before;
      if (ends && !ends.has(end)) continue;
      let most = before;
      for (let i = 0; i < count; i++) {
        const start = end - sizes[i]!;
        // Sizes rise with lengths.
        if (start < 0) break;
        let worth = value[start]! + values[i]!;
        if (extra) worth += masses[i]! * extra[end - halves[i]!]!;
        if (worth > most + 1e-9) {
          most = worth;
          last[end] = i;
        }
      }
      value[end] = most;
      if (most > before) ends?.begin(end);
    }
    const runs: Run[] = [];
    const stacks = new Map<number, Stack>();
    for (let end = room; end > 0; ) {
      const item = items[last[end]!];
      if (!item) {
        end--;
        continue;
      }
      end -= item.size;
      const stack = stacks.get(item.index) ?? this.stackAt(from, prices, item.index);
      stacks.set(item.index, stack);
      this.masses.set(prices.lengths[item.index]!, this.massOf(stack));
      if (stack.bundles > 0) runs.unshift({ from: from + end / 2, stack });
    }
    return runs.length > 0 ? { layout: { laid: this.laid, runs }, value: value[room]! } : null;
  }

  private roomFor(space: RunSpace): Room {
    if (space.kinds.length > this.working.ups.length) {
      this.working = workingRoom(2 * space.kinds.length, this.working.value.length);
    }
    return this.working;
  }

  /** Mass of the stack last chosen for a length, about that of the next. */
  private massAt(prices: LayoutPrices, index: number): number {
    const length = prices.lengths[index]!;
    const known = this.masses.get(length);
    if (known !== undefined) return known;
    const mass = this.massOf(this.stackAt(this.laid.clear.ends, prices, index));
    this.masses.set(length, mass);
    return mass;
  }

  private stackPrices(prices: LayoutPrices, index: number): StackPrices {
    return { perBar: prices.perBar[index]!, perBundle: prices.perBundle };
  }

  private stackAt(from: number, prices: LayoutPrices, index: number): Stack {
    const space = this.space(from, prices.lengths[index]!);
    const best = bestStack(space, this.stackPrices(prices, index), this.steels.length);
    return best?.stack ?? stackOf(space.length, [], this.steels.length);
  }

  /** What a kilogram is worth more in a run whose middle is so many half millimetres from the first place of a run. */
  private extraByMiddle(extraPerKg: (along: number) => number, room: number): Float64Array {
    const { ends } = this.laid.clear;
    const extra = new Float64Array(room + 1);
    for (let half = 0; half <= room; half++) extra[half] = extraPerKg(ends + half / 2);
    return extra;
  }

  /** Mass of a stack, wrapping and all, kg. */
  massOf(stack: Stack): number {
    let mass = stack.bundles * this.rules.wrapping;
    stack.bars.forEach((bars, steel) => {
      mass += (bars * this.steels[steel]!.heaviest * stack.length) / 1000;
    });
    return mass;
  }
}

function workingRoom(kinds: number, heights: number): Room {
  return { ups: new Int32Array(kinds), worths: new Float64Array(kinds), value: new Float64Array(heights) };
}
