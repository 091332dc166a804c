/** A job that holds as many lots and voids as it may: one more is refused in words, and nothing typed is lost. */
import { afterAll, beforeAll, expect, test } from 'vitest';
import { addDraft } from '../../server/routes/jobs.ts';
import { JOB_FORMAT, LOTS_AT_MOST, VOIDS_AT_MOST } from '../../src/job/job.ts';
import { openWorld, type World } from './world.ts';

let world: World;
beforeAll(async () => {
  world = await openWorld();
});
afterAll(() => world.close());

const ROUND = { shape: 'round', diameter: 20 };
const BOX = { length: 500, width: 200, height: 200 };
const lots = (n: number) => Array.from({ length: n }, (_, i) => ({ lot: `L${i}`, section: ROUND, length: 2000 }));
const voids = (n: number) => Array.from({ length: n }, (_, i) => ({ void: `H${i}`, ...BOX }));

test.each([
  ['add voids', 1, VOIDS_AT_MOST, `at most ${VOIDS_AT_MOST} voids: none was added. `, 'voids'],
  ['copy voids[3]', 1, VOIDS_AT_MOST, `at most ${VOIDS_AT_MOST} voids: none was added. `, 'voids'],
  ['copy pile[0]', LOTS_AT_MOST, 1, `at most ${LOTS_AT_MOST} lots: none was added. `, 'pile'],
])(
  '%s of a full job is refused where it would stand, and what was typed is kept',
  async (order, m, n, words, place) => {
    const id = addDraft(context(), { format: JOB_FORMAT, name: 'Full', pile: lots(m), voids: voids(n) });
    const answer = await world.post(`/jobs/${id}`, { revision: '1', 'voids[0].width': '333', do: order });
    const location = answer.headers.get('location') ?? '';
    expect(location.split('#')[1]).toBe(place);
    const page = await world.text(location);
    expect(page).toContain(words);
    const draft = JSON.parse(world.store.jobs.body(id)!);
    expect([draft.pile.length, draft.voids.length, draft.voids[0].width]).toEqual([m, n, 333]);
    expect(await world.text(`/jobs/${id}`)).not.toContain('none was added');
  },
);

test('lines typed below a full pile are kept, and told as too many', async () => {
  const id = addDraft(context(), { format: JOB_FORMAT, name: 'Full', pile: lots(LOTS_AT_MOST), voids: voids(1) });
  await world.post(`/jobs/${id}`, { revision: '1', [`pile[${LOTS_AT_MOST}].length`]: '1234', do: 'save' });
  const page = await world.text(`/jobs/${id}`);
  expect(page).toContain(`A job holds at most ${LOTS_AT_MOST} lots, and this one has more.`);
  expect(page).not.toContain('No bars yet');
  expect(JSON.parse(world.store.jobs.body(id)!).pile.at(-1)).toMatchObject({ length: 1234 });
});

function context() {
  return { store: world.store, clock: () => new Date(0) };
}
