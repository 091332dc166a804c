/** Taking from a layout: only bundles that carry nothing are taken out or made lighter, so that what stays is carried. */
import type { BundleRules } from '../job/job.ts';
import { acrossSize, sagOf, tieOf } from './bundle.ts';
import { envelope, type Interval } from './envelope.ts';
import { ceilHalf, floorHalf } from './half.ts';
import type { Layout, Run } from './layout.ts';
import { type Stack, stackOf, type Tier } from './stack.ts';
import type { Steel } from './steel.ts';
import { carrying, isCarried, type Lying } from './tier.ts';

/** A bundle of a layout: run, tier and place in the tier, from 0. */
export interface Place {
  run: number;
  tier: number;
  lying: number;
}

/** The bundles of the top tier of every run. */
export function topPlaces(layout: Layout): Place[] {
  return layout.runs.flatMap((run, r) => {
    const tier = run.stack.tiers.length - 1;
    return run.stack.tiers[tier]!.lying.map((_, lying) => ({ run: r, tier, lying }));
  });
}

/** The tier and the bundle at a place. */
export function at(layout: Layout, place: Place): { run: Run; tier: Tier; lying: Lying } {
  const run = layout.runs[place.run]!;
  const tier = run.stack.tiers[place.tier]!;
  return { run, tier, lying: tier.lying[place.lying]! };
}

/** The layout without the bundle at a place of a top tier; a run left empty goes. */
export function without(layout: Layout, place: Place): Layout {
  return withLying(layout, place, null);
}

/** Room across for the bundle at a place, mm: between its neighbours, their gaps kept, inside the clear space it lies in. */
export function roomAt(layout: Layout, place: Place, along: number): Interval {
  const { run, tier, lying } = at(layout, place);
  const { gap } = layout.laid;
  const space = envelope(layout.laid, run.from, run.from + along);
  const free = space
    .clear(tier.up, tier.up + tier.kind.up)
    .find((interval) => interval.from <= lying.from + 1e-9 && interval.to >= lying.from + lying.across - 1e-9);
  const before = tier.lying[place.lying - 1];
  const after = tier.lying[place.lying + 1];
  return {
    from: Math.max(
      free?.from ?? lying.from,
      before ? before.from + before.across + gap.across : Number.NEGATIVE_INFINITY,
    ),
    to: Math.min(free?.to ?? lying.from + lying.across, after ? after.from - gap.across : Number.POSITIVE_INFINITY),
  };
}

/**
 * The layout with the bundle at a place of a top tier made of so many bars, in as many rows, within `room` across; null
 * where that can not be tied or carried.
 */
export function withBars(
  layout: Layout,
  place: Place,
  bars: number,
  steel: Steel,
  rules: BundleRules,
  room?: Interval,
): Layout | null {
  const { run, tier, lying } = at(layout, place);
  const tie = tieOf(tier.kind.section, tier.kind.rows, bars);
  if (!tie) return null;
  const sag = sagOf(steel.bow, run.stack.length);
  const across = acrossSize(tier.kind.section, tier.kind.onEdge, tie.widest, rules, sag);
  const within = room ?? { from: lying.from, to: lying.from + lying.across };
  if (across > within.to - within.from + 1e-9) return null;
  const middle = lying.from + Math.floor(lying.across - across) / 2;
  const from = Math.max(ceilHalf(within.from), Math.min(middle, floorHalf(within.to - across)));
  if (from + across > within.to + 1e-9) return null;
  const changed: Lying = { tie, from, across };
  const below = run.stack.tiers[place.tier - 1];
  if (
    below &&
    !isCarried(
      changed,
      below.lying.map((bundle) => carrying(below.kind, bundle, rules.wrap)),
    )
  )
    return null;
  return withLying(layout, place, changed);
}

function withLying(layout: Layout, place: Place, lying: Lying | null): Layout {
  const runs = layout.runs.flatMap((run, r) => {
    if (r !== place.run) return [run];
    const stack = withTier(run.stack, place, lying);
    return stack.tiers.length > 0 ? [{ ...run, stack }] : [];
  });
  return { ...layout, runs };
}

function withTier(stack: Stack, place: Place, lying: Lying | null): Stack {
  const tiers = stack.tiers.flatMap((tier, t) => {
    if (t !== place.tier) return [tier];
    const bundles = tier.lying.flatMap((old, i) => (i !== place.lying ? [old] : lying ? [lying] : []));
    return bundles.length > 0 ? [{ ...tier, lying: bundles }] : [];
  });
  return stackOf(stack.length, tiers, stack.bars.length);
}
