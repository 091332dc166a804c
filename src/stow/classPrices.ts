/** What bars are worth over classes of lengths, erring upward only. */
import type { CeilingPrices } from './pileCeiling.ts';
import type { Steel } from './steel.ts';

/** Worth of a bar by steel. */
export type PerBar = Float64Array;

export class ClassPrices {
  readonly perBundle: number;
  private readonly steels: Steel[];
  private readonly least: number;
  private readonly window: number;
  /** By steel and length: the worth of a bar, and the most of it and of those that may share its run. */
  private readonly own: Float64Array[];
  private readonly worths: Float64Array[];

  /** Lengths from `least` to `most` mm; those up to `window` mm shorter may share a run. */
  constructor(
    steels: Steel[],
    prices: CeilingPrices,
    { least, most, window }: { least: number; most: number; window: number },
  ) {
    this.steels = steels;
    this.least = least;
    this.window = window;
    this.perBundle = prices.perBundle;
    this.own = steels.map(({ index }) =>
      Float64Array.from({ length: most - least + 1 }, (_, i) => prices.perBar(index, least + i)),
    );
    this.worths = this.own.map((own) =>
      own.map((worth, i) => {
        let best = worth;
        for (let j = Math.max(0, i - window); j < i; j++) best = Math.max(best, own[j]!);
        return best;
      }),
    );
  }

  /** The length of the bars of a steel that are worth most in a run of `length` mm: the pile may yield none quite so long. */
  lengthOf(steel: number, length: number): number {
    const i = length - this.least;
    let best = i;
    for (let j = Math.max(0, i - this.window); j < i; j++) if (this.own[steel]![j]! > this.own[steel]![best]!) best = j;
    return this.least + best;
  }

  at(length: number): PerBar {
    return Float64Array.from(this.worths, (worths) => worths[length - this.least]!);
  }

  /** Worths at both ends of a class whose chord no worth between is over; null where no bar is worth anything. */
  chordOf(from: number, to: number): [PerBar, PerBar] | null {
    const ends: [PerBar, PerBar] = [new Float64Array(this.worths.length), new Float64Array(this.worths.length)];
    let any = false;
    this.worths.forEach((worths, steel) => {
      const own = worths.subarray(from - this.least, to - this.least + 1);
      let low = Number.POSITIVE_INFINITY;
      for (const worth of own) {
        if (worth > 0) any = true;
        if (worth > Number.NEGATIVE_INFINITY) low = Math.min(low, worth);
      }
      if (low === Number.POSITIVE_INFINITY) low = Number.NEGATIVE_INFINITY;
      const first = Math.max(low, own[0]!);
      const last = Math.max(low, own[own.length - 1]!);
      let over = 0;
      for (let i = 1; i + 1 < own.length; i++) {
        const share = i / (own.length - 1);
        over = Math.max(over, own[i]! - (first * (1 - share) + last * share));
      }
      ends[0][steel] = low === Number.NEGATIVE_INFINITY ? low : first + over;
      ends[1][steel] = low === Number.NEGATIVE_INFINITY ? low : last + over;
    });
    return any ? ends : null;
  }

  /** The same where a kilogram is worth `extra` more, in bars of `length` mm and those that share their run. */
  withExtra(perBar: PerBar, length: number, extra: number): PerBar {
    if (extra === 0) return perBar;
    const metres = (extra > 0 ? length : Math.max(0, length - this.window)) / 1000;
    return perBar.map((worth, i) => {
      const { heaviest, lightest } = this.steels[i]!;
      return worth + extra * metres * (extra > 0 ? heaviest : lightest);
    });
  }
}
