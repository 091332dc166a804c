/**
 * Cutting stock, exact in its bound: every piece is cut at the least cost, or, where the stock can not yield all, the
 * most valuable part is cut and what is short is listed, with a bound on that too.
 */
import { Defect } from '../fault.ts';
import { makePattern, type Pattern, trimPlan } from './columns.ts';
import type { CutBar, CutOptions, CutPlan, CutProblem } from './problem.ts';
import { type Scaled, type ScaledStock, scaleProblem } from './scale.ts';
import { type Outcome, searchWhole } from './search.ts';
import { tidyPlan } from './tidy.ts';

/** Counted work when none is asked for: about ten seconds. */
const EFFORT = 8000;

/**
 * Cuts `problem`. Heuristic in the plan, proven in the bound. Deterministic: the same problem and effort give the same
 * plan, unless `shouldStop` ends it. Throws nothing but a Defect; a problem without stock or pieces is answered.
 */
export function cutStock(problem: CutProblem, options: CutOptions): CutPlan {
  const scaled = scaleProblem(problem);
  const effort = options.effort ?? EFFORT;
  const all = searchWhole(scaled, { ...options, effort, dear: dearPrices(scaled), shorting: false });
  if (all.short.length === 0) return assemble(problem, scaled, all, 0, 0, all.work);
  const most = searchWhole(shortageProblem(scaled), { ...options, effort, dear: scaled.weights, shorting: true });
  const rest = { ...scaled, demand: Int32Array.from(scaled.demand) };
  for (const { row, count } of most.short) rest.demand[row]! -= count;
  const start = most.patterns.map(({ stock, fills }) => makePattern(scaled, stock, fills));
  // What the stock can yield is settled; now as cheaply as possible.
  const cheap = searchWhole(rest, { ...options, effort, dear: dearPrices(scaled), shorting: false, start });
  const shortWeight = most.cost;
  const work = addWork(all.work, addWork(most.work, cheap.work));
  return assemble(problem, scaled, { ...cheap, short: most.short }, shortWeight, most.bound, work);
}

function addWork(a: Outcome['work'], b: Outcome['work']): Outcome['work'] {
  return {
    linearSolves: a.linearSolves + b.linearSolves,
    pricings: a.pricings + b.pricings,
    columns: a.columns + b.columns,
    nodes: a.nodes + b.nodes,
    units: a.units + b.units,
    pricingUnits: a.pricingUnits + b.pricingUnits,
  };
}

/** The same stock with bars for nothing: only what is short counts. */
function shortageProblem(scaled: Scaled): Scaled {
  const stocks = scaled.stocks.map((stock) => ({ ...stock, price: 0, ends: stock.ends.map(() => -1) }));
  return { ...scaled, stocks, ends: [], perPiece: 0, costStep: weightStep(scaled.weights) };
}

function weightStep(weights: Float64Array): number {
  return weights.every(Number.isInteger) ? 1 : 0;
}

/**
 * A price for leaving out a piece of each size that no good plan pays: more than a bar to itself where there is a type
 * without limit that holds it, else more than several of the dearest bars.
 */
function dearPrices(scaled: Scaled): Float64Array {
  const widest = Math.max(1, ...scaled.stocks.flatMap((stock) => stock.capacities));
  const costs = scaled.stocks.map((stock) => dearestCost(scaled, stock));
  const dearest = Math.max(1e-3, ...costs);
  return Float64Array.from(scaled.sizes, (size) => {
    const alone = scaled.stocks.map((stock, t) =>
      stock.count === Infinity && stock.capacities.some((c) => c >= size) ? costs[t]! : Infinity,
    );
    const least = Math.min(...alone);
    return least < Infinity ? 1.5 * least + 1e-3 * dearest : dearest * (2 + (50 * size) / widest);
  });
}

/** No bar of the type costs more, however it is cut. */
function dearestCost(scaled: Scaled, stock: ScaledStock): number {
  const least = scaled.sizes.at(-1) ?? 1;
  let cost = stock.price;
  stock.capacities.forEach((capacity, s) => {
    const end = scaled.ends[stock.ends[s]!];
    if (end === undefined) return;
    let worst = 0;
    for (let left = 0; left <= capacity; left++) worst = Math.max(worst, end.of(left));
    cost += worst + end.start + scaled.perPiece * Math.floor(capacity / least);
  });
  return cost;
}

function assemble(
  problem: CutProblem,
  scaled: Scaled,
  outcome: Outcome,
  shortWeight: number,
  shortAtLeast: number,
  work: Outcome['work'],
): CutPlan {
  const left = scaled.members.map((members) =>
    members.map((piece) => ({ piece, count: problem.pieces[piece]!.count })),
  );
  const short: CutPlan['short'] = scaled.misfits
    .filter((piece) => problem.pieces[piece]!.count > 0)
    .map((piece) => ({ piece, count: problem.pieces[piece]!.count }));
  const misfitWeight = short.reduce((sum, { piece, count }) => {
    const { weight, length } = problem.pieces[piece]!;
    return sum + count * (weight ?? length);
  }, 0);
  for (const { row, count } of outcome.short) short.push(...takePieces(left[row]!, count, true));
  const demand = Int32Array.from(left, (row) => row.reduce((sum, { count }) => sum + count, 0));
  const bars = mergeBars(
    tidyPlan(scaled, trimPlan(scaled, outcome.patterns, demand)).map((pattern) => toBar(pattern, left)),
  );
  if (left.some((row) => row.some(({ count }) => count > 0))) throw new Defect('a cutting plan left pieces uncut');
  const cost = outcome.patterns.reduce((sum, pattern) => sum + pattern.cost, 0);
  const bound = Math.min(cost, Math.max(0, outcome.bound));
  const allCut = shortWeight <= shortAtLeast * (1 + 1e-9);
  return {
    bars,
    cost,
    bound,
    proven: bound >= cost - 1e-6 * Math.max(1, cost) && allCut,
    short: short.sort((a, b) => a.piece - b.piece),
    shortWeight: shortWeight + misfitWeight,
    shortAtLeast: Math.min(shortWeight, shortAtLeast) + misfitWeight,
    work,
    ended: outcome.ended,
  };
}

/** Takes `count` pieces of a row, from the back of the list when asked. */
function takePieces(
  row: { piece: number; count: number }[],
  count: number,
  fromBack: boolean,
): { piece: number; count: number }[] {
  const taken: { piece: number; count: number }[] = [];
  const order = fromBack ? [...row].reverse() : row;
  for (const entry of order) {
    const now = Math.min(entry.count, count);
    if (now === 0) continue;
    entry.count -= now;
    count -= now;
    taken.push({ piece: entry.piece, count: now });
  }
  if (count > 0) throw new Defect('a cutting plan cuts more than is wanted');
  return taken;
}

function toBar({ stock, fills, cost }: Pattern, left: { piece: number; count: number }[][]): CutBar {
  const spans = fills.map(({ rows, counts }) =>
    rows.flatMap((row, k) =>
      takePieces(left[row]!, counts[k]!, false).flatMap(({ piece, count }) => new Array<number>(count).fill(piece)),
    ),
  );
  return { stock, spans, times: 1, cost };
}

/** Bars cut alike become one entry; most times first, in the order first met. */
function mergeBars(bars: CutBar[]): CutBar[] {
  const merged = new Map<string, CutBar>();
  for (const bar of bars) {
    const key = `${bar.stock}|${bar.spans.map((span) => span.join(',')).join('|')}`;
    const same = merged.get(key);
    if (same === undefined) merged.set(key, { ...bar });
    else same.times += bar.times;
  }
  return [...merged.values()];
}
