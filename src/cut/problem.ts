/**
 * The cutting problem and its answer, in millimetres.
 *
 *     minimise  Σ cost of the bars used   such that every piece is cut, no stock type is used more often than its count,
 *     and in every usable span   Σ piece lengths + (number of pieces − 1) · kerf ≤ span
 */
import type { Span } from '../job/lot.ts';
import type { LinearEngine } from '../linear/model.ts';

/** Bars alike in length and usable spans. */
export interface StockType {
  length: number;
  /** The usable spans of a bar, from its start; see `usableSpans`. */
  spans: readonly Span[];
  /** How many there are; null for no limit. */
  count: number | null;
  /** What using one costs. */
  price: number;
  /** What a millimetre of scrap from this type costs; `patternCost.scrapPerMm` when absent. */
  scrapPerMm?: number;
}

export interface PieceDemand {
  length: number;
  count: number;
  /** What one piece is worth when not all can be cut; its length when absent. */
  weight?: number;
}

/**
 * What a bar costs beside its price: each millimetre of a remainder shorter than `keepFrom` (longer ones are kept and
 * cost nothing), and each cut: one for each piece end that is not a bar end, two ends one kerf apart being one.
 */
export interface PatternCost {
  scrapPerMm: number;
  keepFrom: number;
  perCut: number;
}

export interface CutProblem {
  stock: readonly StockType[];
  pieces: readonly PieceDemand[];
  kerf: number;
  patternCost?: PatternCost;
  /**
   * Into how many parts a millimetre is divided, at most 20,000; 10 when absent. What is finer is rounded against the
   * plan, pieces up and spans down, and the bound is then the bound of that.
   */
  fineness?: number;
}

/** A way to cut a bar, and how many bars are cut so. */
export interface CutBar {
  /** Index into `stock`. */
  stock: number;
  /** For each usable span of the bar, the pieces cut from it from its start, as indices into `pieces`. */
  spans: number[][];
  times: number;
  /** Price and pattern cost of one such bar. */
  cost: number;
}

export interface CutPlan {
  bars: CutBar[];
  /** Cost of all bars used. */
  cost: number;
  /** No plan that cuts as much (see `short`) costs less than this. Safe against rounding in the solver. */
  bound: number;
  /** cost = bound, and nothing that could be cut is short. */
  proven: boolean;
  /** Pieces the stock could not yield. */
  short: { piece: number; count: number }[];
  /** Weight of what is short, and a proven lower bound on it. Both 0 where all is cut. */
  shortWeight: number;
  shortAtLeast: number;
  work: Work;
  /** How the search ended. */
  ended: 'proven' | 'exhausted' | 'stopped';
}

/** Counted work, the same on every machine. */
export interface Work {
  linearSolves: number;
  pricings: number;
  columns: number;
  nodes: number;
  /** All of it in one number, about milliseconds, and the part of it that is pricing. */
  units: number;
  pricingUnits: number;
}

export interface CutProgress {
  cost: number;
  bound: number;
  short: number;
  nodes: number;
}

export interface CutOptions {
  engine: LinearEngine;
  /** How long to search, in counted units of work, about a thousand a second; 8000 when absent. The same work gives the same plan. */
  effort?: number;
  /** Polled between solves; true stops with the best plan so far and its true bound. */
  shouldStop?: () => boolean;
  /** Told at every better plan or bound. */
  onProgress?: (progress: CutProgress) => void;
}
