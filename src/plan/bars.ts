/** From shares of patterns to whole bars: fixes pattern after pattern, pricing again in between. For piles that are short. */
import type { Berth } from '../stow/layout.ts';
import type { Pattern } from './barPattern.ts';
import { generate } from './generate.ts';
import type { Master, MasterColumn } from './master.ts';
import type { Problem } from './problem.ts';
import type { RunsOptions } from './runs.ts';

/** Steps at most; each fixes one bar at least. */
const MOST_STEPS = 400;

type PatternColumn = MasterColumn & { what: 'pattern' };

/** Whole bars for the shares of the master, one entry a bar. The master keeps them fixed. */
export function settleBars(problem: Problem, master: Master, berths: Berth[][], options: RunsOptions): Pattern[] {
  const cut = new Map<PatternColumn, number>();
  const left = problem.barKinds.map((kind) => kind.count);
  const fix = (column: PatternColumn, count: number) => {
    const now = Math.min(count, left[column.pattern.kind.index]!);
    if (now <= 0) return false;
    left[column.pattern.kind.index]! -= now;
    cut.set(column, (cut.get(column) ?? 0) + now);
    master.cutAtLeast(column, cut.get(column)!);
    return true;
  };
  for (let step = 0; step < MOST_STEPS; step++) {
    generate(problem, master, berths, { ...options, tolerance: 0 });
    const levels = master.levels();
    let any = false;
    let best: { column: PatternColumn; rest: number } | null = null;
    master.columns.forEach((column, i) => {
      if (column.what !== 'pattern') return;
      const rest = levels[i]! - (cut.get(column) ?? 0);
      if (rest >= 1 - 1e-6) any = fix(column, Math.floor(rest + 1e-6)) || any;
      else if (rest > 1e-4 && left[column.pattern.kind.index]! > 0 && (!best || rest > best.rest + 1e-9))
        best = { column, rest };
    });
    if (any) continue;
    if (!best || !fix((best as { column: PatternColumn }).column, 1)) break;
  }
  return [...cut].flatMap(([column, count]) => new Array<Pattern>(count).fill(column.pattern));
}
