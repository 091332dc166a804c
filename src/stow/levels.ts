/** Tiers to choose from for a stack, in arrays that are used again: no object is made for one. */
import { knapsack } from './knapsack.ts';

/** Sorted by height and free of those that another beats or equals, being no higher. */
export class Levels {
  private readonly ups: Int32Array;
  private readonly worths: Float64Array;
  private count = 0;

  /** `height`: of the highest tier, half millimetres; no two that stay are as high as each other. */
  constructor(height: number) {
    this.ups = new Int32Array(height + 2);
    this.worths = new Float64Array(height + 2);
  }

  clear(): void {
    this.count = 0;
  }

  /** `up` in half millimetres. */
  add(up: number, worth: number): void {
    const { ups, worths } = this;
    let at = this.count;
    while (at > 0 && ups[at - 1]! > up) at--;
    if (at > 0 && worths[at - 1]! >= worth) return;
    if (at > 0 && ups[at - 1] === up) at--;
    let end = at;
    while (end < this.count && worths[end]! <= worth) end++;
    const shift = at + 1 - end;
    if (shift !== 0) {
      ups.copyWithin(end + shift, end, this.count);
      worths.copyWithin(end + shift, end, this.count);
    }
    ups[at] = up;
    worths[at] = worth;
    this.count += shift;
  }

  /** What the best stack within `height` half millimetres is worth; `value` as for `knapsack`. */
  worth(height: number, value: Float64Array): number {
    return knapsack(this.ups, this.worths, this.count, height, value);
  }
}
