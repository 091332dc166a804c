/** Plans in a thread of its own, with the planner's own interface: `shouldStop` is polled here and passed on. */
import { extname } from 'node:path';
import { Worker } from 'node:worker_threads';
import type { Job } from '../../src/job/job.ts';
import type { PlanOptions, PlanResult } from '../../src/plan/planner.ts';
import type { ThreadOrder, ThreadWord } from './thread.ts';

/** How often `shouldStop` is asked, ms. */
const POLL = 50;

/** As `planJob`, but the calling thread stays free. Progress carries no plans. */
export async function planInThread(job: Job, options: PlanOptions): Promise<PlanResult> {
  const { onProgress, shouldStop, ...plain } = options;
  const extension = extname(import.meta.url);
  // Run from source, a thread would lack the loader that reads it: a development run plans here and can not be stopped.
  if (extension === '.ts') {
    const { planJob } = await import('../../src/plan/planner.ts');
    return planJob(job, options);
  }
  const stop = new Int32Array(new SharedArrayBuffer(4));
  const thread = new Worker(new URL(`./thread${extension}`, import.meta.url), {
    workerData: { job, options: plain, stop } satisfies ThreadOrder,
  });
  const poll = setInterval(() => {
    if (shouldStop?.()) Atomics.store(stop, 0, 1);
  }, POLL);
  return new Promise<PlanResult>((resolve, reject) => {
    thread.on('message', (word: ThreadWord) => {
      if (word.kind === 'progress') onProgress?.(word.progress);
      else resolve(word.result);
    });
    thread.on('error', reject);
    thread.on('exit', () => reject(new Error('the planning thread ended without a plan')));
  }).finally(() => clearInterval(poll));
}
