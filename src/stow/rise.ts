/**
 * Rising: which kinds of tier, one on another, are worth most in a clear space that changes with the height. A dynamic
 * program over the heights that tiers reach, half mm; what carries what is not asked here.
 */
import type { RiseMap } from './riseMap.ts';
import { Rung } from './rung.ts';

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
  private rungAt = new Int16Array(0);
  /** By rung: its height, what a tier is worth at the height at hand, the piece of the map there, and where the next begins. */
  private ups = new Int32Array(0);
  private worths = new Float64Array(0);
  private piece = new Int32Array(0);
  private next = new Int32Array(0);
  private highest = -1;
  private readonly rungs: Rung[] = [];

  /** The `i`th rung of this riser, to be set to a kind: the same one each time. */
  rung(i: number): Rung {
    this.rungs[i] ??= new Rung();
    return this.rungs[i];
  }

  /**
   * The most that tiers of these rungs, made of the kinds of the map, are worth. A tier may lie up to `lift` half mm higher
   * than what it stands on. A height is passed over where one up to `near` half mm lower is reached with as much (heuristic:
   * the sides may open between them).
   */
  worth(map: RiseMap, rungs: Rung[], { lift = 0, near = 0 } = {}): number {
    const { bottom, top } = map;
    this.highest = -1;
    if (top <= bottom || rungs.length === 0) return 0;
    this.makeRoom(top + 1, rungs.length);
    const { value, rungAt, ups, worths, next } = this;
    value.fill(Number.NEGATIVE_INFINITY, bottom, top + 1);
    value[bottom] = 0;
    this.highest = bottom;
    rungAt[bottom] = -1;
    let least = top;
    for (let i = 0; i < rungs.length; i++) {
      const { up, kind } = rungs[i]!;
      ups[i] = up;
      this.piece[i] = map.first[kind]! - 1;
      next[i] = bottom;
      if (up < least) least = up;
    }
    let best = 0;
    for (let low = bottom; low + least <= top; low++) {
      let base = value[low]!;
      for (let j = 1; j <= lift && low - j >= bottom; j++) if (value[low - j]! > base) base = value[low - j]!;
      if (base === Number.NEGATIVE_INFINITY || this.isBeaten(base, low, near, bottom)) continue;
      for (let i = 0; i < rungs.length; i++) {
        if (low >= next[i]!) this.goUp(map, rungs[i]!, i, low);
        const worth = base + worths[i]!;
        if (worth === Number.NEGATIVE_INFINITY) continue;
        const high = low + ups[i]!;
        if (worth > value[high]!) {
          value[high] = worth;
          rungAt[high] = i;
          if (worth > best) {
            best = worth;
            this.highest = high;
          }
        }
      }
    }
    return best;
  }

  private isBeaten(base: number, low: number, near: number, bottom: number): boolean {
    for (let h = Math.max(bottom, low - near); h < low; h++) if (this.value[h]! >= base) return true;
    return false;
  }

  /** What may still be added from every height reached by the last rising, NaN where none was. The same map and rungs must be given. */
  toGo(map: RiseMap, rungs: Rung[]): Float64Array {
    const { bottom, top } = map;
    const rest = new Float64Array(top + 1).fill(Number.NaN);
    rungs.forEach(({ kind }, i) => {
      this.piece[i] = map.first[kind + 1]!;
      this.next[i] = MOST_HEIGHT;
    });
    for (let low = top; low >= bottom; low--) {
      if (this.value[low] === Number.NEGATIVE_INFINITY) continue;
      let most = 0;
      for (let i = 0; i < rungs.length; i++) {
        const rung = rungs[i]!;
        const high = low + rung.up;
        if (high > top || Number.isNaN(rest[high]!)) continue;
        if (low < this.next[i]!) this.goDown(map, rung, i, low);
        most = Math.max(most, this.worths[i]! + rest[high]!);
      }
      rest[low] = most;
    }
    return rest;
  }

  /** The tiers of the last rising without lift, from the bottom; none where nothing was worth anything. */
  path(rungs: Rung[]): Step[] {
    const steps: Step[] = [];
    for (let high = this.highest; this.rungAt[high]! >= 0; ) {
      const rung = this.rungAt[high]!;
      high -= rungs[rung]!.up;
      steps.unshift({ rung, low: high });
    }
    return steps;
  }

  /** To the piece of a rung at a height over that at hand; `next`: where the one after it begins. */
  private goUp({ first, feet, steps }: RiseMap, rung: Rung, i: number, low: number): void {
    const end = first[rung.kind + 1]!;
    let piece = this.piece[i]!;
    while (piece + 1 < end && feet[piece + 1]! <= low) piece++;
    this.piece[i] = piece;
    this.next[i] = piece + 1 < end ? feet[piece + 1]! : MOST_HEIGHT;
    this.worths[i] = rung.worth(steps[piece]!);
  }

  /** To the piece of a rung at a height under that at hand; `next`: where it begins. */
  private goDown({ first, feet, steps }: RiseMap, rung: Rung, i: number, low: number): void {
    let piece = this.piece[i]! - 1;
    while (piece > first[rung.kind]! && feet[piece]! > low) piece--;
    this.piece[i] = piece;
    this.next[i] = feet[piece]!;
    this.worths[i] = rung.worth(steps[piece]!);
  }

  private makeRoom(heights: number, rungs: number): void {
    if (this.value.length < heights) {
      this.value = new Float64Array(heights);
      this.rungAt = new Int16Array(heights);
    }
    if (this.ups.length < rungs) {
      this.ups = new Int32Array(rungs);
      this.worths = new Float64Array(rungs);
      this.piece = new Int32Array(rungs);
      this.next = new Int32Array(rungs);
    }
  }
}
