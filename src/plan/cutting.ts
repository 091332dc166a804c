/** The exact cutting of chosen lengths: the cutting engine, steel by steel. */
import { cutStock } from '../cut/cutStock.ts';
import type { LinearEngine } from '../linear/model.ts';
import { type Pattern, patternOf } from './barPattern.ts';
import type { Use } from './master.ts';
import { barMass, type Problem } from './problem.ts';
import { SCRAP_RATE } from './value.ts';

export interface Cutting {
  /** One entry for each bar cut. */
  bars: Pattern[];
  /** Pieces that the pile can not yield. */
  short: Use[];
  /** kg of value: scrap and labour. */
  cost: number;
}

export interface CuttingOptions {
  engine: LinearEngine;
  /** Counted work for each steel, about milliseconds. */
  effort: number;
  shouldStop?: () => boolean;
}

/** Cuts what `uses` ask for from the pile. Heuristic, near the least cost; what can not be cut is told. */
export function cutUses(problem: Problem, uses: Use[], options: CuttingOptions): Cutting {
  const cutting: Cutting = { bars: [], short: [], cost: 0 };
  for (const steel of problem.steels) {
    const wanted = uses.filter((use) => use.steel === steel.index && use.bars > 0);
    if (wanted.length === 0) continue;
    const kinds = problem.barKinds.filter((kind) => kind.steel === steel.index);
    const plan = cutStock(
      {
        stock: kinds.map(({ length, spans, count, perMetre }) => ({
          length,
          spans,
          count,
          price: 0,
          scrapPerMm: (SCRAP_RATE * perMetre) / 1000,
        })),
        pieces: wanted.map(({ length, bars }) => ({ length, count: bars, weight: barMass(steel, length) })),
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
      cutting.short.push({ steel: steel.index, length: wanted[piece]!.length, bars: count });
    }
  }
  return cutting;
}
