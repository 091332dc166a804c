/** A job of many lots and voids, shown page by page: what is wrong on another page is told, and led to. */
import { afterAll, beforeAll, expect, test } from 'vitest';
import { addDraft } from '../../server/routes/jobs.ts';
import { LOTS_SHOWN, VOIDS_SHOWN } from '../../server/show/jobPage.ts';
import { JOB_FORMAT } from '../../src/job/job.ts';
import { trialPair } from '../plan/trialPlan.ts';
import { bringPlanned } from './keepPlan.ts';
import { openWorld, type World } from './world.ts';

let world: World;
let id = 0;
const ROUND = { shape: 'round', diameter: 20 };
const BOX = { length: 500, width: 200, height: 200 };

beforeAll(async () => {
  world = await openWorld();
  const pile = Array.from({ length: LOTS_SHOWN + 5 }, (_, n) => ({ lot: `L${n + 1}`, section: ROUND, length: 2000 }));
  const voids = Array.from({ length: 2 * VOIDS_SHOWN + 1 }, (_, n) => ({ void: `H${n + 1}`, ...BOX }));
  const { width: _, ...narrow } = BOX;
  voids[VOIDS_SHOWN + 2] = { void: 'Lacking', ...narrow } as (typeof voids)[0];
  pile[LOTS_SHOWN + 1] = { lot: 'Long', section: ROUND, length: 'as measured' as unknown as number };
  const context = { store: world.store, clock: () => new Date(0) };
  id = addDraft(context, { format: JOB_FORMAT, name: 'Many', pile, voids });
});
afterAll(() => world.close());

const LACKING = `voids-${VOIDS_SHOWN + 2}-width`;
const LONG = `pile-${LOTS_SHOWN + 1}-length`;
/** What is told before it can be planned, without what stands in the form. */
const told = (page: string) => page.slice(page.indexOf('data-wanted'), page.indexOf('id="job-form"'));

test('a fault on another page is told by the label of its field, in the words of the page, and its link leads there', async () => {
  const page = told(await world.text(`/jobs/${id}`));
  expect(page).toContain('<strong>Void Lacking</strong> <span class="lacks">fill in ');
  expect(page).toContain(`<a href="?void=2#${LACKING}">Width</a>`);
  expect(page).toContain(`<a href="?lot=2#${LONG}">Length of a bar</a>: “as measured” can not be read here.`);
  expect(await world.text(`/jobs/${id}?void=2`)).toContain(`id="${LACKING}"`);
  // On its own page the field itself is gone to.
  expect(told(await world.text(`/jobs/${id}?void=2&lot=2`))).toContain(`<a href="#${LACKING}">Width</a>`);
});

test('empty lines below the last lot are told apart', async () => {
  const page = await world.text(`/jobs/${id}?lot=2&lines=5`);
  const headings = [...page.matchAll(/<legend>([^<]*ot[^<]*)<\/legend>/g)].map(([, heading]) => heading);
  expect(headings.slice(-6)).toEqual([
    `Lot L${LOTS_SHOWN + 5}`,
    'New lot',
    ...[2, 3, 4, 5].map((number) => `New lot ${number}`),
  ]);
});

test('while typing it is told alike', async () => {
  const answer = await world.post(`/jobs/${id}/sketch`, {
    revision: '1',
    'page.void': '2',
    'page.lot': '1',
    focus: '',
  });
  const { wanted } = (await answer.json()) as { wanted: string };
  expect(wanted).toContain(`<a href="#${LACKING}">Width</a>`);
  expect(wanted).toContain(`<a href="?void=2&amp;lot=2#${LONG}">Length of a bar</a>`);
});

test('a plan refused leaves one on the page one was on', async () => {
  const refused = await world.post(`/jobs/${id}`, { revision: '1', 'page.void': '2', 'page.lot': '2', do: 'plan' });
  expect(refused.status).toBe(422);
  const page = await refused.text();
  expect(page).toContain(`id="${LACKING}"`);
  expect(page).toContain(`id="${LONG}"`);
});

test('who turns a page of one list stays where they were in the other, and nothing typed is lost', async () => {
  const context = { store: world.store, clock: () => new Date(0) };
  const own = addDraft(context, JSON.parse(world.store.jobs.body(id)!));
  const here = { revision: '1', 'page.lot': '1', 'page.void': '3' };
  const turned = await world.post(`/jobs/${own}`, { ...here, 'pile[0].note': 'Typed', do: 'turn lot 2' });
  expect(turned.headers.get('location')).toBe(`/jobs/${own}?saved=1&lot=2&void=3#pile`);
  expect(JSON.parse(world.store.jobs.body(own)!).pile[0].note).toBe('Typed');
  const back = await world.post(`/jobs/${own}`, {
    revision: '2',
    'page.lot': '2',
    'page.void': '3',
    do: 'turn void 1',
  });
  expect(back.headers.get('location')).toBe(`/jobs/${own}?saved=1&lot=2&void=1#voids`);
  const page = await world.text(`/jobs/${own}?lot=2&void=3`);
  expect(page).toMatch(/value="turn lot 2" aria-current="page"/);
  expect(page).toMatch(/value="turn void 3" aria-current="page"/);
  // What is to be mended on another page of the voids leaves the lots where they are.
  expect(told(page)).toContain(`<a href="?lot=2&amp;void=2#${LACKING}">Width</a>`);
});

test('a page beside the job is gone to with what was typed saved', async () => {
  const context = { store: world.store, clock: () => new Date(0) };
  const own = addDraft(context, JSON.parse(world.store.jobs.body(id)!));
  const typed = { revision: '1', 'voids[3].name': 'Under the stove' };
  const left = await world.post(`/jobs/${own}`, { ...typed, do: 'leave hold 4' });
  expect(left.headers.get('location')).toBe(`/jobs/${own}/hold?void=4&saved=1`);
  expect(await world.text(`/jobs/${own}/hold?void=4&saved=1`)).toContain('H4 · Under the stove');
  for (const page of ['afloat', 'lift']) {
    const next = await world.post(`/jobs/${own}`, { revision: '2', do: `leave ${page}` });
    expect(next.headers.get('location')).toBe(`/jobs/${own}/${page}?saved=1`);
    expect(await world.text(`/jobs/${own}/${page}?saved=1`)).toContain('Saved.');
  }
  // From an older page: the text is kept beside, and that is shown.
  const late = await world.post(`/jobs/${own}`, { revision: '1', 'voids[3].name': 'Elsewhere', do: 'leave lift' });
  expect(late.headers.get('location')).toMatch(/#beside-\d+$/);
  const other = await world.post(`/jobs/${own}`, { revision: '2', do: 'leave papers' });
  expect(other.headers.get('location')).toBe(`/jobs/${own}?saved=1`);
});

test('a page past the end is the last one', async () => {
  expect(await world.text(`/jobs/${id}?void=9`)).toContain(`id="voids-${2 * VOIDS_SHOWN}"`);
});

test('a page of bars past the end is the last one', async () => {
  const { job, plan } = trialPair();
  const { serial } = await bringPlanned(world, job, plan);
  expect(await world.text(`/plans/${serial}?bar=99999`)).toContain(plan.bars.at(-1)!.bar);
  const bars = (page: string) => page.slice(page.indexOf('id="bars"'));
  expect(bars(await world.text(`/plans/${serial}?bar=99999`))).toBe(bars(await world.text(`/plans/${serial}`)));
});

test('the name of a job is as long as a name may be, and has nothing that is never printed', async () => {
  const made = await world.post('/jobs', { name: `A\u0000\n${'x'.repeat(5000)}` });
  const own = Number(/\d+/.exec(made.headers.get('location')!)![0]);
  expect(world.store.jobs.find(own)!.name).toBe(`A ${'x'.repeat(197)}`);
  expect(JSON.parse(world.store.jobs.body(own)!).name).toHaveLength(199);
  const brought = {
    format: JOB_FORMAT,
    name: `B\ud800${'\u0007'}C${'x'.repeat(5000)}\ud83d\ude00`,
    pile: [],
    voids: [],
  };
  const path = await world.bring(JSON.stringify(brought));
  expect(world.store.jobs.find(Number(path.split('/').at(-1)))!.name).toBe(`B C${'x'.repeat(196)}`);
});

test('who asks twice for the same plan is told nothing of an older one; who asks for another is', async () => {
  const context = { store: world.store, clock: () => new Date(0) };
  const pile = [{ lot: 'A', section: ROUND, length: 2000 }];
  const own = addDraft(context, { format: JOB_FORMAT, name: 'Asked', pile, voids: [{ void: 'H1', ...BOX }] });
  const ask = async (fields: Record<string, string>) =>
    (await world.post(`/jobs/${own}`, { revision: '1', do: 'plan', ...fields })).headers.get('location');
  const page = `/jobs/${own}/planning`;
  expect(await ask({})).toBe(page);
  expect(await ask({})).toBe(page);
  expect(await ask({ 'wish.effort': 'thorough' })).toBe(`${page}?already=1`);
  expect(await ask({ 'voids[0].width': '210' })).toBe(`${page}?already=1`);
  world.planning.stop(own);
});

test('a page that was overtaken, and on which nothing was typed, leaves nothing beside: it shows how things stand', async () => {
  const context = { store: world.store, clock: () => new Date(0) };
  const own = addDraft(context, { format: JOB_FORMAT, name: 'Twice', pile: [], voids: [{ void: 'H1', ...BOX }] });
  const shown = { revision: '1', 'voids[0].length': '500', 'voids[0].width': '200' };
  await world.post(`/jobs/${own}`, { ...shown, do: 'add voids' });
  for (const order of ['add voids', 'remove voids[0]', 'save', 'plan']) {
    const answer = await world.post(`/jobs/${own}`, { ...shown, do: order });
    const page = await world.text(answer.headers.get('location') ?? '');
    expect(page).toContain('This job was changed in the meantime.');
    expect(JSON.parse(world.store.jobs.body(own)!).voids).toHaveLength(2);
  }
  expect(world.store.jobs.beside(own)).toEqual([]);
  expect(world.planning.progress(own)).toBeNull();
  // What was typed there is never lost.
  await world.post(`/jobs/${own}`, { ...shown, 'voids[0].width': '210', do: 'save' });
  expect(world.store.jobs.beside(own)).toHaveLength(1);
});

test('how a plan was last looked for stands chosen when the next one is asked for', async () => {
  const context = { store: world.store, clock: () => new Date(0) };
  const pile = [{ lot: 'A', section: ROUND, length: 2000 }];
  const own = addDraft(context, { format: JOB_FORMAT, name: 'Wished', pile, voids: [{ void: 'H1', ...BOX }] });
  const chosen = async () => {
    const page = (await world.text(`/jobs/${own}`)).split('id="wish-effort"')[1] ?? '';
    return [...page.matchAll(/<option value="([^"]*)" selected>/g)].map(([, value]) => value);
  };
  expect(await chosen()).toEqual(['steady', '']);
  await world.post(`/jobs/${own}`, { revision: '1', do: 'plan', 'wish.effort': 'quick', 'wish.stops': 'free' });
  expect(await chosen()).toEqual(['quick', 'free']);
  world.planning.stop(own);
  await world.post(`/jobs/${own}`, { revision: '1', do: 'plan', 'wish.effort': 'thorough', 'wish.stops': '12' });
  expect(await chosen()).toEqual(['thorough', '12']);
  expect(await world.text(`/jobs/${own}`)).toContain('12 at most, as chosen last');
  world.planning.stop(own);
  const refused = { revision: '1', do: 'plan', 'wish.effort': 'quick', 'wish.stops': '', 'voids[0].width': 'wide' };
  const answer = await world.post(`/jobs/${own}`, refused);
  expect(answer.status).toBe(422);
  expect(await answer.text()).toContain('<option value="quick" selected>');
});

test('what was chosen of the next plan is kept by “Save”, and gives way to “Stops at most” typed after it', async () => {
  const context = { store: world.store, clock: () => new Date(0) };
  const own = addDraft(context, { format: JOB_FORMAT, name: 'Chosen', pile: [], voids: [] });
  const page = () => world.text(`/jobs/${own}`);
  const chosen = async () => {
    const selects = (await page()).split('id="wish-effort"')[1] ?? '';
    return [...selects.matchAll(/<option value="([^"]*)" selected>/g)].map(([, value]) => value);
  };
  const one = { 'wish.effort': 'thorough', 'wish.stops': '1' };
  await world.post(`/jobs/${own}`, { revision: '1', do: 'save', 'wish.effort': 'thorough', 'wish.stops': 'free' });
  expect(await chosen()).toEqual(['thorough', 'free']);
  // The number stands chosen, and the aims get one beside it: the newer counts, and that is told while it is typed.
  await world.post(`/jobs/${own}`, { revision: '1', do: 'save', ...one });
  const typed = { revision: '1', 'aims.stopsAtMost': '2', ...one };
  const answer = await world.post(`/jobs/${own}/sketch`, typed);
  const sketch = (await answer.json()) as { doubts: Record<string, string> };
  expect(sketch.doubts['wish.stops']).toContain('it counts, and no longer 1 as chosen last');
  await world.post(`/jobs/${own}`, { ...typed, do: 'save' });
  expect(await chosen()).toEqual(['thorough', '']);
  expect(await page()).toContain('“Stops at most” under Aims says 2: no more in any case.');
  // Chosen after that it stands, and both are told.
  await world.post(`/jobs/${own}`, { revision: '2', do: 'save', 'aims.stopsAtMost': '2', ...one });
  expect(await chosen()).toEqual(['thorough', '1']);
  expect(await page()).toContain('“Stops at most” under Aims says 2, and 1 is chosen here: the fewer counts.');
});
