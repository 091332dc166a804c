/** Stacks where the space changes with the height: tier upon tier, each within what is clear and carried there. */
import type { Interval } from './envelope.ts';
import type { RunSpace, StackPrices, Tier } from './stack.ts';
import { bestFill, carrying, fillWidth, isCarried, type Lying, layFill, narrow, type TierKind, width } from './tier.ts';

interface Label {
  up: number;
  value: number;
  tier: Tier | null;
  below: Label | null;
  support: Interval[] | null;
}

/**
 * Tiers where the space changes with the height: labels by height reached, each carrying the best value and the support
 * it offers (heuristic: one label a height, worthless ones dropped).
 */
export function climb(run: RunSpace, prices: StackPrices): Tier[] {
  const ground: Label = { up: run.space.bottom, value: 0, tier: null, below: null, support: null };
  const labels = new Map<number, Label>([[Math.round(ground.up * 2), ground]]);
  const open = [Math.round(ground.up * 2)];
  let best = ground;
  let record = -1;
  while (open.length > 0) {
    let next = 0;
    for (let i = 1; i < open.length; i++) if (open[i]! < open[next]!) next = i;
    const label = labels.get(open.splice(next, 1)[0]!)!;
    if (label.value <= record) continue;
    record = label.value;
    if (label.value > best.value) best = label;
    for (const kind of run.kinds) {
      if (prices.perBar[kind.steel]! <= 0) continue;
      const high = label.up + kind.up;
      if (high > run.space.top + 1e-9) continue;
      const tier = tierOn(run, prices, kind, label);
      if (!tier) continue;
      const value = label.value + tier.value;
      const key = Math.round(high * 2);
      const there = labels.get(key);
      if (there && there.value >= value) continue;
      if (!there) open.push(key);
      const support = tier.tier.lying.map((bundle) => carrying(kind, bundle, run.wrap));
      labels.set(key, { up: high, value, tier: tier.tier, below: label, support });
    }
  }
  const tiers: Tier[] = [];
  for (let label: Label | null = best; label?.tier; label = label.below) tiers.unshift(label.tier);
  return tiers;
}

/** The best tier of one kind on a label: over the whole clear width, or kept within what carries it. */
function tierOn(
  run: RunSpace,
  prices: StackPrices,
  whole: TierKind,
  label: Label,
): { tier: Tier; value: number } | null {
  const kind = narrow(whole, run.widest(whole, label.up));
  if (kind.ties.length === 0) return null;
  const free = run.space.clear(label.up, label.up + kind.up);
  const { support } = label;
  const tries = support ? [free, within(free, support)] : [free];
  let best: { tier: Tier; value: number } | null = null;
  for (const intervals of tries) {
    const lying: Lying[] = [];
    for (const interval of intervals) {
      const chosen = bestFill(fillWidth(kind, width(interval), run.gap), prices.perBar[kind.steel]!, prices.perBundle);
      if (chosen) lying.push(...layFill(kind, chosen.fill, interval, run.gap));
    }
    const carried = support ? lying.filter((bundle) => isCarried(bundle, support)) : lying;
    const bars = carried.reduce((sum, bundle) => sum + bundle.tie.bars, 0);
    const value = bars * prices.perBar[kind.steel]! - carried.length * prices.perBundle;
    if (carried.length > 0 && value > (best?.value ?? 0))
      best = { tier: { kind, up: label.up, lying: carried }, value };
  }
  return best;
}

function within(free: Interval[], support: Interval[]): Interval[] {
  const low = Math.min(...support.map((interval) => interval.from));
  const high = Math.max(...support.map((interval) => interval.to));
  return free
    .map((interval) => ({ from: Math.max(interval.from, low), to: Math.min(interval.to, high) }))
    .filter((interval) => interval.to > interval.from);
}
