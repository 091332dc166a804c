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
  private rungAt = new Int32Array(0);
  /** Going up: the rungs that have a place at the height at hand or above it, the height of each and what a tier is worth. */
  private live = new Int32Array(0);
  private ups = new Int32Array(0);
  private worths = new Float64Array(0);
  /** By rung, going down: the piece of the map at the height at hand, and where it begins. */
  private piece = new Int32Array(0);
  private next = new Int32Array(0);
  /** By kind of the map: where in `live` its rung is, −1 where it is not. */
  private at = new Int32Array(0);
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
    const { value, rungAt, live, ups, worths, at } = this.roomFor(map, rungs);
    value.fill(Number.NEGATIVE_INFINITY, bottom, top + 1);
    value[bottom] = 0;
    this.highest = bottom;
    rungAt[bottom] = -1;
    let count = rungs.length;
    let least = top;
    at.fill(-1);
    for (let i = 0; i < count; i++) {
      const { up, kind } = rungs[i]!;
      live[i] = i;
      ups[i] = up;
      worths[i] = Number.NEGATIVE_INFINITY;
      at[kind] = i;
      if (up < least) least = up;
    }
    const { pieces, feet, kinds } = map.upward();
    let met = 0;
    let best = 0;
    for (let low = bottom; low + least <= top; low++) {
      let base = value[low]!;
      for (let j = 1; j <= lift && low - j >= bottom; j++) if (value[low - j]! > base) base = value[low - j]!;
      if (base === Number.NEGATIVE_INFINITY || this.isBeaten(base, low, near, bottom)) continue;
      for (; met < feet.length && feet[met]! <= low; met++) {
        const kind = kinds[met]!;
        const i = at[kind]!;
        if (i < 0) continue;
        if (pieces[met]! + 1 === map.first[kind + 1]) count = this.drop(rungs, i, count);
        else worths[i] = rungs[live[i]!]!.worth(map.steps[pieces[met]!]!);
      }
      for (let i = 0; i < count; i++) {
        const worth = base + worths[i]!;
        const high = low + ups[i]!;
        if (worth > value[high]!) {
          value[high] = worth;
          rungAt[high] = live[i]!;
          if (worth > best) {
            best = worth;
            this.highest = high;
          }
        }
      }
    }
    return best;
  }

  /** Takes out the `i`th of the rungs that have a place yet, which is above the last of its heights; how many are left. */
  private drop(rungs: Rung[], i: number, count: number): number {
    const { live, ups, worths, at } = this;
    at[rungs[live[i]!]!.kind] = -1;
    for (let j = i + 1; j < count; j++) {
      live[j - 1] = live[j]!;
      ups[j - 1] = ups[j]!;
      worths[j - 1] = worths[j]!;
      at[rungs[live[j]!]!.kind] = j - 1;
    }
    return count - 1;
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

  /** To the piece of a rung at a height under that at hand; `next`: where it begins. */
  private goDown({ first, feet, steps }: RiseMap, rung: Rung, i: number, low: number): void {
    let piece = this.piece[i]! - 1;
    while (piece > first[rung.kind]! && feet[piece]! > low) piece--;
    this.piece[i] = piece;
    this.next[i] = feet[piece]!;
    this.worths[i] = rung.worth(steps[piece]!);
  }

  private roomFor({ top, first }: RiseMap, rungs: Rung[]): this {
    if (this.value.length <= top) {
      this.value = new Float64Array(top + 1);
      this.rungAt = new Int32Array(top + 1);
    }
    if (this.ups.length < rungs.length) {
      this.live = new Int32Array(rungs.length);
      this.ups = new Int32Array(rungs.length);
      this.worths = new Float64Array(rungs.length);
      this.piece = new Int32Array(rungs.length);
      this.next = new Int32Array(rungs.length);
    }
    if (this.at.length < first.length) this.at = new Int32Array(first.length);
    return this;
  }
}
