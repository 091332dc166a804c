/** Bounds over every plan, those that miss the centre and spread asked for among them. */
import type { LinearEngine } from '../linear/model.ts';
import { type Bounder, mostByBallast, withoutMoments } from './bound.ts';
import { type LeastBoundOptions, leastBound } from './everyLength.ts';
import type { Master } from './master.ts';
import type { Prices } from './prices.ts';
import { FORGOTTEN, type Problem } from './problem.ts';

/** One at prices that keep the aims, kg: quickly reckoned, and loose where keeping them costs much. `aimed`: the bound at those prices over plans that keep them. */
export function boundAnywhere(
  problem: Problem,
  bounder: Bounder,
  { loadRows }: Master,
  prices: Prices,
  aimed: number,
): number {
  if (loadRows.every((row, i) => row.aim === undefined || prices.loads[i]! < 1e-9)) return aimed;
  return Math.min(bounder.at(loadRows, withoutMoments(loadRows, prices)).value, mostByBallast(problem));
}

/** The least one, kg, sought as though nothing were asked for; Infinity where that is stopped at once. */
export function leastAnywhere(
  engine: LinearEngine,
  problem: Problem,
  bounder: Bounder,
  master: Master,
  from: Prices,
  options: LeastBoundOptions,
): number {
  const { loadRows } = master;
  const forgotten = { ...problem, missPrices: FORGOTTEN };
  const { value, prices } = leastBound(engine, forgotten, bounder, master, withoutMoments(loadRows, from), options);
  return Number.isFinite(value) ? bounder.at(loadRows, withoutMoments(loadRows, prices)).value : value;
}
