/** Papers drawn by two threads, whose code is loaded while the planner is at work. */
import { availableParallelism } from 'node:os';
import { extname } from 'node:path';
import { PassThrough } from 'node:stream';
import { buffer } from 'node:stream/consumers';
import { Worker } from 'node:worker_threads';
import type { Job } from '../../src/job/job.ts';
import type { Plan } from '../../src/plan/plan.ts';
import type { FileToWrite } from '../planFolder.ts';
import type { PaperOptions } from './page.ts';
import type { PaperKind } from './papers.ts';

export interface DrawingOrder {
  job: Job;
  plan: Plan;
  options: PaperOptions;
}

/** A paper that the other thread has drawn, by its place in the list. */
export interface DrawnPaper {
  place: number;
  bytes: Uint8Array;
}

/** What is used of a thread. */
export interface DrawingThread {
  on(event: 'message', hear: (drawn: DrawnPaper) => void): unknown;
  on(event: 'error', hear: (error: Error) => void): unknown;
  postMessage(order: DrawingOrder): void;
  ref(): void;
}

/**
 * The papers of a plan to come. This thread draws from the first on, the other from the last, each what the other has not
 * taken (`taken`: not 0, by place), so that both end at about the same time.
 */
export class Drawing {
  private readonly papers = loadPapers();
  private readonly taken: Int32Array<SharedArrayBuffer>;
  private readonly thread: DrawingThread | null;
  /** What the other thread has drawn, by place. It is heard from the start: one that breaks before it has an order takes nothing. */
  private readonly drawn: Promise<Uint8Array>[];

  constructor(taken = noneTaken(), thread = startThread(taken)) {
    this.taken = taken;
    this.thread = thread;
    this.drawn = thread ? hear(thread) : [];
  }

  /** Has both threads draw; the files, in the order of the list, are to be written one after the other. */
  async files(order: DrawingOrder): Promise<FileToWrite[]> {
    const { taken, thread, drawn } = this;
    const papers = await this.papers;
    thread?.ref();
    thread?.postMessage(order);
    return papers.map(({ file, write }, place) => ({
      name: file,
      write: async (out) => {
        if (take(taken, place)) await write(order.job, order.plan, order.options, out);
        else out.end(await drawn[place]);
      },
    }));
  }
}

/** What draws papers, loaded and with its fonts. */
export async function loadPapers(): Promise<readonly PaperKind[]> {
  const [{ PAPERS }, { readFonts }] = await Promise.all([import('./papers.ts'), import('./letters.ts')]);
  readFonts();
  return PAPERS;
}

/** Draws from the last paper on what is not taken yet. */
export async function drawFromLast(
  papers: readonly PaperKind[],
  { job, plan, options }: DrawingOrder,
  taken: Int32Array<SharedArrayBuffer>,
  tell: (drawn: DrawnPaper) => void,
): Promise<void> {
  for (let place = papers.length - 1; place >= 0; place--) {
    if (!take(taken, place)) continue;
    const out = new PassThrough();
    const [bytes] = await Promise.all([buffer(out), papers[place]!.write(job, plan, options, out)]);
    tell({ place, bytes });
  }
}

/** True for the one thread that takes the paper at a place. */
function take(taken: Int32Array<SharedArrayBuffer>, place: number): boolean {
  return Atomics.compareExchange(taken, place, 0, 1) === 0;
}

/** More places than there are papers. */
const PLACES = 64;

export function noneTaken(): Int32Array<SharedArrayBuffer> {
  return new Int32Array(new SharedArrayBuffer(PLACES * Int32Array.BYTES_PER_ELEMENT));
}

/** The other thread; none where there is one processor, and none run from source, where it would lack the loader that reads it. */
function startThread(taken: Int32Array<SharedArrayBuffer>): DrawingThread | null {
  const extension = extname(import.meta.url);
  if (extension === '.ts' || availableParallelism() < 2) return null;
  const thread = new Worker(new URL(`./drawingThread${extension}`, import.meta.url), { workerData: taken });
  // Where there is no plan nobody waits for it.
  thread.unref();
  return thread;
}

/** What the thread draws, by place. */
function hear(thread: DrawingThread): Promise<Uint8Array>[] {
  const settle: { resolve: (bytes: Uint8Array) => void; reject: (error: Error) => void }[] = [];
  const drawn = Array.from({ length: PLACES }, () => {
    const one = new Promise<Uint8Array>((resolve, reject) => settle.push({ resolve, reject }));
    // The first that is waited for tells it.
    one.catch(() => undefined);
    return one;
  });
  thread.on('message', ({ place, bytes }) => settle[place]?.resolve(bytes));
  thread.on('error', (error) => {
    for (const { reject } of settle) reject(error);
  });
  return drawn;
}
