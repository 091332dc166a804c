/** A plan under way: what is left of it as a job of its own, and downloads broken off. */
import { afterEach, beforeEach, expect, test } from 'vitest';
import { trialJobInput, trialPair } from '../plan/trialPlan.ts';
import { openWorld, type World } from './world.ts';

let world: World;

beforeEach(async () => {
  world = await openWorld();
});
afterEach(() => world.close());

test('whoever leaves before a paper is all there leaves no defect in the log', async () => {
  const { serial } = await planned();
  const before = world.log.length;
  const answer = await world.get(`/plans/${serial}/papers.zip`);
  await answer.body!.cancel();
  for (let i = 0; i < 100 && world.log.length === before; i++) await new Promise((resolve) => setTimeout(resolve, 10));
  expect(world.log.slice(before).filter(({ what }) => what === 'defect')).toEqual([]);
});

test('what is left once a void is stowed becomes a job of its own', async () => {
  const { id, serial } = await planned();
  expect(await world.text(`/plans/${serial}`)).toContain(`/plans/${serial}/left`);
  expect(await world.text(`/plans/${serial}/left`)).toContain('Take the tags off every bundle that does not stay');
  const none = await world.post(`/plans/${serial}/left`, { cut: 'stowed' });
  expect(none.status).toBe(422);
  const refused = await none.text();
  expect(refused).toContain('No job was made');
  expect(refused).toContain('value="stowed" checked');
  const made = await world.post(`/plans/${serial}/left`, { cut: 'all', 'stowed.0': 'on' });
  expect(made.status).toBe(303);
  const place = made.headers.get('location')!;
  expect(place).not.toContain(`/jobs/${id}?`);
  const page = await world.text(place);
  expect(page).toContain('This is what is left of the work');
  expect(page).toContain('stowed already');
  expect(page).toContain('A cut');
});

/** A job in the store, and the serial of its plan. */
async function planned(): Promise<{ id: number; serial: number }> {
  const body = JSON.stringify(trialJobInput());
  const id = Number((await world.bring(body)).split('/').at(-1));
  world.planning.ask(id, { effort: 'quick', seed: 1, stops: null }, body);
  world.children.at(-1)!.say({ kind: 'plan', plan: JSON.stringify(trialPair().plan) });
  return { id, serial: world.store.plannings.latest(id)!.plan! };
}
