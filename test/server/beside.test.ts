/** Two windows on one job: what was typed in the later is kept beside it, and told apart from it in the words of the page. */
import { afterAll, beforeAll, expect, test } from 'vitest';
import { BOGBEAN, openWorld, type World } from './world.ts';

let world: World;
beforeAll(async () => {
  world = await openWorld();
});
afterAll(() => world.close());

test('where two texts differ is told by lot, void and field as the page calls them', async () => {
  const job = await world.bring(BOGBEAN);
  const { pile, voids } = JSON.parse(BOGBEAN) as { pile: { lot: string }[]; voids: { void: string }[] };
  await world.post(job, { revision: '1', name: 'Saved first' });
  const typed = { 'bundle.limit': '17', 'aims.ballast': '431', 'pile[1].count': '77', 'voids[2].height': '333' };
  await world.post(job, { revision: '1', [`pile[${pile.length}].lot`]: 'NEW', ...typed });
  const page = await world.text(job);
  const wheres = [...page.matchAll(/<th scope="row">([^<]*)<\/th><td data-label="now">/g)].map(([, where]) => where);
  expect(wheres.sort()).toEqual(
    [
      'Name of the job',
      'Lift limit',
      'Ballast wanted',
      `Lot ${pile[1]!.lot}, Bars`,
      'Lot NEW, Lot',
      `Void ${voids[2]!.void}, Height`,
    ].sort(),
  );
});
