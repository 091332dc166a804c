/** A choice of one of several for each of many: too many to look through all (choices.ts), so that chance seeks the best. */
import { Choices } from './choices.ts';
import type { Dice } from './dice.ts';

/** Changes thrown in one search, and the share of its worth by which a choice may be left for a worse one to begin with. */
const THROWS = 8_000;
const PATIENCE = 0.002;
/** Sides of a throw that stands for any share. */
const FINE = 1_000_000;

export class Picks extends Choices {
  private readonly dice: Dice;

  /** `counts`: how many there are to choose from, for each, at least one. */
  constructor(counts: number[], dice: Dice) {
    super(counts);
    this.dice = dice;
  }

  /**
   * A choice that was not tried and is allowed more than `least`, about the one that is allowed most; null where none was
   * found. Sought by changes of one after the other from `from`, with less and less patience.
   */
  near(from: number[], least: number): number[] | null {
    const { counts, bounds, dice } = this;
    const several = counts.flatMap((count, i) => (count > 1 ? [i] : []));
    if (several.length === 0) return null;
    const picks = [...from];
    let sums = Float64Array.from(bounds, ({ rest, gains }) =>
      gains.reduce((sum, own, i) => sum + own[picks[i]!]!, rest),
    );
    let after = new Float64Array(sums.length);
    let now = Math.min(...sums);
    let best: number[] | null = null;
    let most = least;
    const patience = PATIENCE * Math.abs(least);
    for (let n = 0; n < THROWS; n++) {
      const i = several[dice.below(several.length)]!;
      const pick = dice.below(counts[i]!);
      const before = picks[i]!;
      if (pick === before) continue;
      const limit = now - patience * (1 - n / THROWS) * (dice.below(FINE) / FINE);
      let value = Number.POSITIVE_INFINITY;
      for (let k = 0; k < sums.length && value >= limit; k++) {
        const own = bounds[k]!.gains[i]!;
        after[k] = sums[k]! + own[pick]! - own[before]!;
        value = Math.min(value, after[k]!);
      }
      if (value < limit) continue;
      [sums, after] = [after, sums];
      picks[i] = pick;
      now = value;
      if (value > most && !this.done.has(picks.join())) {
        most = value;
        best = [...picks];
      }
    }
    return best;
  }
}
