/** By what the masses on a paper stand, where some of the plan's bundles were weighed: by the scale, or as planned. */
import { countWeighed, type WeighedMasses } from '../../src/plan/massNow.ts';
import type { PlanBundle } from '../../src/plan/plan.ts';
import { BY_WORDS as W } from './stowageWords.ts';
import type { Column } from './table.ts';

type Weighable = Pick<PlanBundle, 'bundle' | 'mass'>;

/** For what a paper says of all its bundles: nothing where none of them was weighed. */
export function byNote(bundles: readonly Weighable[], weighed: WeighedMasses | undefined): string {
  const count = countWeighed(bundles, weighed);
  return count === 0 ? '' : count === bundles.length ? W.allWeighed : W.someWeighed;
}

/** What to say behind the mass of some of a plan's bundles; nothing where none of the plan's was weighed. */
export function massBy(
  bundles: readonly Weighable[],
  plan: { bundles: readonly Weighable[] },
  weighed: WeighedMasses | undefined,
): string {
  const count = countWeighed(bundles, weighed);
  if (count === 0) return countWeighed(plan.bundles, weighed) === 0 ? '' : W.asPlanned;
  return count === bundles.length ? W.byScale : W.partByScale(count);
}

/** A column that tells of each bundle by what its mass stands, where that is not the same of all of them. */
export function byColumn(
  bundles: readonly Weighable[],
  weighed: WeighedMasses | undefined,
  column: Partial<Column> = {},
): { heads: Column[]; cells: (bundle: Weighable) => string[]; none: string[] } {
  const count = countWeighed(bundles, weighed);
  if (count === 0 || count === bundles.length) return { heads: [], cells: () => [], none: [] };
  const cells = ({ bundle }: Weighable) => [weighed?.has(bundle) ? W.scale : W.plan];
  return { heads: [{ head: W.head, ...column }], cells, none: [''] };
}
