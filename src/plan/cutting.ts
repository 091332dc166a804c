/** The exact cutting of chosen lengths: the cutting engine, steel by steel. */
import { cutStock } from '../cut/cutStock.ts';
import type { LinearEngine } from '../linear/model.ts';
import { type Pattern, patternOf } from './barPattern.ts';
import { cutByWorth } from './cutWorth.ts';
import type { JointedBars } from './jointPlaces.ts';
import type { Use } from './master.ts';
import { barMass, type Problem } from './problem.ts';
import { SCRAP_RATE } from './value.ts';

export interface Cutting {
  /** One entry for each bar cut. */
  bars: Pattern[];
  /** Pieces that the pile can not yield. */
  short: Use[];
  /** Bars butted from pieces that `bars` yield. */
  joints: JointedLength[];
  /** kg of value: scrap, labour of cuts, and what jointed bars lack. */
  cost: number;
}

/** Bars of a steel and length butted alike. */
export interface JointedLength extends JointedBars {
  steel: number;
  length: number;
}

export interface CuttingOptions {
  engine: LinearEngine;
  /** Counted work for each steel, about milliseconds. */
  effort: number;
  /** Where the pile is short, what is left out is chosen by what it is worth, which takes longer; true when absent. */
  worth?: boolean;
  /** Lengths that are left out last where the pile is short. */
  dear?: Set<number>;
  /** Cuttings of a steel by what they were asked for, kept: a search asks for the same again and again. */
  known?: Map<string, Cutting>;
  shouldStop?: () => boolean;
}

/** What a piece of a dear length is worth, over its mass. */
const DEAR = 1.5;

/** Cuts what `uses` ask for from the pile. Heuristic, near the least cost; what can not be cut is told. */
export function cutUses(problem: Problem, uses: Use[], options: CuttingOptions): Cutting {
  return together(problem.steels.map((steel) => cutSteel(problem, steel.index, uses, options)));
}

/** Cuts what `uses` ask for of one steel. The answer is shared where cuttings are kept: it is not to be changed. */
export function cutSteel(problem: Problem, index: number, uses: Use[], options: CuttingOptions): Cutting {
  const wanted = uses.filter((use) => use.steel === index && use.bars > 0);
  if (wanted.length === 0) return { bars: [], short: [], joints: [], cost: 0 };
  const { known, effort, dear } = options;
  const asked = wanted.map(({ length, bars }) => `${length}x${bars}${dear?.has(length) ? '!' : ''}`).sort();
  const key = `${index}:${effort}:${options.worth ?? true}:${asked.join()}`;
  const cutting = known?.get(key) ?? cutAnew(problem, index, wanted, options);
  known?.set(key, cutting);
  return cutting;
}

function cutAnew(problem: Problem, index: number, wanted: Use[], options: CuttingOptions): Cutting {
  const cutting: Cutting = { bars: [], short: [], joints: [], cost: 0 };
  const steel = problem.steels[index]!;
  const kinds = problem.barKinds.filter((kind) => kind.steel === index);
  const plan = cutStock(
    {
      stock: kinds.map(({ length, spans, count, perMetre }) => ({
        length,
        spans,
        count,
        price: 0,
        scrapPerMm: (SCRAP_RATE * perMetre) / 1000,
      })),
      pieces: wanted.map(({ length, bars }) => ({
        length,
        count: bars,
        weight: barMass(steel, length) * (options.dear?.has(length) ? DEAR : 1),
      })),
      kerf: problem.job.saw.kerf,
      patternCost: {
        scrapPerMm: (SCRAP_RATE * steel.heaviest) / 1000,
        keepFrom: problem.job.saw.keepFrom,
        perCut: problem.labour.cut,
      },
    },
    { engine: options.engine, effort: options.effort, shouldStop: options.shouldStop },
  );
  for (const bar of plan.bars) {
    const spans = bar.spans.map((pieces) => pieces.map((piece) => wanted[piece]!.length));
    const pattern = patternOf(kinds[bar.stock]!, spans, problem.job, problem.labour);
    cutting.cost += pattern.cost * bar.times;
    for (let i = 0; i < bar.times; i++) cutting.bars.push(pattern);
  }
  for (const { piece, count } of plan.short) {
    cutting.short.push({ steel: index, length: wanted[piece]!.length, bars: count });
  }
  if (cutting.short.length === 0 || options.dear?.size || options.worth === false) return cutting;
  const other = byWorth(problem, index, wanted, options);
  return other && lossOf(problem, other) < lossOf(problem, cutting) - 1e-9 ? other : cutting;
}

/** What is left out and what cutting costs, kg. */
function lossOf(problem: Problem, { short, cost }: Cutting): number {
  return short.reduce((sum, { steel, length, bars }) => sum + bars * barMass(problem.steels[steel]!, length), cost);
}

/** Cuts what is worth most of what is wanted; pieces too many are not wanted. */
function byWorth(problem: Problem, index: number, wanted: Use[], options: CuttingOptions): Cutting | null {
  const bars = cutByWorth(problem, index, wanted, options.engine);
  return bars && cutFrom(problem, wanted, bars);
}

/**
 * The cutting of whole bars that yield about what `uses` ask for: what is too much is not cut, or cut shorter where that is
 * wanted; what they do not yield is told as short.
 */
export function cutFrom(problem: Problem, uses: Use[], bars: Pattern[]): Cutting {
  const left = problem.steels.map(() => new Map<number, number>());
  for (const { steel, length, bars: count } of uses) left[steel]!.set(length, count);
  const take = (steel: number, length: number) => {
    const count = left[steel]!.get(length) ?? 0;
    if (count > 0) left[steel]!.set(length, count - 1);
    return count > 0;
  };
  const kept = bars.map(({ kind, spans }) =>
    spans.map((own) => own.map((length) => ({ length, cut: take(kind.steel, length) }))),
  );
  const shorter = (steel: number, length: number) => {
    const wanted = [...left[steel]!].filter(([other, count]) => count > 0 && other < length).map(([other]) => other);
    return wanted.length > 0 ? Math.max(...wanted) : 0;
  };
  const cut = bars.flatMap(({ kind }, i) => {
    const spans = kept[i]!.map((own) =>
      own.flatMap(({ length, cut }) => {
        if (cut) return [length];
        const other = shorter(kind.steel, length);
        if (other > 0) take(kind.steel, other);
        return other > 0 ? [other] : [];
      }),
    );
    return spans.some((own) => own.length > 0) ? [patternOf(kind, spans, problem.job, problem.labour)] : [];
  });
  return {
    bars: cut,
    short: left.flatMap((own, steel) =>
      [...own].flatMap(([length, count]) => (count > 0 ? [{ steel, length, bars: count }] : [])),
    ),
    joints: [],
    cost: cut.reduce((sum, pattern) => sum + pattern.cost, 0),
  };
}

/** What of a cutting is of one steel, without joints. */
export function partOf(cutting: Cutting, steel: number): Cutting {
  const bars = cutting.bars.filter(({ kind }) => kind.steel === steel);
  return {
    bars,
    short: cutting.short.filter((use) => use.steel === steel),
    joints: [],
    cost: bars.reduce((sum, { cost }) => sum + cost, 0),
  };
}

/** Cuttings of several steels as one. */
export function together(cuttings: Cutting[]): Cutting {
  return {
    bars: cuttings.flatMap((cutting) => cutting.bars),
    short: cuttings.flatMap((cutting) => cutting.short),
    joints: cuttings.flatMap((cutting) => cutting.joints),
    cost: cuttings.reduce((sum, cutting) => sum + cutting.cost, 0),
  };
}
