/**
 * From settled runs to settled tiers: a master of its own, whose layouts are what still goes into each run. The whole part
 * of what the shares come to is fixed, tier by tier, the rest of the height is priced again, until every run is settled.
 */
import type { LinearEngine } from '../linear/model.ts';
import type { Layout } from '../stow/layout.ts';
import { heightOf, type RunSpace } from '../stow/runSpace.ts';
import { bestStack, bestTiers, type LooseTier, orderTiers, pileTiers, stackOf, type Tier } from '../stow/stack.ts';
import { type Pattern, patternOf } from './barPattern.ts';
import { type Filling, keepCap, type Taken } from './caps.ts';
import { type LayoutColumn, Master } from './master.ts';
import type { Prices } from './prices.ts';
import { layoutPrices, pricePatterns, type Skeleton } from './pricing.ts';
import type { Problem } from './problem.ts';
import { worthBy } from './worth.ts';

/** A run to fill: what is settled of it, and the height that is left, half millimetres. */
interface Slot {
  group: number;
  skeleton: Skeleton;
  from: number;
  length: number;
  run: RunSpace;
  left: number;
  settled: LooseTier[];
}

/** Whole layouts, and about the most that they are worth once cut, the labour of stops paid for, kg. */
export interface Dived {
  fillings: Filling[];
  worth: number;
  /** The patterns that the relaxation cuts them by. */
  patterns: Pattern[];
}

export interface TiersOptions {
  engine: LinearEngine;
  /** Rounds of pricing after each step. */
  rounds: number;
  /** Layouts of the voids that stand as they are; null for the others. */
  standing?: Filling[];
  /** Patterns that are cut, one entry a bar, where they are settled first. */
  bars?: Pattern[];
  shouldStop?: () => boolean;
}

const IMPROVES = 1e-6;
/** Shares that come to less than this are not rounded up to a whole. */
const HALF = 0.5;
/** Shares that come to this are a whole. */
const WHOLE = 0.97;
/** Of the runs that are open, one in so many is settled at once. */
const AT_ONCE = 12;

/** The layouts of every void, their runs as settled; `taken` gets what was taken out of them to meet a share. */
export function settleTiers(
  problem: Problem,
  from: Iterable<Pattern>,
  skeletons: Skeleton[],
  options: TiersOptions,
  taken: Taken[],
): Dived {
  const slots: Slot[] = [];
  for (const skeleton of skeletons) {
    for (const { from: place, length } of skeleton.runs) {
      const run = skeleton.berth.space(place, length);
      slots.push({ group: slots.length, skeleton, from: place, length, run, left: heightOf(run), settled: [] });
    }
  }
  const lengths = lengthsOf(problem, slots, options.standing ?? []);
  const master = new Master(
    options.engine,
    problem,
    slots.map((slot) => slot.skeleton.space),
  );
  let patterns: Pattern[] = [];
  try {
    seed(problem, master, from, lengths, options);
    while (slots.some((slot) => slot.left > 0)) {
      const prices = priceAgain(problem, master, slots, lengths, options);
      if (!settleWholes(problem, master, slots)) settleTop(problem, master, slots, prices, taken);
    }
    priceAgain(problem, master, slots, lengths, options);
    patterns = patternsCut(master);
  } finally {
    master.dispose();
  }
  const fillings = fillingsOf(problem, skeletons, slots).map((filling, i) => options.standing?.[i] ?? filling);
  const stops = new Set(lengths.flat()).size;
  return { fillings, worth: master.value - stops * problem.labour.stop, patterns };
}

function patternsCut(master: Master): Pattern[] {
  const levels = master.levels();
  return master.columns.flatMap((column, i) =>
    column.what === 'pattern' && levels[i]! > 1e-6 ? [column.pattern] : [],
  );
}

/** The lengths in play, by steel: those of the runs to fill and of what stands. */
function lengthsOf(problem: Problem, slots: Slot[], standing: Filling[]): number[][] {
  const all = new Set(slots.map((slot) => slot.length));
  for (const filling of standing) for (const run of filling?.runs ?? []) all.add(run.stack.length);
  const lengths = [...all].sort((a, b) => a - b);
  return problem.steels.map(() => lengths);
}

/** Starts from what stands, and from the patterns of the joint master that cut nothing but the lengths of the runs. */
function seed(
  problem: Problem,
  master: Master,
  from: Iterable<Pattern>,
  lengths: number[][],
  options: TiersOptions,
): void {
  for (let steel = 0; steel < lengths.length; steel++)
    for (const length of lengths[steel]!) master.addLength(steel, length);
  for (const space of problem.spaces) {
    const layout = options.standing?.[space.index];
    if (layout) master.addLayout(null, space, layout);
  }
  if (options.bars) {
    master.fixPatterns(options.bars);
    return;
  }
  const wanted = new Set(lengths.flat());
  for (const pattern of from) {
    if (pattern.spans.every((pieces) => pieces.every((length) => wanted.has(length)))) master.addPattern(pattern);
  }
}

/** Prices patterns and the rest of every run until nothing improves, or for so many rounds; the master is left solved. */
function priceAgain(
  problem: Problem,
  master: Master,
  slots: Slot[],
  lengths: number[][],
  options: TiersOptions,
): Prices {
  master.solve();
  for (let round = 0; round < options.rounds; round++) {
    const prices = master.prices();
    let added = 0;
    for (const { kind, spans, worth } of options.bars
      ? []
      : pricePatterns(problem, prices, lengths, { least: prices.bars })) {
      if (worth - prices.bars[kind.index]! <= IMPROVES) continue;
      if (master.addPattern(patternOf(kind, spans, problem.job, problem.labour))) added++;
    }
    for (const slot of slots) {
      problem.poll();
      const tiers = slot.left > 0 ? priceSlot(problem, master, prices, slot) : [];
      if (tiers.length === 0) continue;
      const layout = partOf(problem, slot, tiers);
      if (master.layoutGain(slot.group, slot.skeleton.space, layout, prices) <= IMPROVES) continue;
      master.addLayout(slot.group, slot.skeleton.space, layout);
      added++;
    }
    if (added === 0) break;
    master.solve();
  }
  return master.prices();
}

function priceSlot(problem: Problem, master: Master, prices: Prices, slot: Slot): LooseTier[] {
  const { skeleton, length, run } = slot;
  const priced = layoutPrices(problem, master.loadRows, prices, skeleton.space, skeleton.berth.laid, [length]);
  const at = skeleton.berth.pricesAt(priced, 0, slot.from + run.along / 2);
  if (run.uniform) return bestTiers(run, at, slot.left);
  return bestStack(run, at, problem.steels.length)?.stack.tiers ?? [];
}

/** A layout of one run that holds these tiers, for reckoning. */
function partOf(problem: Problem, slot: Slot, tiers: LooseTier[]): Layout {
  const { run, skeleton, length, from } = slot;
  const placed: Tier[] = run.uniform ? pileTiers(tiers, run.space.bottom) : (tiers as Tier[]);
  return { laid: skeleton.berth.laid, runs: [{ from, stack: stackOf(length, placed, problem.steels.length) }] };
}

/** Settles the whole part of what the shares of each kind of tier come to; false where no kind comes to a whole. */
function settleWholes(problem: Problem, master: Master, slots: Slot[]): boolean {
  const levels = master.levels();
  const sums = slots.map(() => new Map<string, { tier: LooseTier; count: number }>());
  master.columns.forEach((column, i) => {
    if (column.what !== 'layout' || column.group < 0 || levels[i]! < 1e-9) return;
    if (!slots[column.group]!.run.uniform) return;
    for (const tier of column.layout.runs[0]!.stack.tiers) {
      const key = tierKey(tier);
      const sum = sums[column.group]!.get(key) ?? { tier, count: 0 };
      sum.count += levels[i]!;
      sums[column.group]!.set(key, sum);
    }
  });
  let any = false;
  for (const slot of slots) {
    const now: LooseTier[] = [];
    for (const { tier, count } of sums[slot.group]!.values()) {
      for (let n = 1; n <= count + 1e-6; n++) now.push({ kind: tier.kind, lying: tier.lying });
    }
    if (now.length === 0) continue;
    settle(problem, master, slot, now);
    any = true;
  }
  return any;
}

function tierKey({ kind, lying }: LooseTier): string {
  return `${kind.steel}:${kind.onEdge}:${kind.rows}:${lying.map((bundle) => bundle.tie.bars).join()}`;
}

/** Fixes tiers of a slot and shuts out what no longer fits above them. */
function settle(problem: Problem, master: Master, slot: Slot, tiers: LooseTier[]): void {
  master.addLayout(null, slot.skeleton.space, partOf(problem, slot, tiers));
  slot.settled.push(...tiers);
  slot.left -= tiers.reduce((sum, tier) => sum + Math.round(tier.kind.up * 2), 0);
  const fits = (column: LayoutColumn) =>
    column.layout.runs[0]!.stack.tiers.reduce((sum, tier) => sum + Math.round(tier.kind.up * 2), 0) <= slot.left;
  master.restrict(slot.group, slot.run.uniform ? fits : () => false);
  if (!slot.run.uniform) slot.left = 0;
}

interface Top {
  slot: Slot;
  column: LayoutColumn;
  share: number;
  /** What all shares come to, and their mass, kg. */
  total: number;
  mass: number;
}

/**
 * Settles the runs whose largest shares are largest, one in so many of those that are open: with that layout, taken down
 * to the mass of the shares, or with nothing more.
 */
function settleTop(problem: Problem, master: Master, slots: Slot[], prices: Prices, taken: Taken[]): void {
  const tops = topsOf(master, slots);
  for (const slot of slots) if (!tops.some((top) => top.slot === slot)) slot.left = 0;
  tops.sort((p, q) => q.share - p.share || p.slot.group - q.slot.group);
  const worth = worthBy(problem, prices);
  for (const { slot, column, total, mass } of tops.slice(0, Math.ceil(tops.length / AT_ONCE))) {
    const space = slot.skeleton.space;
    const one: Filling[] = problem.spaces.map(() => null);
    one[space.index] = column.layout;
    const cap = { most: mass + HALF * column.load.lightest, byBundle: false };
    if (total < WHOLE) keepCap(problem, one, [space], cap, worth, taken);
    const layout = one[space.index];
    if (layout) settle(problem, master, slot, layout.runs[0]!.stack.tiers);
    if (!layout || total < WHOLE) slot.left = 0;
  }
}

/** The largest share of every open run that has any. */
function topsOf(master: Master, slots: Slot[]): Top[] {
  const levels = master.levels();
  const tops = new Map<number, Top>();
  master.columns.forEach((column, i) => {
    const level = levels[i]!;
    if (column.what !== 'layout' || level < 1e-6) return;
    const slot = slots[column.group];
    if (!slot || slot.left <= 0) return;
    const top = tops.get(column.group) ?? { slot, column, share: 0, total: 0, mass: 0 };
    top.total += level;
    top.mass += level * column.load.mass;
    if (level > top.share) Object.assign(top, { column, share: level });
    tops.set(column.group, top);
  });
  return [...tops.values()].filter((top) => top.total >= 1e-4);
}

/** Whole layouts from the settled slots, their tiers put in order. */
function fillingsOf(problem: Problem, skeletons: Skeleton[], slots: Slot[]): Filling[] {
  return skeletons.map((skeleton) => {
    const runs = slots
      .filter((slot) => slot.skeleton === skeleton)
      .map((slot) => {
        const tiers = slot.run.uniform ? orderTiers(slot.run, slot.settled) : (slot.settled as Tier[]);
        return { from: slot.from, stack: stackOf(slot.length, tiers, problem.steels.length) };
      })
      .filter((run) => run.stack.bundles > 0);
    return runs.length > 0 ? { laid: skeleton.berth.laid, runs } : null;
  });
}
