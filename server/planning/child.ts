/**
 * The child process that plans one job after another, until it has grown large. It is ended from outside to stop it; should
 * the server die first, the thread beside it notices that it has another parent and ends it.
 */
import '../compileLater.ts';
import { writeSync } from 'node:fs';
import { Worker } from 'node:worker_threads';
import { readJob } from '../../src/job/readJob.ts';
import type { Plan } from '../../src/plan/plan.ts';
import { planJob } from '../../src/plan/planner.ts';
import { withCautions } from '../cautionsMade.ts';
import { faultLines } from '../exit.ts';
import type { LastWord, Message, Order } from './message.ts';

/** Words without a plan are sent at most this often, ms. */
const PAUSE = 100;
const STANDARD_OUTPUT = 1;
/** A full pipe is tried again after so long, ms. */
const FULL = 5;
/** It waits for another order while its memory is under this, bytes. */
const SLIM = 600 * 2 ** 20;

/**
 * Planning can be deep in a computation for a minute and hear nothing meanwhile, so this runs on a thread of its own.
 * Plain script, for a thread has no loader of its own for anything else.
 */
const ORPHAN_WATCH = `
  const server = process.ppid;
  setInterval(() => process.ppid === server || process.kill(process.pid, 'SIGKILL'), 500);
`;
new Worker(ORPHAN_WATCH, { eval: true, execArgv: [] }).unref();

process.on('disconnect', () => process.exit(0));
process.on('message', (order: Order) => {
  plan(order).then(
    (word) => {
      const waits = process.memoryUsage.rss() < SLIM;
      say({ ...word, waits });
      if (!waits) process.exit(0);
    },
    (error: unknown) => {
      console.error(error instanceof Error ? error.stack : String(error));
      process.exit(1);
    },
  );
});

/**
 * Says a word at once, as a line of standard output. Planning never rests: what is sent by the channel that orders come
 * by is held back once a pipe is full, and a plan larger than that would be heard of only when planning has ended.
 */
function say(message: Message): void {
  const line = Buffer.from(`${JSON.stringify(message)}\n`);
  for (let done = 0; done < line.length; ) {
    try {
      done += writeSync(STANDARD_OUTPUT, line, done);
    } catch (error) {
      if ((error as NodeJS.ErrnoException).code !== 'EAGAIN') throw error;
      Atomics.wait(new Int32Array(new SharedArrayBuffer(4)), 0, 0, FULL);
    }
  }
}

async function plan(order: Order): Promise<LastWord> {
  const read = readJob(order.body);
  if (!read.ok) return { kind: 'refused', why: faultLines(read.faults).join('\n') };

  const { job } = read.value;
  const planText = (plan: Plan): string => JSON.stringify(withCautions(job, plan));
  let told = 0;
  const { effort, seed, stops } = order.wish;
  const result = await planJob(job, {
    effort,
    seed,
    ...(stops === null ? {} : { stops }),
    jobDigest: read.value.digest,
    shouldStop: () => !process.connected,
    onProgress: (progress) => {
      const now = Date.now();
      if (!progress.plan && now - told < PAUSE) return;
      told = now;
      const plan = progress.plan ? planText(progress.plan) : null;
      const { phase, step, value, bound } = progress;
      say({ kind: 'progress', phase, step, value, bound, plan });
    },
  });
  return result.kind === 'plan'
    ? { kind: 'plan', plan: planText(result.plan) }
    : { kind: 'nothing', reasons: result.reasons };
}
