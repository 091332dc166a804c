/** Stacks where the space changes with the height: tier upon tier, each within what is clear and carried there. */
import { bestCount } from './counts.ts';
import type { Interval } from './envelope.ts';
import { ceilHalf, floorHalf } from './half.ts';
import { type LadderKind, rungsOf } from './rungs.ts';
import type { RunSpace } from './runSpace.ts';
import type { StackPrices, Tier } from './stack.ts';
import {
  capFill,
  carrying,
  fillWidth,
  fillWith,
  isCarried,
  type Lying,
  layFill,
  narrow,
  type TierKind,
  width,
} from './tier.ts';

/** A bundle may reach so far, as a share of its width, past what carries it: 60 % and a little lie on it. */
const PAST = 0.39;

/** Ways kept to each height, and ways carried on in all. */
const KEPT = 2;
const TRIED = 60;
/** A way is carried on only where it may come to this many times the best. */
const NEAR = 1.001;

/** Tiers up to a height. */
interface Way {
  up: number;
  worth: number;
  tiers: Tier[];
  support: Interval[] | null;
  /** Bars that the pile could still yield, by steel, and kilograms that may still weigh on the run. */
  left: number[];
  bears: number;
}

/**
 * The tiers worth most that carry each other, with no more bars than the pile could yield, nor more weight than what they
 * rest on bears: tier upon tier from the ground, the most hopeful way first by what a rising says could still be added
 * (heuristic: few ways are kept to each height, and so many carried on).
 */
export function climb(run: RunSpace, prices: StackPrices): Tier[] {
  const { riser } = run;
  const [map, ladder] = [run.map(), run.ladder()];
  const rungs = rungsOf(ladder, prices, riser);
  if (riser.worth(map, rungs) <= 0) return [];
  const toGo = riser.toGo(map, rungs);
  const kinds = rungs.map(({ kind }) => ladder[kind]!);
  const ground = { up: run.space.bottom, worth: 0, tiers: [], support: null, left: run.yields, bears: run.rest.most };
  const hope = (way: Way) => way.worth + (toGo[Math.round(way.up * 2)] ?? 0);
  let best = follow(
    run,
    prices,
    ground,
    riser.path(rungs).map(({ rung }) => kinds[rung]!),
  );
  const open: Way[] = [ground];
  const reached = new Map<number, number[]>();
  for (let tried = 0; tried < TRIED && open.length > 0; tried++) {
    let next = 0;
    for (let i = 1; i < open.length; i++) if (hope(open[i]!) > hope(open[next]!)) next = i;
    const way = open.splice(next, 1)[0]!;
    if (hope(way) <= NEAR * best.worth) break;
    const low = Math.round(way.up * 2);
    for (const [i, kind] of kinds.entries()) {
      const rung = rungs[i]!;
      const hoped = rung.worth(map.stepAt(rung.kind, low)) + toGo[low + rung.up]!;
      if (way.worth + hoped <= best.worth) continue;
      const higher = addTier(run, prices, way, kind);
      if (!higher) continue;
      if (higher.worth > best.worth) best = higher;
      if (hope(higher) <= NEAR * best.worth) continue;
      const height = Math.round(higher.up * 2);
      const others = reached.get(height) ?? [];
      if (others.filter((worth) => worth >= higher.worth).length >= KEPT) continue;
      others.push(higher.worth);
      reached.set(height, others);
      open.push(higher);
    }
  }
  return best.tiers;
}

/** The way that the rising itself would go, without what does not stand. */
function follow(run: RunSpace, prices: StackPrices, ground: Way, kinds: LadderKind[]): Way {
  return kinds.reduce((way, kind) => addTier(run, prices, way, kind) ?? way, ground);
}

/** The way with one tier more, or null where none of the kind stands there. */
function addTier(run: RunSpace, prices: StackPrices, way: Way, own: LadderKind): Way | null {
  const { up, support, left, bears } = way;
  const { kind } = own;
  if (up + kind.up > run.space.top + 1e-9) return null;
  const { steel } = kind;
  let tier = tierOn(run, prices, own, up, support, left[steel]!);
  if (tier && massOf(run, tier) > bears) {
    const most = Math.floor((bears - tier.lying.length * run.wrapping) / run.masses[steel]!);
    tier = tierOn(run, prices, own, up, support, Math.min(most, left[steel]!));
  }
  if (!tier || massOf(run, tier) > bears) return null;
  const bars = barsOf(tier.lying);
  return {
    up: up + kind.up,
    worth: way.worth + bars * prices.perBar[steel]! - tier.lying.length * prices.perBundle,
    tiers: [...way.tiers, tier],
    support: tier.lying.map((bundle) => carrying(kind, bundle, run.wrap)),
    left: left.map((count, i) => (i === steel ? count - bars : count)),
    bears: bears - massOf(run, tier),
  };
}

/**
 * The best tier of one kind at a height: over the whole clear width, or kept within what carries it, or no further past it
 * than a bundle may reach; the widest bundle first or last.
 */
function tierOn(
  run: RunSpace,
  prices: StackPrices,
  own: LadderKind,
  up: number,
  support: Interval[] | null,
  most: number,
): Tier | null {
  const kind = narrow(own.kind, run.widest(own.kind, up));
  if (kind.ties.length === 0) return null;
  const perBar = prices.perBar[kind.steel]!;
  const tierOf = (lying: Lying[]) => (lying.length > 0 ? { kind, up, lying } : null);
  const worth = (lying: Lying[]) => barsOf(lying) * perBar - lying.length * prices.perBundle;
  const free = run.space.clear(up, up + kind.up);
  if (!support) {
    const lying = layIn(run, prices, own, kind, free, most, false);
    return worth(lying) > 0 ? { kind, up, lying } : null;
  }
  let best: Lying[] = [];
  for (const past of [
    Number.POSITIVE_INFINITY,
    PAST * kind.widths[kind.widths.length - 1]!,
    PAST * kind.widths[0]!,
    0,
  ]) {
    for (const way of [false, true]) {
      const lying = layIn(run, prices, own, kind, within(free, support, past), most, way);
      // What is laid nearer holds no more.
      if (worth(lying) <= worth(best) + 1e-9) return tierOf(best);
      const carried = lying.filter((bundle) => isCarried(bundle, support));
      if (worth(carried) > worth(best) + 1e-9) best = carried;
    }
  }
  return tierOf(best);
}

/** The bundles worth most in intervals, no more than `most` bars in all, the widest first or last; `kind`: of `own` what passes. */
function layIn(
  run: RunSpace,
  prices: StackPrices,
  own: LadderKind,
  kind: TierKind,
  intervals: Interval[],
  most: number,
  widestLast: boolean,
): Lying[] {
  const lying: Lying[] = [];
  let left = most;
  for (const interval of intervals) {
    const across = width(interval);
    const bars =
      kind === own.kind ? own.steps.barsIn(across * 2) : fillWidth(kind, across, run.gap).map(({ bars }) => bars);
    const bundles = bestCount(bars, prices.perBar[kind.steel]!, prices.perBundle);
    const chosen = bundles > 0 ? fillWith(kind, bundles, across, run.gap) : null;
    const fill = chosen && capFill(kind, chosen, left);
    if (!fill) continue;
    left -= fill.bars;
    const ties = widestLast ? [...fill.ties].reverse() : fill.ties;
    lying.push(...layFill(kind, { ...fill, ties }, interval, run.gap));
  }
  return lying;
}

function massOf({ masses, wrapping }: RunSpace, tier: Tier): number {
  return barsOf(tier.lying) * masses[tier.kind.steel]! + tier.lying.length * wrapping;
}

function barsOf(lying: Lying[]): number {
  return lying.reduce((sum, bundle) => sum + bundle.tie.bars, 0);
}

/** The intervals as far as `past` beyond the outermost edges that carry. */
function within(free: Interval[], support: Interval[], past: number): Interval[] {
  const low = Math.min(...support.map((interval) => interval.from)) - past;
  const high = Math.max(...support.map((interval) => interval.to)) + past;
  return free
    .map((interval) => ({ from: ceilHalf(Math.max(interval.from, low)), to: floorHalf(Math.min(interval.to, high)) }))
    .filter((interval) => interval.to > interval.from);
}
