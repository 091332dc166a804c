/** Bars that 1, 2, … bundles of a kind hold, by clear width: the same over many widths, kept once for each step. */

/** Steps are kept for widths up to so many half mm; wider ones are worked out each time. */
const MOST_WIDTH = 8000;

/** The step of no width at all. */
const NONE = 0;
/** More than any kind has. */
const MOST_STEPS = 2 ** 26;

export class WidthSteps {
  /** Of every step found so far the bars, in each of the widths that lie side by side. */
  readonly bars: number[][][] = [[]];
  private readonly stepAt: Int32Array;
  private readonly known = new Map<string, number>();
  private readonly pairs = new Map<number, number>();
  private readonly barsAt: (width: number) => number[];

  /** `barsAt`: the bars at a width, half mm; `widest`: about the widest that is asked for. */
  constructor(barsAt: (width: number) => number[], widest: number) {
    this.barsAt = barsAt;
    this.stepAt = new Int32Array(Math.min(MOST_WIDTH, widest) + 1).fill(-1);
  }

  /** The step of a width, half mm. */
  of(width: number): number {
    const step = this.stepAt[width] ?? -1;
    return step >= 0 ? step : this.find(width);
  }

  /** The bars in one width, half mm. */
  barsIn(width: number): number[] {
    return this.bars[this.of(width)]![0] ?? [];
  }

  /** The step of the first so many widths, side by side, half mm. */
  ofAll(count: number, widths: ArrayLike<number>): number {
    let step = NONE;
    for (let i = 0; i < count; i++) step = i === 0 ? this.of(widths[i]!) : this.together(step, this.of(widths[i]!));
    return step;
  }

  private find(width: number): number {
    const bars = this.barsAt(width);
    const key = bars.join();
    const step = this.known.get(key) ?? this.bars.push([bars]) - 1;
    this.known.set(key, step);
    if (width < this.stepAt.length) this.stepAt[width] = step;
    return step;
  }

  private together(p: number, q: number): number {
    const key = p * MOST_STEPS + q;
    const step = this.pairs.get(key) ?? this.bars.push([...this.bars[p]!, ...this.bars[q]!]) - 1;
    this.pairs.set(key, step);
    return step;
  }
}
