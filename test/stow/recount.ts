/**
 * What is wrong with a stack or a layout by the words of the plan format, reckoned here from its bundles alone; and what
 * it is worth, counted bundle by bundle. Shares nothing with the stowage but the clear space of a stretch.
 */
import type { BundleRules, Saw } from '../../src/job/job.ts';
import { outerSize, rolls } from '../../src/job/section.ts';
import { type Envelope, envelope } from '../../src/stow/envelope.ts';
import type { LaidVoid } from '../../src/stow/laid.ts';
import type { Layout, LayoutPrices } from '../../src/stow/layout.ts';
import type { Stack, Tier } from '../../src/stow/stack.ts';
import type { Steel } from '../../src/stow/steel.ts';

export interface Setting {
  laid: LaidVoid;
  steels: Steel[];
  rules: BundleRules;
  saw: Saw;
}

const halfUp = (size: number): number => Math.ceil(size * 2 - 1e-9) / 2;

/** Faults of a stack whose bundles begin `from` mm along, in sentences. */
export function stackFaults({ laid, steels, rules, saw }: Setting, from: number, stack: Stack): string[] {
  const faults: string[] = [];
  const along = halfUp(stack.length + saw.tolerance + 2 * rules.endCover);
  const space = envelope(laid, from, from + along);
  let floor = space.bottom;
  stack.tiers.forEach((tier, n) => {
    if (Math.abs(tier.up - floor) > 1e-6) faults.push(`tier ${n + 1} stands at ${tier.up}, not at ${floor}`);
    if (tier.lying.length === 0) faults.push(`tier ${n + 1} is empty`);
    faults.push(...bundleFaults(tier, stack.length, steels, rules, laid));
    faults.push(...placeFaults(tier, laid.gap.across, space));
    if (n > 0) faults.push(...carriedFaults(tier, stack.tiers[n - 1]!, rules.wrap));
    if (laid.opening) faults.push(...openingFaults(tier, along, laid));
    floor = tier.up + tier.kind.up;
  });
  if (floor > space.top + 1e-6) faults.push(`it reaches to ${floor}, the top is ${space.top}`);
  return faults;
}

function bundleFaults(
  { kind, lying }: Tier,
  length: number,
  steels: Steel[],
  rules: BundleRules,
  laid: LaidVoid,
): string[] {
  const faults: string[] = [];
  const steel = steels[kind.steel]!;
  const bar = outerSize(kind.section, kind.onEdge);
  const sag = steel.bow * (length / 1000) ** 2;
  const nested = rolls(kind.section) && kind.rows > 1;
  const high = nested ? bar.up + ((kind.rows - 1) * bar.up * Math.sqrt(3)) / 2 : kind.rows * bar.up;
  if (Math.abs(kind.up - halfUp(high + 2 * rules.wrap + sag)) > 1e-6)
    faults.push(`height ${kind.up} of ${kind.rows} rows`);
  for (const { tie, across } of lying) {
    const { columns } = tie;
    if (columns.length !== kind.rows) faults.push(`${columns} are not ${kind.rows} rows`);
    const shifted = nested && columns.some((count, i) => i > 0 && count === columns[i - 1]) ? 0.5 : 0;
    const wide = (Math.max(...columns) + shifted) * bar.across + 2 * rules.wrap + sag;
    if (Math.abs(across - halfUp(wide)) > 1e-6) faults.push(`width ${across} of ${columns}`);
    const mass = (tie.bars * steel.heaviest * length) / 1000 + rules.wrapping;
    if (mass > (laid.limit ?? rules.limit) + 1e-6) faults.push(`a bundle weighs ${mass} kg`);
    if (tie.bars > rules.maxBars) faults.push(`a bundle has ${tie.bars} bars`);
  }
  return faults;
}

function placeFaults({ kind, up, lying }: Tier, gap: number, space: Envelope): string[] {
  const faults: string[] = [];
  const free = space.clear(up, up + kind.up);
  const sorted = [...lying].sort((p, q) => p.from - q.from);
  sorted.forEach((bundle, i) => {
    const to = bundle.from + bundle.across;
    const inside = free.some((interval) => bundle.from >= interval.from - 1e-6 && to <= interval.to + 1e-6);
    if (!inside) faults.push(`a bundle from ${bundle.from} to ${to} at ${up} is not in the clear`);
    const before = sorted[i - 1];
    if (before && bundle.from - before.from - before.across < gap - 1e-6) faults.push(`neighbours nearer than ${gap}`);
  });
  return faults;
}

function carriedFaults(tier: Tier, below: Tier, wrap: number): string[] {
  const tops = below.lying.map(({ tie, from, across }): [number, number] => {
    const widest = Math.max(...tie.columns);
    const top = tie.columns.at(-1)!;
    const nested = tie.arrangement === 'nested';
    if (top === widest || (nested && top === widest - 1)) return [from, from + across];
    const wide = top * outerSize(below.kind.section, below.kind.onEdge).across + wrap;
    return nested ? [from + (across - wide) / 2, from + (across + wide) / 2] : [from, from + wide];
  });
  const faults: string[] = [];
  for (const { from, across } of tier.lying) {
    const meets = tops
      .map(([low, high]): [number, number] => [Math.max(low, from), Math.min(high, from + across)])
      .filter(([low, high]) => high > low);
    const share = meets.reduce((sum, [low, high]) => sum + high - low, 0) / across;
    if (share < 0.6) faults.push(`a bundle is carried over ${share} of its width`);
    const middle = from + across / 2;
    const low = Math.min(...meets.map((edge) => edge[0]));
    const high = Math.max(...meets.map((edge) => edge[1]));
    if (meets.length > 0 && (middle < low - 1e-9 || middle > high + 1e-9)) faults.push('a bundle would tip');
  }
  return faults;
}

function openingFaults({ kind, up, lying }: Tier, along: number, laid: LaidVoid): string[] {
  const { along: long, across, endFirst, deck } = laid.opening!;
  const slope = along / (laid.height - up);
  const needs = slope <= 1 ? kind.up : kind.up * slope + deck * Math.sqrt(slope ** 2 - 1);
  const faults: string[] = [];
  if (along > long && !(endFirst && needs <= long + 1e-6))
    faults.push(`a bundle ${along} long does not pass the opening`);
  for (const bundle of lying) if (bundle.across > across) faults.push(`a bundle ${bundle.across} wide does not pass`);
  return faults;
}

/** Faults of a layout: of its stacks, and of the room that its runs take. */
export function layoutFaults(setting: Setting, { runs }: Layout): string[] {
  const { laid, rules, saw } = setting;
  const faults: string[] = [];
  let end = Number.NEGATIVE_INFINITY;
  for (const { from, stack } of runs) {
    if (from < laid.clear.ends - 1e-6) faults.push(`a run begins at ${from}`);
    if (from < end + laid.gap.runs - 1e-6) faults.push(`a run begins at ${from}, the one before ends at ${end}`);
    end = from + halfUp(stack.length + saw.tolerance + 2 * rules.endCover);
    faults.push(...stackFaults(setting, from, stack));
    faults.push(...restFaults(setting, from, end, stack));
  }
  if (end > laid.length - laid.clear.ends + 1e-6) faults.push(`the last run ends at ${end}`);
  return faults;
}

/** Faults of what a run rests on: bearers under it, the load on each, the load for its length. */
function restFaults({ laid, steels, rules }: Setting, from: number, to: number, stack: Stack): string[] {
  const { bearers, mostPerMetre } = laid;
  const faults: string[] = [];
  let mass = stack.bundles * rules.wrapping;
  for (const { kind, lying } of stack.tiers)
    for (const { tie } of lying) mass += (tie.bars * steels[kind.steel]!.heaviest * stack.length) / 1000;
  if (mostPerMetre !== undefined && mass > (mostPerMetre * (to - from)) / 1000) faults.push(`a run weighs ${mass} kg`);
  if (!bearers) return faults;
  const under = bearers.filter(({ along }) => along >= from && along <= to);
  if (under.length < 2) return [...faults, `a run rests on ${under.length} bearers`];
  const [first, last] = [under[0]!.along, under.at(-1)!.along];
  const middle = (from + to) / 2;
  if (middle < first || middle > last) faults.push('the middle of a run is beyond its bearers');
  if (Math.max(first - from, to - last) > (to - from) / 4 + 1e-6) faults.push('a run lies far past its bearers');
  under.forEach(({ along, most = Number.POSITIVE_INFINITY }, i) => {
    // Between this bearer and each neighbour, by the lever of the middle of the part that they share.
    const part = (other: number | undefined, end: number, next: number | undefined) => {
      if (other === undefined) return 0;
      const far = next === undefined ? end : other;
      const near = (i === 0 && other > along) || (i === under.length - 1 && other < along) ? edgeOf(other) : along;
      const share = Math.abs(far - near) / (to - from);
      return (
        mass *
        share *
        (Math.abs((far + near) / 2 - other) / Math.abs(other - along)) *
        ((far + near) / 2 > other === other > along ? -1 : 1)
      );
    };
    const edgeOf = (other: number) => (other > along ? from : to);
    const load =
      part(under[i - 1]?.along, from, under[i - 2]?.along) + part(under[i + 1]?.along, to, under[i + 2]?.along);
    const inner = i > 0 && i < under.length - 1 ? 1.25 : 1;
    if (load * inner > most + 1e-6) faults.push(`the bearer at ${along} carries ${load * inner} kg of ${most}`);
  });
  return faults;
}

/** What a layout is worth at prices, bundle by bundle, kg. */
export function countWorth({ steels, rules, saw }: Setting, { runs }: Layout, prices: LayoutPrices): number {
  let worth = 0;
  for (const { from, stack } of runs) {
    const index = prices.lengths.indexOf(stack.length);
    const middle = from + halfUp(stack.length + saw.tolerance + 2 * rules.endCover) / 2;
    const extra = prices.extraPerKg?.(middle) ?? 0;
    for (const { kind, lying } of stack.tiers) {
      const perBar = (steels[kind.steel]!.heaviest * stack.length) / 1000;
      for (const { tie } of lying) {
        worth +=
          tie.bars * (prices.perBar[index]![kind.steel]! + extra * perBar) + extra * rules.wrapping - prices.perBundle;
      }
    }
  }
  return worth;
}
