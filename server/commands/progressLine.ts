/** One line on a terminal that tells how far the planning is; nothing at all where the output is not a terminal. */
import type { Writable } from 'node:stream';
import type { PlanProgress } from '../../src/plan/planner.ts';

const CLEAR_LINE = '\r\x1b[K';

export interface ProgressLine {
  show: (progress: PlanProgress) => void;
  /** Clears the line. */
  end: () => void;
}

export function showProgress(stream: Writable & { isTTY?: boolean; columns?: number }): ProgressLine {
  if (!stream.isTTY) return { show: () => {}, end: () => {} };
  let last = '';
  return {
    show: (progress) => {
      const line = progressText(progress).slice(0, (stream.columns ?? 80) - 1);
      if (line === last) return;
      last = line;
      stream.write(`${CLEAR_LINE}${line}`);
    },
    end: () => void stream.write(CLEAR_LINE),
  };
}

function progressText({ phase, step, value, bound }: PlanProgress): string {
  const best = value === null ? '' : `, best so far ${value.toFixed(1)} kg`;
  const limit = bound === null ? '' : `, at most ${bound.toFixed(1)} kg`;
  return `${phase}, step ${step}${best}${limit}`;
}
