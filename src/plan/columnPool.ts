/** Columns that masters of one problem have in common: patterns, stacks of runs and layouts of voids that were of use. */
import type { Berth, Layout, Run } from '../stow/layout.ts';
import { stackKey } from '../stow/stack.ts';
import { type Pattern, patternKey } from './barPattern.ts';
import type { Part } from './generate.ts';
import type { LayoutColumn, Master } from './master.ts';
import type { Skeleton } from './pricing.ts';
import type { Problem } from './problem.ts';

/** A column that gains so much less than nothing, kg, was of no use. */
export const OF_USE = 0.2;

export class ColumnPool {
  private readonly berths: Berth[][];
  private readonly known = new Map<string, Pattern>();
  private readonly stacks = new Map<string, Map<string, Run>>();
  private readonly layouts: Map<string, Layout>[];

  constructor(problem: Problem, berths: Berth[][]) {
    this.berths = berths;
    this.layouts = problem.spaces.map(() => new Map());
  }

  /** Takes in the columns of a master, as last solved, that were of use. */
  take(master: Master): void {
    const prices = master.prices();
    for (const column of master.columns) {
      if (column.what === 'layout') {
        const { group, space, layout } = column;
        if (group >= 0 && master.layoutGain(group, space, layout, prices) > -OF_USE) this.takeLayout(column);
      } else if (master.patternGain(column.pattern, prices) > -OF_USE) {
        this.known.set(patternKey(column.pattern), column.pattern);
      }
    }
  }

  private takeLayout({ layout, space }: LayoutColumn): void {
    const { laid, runs } = layout;
    this.layouts[space.index]!.set(
      `${laid.axis}|${runs.map((run) => `${run.from}:${stackKey(run.stack)}`).join('|')}`,
      layout,
    );
    const berth = this.berths[space.index]!.find((own) => own.laid === laid)!;
    for (const run of runs) {
      const key = runKey({ space, berth, runs: [] }, run.from, run.stack.length);
      const own = this.stacks.get(key) ?? new Map<string, Run>();
      this.stacks.set(key, own.set(stackKey(run.stack), run));
    }
  }

  /** Gives a master what it may use of these lengths. */
  seed(master: Master, parts: Part[], lengths: Set<number>): void {
    for (const pattern of this.known.values())
      if (pattern.spans.every((pieces) => pieces.every((length) => lengths.has(length)))) master.addPattern(pattern);
    for (const { group, space, skeleton } of parts) {
      for (const { from, length } of skeleton?.runs ?? []) {
        for (const { stack } of this.stacks.get(runKey(skeleton!, from, length))?.values() ?? [])
          master.addLayout(group, space, { laid: skeleton!.berth.laid, runs: [{ from, stack }] });
      }
      if (skeleton) continue;
      for (const layout of this.layouts[space.index]!.values())
        if (layout.runs.every(({ stack }) => lengths.has(stack.length))) master.addLayout(group, space, layout);
    }
  }
}

function runKey({ space, berth }: Skeleton, from: number, length: number): string {
  return `${space.index}:${berth.laid.axis}:${berth.uniform ? '' : from}:${length}`;
}
