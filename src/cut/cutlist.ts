/** The fixed cut list answered: from `kentledge-cutlist/1` to `kentledge-cutplan/1`. */
import { type CutList, finenessOf } from '../job/cutlist.ts';
import { usableSpans } from '../job/lot.ts';
import { withoutDust } from '../units.ts';
import { cutStock } from './cutStock.ts';
import type { CutOptions, CutPlan, CutProblem } from './problem.ts';

const CUTPLAN_FORMAT = 'kentledge-cutplan/1';

export interface CutPlanBar {
  /** Index into the list's `stock`. */
  stock: number;
  /** Lengths of the pieces, in the order in which they stand from the bar's start. */
  pieces: number[];
  /** Their marks, null for a piece without; absent where none of the list's pieces has one. */
  marks?: (string | null)[];
  /** The pieces of each usable span, where the bar has several. Since 0.1.0. */
  spans?: number[][];
  times: number;
}

/** The answer. `bound` is a proven lower bound on `cost`; `proven` says that they are equal and that what is short had to be. */
export interface CutPlanFile {
  format: typeof CUTPLAN_FORMAT;
  bars: CutPlanBar[];
  used: number;
  cost: number;
  bound: number;
  proven: boolean;
  seconds: number;
  short: { length: number; count: number; mark?: string }[];
}

/** The list as a cutting problem: pieces by index, prices filled in, spans from squaring and spoiled stretches. */
function cutListProblem(list: CutList): CutProblem {
  const alike = list.stock.every((bar) => bar.length === list.stock[0]?.length);
  return {
    kerf: list.saw.kerf,
    fineness: finenessOf(list),
    stock: list.stock.map((bar) => ({
      length: bar.length,
      count: bar.count,
      price: bar.price ?? (alike ? 1 : bar.length),
      spans: usableSpans(bar, bar.length, list.saw),
    })),
    pieces: list.pieces.map(({ length, count, weight }) =>
      weight === undefined ? { length, count } : { length, count, weight },
    ),
  };
}

/** Cuts the list. `seconds` is left at 0: the clock is the caller's. */
export function cutList(list: CutList, options: CutOptions): CutPlanFile {
  return cutPlanFile(list, cutStock(cutListProblem(list), options));
}

function cutPlanFile(list: CutList, plan: CutPlan): CutPlanFile {
  const marked = list.pieces.some((piece) => piece.mark !== undefined);
  const lengthOf = (piece: number): number => list.pieces[piece]?.length ?? 0;
  return {
    format: CUTPLAN_FORMAT,
    bars: plan.bars.map(({ stock, spans, times }) => ({
      stock,
      pieces: spans.flat().map(lengthOf),
      ...(marked ? { marks: spans.flat().map((piece) => list.pieces[piece]?.mark ?? null) } : {}),
      ...(spans.length > 1 ? { spans: spans.map((span) => span.map(lengthOf)) } : {}),
      times,
    })),
    used: plan.bars.reduce((sum, bar) => sum + bar.times, 0),
    cost: withoutDust(plan.cost),
    bound: withoutDust(plan.bound),
    proven: plan.proven,
    seconds: 0,
    short: plan.short.map(({ piece, count }) => {
      const mark = list.pieces[piece]?.mark;
      return { length: lengthOf(piece), count, ...(mark === undefined ? {} : { mark }) };
    }),
  };
}
