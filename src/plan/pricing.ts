/**
 * Pricing: the patterns and layouts worth most at given prices, and with them the Lagrangian value at those prices.
 *
 * The prices relax the balances and the load rows; supply and convexity stay in the subproblems. Hence
 *   Σ bars × best pattern + Σ best layout + Σ load price × its most
 * is an upper bound over every plan whose lengths were priced, for any prices.
 */

import { type LaidVoid, vesselPoint } from '../stow/laid.ts';
import { Berth, type Layout, type LayoutPrices } from '../stow/layout.ts';
import { stackValue } from '../stow/stack.ts';
import { bestPattern, FillTable, type TableUse } from './barPattern.ts';
import { type Load, noLoad } from './load.ts';
import type { LoadRow } from './loadRows.ts';
import { type Prices, worthAt } from './prices.ts';
import { type BarKind, barMass, type Problem, type Space } from './problem.ts';

/** A priced pattern: pieces by span, and its worth before supply is paid. */
export interface PricedPattern {
  kind: BarKind;
  spans: number[][];
  worth: number;
}

/** A priced layout and its worth before convexity is paid. */
export interface PricedLayout {
  space: Space;
  layout: Layout;
  worth: number;
}

/** Worth of one kilogram by the load rows at a place in the vessel, m; ≤ 0 where a cap presses. */
export function perKgAt(
  rows: LoadRow[],
  loads: ArrayLike<number>,
  space: Space,
  at: { x: number; y: number; z: number },
  lcf: number,
): number {
  let worth = 0;
  for (let i = 0; i < rows.length; i++) {
    const row = rows[i]!;
    if (loads[i] === 0 || (row.space !== null && row.space !== space.index)) continue;
    const unit: Load = { ...noLoad(), mass: 1, x: at.x, y: at.y, z: at.z, xx: (at.x - lcf) * (at.x - lcf) };
    worth -= loads[i]! * row.of(unit);
  }
  return worth;
}

/** At prices that are still on the move, patterns are sought that are worth this share less than their bar, too. */
const SOUGHT = 0.1;

/** What a pattern of each bar kind is worth at least that is sought at prices still on the move. */
export function leastSought({ bars }: Prices): Float64Array {
  return bars.map((worth) => worth * (1 - SOUGHT));
}

export interface PatternOptions {
  /** For a bound: never less than a pattern can be worth. `patterns` when absent. */
  use?: TableUse;
  /** Of the lengths of each steel, where not by the prices. */
  worths?: ArrayLike<number>[] | null;
  /** Indices of the kinds of bar wanted; all when absent. */
  kinds?: number[] | null;
  /** By bar kind: only patterns worth more are sought; a kind may have none then, or one that is worth less. */
  least?: ArrayLike<number>;
}

/** The pattern worth most of every bar kind. Cost: one table for each steel. */
export function pricePatterns(
  problem: Problem,
  prices: Prices,
  lengths: number[][],
  { use = 'patterns', worths, kinds: some, least }: PatternOptions = {},
): PricedPattern[] {
  const { job, labour } = problem;
  const { kerf } = job.saw;
  const priced: PricedPattern[] = [];
  for (const steel of problem.steels) {
    const kinds = problem.barKinds.filter((kind) => kind.steel === steel.index && (!some || some.includes(kind.index)));
    if (kinds.length === 0) continue;
    const longest = Math.max(0, ...kinds.flatMap((kind) => kind.spans.map((span) => span.to - span.from)));
    const own = lengths[steel.index]!;
    const worth = worths?.[steel.index] ?? own.map((length) => worthAt(prices.pieces[steel.index]!, length));
    const sought = least ? kinds.map(({ index, spans }) => ({ spans, least: least[index]! })) : null;
    const table = new FillTable(
      longest,
      kerf,
      steel.heaviest,
      { lengths: own, worth },
      labour,
      use,
      sought,
      problem.table,
    );
    for (const kind of kinds) {
      const best = bestPattern(table, kind, job, labour);
      if (best) priced.push({ kind, ...best });
    }
  }
  return priced;
}

/** What no patterns of all bars are worth more than: of each kind what is told of it, or where that is less what was sought at least. */
export function worthOfBars({ barKinds }: Problem, patterns: PricedPattern[], least: Float64Array): number {
  const most = Float64Array.from(least);
  for (const { kind, worth } of patterns) most[kind.index] = Math.max(most[kind.index]!, worth);
  return barKinds.reduce((sum, { index, count }) => sum + count * most[index]!, 0);
}

/** The berths of every space: one for each way its bars may lie. */
export function berthsOf(problem: Problem): Berth[][] {
  const { job, steels, spaces } = problem;
  return spaces.map((space) => space.laid.map((laid) => new Berth(laid, steels, job.bundle, job.saw)));
}

/** Prices for one laid void over a list of lengths. */
export function layoutPrices(
  problem: Problem,
  rows: LoadRow[],
  prices: Prices,
  space: Space,
  laid: LaidVoid,
  lengths: number[],
): LayoutPrices {
  const { steels, labour, job } = problem;
  const lcf = job.vessel?.lcf ?? 0;
  const at = (along: number) => perKgAt(rows, prices.loads, space, vesselPoint(laid, along, 0, laid.height / 2), lcf);
  const reference = at(laid.length / 2);
  const moments = rows.some((row, i) => (row.name === 'centre' || row.name === 'spread') && prices.loads[i]! > 1e-9);
  const perBar = lengths.map((length) =>
    Float64Array.from(steels, (steel) => {
      const mass = barMass(steel, length);
      return mass * (space.weight + reference) - worthAt(prices.pieces[steel.index]!, length);
    }),
  );
  return {
    lengths,
    perBar,
    perBundle: labour.bundle - job.bundle.wrapping * reference,
    extraPerKg: moments ? quadratic(laid.length, (along) => at(along) - reference) : null,
    poll: problem.poll,
  };
}

/** The quadratic through three values of `of` along a length: centre rows are linear in the place, the spread row quadratic. */
function quadratic(length: number, of: (along: number) => number): (along: number) => number {
  const start = of(0);
  const middle = of(length / 2);
  const end = of(length);
  const bend = 2 * (start - 2 * middle + end);
  const slope = end - start - bend;
  return (along) => {
    const share = along / length;
    return start + share * (slope + share * bend);
  };
}

/** The layout worth most of one space. */
export function priceLayout(
  problem: Problem,
  rows: LoadRow[],
  prices: Prices,
  space: Space,
  berths: Berth[],
  lengths: number[],
): PricedLayout | null {
  let best: PricedLayout | null = null;
  for (const berth of berths) {
    const found = berth.best(layoutPrices(problem, rows, prices, space, berth.laid, lengths));
    if (found && found.value > (best?.worth ?? 0)) best = { space, layout: found.layout, worth: found.value };
  }
  return best;
}

/** The runs of a void, settled in place and length; empty for a void that takes nothing. */
export interface Skeleton {
  space: Space;
  berth: Berth;
  runs: { from: number; length: number }[];
}

/** The best stacks of a settled void, and what they are worth. */
export function fillSkeleton(
  problem: Problem,
  rows: LoadRow[],
  prices: Prices,
  skeleton: Skeleton,
): PricedLayout | null {
  const { space, berth, runs } = skeleton;
  const lengths = [...new Set(runs.map((run) => run.length))].sort((a, b) => a - b);
  const priced = layoutPrices(problem, rows, prices, space, berth.laid, lengths);
  const layout = berth.fill(runs, priced);
  if (!layout) return null;
  let worth = 0;
  for (const { from, stack } of layout.runs) {
    const index = lengths.indexOf(stack.length);
    worth += stackValue(stack, { perBar: priced.perBar[index]!, perBundle: priced.perBundle });
    if (priced.extraPerKg)
      worth += berth.massOf(stack) * priced.extraPerKg(from + berth.space(from, stack.length).along / 2);
  }
  return { space, layout, worth };
}

/** What the load rows give at these prices: Σ price × most. */
export function loadAllowance(rows: LoadRow[], prices: Prices): number {
  return rows.reduce((sum, row, i) => sum + row.most * prices.loads[i]!, 0);
}
