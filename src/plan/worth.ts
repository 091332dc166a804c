/** What a kilogram in place is worth, its pieces paid for. */
import type { Worth } from './caps.ts';
import { type Prices, worthAt } from './prices.ts';
import { barMass, type Problem } from './problem.ts';

/** What a kilogram is worth in a bundle, its pieces paid for. */
export function worthBy(problem: Problem, prices: Prices): Worth {
  return (space, layout, place) => {
    const run = layout.runs[place.run]!;
    const { steel } = run.stack.tiers[place.tier]!.kind;
    const { length } = run.stack;
    return space.weight - worthAt(prices.pieces[steel]!, length) / barMass(problem.steels[steel]!, length);
  };
}
