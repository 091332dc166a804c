/** Where the code on a tag leads. */
import { afterEach, beforeEach, expect, test } from 'vitest';
import { tagCode } from '../../server/paper/qr.ts';
import { digest8, planDigest } from '../../server/planDigest.ts';
import { trialJobInput, trialPair } from '../plan/trialPlan.ts';
import { openWorld, type World } from './world.ts';

const { plan } = trialPair();
const DATE = new Date('2026-05-04T10:00:00Z');
const BASE = 'http://127.0.0.1:8017';
const DIGEST = digest8(planDigest(plan));
let world: World;
let job = 0;

beforeEach(async () => {
  world = await openWorld();
  job = world.store.jobs.add('Trial', JSON.stringify(trialJobInput()), DATE.toISOString());
});
afterEach(() => world.close());

function planTrial(): number {
  world.planning.ask(job, { effort: 'quick', seed: 1, stops: null }, JSON.stringify(trialJobInput()));
  world.children.at(-1)?.say({ kind: 'plan', plan: JSON.stringify(plan) });
  world.children.at(-1)?.end();
  return world.store.plannings.latest(job)?.plan ?? 0;
}

test('a tag that the command made leads to the same plan here, the newest where there are several', async () => {
  planTrial();
  const second = planTrial();
  for (const { bundle } of plan.bundles) {
    const code = tagCode(bundle, DIGEST, { date: DATE, base: BASE });
    expect(code).toContain(`/b/${DIGEST}/`);
    const answer = await world.get(code.slice(BASE.length));
    expect(answer.status).toBe(200);
    const page = await answer.text();
    expect(page).toContain(`<h1>${bundle}</h1>`);
    expect(page).toContain(`/plans/${second}"`);
  }
});

test('a tag made here leads to its own plan by serial', async () => {
  const serial = planTrial();
  const { bundle } = plan.bundles[0]!;
  const code = tagCode(bundle, DIGEST, { date: DATE, base: BASE, planSerial: serial });
  expect((await world.get(code.slice(BASE.length))).status).toBe(200);
});

test('a digest that is not kept here, or whose job was deleted, is told with what to do', async () => {
  const { bundle } = plan.bundles[0]!;
  const path = `/b/${DIGEST}/${bundle}`;
  for (const when of ['before', 'deleted']) {
    const answer = await world.get(path);
    expect(answer.status, when).toBe(404);
    expect(await answer.text()).toContain('Bring in the job file that the tags were made from');
    planTrial();
    world.store.jobs.setDeleted(job, DATE.toISOString());
  }
  const other = await world.get('/b/0000000g/V1-01');
  expect(other.status).toBe(404);
});
