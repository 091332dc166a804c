/**
 * Ceilings of voids that are no plain boxes: what they can be worth at most at given prices, over every whole-millimetre
 * length and every run and tier of the plan format. As in `ceiling.ts` everything errs upward; and besides:
 * - lengths are taken in classes and starts in cells, each with a space that holds the space of every run of them
 *   (`lengthClass.ts`); things to stay off, ends and bearers are met to the half millimetre all the same;
 * - within a class the worth of a stack is convex in the worth of bars, so that the chord between the ends of the class,
 *   raised until no worth of a bar between is over it, is above it;
 * - a tier may lie 2 mm over what it rests on, and a tier that costs more than it is worth may carry others.
 */
import type { BundleRules, Saw } from '../job/job.ts';
import { alongSize, longestIn } from './bundle.ts';
import { ClassPrices } from './classPrices.ts';
import { bestCount } from './counts.ts';
import { rungsAt } from './kindCeiling.ts';
import type { LaidVoid } from './laid.ts';
import { type LengthClass, lengthClasses, Meeting, TOGETHER } from './lengthClass.ts';
import {
  type Ceiling,
  type CeilingPrices,
  type CeilingRun,
  isOneOf,
  PileCeiling,
  partOfRun,
  type SomeLengths,
} from './pileCeiling.ts';
import { Sides } from './profile.ts';
import { standsOn } from './rest.ts';
import { Riser } from './rise.ts';
import { RiseMap } from './riseMap.ts';
import type { Steel } from './steel.ts';

/** A tier lies within 2 mm of what it rests on, half mm. */
const LIFT = 4;
/** Where it is not a ceiling that is asked for: heights are passed over that are no more than this over one as good, half mm. */
const NEAR = 20;

export class ShapeCeiling {
  private readonly laid: LaidVoid;
  private readonly steels: Steel[];
  private readonly rules: BundleRules;
  private readonly least: number;
  private readonly most: number;
  private readonly window: number;
  private readonly along: (length: number) => number;
  private readonly sides: Sides;
  private readonly meeting: Meeting;
  private readonly classes: LengthClass[];
  private readonly pile: PileCeiling;
  private readonly riser = new Riser();
  /** The last start of all, and the room for runs with a gap after each, half mm. */
  private readonly starts: number;
  private readonly gap: number;
  /** Size along of bundles by length, half mm, and of the shortest that share a run with them, mm. */
  private readonly sizes: Int32Array;
  private readonly shortest: Float64Array;
  /** 1 where a run of a length may begin at a start, `length × starts + start`; null where any may. */
  private readonly stands: Uint8Array | null;
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
    this.poll = poll;
    this.least = least;
    this.most = longestIn(laid.length - 2 * laid.clear.ends, saw, rules);
    this.window = Math.floor(2 * saw.tolerance);
    this.along = (length) => alongSize(length, saw, rules);
    this.sides = new Sides(laid);
    this.gap = Math.round(laid.gap.runs * 2);
    this.starts = Math.max(0, Math.floor((laid.length - 2 * laid.clear.ends) * 2 + 1e-9)) + 1;
    this.meeting = new Meeting(laid, this.starts);
    const range = { least, most: this.most, window: this.window, poll };
    this.classes = lengthClasses(laid, this.sides, this.meeting, steels, rules, saw, range);
    const count = Math.max(0, this.most - least + 1);
    this.sizes = Int32Array.from({ length: count }, (_, i) => Math.round(this.along(least + i) * 2));
    this.shortest = Float64Array.from({ length: count }, (_, i) => this.along(Math.max(1, least + i - this.window)));
    this.pile = new PileCeiling(laid, steels, rules, saw, least);
    this.stands = laid.bearers ? this.standing(laid.bearers) : null;
  }

  /** The ceiling at these prices. Cost: a rising for each class and cell, and lengths × room. */
  at(prices: CeilingPrices): Ceiling {
    if (this.most < this.least) return { value: 0, runs: [] };
    const priced = new ClassPrices(this.steels, prices, { least: this.least, most: this.most, window: this.window });
    const extras = prices.extraPerKg ? this.extras(prices.extraPerKg) : null;
    const { some } = prices;
    const worths = this.classes.map((own) => {
      this.poll();
      return some ? this.worthsNear(own, priced, probeOf(own, some), extras) : this.worthsOf(own, priced, extras);
    });
    const most = extras ? extras.reduce((a, b) => Math.max(a, b), Number.NEGATIVE_INFINITY) : 0;
    const caps = Float64Array.from(this.sizes, (_, i) =>
      Math.min(this.pile.at(prices, i, most), this.worthOfMetres(priced, this.least + i, most)),
    );
    const { value, chosen } = this.fillLength(caps, worths, some);
    return { value, runs: chosen.map((begun) => this.runOf(begun, prices, priced, extras)) };
  }

  private standing(bearers: { along: number }[]): Uint8Array {
    const { ends } = this.laid.clear;
    const places = bearers.map(({ along }) => along).sort((p, q) => p - q);
    const stands = new Uint8Array(this.sizes.length * this.starts);
    this.sizes.forEach((size, i) => {
      for (let start = 0; start + size < this.starts; start++) {
        const from = ends + start / 2;
        if (standsOn(places, from, from + size / 2, TOGETHER + this.window)) stands[i * this.starts + start] = 1;
      }
    });
    return stands;
  }

  /** What a kilogram is worth more in a run, by the middle of the run, half mm from the first place of a run. */
  private extras(extraPerKg: (along: number) => number): Float64Array {
    return Float64Array.from({ length: this.starts + 4 * TOGETHER }, (_, half) =>
      extraPerKg(this.laid.clear.ends + half / 2),
    );
  }

  /** The most that a stack is worth at both ends of a class, for every cell and set of blocks. */
  private worthsOf(own: LengthClass, priced: ClassPrices, extras: Float64Array | null): Float64Array {
    const { kinds, profiles, met } = own;
    const sets = this.meeting.blocks.length;
    const worths = new Float64Array(profiles.length * sets * 2);
    const ends = priced.chordOf(own.from, own.to);
    if (!ends) return worths;
    let rungs = extras ? null : this.rungsOf(kinds, priced, ends, 0, own);
    let cell = -1;
    for (const at of met) {
      const here = Math.floor(at / sets);
      if (extras && here !== cell) rungs = this.rungsOf(kinds, priced, ends, this.mostExtra(extras, own, here), own);
      cell = here;
      const profile = profiles[here]!;
      const blocks = this.meeting.blocks[at % sets]!;
      const map = this.mapOf(own, at);
      const lift = profile.upright && blocks.every((block) => block.high === Number.POSITIVE_INFINITY) ? 0 : LIFT;
      worths[2 * at] = this.riser.worth(map, rungs![0], { lift });
      worths[2 * at + 1] = this.riser.worth(map, rungs![1], { lift });
    }
    return worths;
  }

  /** About what a stack of one length of a class is worth, for every cell and set of blocks: no ceiling, but quickly reckoned. */
  private worthsNear(
    own: LengthClass,
    priced: ClassPrices,
    length: number | null,
    extras: Float64Array | null,
  ): Float64Array {
    const { kinds, profiles, met, wide } = own;
    const sets = this.meeting.blocks.length;
    const worths = new Float64Array(profiles.length * sets * 2);
    const perBar = length === null ? null : priced.at(length);
    if (length === null || !perBar || perBar.every((worth) => worth <= 0)) return worths;
    const half = Math.round(this.sizes[length - this.least]! / 2);
    const at = (extra: number) =>
      rungsAt(
        kinds,
        { perBar: priced.withExtra(perBar, length, extra), perBundle: priced.perBundle - extra * this.rules.wrapping },
        this.riser,
        0,
      );
    let rungs = at(0);
    let cell = -1;
    for (const place of met) {
      const here = Math.floor(place / sets);
      if (extras && here !== cell)
        rungs = at(extras[Math.min(extras.length - 1, Math.floor((here + 0.5) * wide) + half)]!);
      cell = here;
      const worth = this.riser.worth(this.mapOf(own, place), rungs, { near: NEAR });
      worths[2 * place] = worth;
      worths[2 * place + 1] = worth;
    }
    return worths;
  }

  /** What holds in a cell of a class with a set of blocks: `cell × sets + set`. */
  private mapOf(own: LengthClass, at: number): RiseMap {
    const sets = this.meeting.blocks.length;
    own.maps[at] ??= new RiseMap(own.profiles[Math.floor(at / sets)]!, this.meeting.blocks[at % sets]!, own.kinds);
    return own.maps[at];
  }

  private rungsOf(
    kinds: LengthClass['kinds'],
    priced: ClassPrices,
    ends: [Float64Array, Float64Array],
    extra: number,
    own: LengthClass,
  ) {
    const perBundle = priced.perBundle - Math.max(0, extra) * this.rules.wrapping;
    const at = (perBar: Float64Array, length: number, first: number) =>
      rungsAt(kinds, { perBar: priced.withExtra(perBar, length, extra), perBundle }, this.riser, first);
    return [at(ends[0], own.from, 0), at(ends[1], own.to, kinds.length)] as const;
  }

  /** The most that a kilogram is worth more in a run of a class that begins in a cell. */
  private mostExtra(extras: Float64Array, { from, to, wide }: LengthClass, cell: number): number {
    const first = cell * wide + Math.floor(this.along(Math.max(1, from - this.window)));
    const last = (cell + 1) * wide + 2 * TOGETHER + Math.ceil(this.along(to));
    let most = Number.NEGATIVE_INFINITY;
    for (let half = first; half <= last && half < extras.length; half++) most = Math.max(most, extras[half]!);
    return most;
  }

  /** Runs along the void: where each begins to the half millimetre, its length to the millimetre. */
  private fillLength(
    caps: Float64Array,
    worths: Float64Array[],
    some: SomeLengths | undefined,
  ): { value: number; chosen: Begun[] } {
    const { starts, gap, least, stands, meeting } = this;
    const { ends } = this.laid.clear;
    const sets = meeting.blocks.length;
    const value = new Float64Array(starts + gap + 1);
    const last = new Int32Array(value.length);
    for (let start = 0; start < starts; start++) {
      const base = value[start]!;
      if (base >= value[start + 1]!) {
        value[start + 1] = base;
        last[start + 1] = 0;
      }
      let record = 0;
      for (let c = 0; c < this.classes.length; c++) {
        const own = this.classes[c]!;
        if (start > own.last) break;
        const worth = worths[c]!;
        const cell = Math.floor(start / own.wide) * sets;
        const span = Math.max(1, own.to - own.from);
        const probe = some ? probeOf(own, some) : null;
        const longest = some ? (probe ?? 0) : own.to;
        for (let length = probe ?? own.from; length <= longest; length++) {
          const i = length - least;
          const end = start + this.sizes[i]!;
          if (end >= starts) break;
          const set = sets === 1 ? 0 : meeting.set(start, ends + start / 2 + this.shortest[i]!);
          const at = 2 * (cell + set);
          const share = (length - own.from) / span;
          const here = Math.min(caps[i]!, worth[at]! * (1 - share) + worth[at + 1]! * share);
          // A longer run that is worth no more than a shorter one from the same place is of no use.
          if (here <= record || (stands && stands[i * starts + start] === 0)) continue;
          record = here;
          if (base + here > value[end + gap]!) {
            value[end + gap] = base + here;
            last[end + gap] = length;
          }
        }
      }
    }
    let end = 0;
    for (let i = 1; i < value.length; i++) if (value[i]! > value[end]!) end = i;
    const chosen: Begun[] = [];
    const total = value[end]!;
    while (end > 0) {
      const length = last[end]!;
      end -= length === 0 ? 1 : this.sizes[length - least]! + gap;
      if (length > 0) chosen.unshift({ start: end, length });
    }
    return { value: total, chosen };
  }

  /** What a chosen run would hold, in the space of its cell. */
  private runOf(
    { start, length }: Begun,
    prices: CeilingPrices,
    priced: ClassPrices,
    extras: Float64Array | null,
  ): CeilingRun {
    const { ends } = this.laid.clear;
    const i = length - this.least;
    const half = start + Math.round(this.sizes[i]! / 2);
    const middle = ends + half / 2;
    const extra = extras ? extras[half]! : 0;
    const own = this.classes.find(({ to }) => to >= length)!;
    const set = this.meeting.set(start, ends + start / 2 + this.shortest[i]!);
    const perBar = priced.withExtra(priced.at(length), length, extra);
    const perBundle = priced.perBundle - Math.max(0, extra) * this.rules.wrapping;
    const rungs = rungsAt(own.kinds, { perBar, perBundle }, this.riser, 0);
    const map = this.mapOf(own, Math.floor(start / own.wide) * this.meeting.blocks.length + set);
    const all = this.riser.worth(map, rungs);
    const run: CeilingRun = { middle, bars: [], bundles: 0 };
    for (const { rung, low } of this.riser.path(rungs)) {
      const kind = own.kinds[rungs[rung]!.kind]!;
      for (const width of map.widths(low, kind.up)) {
        const bars = kind.steps.bars[kind.steps.of(width)]![0]!;
        const bundles = bestCount(bars, perBar[kind.steel]!, perBundle);
        if (bundles === 0) continue;
        run.bars.push({ steel: kind.steel, length: priced.lengthOf(kind.steel, length), bars: bars[bundles - 1]! });
        run.bundles += bundles;
      }
    }
    return partOfRun(run, all, this.pile.at(prices, i, extra));
  }

  /** What the load for a metre lets a run be worth at most. */
  private worthOfMetres(priced: ClassPrices, length: number, extra: number): number {
    const { mostPerMetre } = this.laid;
    if (mostPerMetre === undefined) return Number.POSITIVE_INFINITY;
    const perBar = priced.withExtra(priced.at(length), length, extra);
    const perKg = Math.max(0, ...this.steels.map((steel, i) => perBar[i]! / ((steel.lightest * length) / 1000)));
    return ((mostPerMetre * (this.along(length) + TOGETHER)) / 1000) * perKg;
  }
}

/** The first length of a class that is one of some; null where none is. */
function probeOf({ from, to }: LengthClass, some: SomeLengths): number | null {
  for (let length = from; length <= to; length++) if (isOneOf(some, length)) return length;
  return null;
}

interface Begun {
  start: number;
  length: number;
}
