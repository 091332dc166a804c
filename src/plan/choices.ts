/**
 * A choice of one of several for each of a few, when the worth of all together is concave in what is chosen: the prices at
 * any choice then bound the worth of every other. What a choice is allowed is the least of its bounds.
 */

/** A bound: what the rest is worth, and what each of the several adds, kg. */
interface Bound {
  rest: number;
  gains: Float64Array[];
}

export class Choices {
  private readonly counts: number[];
  private readonly bounds: Bound[] = [];
  private readonly done = new Set<string>();
  /** For each, what there is to choose from by its gain at the first bound, greatest first. */
  private orders: number[][] = [];

  /** `counts`: how many there are to choose from, for each. */
  constructor(counts: number[]) {
    this.counts = counts;
  }

  /** Takes in the prices of a relaxation worth `most` in which each takes what gains most. */
  relaxed(most: number, gains: Float64Array[]): void {
    this.add({ rest: most - gains.reduce((sum, own) => sum + greatest(own), 0), gains });
  }

  /** Takes in what a choice turned out to be worth, and the prices there. */
  tried(picks: number[], worth: number, gains: Float64Array[]): void {
    this.done.add(picks.join());
    this.add({ rest: worth - gains.reduce((sum, own, i) => sum + own[picks[i]!]!, 0), gains });
  }

  private add(bound: Bound): void {
    if (this.bounds.length === 0)
      this.orders = bound.gains.map((own) => [...own.keys()].sort((a, b) => own[b]! - own[a]! || a - b));
    this.bounds.push(bound);
  }

  /** The choice that is allowed most, of those not tried; null where none is allowed more than `least`. */
  next(least: number): number[] | null {
    const { counts, bounds } = this;
    const tails = bounds.map(({ gains }) => {
      const tail = new Float64Array(counts.length + 1);
      for (let i = counts.length - 1; i >= 0; i--) tail[i] = tail[i + 1]! + greatest(gains[i]!);
      return tail;
    });
    let best: number[] | null = null;
    let record = least;
    const picks = counts.map(() => 0);
    const sums = Array.from({ length: counts.length + 1 }, () => new Float64Array(bounds.length));
    bounds.forEach(({ rest }, k) => {
      sums[0]![k] = rest;
    });
    const allowed = (i: number, pick: number): boolean => {
      for (let k = 0; k < bounds.length; k++) {
        const sum = sums[i]![k]! + bounds[k]!.gains[i]![pick]!;
        if (sum + tails[k]![i + 1]! <= record) return false;
        sums[i + 1]![k] = sum;
      }
      return true;
    };
    const search = (i: number): void => {
      if (i < counts.length) {
        for (const pick of this.orders[i]!) {
          picks[i] = pick;
          if (allowed(i, pick)) search(i + 1);
          // The first bound allows those that follow no more.
          else if (sums[i]![0]! + bounds[0]!.gains[i]![pick]! + tails[0]![i + 1]! <= record) break;
        }
      } else if (!this.done.has(picks.join())) {
        record = Math.min(...sums[i]!);
        best = [...picks];
      }
    };
    search(0);
    return best;
  }
}

function greatest(values: Float64Array): number {
  let most = Number.NEGATIVE_INFINITY;
  for (const value of values) if (value > most) most = value;
  return most;
}
