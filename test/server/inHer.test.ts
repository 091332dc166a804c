/** Where something lies in her by a plan of a job, neither is all of it planned anew nor the job deleted unasked. */
import { afterEach, beforeEach, expect, test } from 'vitest';
import { recordPlan } from '../../server/planning/record.ts';
import { trialPair } from '../plan/trialPlan.ts';
import { bringPlanned } from './keepPlan.ts';
import { openWorld, type World } from './world.ts';

let world: World;
beforeEach(async () => {
  world = await openWorld();
});
afterEach(() => world.close());

/** A job with a plan, and its serial. */
function planned(): Promise<{ id: number; serial: number }> {
  const { job, plan } = trialPair();
  return bringPlanned(world, job, plan);
}

const goesTo = (answer: Response) => answer.headers.get('location');

test('a plan of the whole is made only where that is ticked, by either button; what was typed is saved', async () => {
  const { id, serial } = await planned();
  const post = (fields: Record<string, string>) =>
    world.post(`/jobs/${id}`, { revision: String(world.store.jobs.find(id)!.revision), do: 'plan', ...fields });
  expect(await world.text(`/jobs/${id}`)).not.toContain('name="anew"');
  await world.post(`/plans/${serial}/stowed`, { 'in.0': 'on' });
  const stays = `/jobs/${id}?saved=1&stays=1#plan`;
  expect(goesTo(await post({ name: 'Renamed' }))).toBe(stays);
  expect(world.store.jobs.find(id)!.name).toBe('Renamed');
  expect(world.store.plannings.latest(id)).toBeNull();
  const page = await world.text(stays);
  expect(page).toMatch(/Saved, and not planned\.[\s\S]*plan \d+<\/a> 1 bundle\s+lies in her/);
  expect(page).toContain(`<a href="/plans/${serial}/left">plan what is left</a> instead`);
  expect(goesTo(await world.post(`/plans/${serial}/stops/1`, {}))).toBe(`/jobs/${id}?stays=1#plan`);
  expect(world.store.plannings.latest(id)).toBeNull();
  expect(goesTo(await post({ anew: 'on' }))).toBe(`/jobs/${id}/planning`);
  expect(world.store.plannings.latest(id)).not.toBeNull();
});

test('a job is deleted with its record only once that is confirmed, and the list says what lies in her', async () => {
  const { id, serial } = await planned();
  await world.post(`/plans/${serial}/stowed`, { 'in.0': 'on', 'in.1': 'on' });
  expect(await world.text('/')).toMatch(
    new RegExp(`/plans/${serial}/stowed">plan ${serial}</a> 2 bundles\\s+lie in her`),
  );
  expect(goesTo(await world.post(`/jobs/${id}/delete`, {}))).toBe(`/jobs/${id}?goes=1#more`);
  expect(world.store.jobs.find(id)!.deletedAt).toBeNull();
  expect(await world.text(`/jobs/${id}?goes=1`)).toContain('Nothing was deleted.');
  await world.post(`/jobs/${id}/delete`, { do: 'all the same' });
  expect(world.store.jobs.find(id)!.deletedAt).not.toBeNull();
});

test('a job of which nothing lies in her is deleted at once', async () => {
  const { id, serial } = await planned();
  await world.post(`/plans/${serial}/stowed`, { 'in.0': 'on' });
  await world.post(`/plans/${serial}/stowed`, { 'was.0': 'on' });
  expect(goesTo(await world.post(`/jobs/${id}/delete`, {}))).toBe('/#deleted');
});

const MADE = '2026-05-04T08:00:00Z';

/** The serial of a plan of what is left of a plan, its bars all cut. */
async function rested(serial: number): Promise<number> {
  const made = await world.post(`/plans/${serial}/left`, { cut: 'all' });
  const id = Number(/\/jobs\/(\d+)/.exec(made.headers.get('location')!)![1]);
  const text = JSON.stringify({ ...trialPair().plan, seed: 9 });
  return recordPlan(world.store, { job: id, body: world.store.jobs.body(id)! }, text, null, false, MADE);
}

test('of two rests of one plan that counts by which bundles lie in her; the other is warned of, and planned only once asked', async () => {
  const { serial } = await planned();
  const first = await rested(serial);
  const { job: jobA } = world.store.plans.find(first)!;
  await world.post(`/plans/${first}/stowed`, { 'in.0': 'on' });
  const inHer = async () => /<dt>In her now[\s\S]*?<\/dd>/.exec(await world.text(`/plans/${serial}/stowed`))?.[0];
  const before = await inHer();
  expect(before).toContain(`/plans/${first}/`);
  const second = await rested(serial);
  const { job: jobB } = world.store.plans.find(second)!;
  expect(await inHer()).toBe(before);
  const page = await world.text(`/plans/${serial}`);
  expect(page).toContain(`is planned anew in <a href="/jobs/${jobA}">`);
  expect(page).toContain(`It is planned in <a href="/jobs/${jobB}">another job</a>, too.`);
  expect(await world.text(`/plans/${second}`)).toContain(
    `<a href="/jobs/${jobA}">another job</a>, too, and bundles lie in her by that.`,
  );
  const asked = await world.post(`/jobs/${jobB}`, { revision: '1', do: 'plan' });
  expect(asked.headers.get('location')).toBe(`/jobs/${jobB}?saved=1&stays=1#plan`);
  expect(await world.text(`/jobs/${jobB}?saved=1&stays=1`)).toContain(`/plans/${first}/left">plan what is left</a>`);
  // What lies in her by the one is no hindrance to deleting the other.
  await world.post(`/jobs/${jobB}/delete`, {});
  expect(world.store.jobs.find(jobB)?.deletedAt).not.toBeNull();
});

test('the plan of a rest leads to no page of a job that was deleted, and says how to get there', async () => {
  const { id, serial } = await planned();
  await world.post(`/plans/${serial}/stowed`, { 'in.0': 'on' });
  const rest = await rested(serial);
  expect(await world.text(`/plans/${rest}`)).toContain(`href="/plans/${serial}/stowed"`);
  world.store.jobs.setDeleted(id, MADE);
  const page = await world.text(`/plans/${rest}`);
  expect(page).not.toContain(`href="/plans/${serial}`);
  expect(page).toContain(`what was left of plan ${serial}. The job of that was deleted`);
});
