/** The thread that draws papers beside that of the command; it ends when all are taken. */
import { parentPort, workerData } from 'node:worker_threads';
import { type DrawingOrder, drawFromLast, loadPapers } from './drawing.ts';

const taken = workerData as Int32Array<SharedArrayBuffer>;
const loaded = loadPapers();
parentPort?.once('message', async (order: DrawingOrder) => {
  await drawFromLast(await loaded, order, taken, (drawn) => parentPort?.postMessage(drawn));
});
