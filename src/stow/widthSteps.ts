/** Bars that 1, 2, … bundles of a kind hold, by clear width: the same over many widths, kept once for each step. */

/** Steps are kept for widths up to so many half mm; wider ones are worked out each time. */
const MOST_WIDTH = 2000;

export class WidthSteps {
  /** Of every step found so far the bars, in each of the widths that lie side by side. */
  readonly bars: number[][][] = [];
  private readonly stepAt: Int16Array;
  private readonly known = new Map<string, number>();
  private readonly barsAt: (width: number) => number[];

  /** `barsAt`: the bars at a width, half mm; `widest`: about the widest that is asked for. */
  constructor(barsAt: (width: number) => number[], widest: number) {
    this.barsAt = barsAt;
    this.stepAt = new Int16Array(Math.min(MOST_WIDTH, widest) + 1).fill(-1);
  }

  /** The step of a width, half mm. */
  of(width: number): number {
    const step = this.stepAt[width] ?? -1;
    return step >= 0 ? step : this.find(width);
  }

  /** The step of widths side by side, half mm. */
  ofAll(widths: Int32Array): number {
    const steps = Array.from(widths, (width) => this.of(width));
    return this.keep(`${steps.join()};`, () => steps.map((step) => this.bars[step]![0]!));
  }

  private find(width: number): number {
    const bars = this.barsAt(width);
    const step = this.keep(bars.join(), () => [bars]);
    if (width < this.stepAt.length) this.stepAt[width] = step;
    return step;
  }

  private keep(key: string, bars: () => number[][]): number {
    let step = this.known.get(key);
    if (step === undefined) {
      step = this.bars.push(bars()) - 1;
      this.known.set(key, step);
    }
    return step;
  }
}
