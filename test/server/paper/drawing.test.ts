/** Papers drawn by two threads: the other thread is played by this one, over a real channel. */
import { once } from 'node:events';
import { PassThrough } from 'node:stream';
import { buffer } from 'node:stream/consumers';
import { MessageChannel, type MessagePort } from 'node:worker_threads';
import { afterEach, beforeEach, expect, test } from 'vitest';
import {
  Drawing,
  type DrawingOrder,
  type DrawingThread,
  drawFromLast,
  loadPapers,
  noneTaken,
} from '../../../server/paper/drawing.ts';
import { PAPERS } from '../../../server/paper/papers.ts';
import { trialPair } from '../../plan/trialPlan.ts';

const order: DrawingOrder = { ...trialPair(), options: { date: new Date('2026-04-01T12:00:00Z') } };
const taken = noneTaken();
let near: MessagePort;
let far: MessagePort;

beforeEach(() => {
  taken.fill(0);
  const channel = new MessageChannel();
  [near, far] = [channel.port1, channel.port2];
});
afterEach(() => near.close());

async function drawAll(drawing: Drawing): Promise<Map<string, Buffer>> {
  const drawn = new Map<string, Buffer>();
  for (const { name, write } of await drawing.files(order)) {
    const out = new PassThrough();
    const [bytes] = await Promise.all([buffer(out), write(out)]);
    drawn.set(name, bytes);
  }
  return drawn;
}

test('what another thread drew is the same paper, in its place', async () => {
  const alone = await drawAll(new Drawing(noneTaken(), null));
  const papers = await loadPapers();
  // The other thread is quicker: it has taken half of all before the first is asked for.
  const half = papers.length >> 1;
  taken.fill(1, 0, half);
  const others: number[] = [];
  far.once('message', async (given: DrawingOrder) => {
    await drawFromLast(papers, given, taken, (drawn) => {
      others.push(drawn.place);
      far.postMessage(drawn);
    });
  });
  const files = await new Drawing(taken, near as unknown as DrawingThread).files(order);
  await once(near, 'message');
  taken.fill(0, 0, half);
  const together = new Map<string, Buffer>();
  for (const { name, write } of files) {
    const out = new PassThrough();
    const [bytes] = await Promise.all([buffer(out), write(out)]);
    together.set(name, bytes);
  }
  expect(others.length).toBeGreaterThan(0);
  expect([...together.keys()]).toEqual(PAPERS.map(({ file }) => file));
  for (const [name, bytes] of alone) expect(together.get(name)?.equals(bytes), name).toBe(true);
});

test('each paper is taken by one thread only', async () => {
  const papers = await loadPapers();
  const drawn: number[] = [];
  await Promise.all([1, 2].map(() => drawFromLast(papers, order, taken, ({ place }) => void drawn.push(place))));
  expect(drawn.sort((a, b) => a - b)).toEqual(PAPERS.map((_, place) => place));
});

test('a thread that breaks is told by the paper that waits for it', async () => {
  taken.fill(1);
  const files = await new Drawing(taken, near as unknown as DrawingThread).files(order);
  near.emit('error', new Error('no room'));
  await expect(files[0]!.write(new PassThrough())).rejects.toThrow('no room');
});

test('a thread that breaks before it has an order leaves all papers to be drawn here', async () => {
  const drawing = new Drawing(taken, near as unknown as DrawingThread);
  near.emit('error', new Error('no room'));
  expect((await drawAll(drawing)).size).toBe(PAPERS.length);
});
