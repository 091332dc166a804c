/** Rungs: kinds of tier at prices, as a rising sees them. */
import type { WidthSteps } from './widthSteps.ts';

/** Worked with again and again, since risings ask for thousands. */
export class Rung {
  /** Which of the kinds it was made of. */
  kind = 0;
  /** Height of its bundles, half mm. */
  up = 0;
  private bars: number[][][] = [];
  private price: (bars: number[]) => number = () => 0;
  /** Worth by step, where it was asked for since the prices are so. */
  private worths = new Float64Array(64);
  private asked = new Int32Array(64);
  private round = 0;

  /** Another kind, or other prices: `price` gives what bars in 1, 2, … bundles are worth, −Infinity where there are none. */
  set(kind: number, up: number, { bars }: WidthSteps, price: (bars: number[]) => number): this {
    this.kind = kind;
    this.up = up;
    this.bars = bars;
    this.price = price;
    this.round++;
    return this;
  }

  /** What a tier of a step is worth; −Infinity where it has no place. */
  worth(step: number): number {
    if (step >= this.asked.length) {
      this.worths = grown(this.worths, new Float64Array(2 * step));
      this.asked = grown(this.asked, new Int32Array(2 * step));
    }
    if (this.asked[step] !== this.round) {
      this.worths[step] = this.sumOf(this.bars[step]!);
      this.asked[step] = this.round;
    }
    return this.worths[step]!;
  }

  /** Side by side, without those that cost more than they are worth, unless all do. */
  private sumOf(widths: number[][]): number {
    let sum = 0;
    let most = Number.NEGATIVE_INFINITY;
    for (const bars of widths) {
      const worth = this.price(bars);
      if (worth > 0) sum += worth;
      if (worth > most) most = worth;
    }
    return most > 0 ? sum : most;
  }
}

function grown<Numbers extends Float64Array | Int32Array>(old: Numbers, larger: Numbers): Numbers {
  larger.set(old);
  return larger;
}
