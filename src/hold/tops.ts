/** What of a stow a bar across or a strap lies on: the uppermost bundles under it. Mm. */
import type { PlanBundle } from '../plan/plan.ts';

/** The uppermost bundles with some of their length between `from` and `to` along: nothing lies over more than half of one. */
export function uppermost(bundles: readonly PlanBundle[], from: number, to: number): PlanBundle[] {
  const here = bundles.filter(({ at, size }) => at.along < to && at.along + size.along > from);
  return here.filter((bundle) => {
    const over = here.filter(({ run, at }) => run === bundle.run && at.up >= topOf(bundle) - 2);
    const covered = over.reduce((sum, other) => sum + overlap(bundle, other), 0);
    return covered <= bundle.size.across / 2;
  });
}

export function topOf({ at, size }: PlanBundle): number {
  return at.up + size.up;
}

/** How far the lowest of them stands under the highest: so much is packed up to what lies straight over them. */
export function packingUnder(tops: readonly PlanBundle[]): number {
  const heights = tops.map(topOf);
  return heights.length === 0 ? 0 : Math.max(...heights) - Math.min(...heights);
}

function overlap(p: PlanBundle, q: PlanBundle): number {
  const to = Math.min(p.at.across + p.size.across, q.at.across + q.size.across);
  return Math.max(0, to - Math.max(p.at.across, q.at.across));
}
