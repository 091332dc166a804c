/** What holds a stow is worked out after it is stowed: its plan stays the plan, and tells what holds it now. */
import { afterEach, beforeEach, expect, test } from 'vitest';
import type { JobInput } from '../../src/job/job.ts';
import { trialJobInput, trialPair } from '../plan/trialPlan.ts';
import { readPdf, textOf } from './paper/readPdf.ts';
import { openWorld, type World } from './world.ts';

let world: World;
let id = 0;
let serial = 0;

beforeEach(async () => {
  world = await openWorld();
  const body = JSON.stringify(trialJobInput());
  id = Number((await world.bring(body)).split('/').at(-1));
  world.planning.ask(id, { effort: 'quick', seed: 1, stops: null }, body);
  world.children.at(-1)!.say({ kind: 'plan', plan: JSON.stringify(trialPair().plan) });
  serial = world.store.plannings.latest(id)!.plan!;
});
afterEach(() => world.close());

const CHANGED = 'The job was changed after';

/** The trial with its first void blocked forward by what carries so much, saved. */
function hold(carries: number, more: Partial<JobInput> = {}): void {
  const job = trialJobInput();
  const [first, ...rest] = job.voids;
  const blocked = { forward: { by: 'a stout oak floor', carries } };
  const body = JSON.stringify({ ...job, voids: [{ ...first!, holdDown: { blocked } }, ...rest], ...more });
  world.store.jobs.save(id, world.store.jobs.find(id)!.revision, 'Trial', body, '2026-01-02T00:00:00Z');
}

const sheet = async () => {
  const answer = await world.get(`/plans/${serial}/papers/hold-down.pdf`);
  return textOf(await readPdf(new Uint8Array(await answer.arrayBuffer()))).replaceAll(/\s+/g, ' ');
};

test('where the job was changed in what holds alone, the plan, its tags and its record hold, and its sheets tell it', async () => {
  const [bundle] = trialPair().plan.bundles;
  await world.post(`/plans/${serial}/stowed`, { 'in.0': 'on' });
  expect(await sheet()).not.toContain('a stout oak floor');
  hold(6);
  for (const page of [`/plans/${serial}`, `/plans/${serial}/stowed`, `/b/${serial}/${bundle!.bundle}`, `/jobs/${id}`])
    expect(await world.text(page)).not.toContain(CHANGED.slice(0, 19));
  const page = await world.text(`/plans/${serial}`);
  expect(page).toContain('What holds it down was changed since');
  expect(page).toContain('a stout oak floor');
  expect(page).toContain('What is entered does not carry every assumed load in V1');
  expect(await sheet()).toContain('a stout oak floor');
  // And once more, with no older one kept at hand.
  hold(7);
  expect(await sheet()).toContain('7.00 kN');
});

test('where anything else was changed too, the plan is as it was planned, and says so', async () => {
  hold(6, { saw: { keepFrom: 600 } });
  const page = await world.text(`/plans/${serial}`);
  expect(page).toContain(CHANGED);
  expect(page).not.toContain('What holds it down was changed since');
  expect(page).not.toContain('a stout oak floor');
  expect(await world.text(`/jobs/${id}`)).toContain('The job was changed after it was planned.');
});

test('a hold-down that can not be read keeps nobody from the plan', async () => {
  hold(-1);
  const page = await world.text(`/plans/${serial}`);
  expect(page).toContain(CHANGED);
  expect(page).not.toContain('a stout oak floor');
});
