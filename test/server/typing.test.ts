/** What is told while a job is typed, before anything of it is saved. */
import { afterAll, beforeAll, expect, test } from 'vitest';
import { addDraft } from '../../server/routes/jobs.ts';
import { trialJobInput } from '../plan/trialPlan.ts';
import { openWorld, type World } from './world.ts';

const clock = () => new Date(0);
let world: World;
beforeAll(async () => {
  world = await openWorld();
});
afterAll(() => world.close());

test('while typing below a blank line, each line is told its own: faults, echo, sum and drawing', async () => {
  const id = addDraft({ store: world.store, clock }, trialJobInput() as Record<string, unknown>);
  const lots = (trialJobInput() as { pile: unknown[] }).pile.length;
  const line = (n: number) => `pile[${lots + n}]`;
  const answer = await world.post(`/jobs/${id}/sketch`, {
    revision: '1',
    // The first line is left blank, and the third.
    [`${line(1)}.length`]: 'as measured',
    [`${line(3)}.section.shape`]: 'round',
    [`${line(3)}.section.sizes`]: '20',
    [`${line(3)}.length`]: '2 m',
    focus: `${line(3)}.length`,
  });
  const sketch = (await answer.json()) as Record<string, Record<string, unknown>>;
  expect(Object.keys(sketch.faults!).filter((name) => name.endsWith('.length'))).toEqual([`${line(1)}.length`]);
  expect(sketch.echoes![`${line(3)}.length`]).toBe('= 2000 mm');
  expect(sketch.echoes).not.toHaveProperty([`${line(2)}.length`]);
  expect(sketch.sums![`pile-${lots + 3}`]).toContain('4.93\u00a0kg');
  expect(sketch.sums).not.toHaveProperty(`pile-${lots}`);
  expect(sketch.drawings![`pile-${lots + 3}`]!).toMatchObject({ section: expect.stringContaining('<svg') });
  expect(String(sketch.wanted)).toContain(`<a href="#pile-${lots + 1}-length">Length of a bar</a>`);
});

test('a list that lacks everything says so until something is typed', async () => {
  const id = addDraft({ store: world.store, clock }, { format: 'kentledge-job/1', name: 'New', pile: [], voids: [] });
  const listsOf = async (fields: Record<string, string>) => {
    const answer = await world.post(`/jobs/${id}/sketch`, { revision: '1', focus: '', ...fields });
    return ((await answer.json()) as { lists: Record<string, { message: string }[]> }).lists;
  };
  expect(await world.text(`/jobs/${id}`)).toMatch(/<div data-list="pile"><ul class="faults"/);
  expect((await listsOf({})).pile).toMatchObject([{ message: 'No bars yet.' }]);
  expect((await listsOf({ 'pile[0].length': '2 m' })).pile).toEqual([]);
});
