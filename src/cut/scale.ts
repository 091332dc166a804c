/**
 * The problem in whole units: pieces sorted, merged and made longer by one kerf, spans made longer by one kerf, so that
 * a span's rule becomes  Σ sizes ≤ capacity.  The unit is the problem's own (a tenth of a millimetre where it names none),
 * or the greatest that divides all.
 */
import type { CutProblem, PatternCost } from './problem.ts';

/** What is left of a span costs: `scrap[c]` for c units of capacity left, in plain cost. */
export interface EndCost {
  /** Cost of leaving `left` units of a span's capacity. */
  of(left: number): number;
  /** Added for a span that is used and does not begin at the bar's start. */
  start: number;
}

export interface ScaledStock {
  /** Capacity of each usable span, in units. */
  capacities: number[];
  /** Which end cost each span has: an index into `ends`; -1 for none. */
  ends: number[];
  count: number;
  price: number;
}

export interface Scaled {
  /** Sizes, falling; a size twice only where weights differ. */
  sizes: Int32Array;
  demand: Int32Array;
  weights: Float64Array;
  /** Of each size, the problem's pieces that have it. */
  members: number[][];
  stocks: ScaledStock[];
  ends: EndCost[];
  /** What each piece costs by itself (its cut). */
  perPiece: number;
  /** Pieces no span can hold. */
  misfits: number[];
  /** Every cost is a multiple of this; 0 where not known. */
  costStep: number;
}

/** Units in a millimetre where the problem names none. */
const FINENESS = 10;
const SLACK = 1e-6;

/** Turns `problem` into whole units. Pieces are rounded up and spans down to them. */
export function scaleProblem(problem: CutProblem): Scaled {
  const { stock, pieces, kerf, patternCost, fineness = FINENESS } = problem;
  const up = (mm: number): number => Math.ceil(mm * fineness - SLACK);
  const down = (mm: number): number => Math.floor(mm * fineness + SLACK);
  const kerfUnits = up(kerf);
  const spans = stock.map((type) => type.spans.map(({ from, to }) => down(to - from) + kerfUnits));
  const widest = Math.max(0, ...spans.flat());
  const lengths = pieces.map((piece) => up(piece.length) + kerfUnits);
  let unit = 0;
  for (const length of lengths) if (length <= widest) unit = gcd(unit, length);
  if (patternCost) for (const capacity of spans.flat()) unit = gcd(unit, capacity);
  unit = Math.max(1, unit);

  const weightOf = (piece: number): number => pieces[piece]?.weight ?? pieces[piece]?.length ?? 0;
  const rows = new Map<string, { length: number; weight: number; members: number[]; demand: number }>();
  const misfits: number[] = [];
  lengths.forEach((length, piece) => {
    const count = pieces[piece]?.count ?? 0;
    if (count <= 0) return;
    if (length > widest) {
      misfits.push(piece);
      return;
    }
    const weight = weightOf(piece);
    const key = `${length} ${weight}`;
    const row = rows.get(key) ?? { length, weight, members: [], demand: 0 };
    row.members.push(piece);
    row.demand += count;
    rows.set(key, row);
  });
  const sorted = [...rows.values()].sort((a, b) => b.length - a.length || b.weight - a.weight);

  const ends: EndCost[] = [];
  const endKeys = new Map<string, number>();
  const stocks = stock.map((type, t): ScaledStock => {
    const capacities = (spans[t] ?? []).map((capacity) => Math.floor(capacity / unit));
    const which = type.spans.map(({ from, to }) => {
      if (!patternCost) return -1;
      const scrapPerMm = type.scrapPerMm ?? patternCost.scrapPerMm;
      const key = `${scrapPerMm} ${to === type.length} ${from > 0}`;
      let index = endKeys.get(key);
      if (index === undefined) {
        const perMm = { fineness, scrap: scrapPerMm };
        index = ends.push(endCost(patternCost, perMm, unit, kerfUnits, to === type.length, from > 0)) - 1;
        endKeys.set(key, index);
      }
      return index;
    });
    return { capacities, ends: which, count: type.count ?? Infinity, price: type.price };
  });
  return {
    sizes: Int32Array.from(sorted, (row) => row.length / unit),
    demand: Int32Array.from(sorted, (row) => row.demand),
    weights: Float64Array.from(sorted, (row) => row.weight),
    members: sorted.map((row) => row.members),
    stocks,
    ends,
    perPiece: patternCost?.perCut ?? 0,
    misfits,
    costStep: patternCost ? 0 : commonStep(stock.map((type) => type.price)),
  };
}

/**
 * Cuts of a span with n pieces: n, one more where it does not begin at the bar's start, one less where the last piece
 * ends with the bar. Remainder: what the last kerf leaves, max(0, left − kerf).
 */
function endCost(
  cost: PatternCost,
  perMm: { fineness: number; scrap: number },
  unit: number,
  kerf: number,
  endsWithBar: boolean,
  startCut: boolean,
): EndCost {
  return {
    of(left) {
      const remainder = Math.max(0, left * unit - kerf) / perMm.fineness;
      if (left === 0 && endsWithBar) return -cost.perCut;
      return remainder >= cost.keepFrom ? 0 : remainder * perMm.scrap;
    },
    start: startCut ? cost.perCut : 0,
  };
}

/** The greatest number of thousandths that divides all prices; 0 where they are finer or all 0. */
function commonStep(prices: number[]): number {
  let step = 0;
  for (const price of prices) {
    const thousandths = Math.round(price * 1000);
    if (Math.abs(price * 1000 - thousandths) > 1e-9 * thousandths) return 0;
    step = gcd(step, thousandths);
  }
  return step / 1000;
}

function gcd(a: number, b: number): number {
  while (b !== 0) [a, b] = [b, a % b];
  return Math.abs(a);
}
