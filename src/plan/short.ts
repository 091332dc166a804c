/** Taking out of the fillings what the pile can not yield. */
import type { Layout } from '../stow/layout.ts';
import { at, topPlaces, withBars, without } from '../stow/trim.ts';
import type { Filling } from './caps.ts';
import { type Use, useOf } from './master.ts';
import type { Problem, Space } from './problem.ts';

/** Bars of each steel and length in all fillings. */
export function usesOf(fillings: Filling[]): Use[] {
  const sums = new Map<string, Use>();
  for (const filling of fillings) {
    if (!filling) continue;
    for (const use of useOf(filling)) {
      const key = `${use.steel}:${use.length}`;
      const sum = sums.get(key);
      if (sum) sum.bars += use.bars;
      else sums.set(key, { ...use });
    }
  }
  return [...sums.values()].sort((p, q) => p.steel - q.steel || q.length - p.length);
}

/** The different lengths in all fillings. */
export function countStops(fillings: Filling[]): number {
  return new Set(usesOf(fillings).map(({ length }) => length)).size;
}

/** Takes `short` out of the fillings, from the tops of runs of that length, least valuable voids first. Changes `fillings`. */
export function takeShort(problem: Problem, fillings: Filling[], short: Use[]): void {
  const spaces = [...problem.spaces].sort((p, q) => p.weight - q.weight || q.index - p.index);
  for (const { steel, length, bars } of short) {
    let left = bars;
    while (left > 0) {
      const taken = takeOnce(problem, fillings, spaces, steel, length, left);
      if (taken === 0) break;
      left -= taken;
    }
  }
}

/** Takes up to `most` bars out of one bundle, or the bundle that lies on them; returns the bars of that steel taken, at least 1 for progress, 0 where none is left. */
function takeOnce(
  problem: Problem,
  fillings: Filling[],
  spaces: Space[],
  steel: number,
  length: number,
  most: number,
): number {
  let best: { space: Space; left: Layout; taken: number; waste: number } | null = null;
  for (const space of spaces) {
    const filling = fillings[space.index];
    if (!filling) continue;
    for (const place of topPlaces(filling)) {
      const { run, tier, lying } = at(filling, place);
      if (run.stack.length !== length || !run.stack.tiers.some(({ kind }) => kind.steel === steel)) continue;
      const own = tier.kind.steel === steel;
      for (let bars = own ? lying.tie.bars - 1 : 0; bars >= 0; bars--) {
        const left =
          bars === 0
            ? without(filling, place)
            : withBars(filling, place, bars, problem.steels[tier.kind.steel]!, problem.job.bundle);
        if (!left) continue;
        const removed = lying.tie.bars - bars;
        const taken = own ? Math.min(removed, most) : 0;
        const waste = removed - taken + (own && removed < most ? 0.5 : 0);
        if (!best || waste / Math.max(0.5, taken) < best.waste / Math.max(0.5, best.taken))
          best = { space, left, taken, waste };
        if (removed >= most) break;
      }
    }
  }
  if (!best) return 0;
  fillings[best.space.index] = best.left.runs.length > 0 ? best.left : null;
  return Math.max(best.taken, 0.001);
}
