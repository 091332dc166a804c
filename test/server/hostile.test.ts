import { expect, test } from 'vitest';
import { addDraft, demonstration } from '../../server/routes/jobs.ts';
import { findWrong, hostileRequests, send } from '../bench/hostile.ts';
import { trialPair } from '../plan/trialPlan.ts';
import { openWorld } from './world.ts';

test('hostile requests get a page that says so or correct output, never a defect, a stack trace or markup', async () => {
  const world = await openWorld();
  const job = addDraft({ store: world.store, clock: () => new Date() }, demonstration());
  world.planning.ask(job, { effort: 'quick', seed: 1, stops: null }, JSON.stringify(demonstration()));
  world.children[0]?.say({ kind: 'plan', plan: JSON.stringify(trialPair().plan) });
  const before = world.store.jobs.body(job, 1);
  const wrong: string[] = [];
  for (const hostile of hostileRequests(90, 11, { job, plan: 1, token: world.token })) {
    const answer = await send(world.address, hostile);
    const found = findWrong(answer);
    if (found) wrong.push(`${hostile.what} (${hostile.method} ${hostile.path.slice(0, 80)}): ${found}`);
  }
  expect(wrong).toEqual([]);
  expect(world.log.filter((line) => line.level === 'error')).toEqual([]);
  expect(world.store.jobs.find(job)?.deletedAt).toBeNull();
  expect(world.store.jobs.body(job, 1)).toBe(before);
  await world.close();
});
