/** Pages that go by places say where nobody stated the place of what is filled. */
import { afterEach, beforeEach, expect, test } from 'vitest';
import { vessel } from '../balance/knownVessel.ts';
import { keepPlan } from './keepPlan.ts';
import { stackedPair } from './paper/stackedPlan.ts';
import { openWorld, type World } from './world.ts';

let world: World;
beforeEach(async () => {
  world = await openWorld();
});
afterEach(() => world.close());

const pair = stackedPair({ voids: 2, runs: 2, tiers: 2, across: 1 });

/** A plan in the store whose voids lie there along, in metres. */
async function planAt(...along: number[]): Promise<string> {
  const voids = pair.job.voids.map((space, n) => ({ ...space, origin: { x: along[n]!, y: 0, z: 0 } }));
  const job = { ...pair.job, vessel, voids };
  const id = Number((await world.bring(JSON.stringify(job))).split('/').at(-1));
  return `/plans/${keepPlan(world.store, id, job, pair.plan, '2026-05-04T08:00:00Z')}`;
}

test('the plan, the trial, stowed, moves and survey say which void nobody stated the place of, and lead to it', async () => {
  const placed = await planAt(3, 4);
  const without = await planAt(3, 0);
  for (const page of ['', '/trial', '/stowed', '/moves', '/survey']) {
    expect(await world.text(placed + page)).not.toContain('is not stated: it is reckoned');
    const told = await world.text(without + page);
    expect(told.split('<p class="told loud"><strong>Where V2 lies in her is not stated: it is reckoned')).toHaveLength(
      2,
    );
    expect(told).toMatch(/and the order that keeps her upright\.<\/strong> <a href="\/jobs\/2#voids">State it/);
  }
});
