import { request as rawRequest } from 'node:http';
import { afterEach, beforeEach, expect, test } from 'vitest';
import { addDraft, demonstration } from '../../server/routes/jobs.ts';
import { kilograms } from '../../server/words.ts';
import { bundleMassOf } from '../../src/plan/totals.ts';
import { trialJobInput, trialPair } from '../plan/trialPlan.ts';
import { openWorld, plainSpaces, type World } from './world.ts';

const clock = (): Date => new Date('2026-05-04T10:00:00Z');
let world: World;

beforeEach(async () => {
  world = await openWorld();
});
afterEach(() => world.close());

test('a new job is made, typed, saved and planned; its plan, papers and bundles are there', async () => {
  const made = await world.post('/jobs', { name: 'Trial' });
  expect(made.status).toBe(303);
  const page = made.headers.get('location') as string;
  await world.post(page, {
    revision: '1',
    'pile[0].section.shape': 'square',
    'pile[0].section.sizes': '20',
    'pile[0].length': '3 m',
    'pile[0].count': '6',
    'voids[0].length': '1000',
    'voids[0].width': '260',
    'voids[0].height': '150',
  });
  const asked = await world.post(page, { revision: '2', do: 'plan' });
  expect(asked.headers.get('location')).toBe(`${page}/planning`);
  expect(JSON.parse(world.children[0]?.order.body ?? '')).toMatchObject({
    pile: [{ lot: 'A', length: 3000, count: 6 }],
  });
  const serial = planTrial();
  const shown = await text(`/plans/${serial}`);
  expect(shown).toContain('NOT SECURED, DO NOT GO TO SEA');
  const { plan } = trialPair();
  expect(shown).toContain(`<dt>Steel placed</dt><dd>${kilograms(plan.totals.placedMass)}</dd>`);
  expect(shown).toContain(`<dt>Bundles with their bands</dt><dd>${kilograms(bundleMassOf(plan))}</dd>`);
  const bundle = plan.bundles[0]?.bundle ?? '';
  expect(await text(`/b/${serial}/${bundle}`)).toContain(bundle);
  for (const paper of ['saw-sheet.pdf', 'tags.pdf', 'stowage.pdf']) {
    const response = await world.get(`/plans/${serial}/papers/${paper}`);
    expect(response.headers.get('content-type')).toBe('application/pdf');
    const start = Buffer.from(await response.arrayBuffer()).subarray(0, 5);
    expect(start.toString()).toBe('%PDF-');
  }
  expect(await (await world.get(`/plans/${serial}/plan.json`)).json()).toEqual(trialPair().plan);
});

test('that no bundle can be placed is told of the job as it stood, in the words of the page', async () => {
  const id = addDraft({ store: world.store, clock }, demonstration());
  await world.post(`/jobs/${id}`, { revision: '1', do: 'plan' });
  const remedy = 'Lessen clear.ends, or allow shorter pieces (saw.shortestPiece).';
  world.children[0]?.say({ kind: 'nothing', reasons: [{ void: 'V1', why: 'Too short', remedy }] });
  const page = await text(`/jobs/${id}`);
  expect(page).toContain('<strong>No bundle can be placed.</strong>');
  expect(page).not.toContain('Nothing is missing: it can be planned.');
  expect(page).toContain('V1: Too short. Lessen “Clear at the ends”, or allow shorter pieces (“Shortest piece”).');
  expect(await text(`/jobs/${id}/planning`)).not.toContain('The job was changed since');
  // Saved untouched it is the same job.
  const shown = (of: string): string => / name="revision" value="(\d+)"/.exec(of)?.[1] ?? '';
  await world.post(`/jobs/${id}`, { revision: shown(page), do: 'save' });
  const untouched = await text(`/jobs/${id}`);
  expect(untouched).toContain('No bundle can be placed.');
  await world.post(`/jobs/${id}`, { revision: shown(untouched), do: 'save', 'saw.shortestPiece': '120' });
  const mended = await text(`/jobs/${id}`);
  expect(mended).toContain('Nothing is missing: it can be planned.');
  expect(mended).not.toContain('No bundle can be placed.');
  expect(mended).toContain('Before the job was changed, no bundle could be placed:');
  expect(await text(`/jobs/${id}/planning`)).toContain('The job was changed since');
});

test('a job with forty faults keeps all that was typed, and is not planned', async () => {
  const id = addDraft({ store: world.store, clock }, demonstration());
  const typed: Record<string, string> = {};
  for (let n = 0; n < 7; n++)
    for (const field of ['length', 'count', 'bow', 'squaring']) typed[`pile[${n}].${field}`] = `wrong ${field} ${n}`;
  for (let n = 0; n < 8; n++)
    for (const field of ['width', 'height']) typed[`voids[${n}].${field}`] = `wrong ${field} ${n}`;
  const refused = await world.post(`/jobs/${id}`, { ...typed, revision: '1', do: 'plan' });
  expect(refused.status).toBe(422);
  const page = await refused.text();
  for (const value of Object.values(typed)) expect(page).toContain(`value="${value}"`);
  expect(Number(/the job still has (\d+) faults/.exec(page)?.[1])).toBeGreaterThanOrEqual(40);
  expect(world.children).toHaveLength(0);
  const file = (await (await world.get(`/jobs/${id}/job.json`)).json()) as { pile: { length: unknown }[] };
  expect(file.pile[3]?.length).toBe('wrong length 3');
});

test('of two windows on one job the second is told, and both texts are kept', async () => {
  const id = addDraft({ store: world.store, clock }, trialJobInput() as Record<string, unknown>);
  await world.post(`/jobs/${id}`, { revision: '1', name: 'From the first window' });
  const second = await world.post(`/jobs/${id}`, { revision: '1', name: 'From the second window' });
  const page = await text(second.headers.get('location')?.split('#')[0] ?? '');
  expect(page).toContain('This job was changed in another window');
  expect(page).toContain('From the first window');
  expect(page).toContain('From the second window');
});

test('deleting can be undone, with the plans', async () => {
  const id = addDraft({ store: world.store, clock }, trialJobInput() as Record<string, unknown>);
  const serial = planTrial(id);
  await world.post(`/jobs/${id}/delete`);
  expect((await world.get(`/jobs/${id}`)).status).toBe(404);
  expect((await world.get(`/plans/${serial}`)).status).toBe(404);
  await world.post(`/jobs/${id}/restore`);
  expect((await world.get(`/plans/${serial}`)).status).toBe(200);
});

test('a job taken out and brought in again is the same job', async () => {
  const id = addDraft({ store: world.store, clock }, demonstration());
  const file = await text(`/jobs/${id}/job.json`);
  const brought = await bring(file, 'job.json');
  const other = brought.headers.get('location') as string;
  expect(await text(`${other}/job.json`)).toBe(file);
});

test('a file that is no job is refused in words', async () => {
  for (const wrong of [
    '{ "name": ',
    '[1, 2]',
    'null',
    '{"format":"kentledge-job/2"}',
    `${'['.repeat(500)}${']'.repeat(500)}`,
  ]) {
    const response = await bring(wrong, 'job.json');
    expect(response.status).toBe(422);
    expect(await response.text()).toContain('The file was not taken in');
  }
});

test('a job changed after planning says so on its plan', async () => {
  const id = addDraft({ store: world.store, clock }, trialJobInput() as Record<string, unknown>);
  const serial = planTrial(id);
  await world.post(`/jobs/${id}`, { revision: '1', name: 'Changed' });
  expect(await text(`/plans/${serial}`)).toContain('The job was changed after this plan was made');
});

test('a long job is shown page by page, and a new row on the page that it is on', async () => {
  const input = trialJobInput();
  const voids = Array.from({ length: 45 }, (_, n) => ({ ...input.voids[0], void: `V${n + 1}` }));
  const id = addDraft({ store: world.store, clock }, { ...input, voids } as Record<string, unknown>);
  const second = await text(`/jobs/${id}?void=2`);
  expect(second).toContain('name="voids[20].length"');
  expect(second).not.toContain('name="voids[0].length"');
  const saved = await world.post(`/jobs/${id}`, {
    revision: '1',
    'page.void': '2',
    'voids[21].length': '777',
    do: 'save',
  });
  expect(saved.headers.get('location')).toBe(`/jobs/${id}?saved=1&void=2`);
  const added = await world.post(`/jobs/${id}`, { revision: '2', 'page.void': '2', do: 'add voids' });
  expect(added.headers.get('location')).toBe(`/jobs/${id}?saved=1&void=4#voids-45`);
  const file = (await (await world.get(`/jobs/${id}/job.json`)).json()) as {
    voids: { void: string; length: number }[];
  };
  expect([file.voids[0]?.length, file.voids[21]?.length, file.voids[45]?.void]).toEqual([1000, 777, 'V46']);
});

test('while typing, sums, echoes, faults and the drawing in hand follow, and nothing is saved', async () => {
  const id = addDraft({ store: world.store, clock }, trialJobInput() as Record<string, unknown>);
  const sketch = async (fields: Record<string, string>): Promise<Record<string, Record<string, unknown>>> =>
    (await (await world.post(`/jobs/${id}/sketch`, { revision: '1', ...fields })).json()) as Record<
      string,
      Record<string, unknown>
    >;
  const lot = await sketch({ 'pile[0].length': `10' 0"`, 'saw.kerf': 'wide', focus: 'pile[0].length' });
  expect(lot.echoes).toMatchObject({
    'pile[0].length': '= 3048 mm',
    'saw.kerf': expect.stringContaining('Not read'),
  });
  expect(lot.faults).toHaveProperty(['saw.kerf']);
  expect(lot.drawings?.['pile-0']).toMatchObject({
    section: expect.stringContaining('<svg'),
    bar: expect.stringContaining('<svg'),
  });
  const space = await sketch({ 'voids[0].width': '333', focus: 'voids[0].width' });
  expect(space.voids?.['voids-0']).toMatchObject({
    views: { aft: { svg: expect.stringContaining('333'), x: '+across', y: '-up' } },
    places: { 'keepOut[0]': { along: [560, 600] } },
  });
  expect(space.wanted).toContain('can be planned');
  expect(space.sums?.['pile-1']).toContain('kg/m as weighed');
  expect(world.store.jobs.find(id)?.revision).toBe(1);
});

test('a drawing of a void that did not come with the page is there to be looked at', async () => {
  const id = addDraft({ store: world.store, clock }, demonstration());
  const page = await text(`/jobs/${id}`);
  const pictures = [...page.matchAll(/src="(\/jobs\/\d+\/voids\/1\/\w+\.svg)/g)].map(([, path]) => path as string);
  expect(pictures.map((path) => path.split('/').at(-1))).toEqual(['lift.svg', 'port.svg', 'above.svg', 'solid.svg']);
  for (const path of pictures) {
    const response = await world.get(path);
    expect(response.headers.get('content-type')).toContain('image/svg+xml');
    expect(await response.text()).toMatch(/^<svg /);
  }
  for (const path of ['voids/99/port.svg', 'voids/1/inside.svg', 'voids/0/port.svg', 'voids/1/toString.svg'])
    expect((await world.get(`/jobs/${id}/${path}`)).status).toBe(404);
});

test('two plans stand side by side, and every file of a plan is there', async () => {
  const id = addDraft({ store: world.store, clock }, trialJobInput() as Record<string, unknown>);
  const [one, other] = [planTrial(id), planTrial(id)];
  expect(await text(`/plans/${other}/beside/${one}`)).toContain(`Plans ${one} and ${other}`);
  const zip = Buffer.from(await (await world.get(`/plans/${one}/papers.zip`)).arrayBuffer());
  expect(zip.subarray(0, 2).toString()).toBe('PK');
  const page = await text(`/plans/${one}`);
  for (const [, address] of page.matchAll(/href="(\/plans\/\d+\/(?:papers|tables)\/[^"]+)"/g)) {
    expect((await world.get(address as string)).status, address).toBe(200);
  }
});

test('another number of stops is planned from the plan that it was chosen on', async () => {
  const id = addDraft({ store: world.store, clock }, trialJobInput() as Record<string, unknown>);
  const serial = planTrial(id);
  await world.post(`/plans/${serial}/stops/2`);
  expect(world.children.at(-1)?.order).toMatchObject({ body: JSON.stringify(trialJobInput()), wish: { stops: 2 } });
  expect(await text(`/jobs/${id}`)).toContain('2 at most, as chosen last');
  const again = await world.post(`/plans/${serial}/stops/3`);
  expect(await text(again.headers.get('location') ?? '')).toContain('This one was begun before');
  expect(world.children).toHaveLength(2);
});

test('files taken out are named after the job, however long its name, and keep the end that tells what they are', async () => {
  const name = `Schöner Name einer Ψ-Yacht, ${'sehr '.repeat(30)}lang`;
  const id = addDraft({ store: world.store, clock }, { ...trialJobInput(), name } as Record<string, unknown>);
  const serial = planTrial(id);
  const nameOf = async (path: string) =>
    /filename="?([^"]+)"?$/.exec((await world.get(path)).headers.get('content-disposition') ?? '')?.[1];
  for (const [path, end] of [
    [`/jobs/${id}/job.json`, '.job.json'],
    [`/plans/${serial}/plan.json`, `.plan-${serial}.json`],
    [`/plans/${serial}/job.json`, '.job.json'],
    [`/plans/${serial}/tables/bundles.csv`, `-${serial}-bundles.csv`],
    [`/plans/${serial}/papers/tags.pdf`, `-${serial}-tags.pdf`],
  ] as const) {
    const told = (await nameOf(path)) ?? '';
    expect(told).toMatch(/^Schoner-Name-einer-Yacht-sehr-/);
    expect(told.endsWith(end)).toBe(true);
    expect(told.length).toBeLessThan(110);
  }
});

test('markup in names is text on every page', async () => {
  const name = `<script>alert(1)</script>"'&`;
  const draft = { ...trialJobInput(), name, voids: trialJobInput().voids.map((space) => ({ ...space, name })) };
  const id = addDraft({ store: world.store, clock }, draft as Record<string, unknown>);
  const serial = planTrial(id);
  for (const path of ['/', `/jobs/${id}`, `/plans/${serial}`, `/b/${serial}/${trialPair().plan.bundles[0]?.bundle}`]) {
    const page = await text(path);
    expect(page).not.toContain('<script>alert');
    expect(page).toContain('&lt;script&gt;alert');
  }
});

test('pages forbid inline script and style, and hold none', async () => {
  const id = addDraft({ store: world.store, clock }, demonstration());
  const response = await world.get(`/jobs/${id}`);
  const policy = response.headers.get('content-security-policy') ?? '';
  expect(policy).toContain("script-src 'self'");
  expect(policy).not.toContain('unsafe');
  expect(await response.text()).not.toMatch(/ style="|<style|<script(?![^>]* src=)|\son\w+="/);
});

test('a form without the token, or from elsewhere, changes nothing', async () => {
  const id = addDraft({ store: world.store, clock }, trialJobInput() as Record<string, unknown>);
  const attempts: [Record<string, string>, Record<string, string>][] = [
    [{ token: '' }, {}],
    [{ token: 'wrong' }, {}],
    [{}, { origin: 'http://elsewhere.example' }],
    [{}, { 'sec-fetch-site': 'cross-site' }],
  ];
  for (const [fields, headers] of attempts) {
    expect((await world.post(`/jobs/${id}/delete`, fields, { headers })).status).toBe(403);
  }
  expect((await world.get(`/jobs/${id}`)).status).toBe(200);
});

test('under another host name nothing is answered', async () => {
  expect(await statusUnder('elsewhere.example')).toBe(421);
  expect(await statusUnder('127.0.0.1.elsewhere.example')).toBe(421);
  expect(await statusUnder(`localhost:${new URL(world.address).port}`)).toBe(200);
});

test('the log tells routes and times and nothing of what is in a job', async () => {
  const id = addDraft({ store: world.store, clock }, { ...trialJobInput(), name: 'Secret name' } as Record<
    string,
    unknown
  >);
  const serial = planTrial(id);
  await text(`/b/${serial}/${trialPair().plan.bundles[0]?.bundle}`);
  await world.get('/Secret-address');
  const told = JSON.stringify(world.log);
  expect(told).toContain('/b/:serial/:bundle');
  expect(told).not.toContain('Secret');
  expect(told).not.toContain(trialPair().plan.bundles[0]?.bundle);
});

test('a defect is told without its workings, and logged without what it quotes', async () => {
  const broken = world.store.plans.add({
    job: addDraft({ store: world.store, clock }, trialJobInput() as Record<string, unknown>),
    jobDigest: '',
    digest: '',
    jobBody: JSON.stringify(trialJobInput()),
    body: '{"secret": ',
    summary: { totals: trialPair().plan.totals, bound: trialPair().plan.bound, effort: 'quick' },
    stoppedEarly: false,
    madeAt: clock().toISOString(),
  });
  const response = await world.get(`/plans/${broken}`);
  expect(response.status).toBe(500);
  const page = await response.text();
  expect(page).toContain('What was saved before is safe');
  expect(page).not.toMatch(/SyntaxError|plan\.ts|secret/);
  const [line] = world.log.filter(({ level }) => level === 'error');
  expect(line?.told).toMatch(/^SyntaxError\n\s+at /);
  expect(JSON.stringify(line)).not.toContain('secret');
});

test('progress is streamed and ends with the planning', async () => {
  const id = addDraft({ store: world.store, clock }, trialJobInput() as Record<string, unknown>);
  world.planning.ask(id, { effort: 'quick', seed: 1, stops: null }, '{}');
  const stream = world.get(`/jobs/${id}/progress`);
  await new Promise((resolve) => setTimeout(resolve, 50));
  const step = (value: number | null, bound: number | null, n: number): void =>
    world.children[0]?.say({ kind: 'progress', phase: 'first plan', step: n, value, bound, plan: null });
  step(null, null, 2);
  step(100, 120, 3);
  world.children[0]?.say({ kind: 'plan', plan: JSON.stringify(trialPair().plan) });
  const told = plainSpaces(await (await stream).text());
  expect(told).toContain('worth 100 kg');
  // A plan that is there is no longer told as being made.
  expect(told).toContain('"phase":"A first plan is being made."');
  expect(told).toMatch(/"phase":"A first plan is made; [^"]* worked out\."/);
  expect(told.trimEnd().endsWith('event: end\ndata: {}')).toBe(true);
});

test('stopping answers with what was kept', async () => {
  const id = addDraft({ store: world.store, clock }, trialJobInput() as Record<string, unknown>);
  world.planning.ask(id, { effort: 'quick', seed: 1, stops: null }, JSON.stringify(trialJobInput()));
  world.children[0]?.say({
    kind: 'progress',
    phase: 'filling',
    step: 1,
    value: 1,
    bound: null,
    plan: JSON.stringify(trialPair().plan),
  });
  const stopped = await world.post(`/jobs/${id}/stop`);
  const page = await text(stopped.headers.get('location') ?? '');
  expect(page).toContain('Planning was stopped');
  expect(page).toContain('Stopped by you. The best plan so far is kept.');
  expect(page).toContain('/plans/1');
  // Before there is one, none is told as kept.
  world.planning.ask(id, { effort: 'quick', seed: 1, stops: null }, JSON.stringify(trialJobInput()));
  const early = await text((await world.post(`/jobs/${id}/stop`)).headers.get('location') ?? '');
  expect(early).toContain('Stopped by you. There was no plan yet to keep: plan once more');
  expect(early).not.toContain('is kept');
});

/** Plans a job with the trial plan; its serial. */
function planTrial(job?: number): number {
  const body = JSON.stringify(trialJobInput());
  const id = job ?? world.store.jobs.add('Trial', body, clock().toISOString());
  world.planning.ask(id, { effort: 'quick', seed: 1, stops: null }, body);
  world.children.at(-1)?.say({ kind: 'plan', plan: JSON.stringify(trialPair().plan) });
  return world.store.plannings.latest(id)?.plan ?? 0;
}

async function text(path: string): Promise<string> {
  const response = await world.get(path);
  expect(response.status).toBe(200);
  return plainSpaces(await response.text());
}

function bring(content: string, name: string): Promise<Response> {
  const form = new FormData();
  form.set('token', world.token);
  form.set('file', new Blob([content]), name);
  return world.get('/jobs/bring', { method: 'POST', body: form });
}

function statusUnder(host: string): Promise<number> {
  const { port } = new URL(world.address);
  return new Promise((resolve, reject) => {
    const asked = rawRequest({ host: '127.0.0.1', port, path: '/', headers: { host } }, (response) => {
      response.resume();
      resolve(response.statusCode ?? 0);
    });
    asked.on('error', reject);
    asked.end();
  });
}
