/**
 * A first filling without prices, in the time that a person does not notice: void by void, the best rank first, each filled
 * with what the pile still has. It is there to be shown and bettered.
 */
import { pileMass } from '../job/lot.ts';
import type { LinearEngine } from '../linear/model.ts';
import type { Berth, Layout } from '../stow/layout.ts';
import { BarsLeft } from './barsLeft.ts';
import { bundleMasses, type Filling, keepEveryCap, type Removal, removals, withinCaps } from './caps.ts';
import { WORTH_KEEPING } from './effort.ts';
import { dividingLengths, fewThatFill, lengthRange } from './lengths.ts';
import { addLoad, type Load, noLoad } from './load.ts';
import { loadRowsOf } from './loadRows.ts';
import { type Use, useOf } from './master.ts';
import { loadOfFilling, missOf, missOfLoad } from './misses.ts';
import { barMass, type Problem, type Space } from './problem.ts';
import { takeShort } from './short.ts';
import type { Dived } from './tiers.ts';

/** A void is divided into so many runs of one length at most. */
const MOST_RUNS = 12;

/** A length that several voids may share is tried in each: so many of them. */
const MOST_SHARED = 12;

/** Where only so many lengths are allowed, this many times as many are tried in each void. */
const MOST_TRIED = 3;

/** Steel that falls short by less than this share of a void is left out of it, and nothing else sought. */
const LITTLE = 0.1;

/** Of the mass of the pile, about what becomes pieces. */
const YIELD = 0.95;

/**
 * Fills every void, with no more than `mostStops` different lengths; null where nothing is placed. What it is worth is not
 * reckoned: 0. Cost: voids × steels × lengths priced.
 */
export function fillPlainly(
  problem: Problem,
  berths: Berth[][],
  engine: LinearEngine,
  mostStops: number,
): Dived | null {
  const full = fillOneByOne(problem, berths, mostStops, null);
  const fill = missOf(problem, full.fillings) === 0 ? full : leantFill(problem, berths, engine, mostStops, full);
  // What a stack weighed is a guess for the next of its length: the search begins with none.
  for (const berth of berths.flat()) berth.forgetMasses();
  return fill.fillings.some((filling) => filling !== null) ? fill : null;
}

/** What keeps the aims as well as may be, where that leaves half of it. */
function leantFill(problem: Problem, berths: Berth[][], engine: LinearEngine, mostStops: number, full: Dived): Dived {
  const leant = [full, fillOneByOne(problem, berths, mostStops, mostByAims(problem, berths, engine))]
    .map((fill) => ({ ...fill, fillings: leanToAims(problem, fill.fillings) }))
    .reduce((best, fill) => (keptWorth(problem, fill) > keptWorth(problem, best) ? fill : best));
  return worthOfFill(problem, leant) >= WORTH_KEEPING * worthOfFill(problem, full) ? leant : full;
}

function worthOfFill(problem: Problem, { fillings }: Dived): number {
  return sumOf(problem.spaces.map((space) => worthOfLayout(problem, space, fillings[space.index]!)));
}

/** What aims that are missed cost taken off. */
function keptWorth(problem: Problem, fill: Dived): number {
  return worthOfFill(problem, fill) - missOf(problem, fill.fillings);
}

/** `most`: kg in each void at most. */
function fillOneByOne(problem: Problem, berths: Berth[][], mostStops: number, most: number[] | null): Dived {
  const fillings: Filling[] = problem.spaces.map(() => null);
  const ballast = problem.job.aims.ballast ?? Number.POSITIVE_INFINITY;
  const stops = new Set(Number.isFinite(mostStops) ? lengthsThatFill(problem, berths, mostStops) : []);
  let pile = new BarsLeft(problem);
  let mass = 0;
  for (const space of [...problem.spaces].sort((p, q) => q.weight - p.weight || p.index - q.index)) {
    if (mass >= ballast) break;
    const within = { stops, mostStops, most: most?.[space.index] ?? Number.POSITIVE_INFINITY };
    const filled = fillSpace(problem, space, berths[space.index]!, pile, within);
    if (!filled) continue;
    fillings[space.index] = filled.layout;
    pile = filled.pile;
    mass += sumOf(bundleMasses(problem, [filled.layout]));
    for (const { stack } of filled.layout.runs) stops.add(stack.length);
  }
  keepEveryCap(problem, fillings, byRank);
  return { fillings, worth: 0, patterns: pile.patterns() };
}

const byRank = (space: Space): number => space.weight;
const sumOf = (list: number[]): number => list.reduce((sum, x) => sum + x, 0);

/** Whole lengths that divide a void into runs alike, rising. */
function lengthsFor(problem: Problem, space: Space): number[] {
  const range = lengthRange(problem);
  if (!range) return [];
  const lengths = dividingLengths(problem, space, range.least, MOST_RUNS).map((length) => Math.min(range.most, length));
  return [...new Set(lengths)].sort((a, b) => a - b);
}

/**
 * So many lengths that every void is filled as well as may be by one of them: that which adds most first. A few times as
 * many are looked at, those that leave least of the voids' lengths empty.
 */
function lengthsThatFill(problem: Problem, berths: Berth[][], most: number): number[] {
  const { spaces } = problem;
  const all = [...new Set(spaces.flatMap((space) => lengthsFor(problem, space)))].sort((a, b) => a - b);
  const lengths = all.length <= MOST_TRIED * most ? all : fewThatFill(problem, all, MOST_TRIED * most);
  const worth = lengths.map((length) =>
    spaces.map((space) => layoutOf(problem, space, berths[space.index]!, [length], new Set())?.value ?? 0),
  );
  const best = spaces.map(() => 0);
  const chosen: number[] = [];
  while (chosen.length < most) {
    const gains = worth.map((own) => sumOf(own.map((value, space) => Math.max(0, value - best[space]!))));
    const next = gains.indexOf(Math.max(...gains));
    if (next < 0 || gains[next]! <= 0) break;
    chosen.push(lengths[next]!);
    for (const { index } of spaces) best[index] = Math.max(best[index]!, worth[next]![index]!);
  }
  return chosen;
}

/**
 * How much of each void may be filled, kg, that the aims are kept: shares of full voids, by a program of one column for
 * each.
 */
function mostByAims(problem: Problem, berths: Berth[][], engine: LinearEngine): number[] {
  const { job, spaces } = problem;
  const rows = loadRowsOf(problem).filter(({ space }) => space === null);
  const full = spaces.map((space) => {
    const found = layoutOf(problem, space, berths[space.index]!, lengthsFor(problem, space), new Set());
    return { worth: found?.value ?? 0, load: loadOfFilling(problem, found?.layout ?? null) };
  });
  const model = engine.create({ sense: 'maximise' });
  try {
    for (const { most } of rows) model.addRow(Number.NEGATIVE_INFINITY, most);
    const pile = model.addRow(Number.NEGATIVE_INFINITY, YIELD * pileMass(job));
    for (const { worth, load } of full)
      model.addColumn({
        cost: worth,
        upper: 1,
        rows: [...rows.keys(), pile],
        values: [...rows.map((row) => row.of(load)), load.steel],
      });
    rows.forEach(({ aim }, row) => {
      if (aim) model.addColumn({ cost: -problem.missPrices[aim], rows: [row], values: [-1] });
    });
    const { feasible } = model.solve();
    const shares = model.values();
    return full.map(({ load }, i) => (feasible ? shares[i]! * load.mass : Number.POSITIVE_INFINITY));
  } finally {
    model.dispose();
  }
}

/** The layout that is worth most of what the pile still yields, and the pile without it; null where there is none. */
function fillSpace(
  problem: Problem,
  space: Space,
  berths: Berth[],
  pile: BarsLeft,
  within: { stops: Set<number>; mostStops: number; most: number },
): { layout: Layout; pile: BarsLeft } | null {
  const own = lengthsFor(problem, space);
  const lacking = new Set<number>();
  let best: { layout: Layout; pile: BarsLeft } | null = null;
  let most = 0;
  for (let tries = 0; tries <= problem.steels.length; tries++) {
    const whole = withinStops(
      own,
      within.stops,
      within.mostStops,
      (lengths) => layoutOf(problem, space, berths, lengths, lacking)?.layout ?? null,
    );
    const layout = whole && withinCaps(problem, space, whole, byRank, [{ most: within.most, byBundle: false }]);
    if (!layout) break;
    const left = pile.copy();
    const short = left.take(useOf(layout));
    const cut = short.length === 0 ? { layout, pile: left } : withoutShort(problem, space, layout, short, pile);
    const worth = cut ? worthOfLayout(problem, space, cut.layout) : 0;
    if (cut && worth > most) {
      most = worth;
      best = cut;
    }
    if (worth >= (1 - LITTLE) * worthOfLayout(problem, space, layout)) break;
    for (const { steel } of short) lacking.add(steel);
  }
  return best;
}

function withoutShort(problem: Problem, space: Space, layout: Layout, short: Use[], pile: BarsLeft) {
  const fillings = problem.spaces.map((other) => (other === space ? layout : null));
  takeShort(problem, fillings, short);
  const rest = fillings[space.index];
  if (!rest) return null;
  const left = pile.copy();
  return left.take(useOf(rest)).length === 0 ? { layout: rest, pile: left } : null;
}

/** The layout over all the lengths, or where that has too many stops over those that carry most. */
function withinStops(
  own: number[],
  stops: Set<number>,
  most: number,
  layoutOver: (lengths: number[]) => Layout | null,
): Layout | null {
  const more = most - stops.size;
  const used = [...stops].slice(0, MOST_SHARED);
  const sorted = (lengths: number[]) => [...new Set(lengths)].sort((a, b) => a - b);
  if (more <= 0) return layoutOver(sorted(used));
  const layout = layoutOver(sorted([...used, ...own]));
  const bars = new Map<number, number>();
  for (const { length, bars: count } of layout ? useOf(layout) : [])
    if (!stops.has(length)) bars.set(length, (bars.get(length) ?? 0) + count * length);
  if (bars.size <= more) return layout;
  const kept = [...bars].sort((a, b) => b[1] - a[1] || a[0] - b[0]).slice(0, more);
  return layoutOver(sorted([...used, ...kept.map(([length]) => length)]));
}

/** The layout worth most of all steels but those that the pile lacks, under the caps of its void, and its worth. */
function layoutOf(
  problem: Problem,
  space: Space,
  berths: Berth[],
  lengths: number[],
  lacking: Set<number>,
): { layout: Layout; value: number } | null {
  const { steels, labour } = problem;
  const worth = (index: number, length: number) =>
    lacking.has(index) ? -1 : barMass(steels[index]!, length) * space.weight - labour.cut;
  const perBar = lengths.map((length) => Float64Array.from(steels, ({ index }) => worth(index, length)));
  const prices = { lengths, perBar, perBundle: labour.bundle, extraPerKg: null };
  let best: { layout: Layout; value: number } | null = null;
  for (const berth of berths) {
    const found = berth.best(prices);
    if (found && found.value > (best?.value ?? 0)) best = found;
  }
  const layout = best && withinCaps(problem, space, best.layout, byRank);
  return layout && { layout, value: worthOfLayout(problem, space, layout) };
}

function worthOfLayout(problem: Problem, space: Space, layout: Filling): number {
  if (!layout) return 0;
  const { steels, labour } = problem;
  const bars = useOf(layout).map(
    ({ steel, length, bars }) => bars * (barMass(steels[steel]!, length) * space.weight - labour.cut),
  );
  return sumOf(bars) - labour.bundle * sumOf(layout.runs.map(({ stack }) => stack.bundles));
}

/** The fillings with bundles taken out while that brings the aims nearer by more than it loses. */
function leanToAims(problem: Problem, whole: Filling[]): Filling[] {
  const fillings = [...whole];
  const loads = fillings.map((filling) => loadOfFilling(problem, filling));
  for (let miss = missOf(problem, fillings); miss > 0; ) {
    let best: { removal: Removal; left: Filling; gain: number; miss: number } | null = null;
    for (const space of problem.spaces) {
      const others = noLoad();
      for (const own of loads.filter((_, index) => index !== space.index)) addLoad(others, own);
      for (const removal of removals(problem, fillings[space.index]!, space, byRank)) {
        const left = removal.left();
        if (left === undefined) continue;
        const sum: Load = { ...others };
        addLoad(sum, loadOfFilling(problem, left));
        const then = missOfLoad(problem, sum);
        const gain = miss - then - removal.loss;
        if (gain > (best?.gain ?? 1e-6)) best = { removal, left, gain, miss: then };
      }
    }
    if (!best) return fillings;
    const { index } = best.removal.space;
    fillings[index] = best.left;
    loads[index] = loadOfFilling(problem, best.left);
    miss = best.miss;
  }
  return fillings;
}
