/**
 * Rising: which kinds of tier, one on another, are worth most in a clear space that changes with the height. A dynamic
 * program over the heights that tiers reach, half mm; what carries what is not asked here.
 */
import { type Block, freeWidths, type Profile } from './profile.ts';

/** A kind of tier as a rising sees it. */
export interface Rung {
  /** Height of its bundles, half mm. */
  up: number;
  /** The greatest height at which it may stand, half mm: above it its bundles no longer pass the opening. */
  last: number;
  /** Worth of the kind by clear width, half mm; NaN where not yet worked out, −Infinity where no bundle fits. */
  worth: Float64Array;
  /** Works out the worth at a width. */
  at(width: number): number;
}

/** A tier of a rising: which rung, and the height of its foot, half mm. */
export interface Step {
  rung: number;
  low: number;
}

/** Half mm: higher than any void. */
const MOST_HEIGHT = 2 ** 30;

/** Room for the working of risings, used again and again. */
export class Riser {
  private value = new Float64Array(0);
  private rung = new Int16Array(0);
  /** Heights of the rungs at hand, and the greatest at which each may stand. */
  private ups = new Int32Array(0);
  private lasts = new Int32Array(0);
  /** The free widths of the tier last measured, how many, and between what heights of its top they are the same. */
  private widths = new Int32Array(0);
  private count = 0;
  private over = 0;
  private until = -1;
  private highest = -1;
  private readonly tables: Float64Array[] = [];

  /** A table of `count` numbers, all NaN, for the worth of a rung; the `i`th is the same one each time. */
  table(i: number, count: number): Float64Array {
    let table = this.tables[i];
    if (!table || table.length < count) {
      table = new Float64Array(count);
      this.tables[i] = table;
    }
    return table.fill(Number.NaN);
  }

  /**
   * The most that tiers of these rungs are worth between bottom and top. A tier may lie up to `lift` half mm higher than
   * what it stands on.
   */
  worth(profile: Profile, keptOff: Block[], rungs: Rung[], lift = 0): number {
    const { bottom, top } = profile;
    const blocks = blocksOver(profile, keptOff);
    this.highest = -1;
    if (top <= bottom || rungs.length === 0) return 0;
    this.makeRoom(top + 1, blocks.length + 1, rungs.length);
    const { value, rung } = this;
    value.fill(Number.NEGATIVE_INFINITY, bottom, top + 1);
    value[bottom] = 0;
    this.highest = bottom;
    rung[bottom] = -1;
    const { ups, lasts } = this;
    let least = top;
    for (let i = 0; i < rungs.length; i++) {
      const { up, last } = rungs[i]!;
      ups[i] = up;
      lasts[i] = Math.min(last, top - up);
      if (up < least) least = up;
    }
    let best = 0;
    // Nothing in the way, and the foot the narrowest: one width serves all kinds.
    const open = blocks.length === 0 && profile.flares;
    for (let low = bottom; low + least <= top; low++) {
      let base = value[low]!;
      for (let j = 1; j <= lift && low - j >= bottom; j++) if (value[low - j]! > base) base = value[low - j]!;
      if (base === Number.NEGATIVE_INFINITY) continue;
      const width = open ? profile.to[low]! - profile.from[low]! : 1;
      if (width <= 0) continue;
      this.until = low;
      for (let i = 0; i < rungs.length; i++) {
        if (low > lasts[i]!) continue;
        const high = low + ups[i]!;
        const kind = rungs[i]!;
        const worth = base + (open ? worthAt(kind, width) : this.tierWorth(profile, blocks, kind, low, high));
        if (worth > value[high]!) {
          value[high] = worth;
          rung[high] = i;
          if (worth > best) {
            best = worth;
            this.highest = high;
          }
        }
      }
    }
    return best;
  }

  /**
   * What may still be added from every height reached by the last rising, NaN where none was reached. The same profile,
   * blocks and rungs must be given.
   */
  toGo(profile: Profile, keptOff: Block[], rungs: Rung[]): Float64Array {
    const { bottom, top } = profile;
    const blocks = blocksOver(profile, keptOff);
    const rest = new Float64Array(top + 1).fill(Number.NaN);
    for (let low = top; low >= bottom; low--) {
      if (this.value[low] === Number.NEGATIVE_INFINITY) continue;
      let most = 0;
      this.until = low;
      for (const kind of rungs) {
        const high = low + kind.up;
        if (high > top || low > kind.last || Number.isNaN(rest[high]!)) continue;
        most = Math.max(most, this.tierWorth(profile, blocks, kind, low, high) + rest[high]!);
      }
      rest[low] = most;
    }
    return rest;
  }

  /** The tiers of the last rising without lift, from the bottom; none where nothing was worth anything. */
  path(rungs: Rung[]): Step[] {
    const steps: Step[] = [];
    for (let high = this.highest; this.rung[high]! >= 0; ) {
      const rung = this.rung[high]!;
      high -= rungs[rung]!.up;
      steps.unshift({ rung, low: high });
    }
    return steps;
  }

  /** The same with the clear widths of each tier, half mm. */
  filled(profile: Profile, keptOff: Block[], rungs: Rung[]): (Step & { widths: number[] })[] {
    const blocks = blocksOver(profile, keptOff);
    return this.path(rungs).map((step) => {
      const count = freeWidths(profile, blocks, step.low, step.low + rungs[step.rung]!.up, this.widths);
      return { ...step, widths: [...this.widths.subarray(0, count)] };
    });
  }

  /** What a tier is worth; one on the foot of the last one need not be measured again where it meets the same blocks. */
  private tierWorth(profile: Profile, blocks: Block[], kind: Rung, low: number, high: number): number {
    if (high <= this.over || high > this.until) this.measure(profile, blocks, low, high);
    const { count, widths } = this;
    if (count === 1) return worthAt(kind, widths[0]!);
    let sum = 0;
    let most = Number.NEGATIVE_INFINITY;
    for (let i = 0; i < count; i++) {
      const worth = worthAt(kind, widths[i]!);
      if (worth > 0) sum += worth;
      if (worth > most) most = worth;
    }
    return most > 0 ? sum : most;
  }

  /** Takes the free widths of a tier, and up to what height, and over what, they are the same. */
  private measure(profile: Profile, blocks: Block[], low: number, high: number): void {
    this.count = freeWidths(profile, blocks, low, high, this.widths);
    let over = profile.flares ? low : high - 1;
    let until = profile.flares ? MOST_HEIGHT : high;
    for (let b = 0; b < blocks.length; b++) {
      const foot = Math.floor(blocks[b]!.low);
      if (foot < high) over = Math.max(over, foot);
      else until = Math.min(until, foot);
    }
    this.over = over;
    this.until = until;
  }

  private makeRoom(heights: number, widths: number, rungs: number): void {
    if (this.value.length < heights) {
      this.value = new Float64Array(heights);
      this.rung = new Int16Array(heights);
    }
    if (this.widths.length < widths) this.widths = new Int32Array(widths);
    if (this.ups.length < rungs) {
      this.ups = new Int32Array(rungs);
      this.lasts = new Int32Array(rungs);
    }
  }
}

function blocksOver({ drain }: Profile, keptOff: Block[]): Block[] {
  return drain.length > 0 ? [...keptOff, ...drain].sort((p, q) => p.from - q.from) : keptOff;
}

function worthAt(kind: Rung, width: number): number {
  const known = kind.worth[width]!;
  return Number.isNaN(known) ? kind.at(width) : known;
}
