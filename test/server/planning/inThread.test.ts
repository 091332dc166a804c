import { EventEmitter } from 'node:events';
import { expect, test } from 'vitest';
import { hearThread } from '../../../server/planning/inThread.ts';
import type { Plan } from '../../../src/plan/plan.ts';
import { trialPair } from '../../plan/trialPlan.ts';

/** A thread that never looks at what it is asked, as one deep in a long step. */
class DeepThread extends EventEmitter {
  ended = false;
  terminate(): Promise<void> {
    this.ended = true;
    return Promise.resolve();
  }
  tell(value: number | null, plan?: Plan): void {
    const progress = { phase: 'lengths', step: 1, value, bound: null, ...(plan ? { plan } : {}) };
    this.emit('message', { kind: 'progress', progress });
  }
}

const { plan } = trialPair();
const flag = () => new Int32Array(new SharedArrayBuffer(4));

test('stopped in the longest step, the best plan told so far is there within a second', async () => {
  const thread = new DeepThread();
  let stopped = false;
  const stop = flag();
  const heard: unknown[] = [];
  const options = { shouldStop: () => stopped, onProgress: (word: unknown) => void heard.push(word) };
  const result = hearThread(thread, stop, options);
  thread.tell(10, plan);
  thread.tell(10);
  const asked = performance.now();
  stopped = true;
  expect(await result).toEqual({ kind: 'plan', plan });
  expect(performance.now() - asked).toBeLessThan(2000);
  expect(stop[0]).toBe(1);
  expect(thread.ended).toBe(true);
  expect(heard).toEqual([10, 10].map((value) => ({ phase: 'lengths', step: 1, value, bound: null })));
});

test('what the thread itself answers when it is stopped goes before the best that it told', async () => {
  const thread = new DeepThread();
  const result = hearThread(thread, flag(), { shouldStop: () => true });
  thread.tell(10, plan);
  const whole = { ...plan, binds: ['No bar is left.'] };
  setTimeout(() => thread.emit('message', { kind: 'result', result: { kind: 'plan', plan: whole } }), 200);
  expect(await result).toEqual({ kind: 'plan', plan: whole });
});

test('stopped before there is a plan, the first one is waited for', async () => {
  const thread = new DeepThread();
  let done = false;
  const result = hearThread(thread, flag(), { shouldStop: () => true }).finally(() => {
    done = true;
  });
  thread.tell(null);
  await new Promise((resolve) => setTimeout(resolve, 1200));
  expect(done).toBe(false);
  thread.tell(10, plan);
  expect(await result).toEqual({ kind: 'plan', plan });
});

test('a thread that ends without a word is no plan', async () => {
  const thread = new DeepThread();
  const result = hearThread(thread, flag(), {});
  thread.emit('exit');
  await expect(result).rejects.toThrow('without a plan');
});
