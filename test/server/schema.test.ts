/** The formats of the files, printed and served, and linked where a file is taken out. */
import { afterAll, beforeAll, expect, test } from 'vitest';
import { runSchema } from '../../server/commands/schema.ts';
import { trialJobInput, trialPair } from '../plan/trialPlan.ts';
import { Capture } from './capture.ts';
import { openWorld, type World } from './world.ts';

let world: World;
beforeAll(async () => {
  world = await openWorld();
});
afterAll(() => world.close());

test.each(['job', 'plan', 'cutlist'] as const)(
  'the %s file: the command prints what the server gives',
  async (kind) => {
    const out = new Capture();
    expect(runSchema(kind, out)).toBe(0);
    expect(JSON.parse(out.text).properties.format).toMatchObject({ const: `kentledge-${kind}/1` });
    const answer = await world.get(`/schema/${kind}.json`);
    expect(answer.headers.get('content-type')).toContain('application/schema+json');
    expect(await answer.text()).toBe(out.text);
  },
);

test('of a file that is none there is no format', async () => {
  expect((await world.get('/schema/pile.json')).status).toBe(404);
  expect((await world.get('/schema/job')).status).toBe(404);
});

test('the pages of a job and of its plan lead there', async () => {
  const body = JSON.stringify(trialJobInput());
  const id = world.store.jobs.add('Trial', body, '2026-05-04T10:00:00Z');
  world.planning.ask(id, { effort: 'quick', seed: 1, stops: null }, body);
  world.children.at(-1)?.say({ kind: 'plan', plan: JSON.stringify(trialPair().plan) });
  expect(await world.text(`/jobs/${id}`)).toContain('href="/schema/job.json"');
  const page = await world.text(`/plans/${world.store.plannings.latest(id)?.plan}`);
  for (const file of ['job', 'plan']) expect(page).toContain(`href="/schema/${file}.json"`);
});
