/** What a bundle weighs as far as is known: by the scale where it was weighed, else as planned. */
import type { PlanBundle } from './plan.ts';

/** kg off the scale, by bundle. */
export type WeighedMasses = ReadonlyMap<string, number>;

type Weighable = Pick<PlanBundle, 'bundle' | 'mass'>;

/** kg. `mass` is what was planned. All that pages and papers tell of a bundle's weight, and all that carries it, goes by this. */
export function massNow({ bundle, mass }: Weighable, weighed: WeighedMasses | undefined): number {
  return weighed?.get(bundle) ?? mass;
}

/** The same bundles, each with the mass that it has now. */
export function atMassNow<T extends Weighable>(bundles: readonly T[], weighed: WeighedMasses | undefined): T[] {
  return bundles.map((own) => ({ ...own, mass: massNow(own, weighed) }));
}

/** How many of these were weighed. */
export function countWeighed(bundles: readonly Weighable[], weighed: WeighedMasses | undefined): number {
  return bundles.filter(({ bundle }) => weighed?.has(bundle)).length;
}
