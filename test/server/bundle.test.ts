/** Where the code on a tag leads. */
import { afterEach, beforeEach, expect, test } from 'vitest';
import { tagCode } from '../../server/paper/qr.ts';
import { digest8, planDigest } from '../../server/planDigest.ts';
import { showBundle } from '../../server/show/planPage.ts';
import type { PlanBundle } from '../../src/plan/plan.ts';
import { trialJobInput, trialPair } from '../plan/trialPlan.ts';
import { textOf } from './paper/readPdf.ts';
import { read as readPaper } from './paper/writePaper.ts';
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

function planTrial(body = JSON.stringify(plan)): number {
  world.planning.ask(job, { effort: 'quick', seed: 1, stops: null }, JSON.stringify(trialJobInput()));
  world.children.at(-1)?.say({ kind: 'plan', plan: body });
  world.children.at(-1)?.end();
  return world.store.plannings.latest(job)?.plan ?? 0;
}

test('a tag that the command made leads to the same plan here, the newest where there are several', async () => {
  planTrial();
  const second = planTrial();
  for (const { bundle } of plan.bundles) {
    const code = tagCode(bundle, 1, DIGEST, { date: DATE, base: BASE });
    expect(code).toContain(`/b/${DIGEST}/`);
    const answer = await world.get(code.slice(BASE.length));
    expect(answer.status).toBe(200);
    const page = await answer.text();
    expect(page).toContain(`<h1>${bundle}</h1>`);
    expect(page).toContain(`/plans/${second}"`);
  }
});

test('the page of a tag says which bundles go in end first', async () => {
  const serial = planTrial();
  const told = async (from: PlanBundle[]) =>
    Promise.all(from.map(async ({ bundle }) => (await world.text(`/b/${serial}/${bundle}`)).includes('in end first')));
  // V1 has an opening of 380 mm; V2 has none.
  const [long, others] = [plan.bundles.filter((own) => own.void === 'V1' && own.size.along > 380), plan.bundles];
  expect(long.length).toBeGreaterThan(0);
  expect(new Set(await told(long))).toEqual(new Set([true]));
  expect(new Set(await told(others.filter((own) => !long.includes(own))))).toEqual(new Set([false]));
});

test('tags of a plan that was planned anew no longer hold: its pages say so at the top, and the new one tells which tags are its own', async () => {
  const first = planTrial();
  const mark = plan.bundles[0]!.bundle;
  const pages = (serial: number) => [`/b/${serial}/${mark}`, `/plans/${serial}`, `/plans/${serial}/weighed`];
  const newer = /Plan \d+<\/a> of this job is newer/;
  planTrial();
  for (const page of pages(first)) expect(await world.text(page)).not.toMatch(newer);

  const other = { ...plan, seed: 7 };
  const last = planTrial(JSON.stringify(other));
  for (const page of pages(first)) {
    const told = await world.text(page);
    expect(told).toContain(
      `<a href="/plans/${last}">Plan ${last}</a> of this job is newer: tags of plan ${first} no longer hold`,
    );
    expect(told.search(newer)).toBeLessThan(told.search(/<h2|<dl/));
  }
  for (const page of pages(last)) expect(await world.text(page)).not.toMatch(newer);
  expect(await world.text(`/plans/${last}/weighed`)).toContain(`says plan <code>${digest8(planDigest(other))}</code>`);
  expect(await world.text(`/plans/${first}/weighed`)).not.toContain('Tags of older plans');
});

test('a tag of a job that was changed since says that it holds only until the job is planned again', async () => {
  const serial = planTrial();
  const page = `/b/${serial}/${plan.bundles[0]!.bundle}`;
  const said = 'The job was changed after this plan was made: once it is planned again';
  const { revision } = world.store.jobs.find(job)!;
  const save = (name: string, at: number) =>
    world.store.jobs.save(job, at, name, JSON.stringify({ ...trialJobInput(), name }), DATE.toISOString());
  save('Changed', revision);
  expect(await world.text(page)).toContain(said);
});

test('what a bundle is lowered by is what its sheet says', async () => {
  const [first, second] = plan.bundles as [PlanBundle, PlanBundle];
  const { becket: _, ...without } = first;
  const long = { ...second, size: { ...second.size, along: 700 } };
  const stated = { ...trialPair().job, bundle: { ...trialPair().job.bundle, becket: { cord: 8, grip: 120 } } };
  const changed = { ...plan, bundles: [without, long, ...plan.bundles.slice(2)] };
  const says = (place: number) => showBundle(stated, changed, changed.bundles[place]!, 1).beckets;
  expect([says(0), says(1), says(2)]).toEqual([0, 2, 1]);
  const sheets = textOf(await readPaper('bundle-sheet.pdf', stated, changed));
  expect(sheets).toContain('becket: none stated');
  expect(sheets).toContain('2 beckets');

  const serial = planTrial(JSON.stringify(changed));
  const page = await (await world.get(`/b/${serial}/${first.bundle}`)).text();
  expect(page).toContain('No becket is stated for it');
  expect(page).not.toContain('Lower it by its becket');
  expect(await (await world.get(`/b/${serial}/${plan.bundles[2]!.bundle}`)).text()).toContain(
    'Lower it by its becket.',
  );
});

test('a tag made here leads to its own plan by serial', async () => {
  const serial = planTrial();
  const { bundle } = plan.bundles[0]!;
  const code = tagCode(bundle, 1, DIGEST, { date: DATE, base: BASE, planSerial: serial });
  expect((await world.get(code.slice(BASE.length))).status).toBe(200);
});

test('a tag whose mark is too long for its code leads there by number', async () => {
  const long = (mark: string) => mark.replace(/^V1/, '木'.repeat(200));
  const named = (text: string) => text.replaceAll(/"V1(?=["-])/g, `"${'木'.repeat(200)}`);
  world.planning.ask(job, { effort: 'quick', seed: 1, stops: null }, named(JSON.stringify(trialJobInput())));
  world.children.at(-1)?.say({ kind: 'plan', plan: named(JSON.stringify(plan)) });
  const serial = world.store.plannings.latest(job)?.plan ?? 0;
  for (const [i, { bundle }] of plan.bundles.entries()) {
    const code = tagCode(long(bundle), i + 1, DIGEST, { date: DATE, base: BASE, planSerial: serial });
    expect(code.length).toBeLessThan(100);
    const answer = await world.get(code.slice(BASE.length));
    expect(answer.status).toBe(200);
    expect(await answer.text()).toContain(`<h1>${long(bundle)}</h1>`);
  }
  for (const none of ['0', String(plan.bundles.length + 1), '99999', '1e1'])
    expect((await world.get(`/b/${serial}/${none}`)).status, none).toBe(404);
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
