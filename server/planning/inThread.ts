/** Plans in a thread of its own, with the planner's own interface: `shouldStop` is polled here and passed on. */
import { extname } from 'node:path';
import { Worker } from 'node:worker_threads';
import type { Job } from '../../src/job/job.ts';
import type { Plan } from '../../src/plan/plan.ts';
import type { PlanOptions, PlanResult } from '../../src/plan/planner.ts';
import type { ThreadOrder, ThreadWord } from './thread.ts';

/** How often `shouldStop` is asked, ms. */
const POLL = 50;
/** A thread that is asked to stop may be deep in one step for minutes: it is waited for so long, ms, then ended. */
const PATIENCE = 700;

/** What is used of a thread. */
export interface PlanThread {
  on(event: 'message', hear: (word: ThreadWord) => void): unknown;
  on(event: 'error', hear: (error: Error) => void): unknown;
  on(event: 'exit', hear: () => void): unknown;
  terminate(): Promise<unknown>;
}

/**
 * A thread that loads the planner and waits for an order; it keeps nothing from ending until it has one. Null run from source,
 * where it would lack the loader that reads it.
 */
export function startThread(): Worker | null {
  const extension = extname(import.meta.url);
  if (extension === '.ts') return null;
  const thread = new Worker(new URL(`./thread${extension}`, import.meta.url));
  thread.unref();
  return thread;
}

/**
 * As `planJob`, but the calling thread stays free. Progress carries no plans. Where there is no thread the calling one plans,
 * and can not be stopped.
 */
export async function planInThread(thread: Worker | null, job: Job, options: PlanOptions): Promise<PlanResult> {
  if (!thread) {
    const { planJob } = await import('../../src/plan/planner.ts');
    return planJob(job, options);
  }
  const { onProgress: _, shouldStop: __, ...plain } = options;
  const stop = new Int32Array(new SharedArrayBuffer(4));
  const heard = hearThread(thread, stop, options);
  thread.ref();
  thread.postMessage({ job, options: plain, stop } satisfies ThreadOrder);
  return heard;
}

/**
 * The result of a thread. Stopped, it is what the thread answers within `PATIENCE`, else the best plan that it has told;
 * where there is none yet, the first one is waited for.
 */
export async function hearThread(
  thread: PlanThread,
  stop: Int32Array<SharedArrayBuffer>,
  { onProgress, shouldStop }: Pick<PlanOptions, 'onProgress' | 'shouldStop'>,
): Promise<PlanResult> {
  let best: Plan | null = null;
  let patience: NodeJS.Timeout | undefined;
  let poll: NodeJS.Timeout | undefined;
  return new Promise<PlanResult>((resolve, reject) => {
    const keepBest = (): void => {
      if (best) resolve({ kind: 'plan', plan: best });
    };
    poll = setInterval(() => {
      if (!shouldStop?.()) return;
      Atomics.store(stop, 0, 1);
      if (best) patience ??= setTimeout(keepBest, PATIENCE);
    }, POLL);
    thread.on('message', (word) => {
      if (word.kind === 'result') return resolve(word.result);
      const { plan, ...progress } = word.progress;
      best = plan ?? best;
      onProgress?.(progress);
    });
    thread.on('error', reject);
    thread.on('exit', () => reject(new Error('the planning thread ended without a plan')));
  }).finally(() => {
    clearInterval(poll);
    clearTimeout(patience);
    void thread.terminate();
  });
}
