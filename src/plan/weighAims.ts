/** Whether the aims of a job are kept, or only leant towards. */
import { pileMass } from '../job/lot.ts';
import { WORTH_KEEPING } from './effort.ts';
import type { Master } from './master.ts';
import { KEPT, leantPrices, type Problem } from './problem.ts';

/**
 * Leans towards aims, rather than keeping them, where keeping them would cost most of what could be placed. The master is
 * solved; `generate` finds its columns at other prices of misses.
 */
export function weighAims(problem: Problem, master: Master, generate: () => void): void {
  const kept = master.value;
  const wanted = Math.min(pileMass(problem.job), problem.job.aims.ballast ?? Number.POSITIVE_INFINITY);
  if (!master.mayMiss || kept >= WORTH_KEEPING * wanted) return;
  master.priceMisses(leantPrices(problem));
  generate();
  if (kept < WORTH_KEEPING * master.value) return;
  master.priceMisses(KEPT);
  master.solve();
}
