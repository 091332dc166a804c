/** One line on a terminal that tells how far the planning is and how long it has taken; nothing at all where the output is not a terminal. */
import type { Writable } from 'node:stream';
import type { PlanProgress } from '../../src/plan/planner.ts';

const CLEAR_LINE = '\r\x1b[K';

/** A step may take minutes: the seconds tell that something is still at work. */
const TICK = 1000;

export interface ProgressLine {
  show: (progress: PlanProgress) => void;
  /** Says something above the line; on a terminal or not. */
  say: (words: string) => void;
  /** Clears the line. */
  end: () => void;
}

export function showProgress(stream: Writable & { isTTY?: boolean; columns?: number }): ProgressLine {
  if (!stream.isTTY) return { show: () => {}, say: (words) => void stream.write(`${words}\n`), end: () => {} };
  const start = performance.now();
  let text = '';
  let last = '';
  const draw = (): void => {
    const seconds = Math.floor((performance.now() - start) / 1000);
    const line = `${text}${seconds > 0 ? `, ${seconds} s` : ''}`.slice(0, (stream.columns ?? 80) - 1);
    if (line === last || text === '') return;
    last = line;
    stream.write(`${CLEAR_LINE}${line}`);
  };
  const ticks = setInterval(draw, TICK).unref();
  return {
    show: (progress) => {
      text = progressText(progress);
      draw();
    },
    say: (words) => {
      stream.write(`${CLEAR_LINE}${words}\n`);
      last = '';
      draw();
    },
    end: () => {
      clearInterval(ticks);
      stream.write(CLEAR_LINE);
    },
  };
}

function progressText({ phase, step, value, bound }: PlanProgress): string {
  const best = value === null ? '' : `, best so far ${value.toFixed(1)} kg`;
  const limit = bound === null ? '' : `, at most ${bound.toFixed(1)} kg`;
  return `${phase}, step ${step}${best}${limit}`;
}
