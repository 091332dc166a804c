/** The thread that plans one job for the command line; the main thread stays free for the keyboard and the progress line. */
import { parentPort } from 'node:worker_threads';
import type { Job } from '../../src/job/job.ts';
import { type PlanOptions, type PlanProgress, type PlanResult, planJob } from '../../src/plan/planner.ts';

/** What the thread is to do; `stop` holds one number, not 0 to stop. */
export interface ThreadOrder {
  job: Job;
  options: Omit<PlanOptions, 'onProgress' | 'shouldStop'>;
  stop: Int32Array<SharedArrayBuffer>;
}

export type ThreadWord = { kind: 'progress'; progress: PlanProgress } | { kind: 'result'; result: PlanResult };

/** Words without a plan are told at most this often, ms. */
const PAUSE = 100;

const tell = (word: ThreadWord): void => parentPort?.postMessage(word);

parentPort?.once('message', async ({ job, options, stop }: ThreadOrder) => {
  const result = await planJob(job, {
    ...options,
    shouldStop: () => Atomics.load(stop, 0) !== 0,
    onProgress: nowAndThen((progress) => tell({ kind: 'progress', progress })),
  });
  tell({ kind: 'result', result });
});

/** Passes on words with a plan, and of the others as many as may be told. */
function nowAndThen(hear: (progress: PlanProgress) => void): (progress: PlanProgress) => void {
  let told = 0;
  return (progress) => {
    const now = Date.now();
    if (!progress.plan && now - told < PAUSE) return;
    told = now;
    hear(progress);
  };
}
