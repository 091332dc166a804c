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
  protected readonly counts: number[];
  protected readonly bounds: Bound[] = [];
  protected readonly done = new Set<string>();

  /** `counts`: how many there are to choose from, for each. */
  constructor(counts: number[]) {
    this.counts = counts;
  }

  /** Takes in the prices of a relaxation worth `most` in which each takes what gains most. */
  relaxed(most: number, gains: Float64Array[]): void {
    this.bounds.push({ rest: most - gains.reduce((sum, own) => sum + greatest(own), 0), gains });
  }

  /** Takes in what a choice turned out to be worth, and the prices there. */
  tried(picks: number[], worth: number, gains: Float64Array[]): void {
    this.done.add(picks.join());
    this.bounds.push({ rest: worth - gains.reduce((sum, own, i) => sum + own[picks[i]!]!, 0), gains });
  }

  /** The choice that is allowed most, of those not tried; null where none is allowed more than `least`. */
  next(least: number): number[] | null {
    const { counts, bounds } = this;
    const levels = this.levels();
    let best: number[] | null = null;
    let record = least;
    const picks = counts.map(() => 0);
    const sums = [Float64Array.from(bounds, ({ rest }) => rest), ...counts.map(() => new Float64Array(bounds.length))];
    const search = (i: number): void => {
      if (i === counts.length) {
        if (this.done.has(picks.join())) return;
        record = Math.min(...sums[i]!);
        best = [...picks];
        return;
      }
      const { order, gains, others } = levels[i]!;
      const before = sums[i]!;
      const after = sums[i + 1]!;
      for (let n = 0, at = 0; n < order.length && order[n]!.most > record; n++, at += before.length) {
        let k = 0;
        for (; k < before.length; k++) {
          const sum = before[k]! + gains[at + k]!;
          if (sum + others[k]! <= record) break;
          after[k] = sum;
        }
        if (k < before.length) continue;
        picks[i] = order[n]!.pick;
        search(i + 1);
      }
    };
    search(0);
    return best;
  }

  private levels(): Level[] {
    const { counts, bounds } = this;
    const most = bounds.map(({ gains }) => gains.map(greatest));
    return counts.map((count, i) => {
      const sumOf = (own: number[]) => own.reduce((sum, gain) => sum + gain, 0);
      const beside = bounds.map(({ rest }, k) => rest + sumOf(most[k]!) - most[k]![i]!);
      const allowed = (pick: number) =>
        bounds.reduce(
          (least, { gains }, k) => Math.min(least, beside[k]! + gains[i]![pick]!),
          Number.POSITIVE_INFINITY,
        );
      const order = Array.from({ length: count }, (_, pick) => ({ pick, most: allowed(pick) }));
      order.sort((a, b) => b.most - a.most || a.pick - b.pick);
      return {
        order,
        gains: Float64Array.from(order.flatMap(({ pick }) => bounds.map(({ gains }) => gains[i]![pick]!))),
        others: Float64Array.from(most, (own) => sumOf(own.slice(i + 1))),
      };
    });
  }
}

/** One of the few: what there is to choose from, by the most that is allowed with it. */
interface Level {
  order: { pick: number; most: number }[];
  /** What each gains at each bound, in that order. */
  gains: Float64Array;
  /** What a bound allows the few that follow. */
  others: Float64Array;
}

function greatest(values: Float64Array): number {
  let most = Number.NEGATIVE_INFINITY;
  for (const value of values) if (value > most) most = value;
  return most;
}
