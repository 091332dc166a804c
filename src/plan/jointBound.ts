/**
 * Prices of pieces that may be parts of jointed bars, for the bound. Let a whole bar of length ℓ be priced at π(ℓ), and
 *
 *   ρ(a) = a · max { π(ℓ) ÷ ℓ : ℓ ≥ a + the shortest part, and a bundle of ℓ may have a jointed bar },  0 at least.
 *
 * A bar of ℓ jointed from parts of total length s ≤ ℓ is worth (v − π(ℓ)/ℓ)·s or less beside ρ of its parts, v being what
 * a millimetre of it is worth in place; a whole one is worth (v − π(ℓ)/ℓ)·ℓ beside π(ℓ). So where whole bars pay, a jointed
 * one gives no more than a whole one, and where they do not, the bundle is better left out: with every piece cut priced at
 * the greater of π and ρ, layouts of whole bars at π bound those with joints. Parts of different steels of one section
 * lie between two such bars. The share of bars that may be jointed is left out, which errs upward.
 */
import { jointShare, longestJointed } from '../stow/jointShare.ts';
import { partRules } from './jointChoice.ts';
import { type Prices, worthAt } from './prices.ts';
import type { Problem } from './problem.ts';

/** What pieces may be worth, by steel and place in the list of lengths. */
export interface PartPrices {
  /** The greater of a piece's own worth and its worth as a part. */
  worths: Float64Array[];
  /** The length of the bar that it would best be a part of, mm; 0 for none. */
  wholes: Int32Array[];
}

/** The longest bars of each steel that may be jointed, mm: the limit of the strongest void keeps long ones out of bundles of enough bars. */
export function longestJoints({ job, steels, spaces }: Problem): number[] {
  const limit = Math.max(...spaces.map((space) => space.limit));
  return steels.map(({ key }) => {
    const lightest = Math.min(...steels.filter((other) => other.key === key).map((other) => other.lightest));
    return longestJointed(job.bundle, limit, lightest, job.saw.tolerance);
  });
}

/** What a piece of each of `lengths` (rising whole mm, every length a bundle may have) may be worth; null without joints. */
export function partPrices(problem: Problem, prices: Prices, lengths: number[]): PartPrices | null {
  if (jointShare(problem.job.bundle) === 0) return null;
  const { least } = partRules(problem);
  const worths: Float64Array[] = [];
  const wholes: Int32Array[] = [];
  const longest = longestJoints(problem);
  prices.pieces.forEach((pieces, steel) => {
    const worth = Float64Array.from(lengths, (length) => worthAt(pieces, length));
    const priced = Float64Array.from(worth);
    const whole = new Int32Array(lengths.length);
    let best = { rate: 0, length: 0 };
    let next = lengths.length - 1;
    for (let i = lengths.length - 1; i >= 0; i--) {
      const part = lengths[i]!;
      for (; next >= 0 && lengths[next]! >= part + least; next--) {
        const rate = worth[next]! / lengths[next]!;
        if (rate > best.rate && lengths[next]! <= longest[steel]!) best = { rate, length: lengths[next]! };
      }
      if (part < least) continue;
      priced[i] = Math.max(worth[i]!, best.rate * part);
      whole[i] = best.length;
    }
    worths.push(priced);
    wholes.push(whole);
  });
  return { worths, wholes };
}
