/** Feet, inches and pounds, where a job is shown in them: its page, its plan, its papers. */
import { afterAll, beforeAll, expect, test } from 'vitest';
import { trialJobInput, trialPair } from '../plan/trialPlan.ts';
import { heldPair } from './paper/heldPair.ts';
import { readPdf, textOf } from './paper/readPdf.ts';
import { openWorld, type World } from './world.ts';

let world: World;
let id = 0;
let serial = 0;

beforeAll(async () => {
  world = await openWorld();
  const body = JSON.stringify(trialJobInput());
  id = world.store.jobs.add('Trial', body, '2026-05-04T10:00:00Z');
  world.planning.ask(id, { effort: 'quick', seed: 1, stops: null }, body);
  const told = {
    binds: ['The ballast asked for, 635.029 kg, is reached.'],
    cautions: [{ code: 'wrap-holds-water', about: 'every bundle', text: 'Bundles are reckoned with 3 mm of wrap.' }],
  };
  world.children.at(-1)?.say({ kind: 'plan', plan: JSON.stringify({ ...trialPair().plan, ...told }) });
  serial = world.store.plannings.latest(id)?.plan ?? 0;
});
afterAll(() => world.close());

const text = async (path: string): Promise<string> => (await world.get(path)).text();
const sawSheet = async (): Promise<string> => {
  const answer = await world.get(`/plans/${serial}/papers/saw-sheet.pdf`);
  return textOf(await readPdf(new Uint8Array(await answer.arrayBuffer()))).replace(/\s+/g, ' ');
};

test('the button for them stands under the name, and what was typed is saved with it', async () => {
  const page = await text(`/jobs/${id}`);
  const button = page.indexOf(`formaction="/jobs/${id}/units"`);
  expect(button).toBeGreaterThan(page.indexOf('name="name"'));
  expect(button).toBeLessThan(page.indexOf('id="pile"'));
  const [, revision = ''] = /name="revision" value="(\d+)"/.exec(page) ?? [];
  const typed = { do: 'inches', revision, name: 'Trial of inches' };
  expect((await world.post(`/jobs/${id}/units`, typed)).headers.get('location')).toBe(`/jobs/${id}?saved=1`);
  expect(await text(`/jobs/${id}`)).toMatch(/<h1>Trial of inches<\/h1>[\s\S]*Show millimetres and kilograms alone/);
  const late = await world.post(`/jobs/${id}/units`, { ...typed, do: 'metric', name: 'Of another window' });
  expect(late.headers.get('location')).toMatch(/#beside-\d+$/);
  expect(await text(`/jobs/${id}`)).toMatch(/<h1>Trial of inches<\/h1>[\s\S]*in another window/);
});

test('they are shown where a job wants them, and nowhere else', async () => {
  await world.post(`/jobs/${id}/units`, { do: 'inches' });
  expect(await text(`/jobs/${id}`)).toContain('= 9&#39; 10 1/8&#34;');
  const page = await text(`/plans/${serial}`);
  expect(page).toMatch(/\d\slb \(/);
  expect(page).toContain('reckoned with 1/8&#34; (3\u00a0mm) of wrap');
  expect(page).toContain('asked for, 1400\u00a0lb (635.029\u00a0kg), is reached');
  expect(await sawSheet()).toContain('Inches are to the nearest 1/32');
  await world.post(`/jobs/${id}/units`, { do: 'metric' });
  expect(await text(`/plans/${serial}`)).not.toMatch(/\d\slb \(/);
  expect(await sawSheet()).not.toContain('Inches are');
});

/** Words of a page that tell a figure in metric alone, but for examples of how something is written. */
function metricAlone(html: string): string[] {
  const words = html
    .replaceAll(/<(script|style)[\s\S]*?<\/\1>|<p class="help"[\s\S]*?<\/p>/g, '')
    .replaceAll(/<[^>]+>/g, '\n')
    .replaceAll('&#34;', '"')
    .split('\n')
    .map((line) => line.trim().replaceAll(/\([^()]*\)/g, ''));
  const figure = /\d\s?(?:kg|mm|cm|kN|m²|m)(?![\p{L}\d])/u;
  return words.filter((line) => figure.test(line) && !line.startsWith('Each tag is at least'));
}

test('every page of a plan, of a lift and of a hold-down has each of its figures in feet or pounds', async () => {
  const { job, plan } = heldPair();
  const handling = { reach: 450, start: 750, end: 300, posture: 'standing' };
  const lot = { ...job.pile[0]!, spoiled: [{ from: 100, to: 130 }] };
  const voids = job.voids.map((space) => ({ ...space, handling }));
  const body = JSON.stringify({
    ...job,
    pile: [lot, ...job.pile.slice(1)],
    voids,
    lift: { zones: { confirmed: true } },
  });
  const held = world.store.jobs.add('Held', body, '2026-05-04T10:00:00Z');
  world.planning.ask(held, { effort: 'quick', seed: 1, stops: null }, body);
  world.children.at(-1)?.say({ kind: 'plan', plan: JSON.stringify(plan) });
  const made = world.store.plannings.latest(held)?.plan ?? 0;
  const first = plan.bundles[0]!;
  await world.post(`/plans/${made}/weighed`, { 'mass.0': String(first.limit + 1), 'told.0': '' });
  await world.post(`/plans/${made}/stowed`, { 'in.0': 'on' });
  const read = { on: '2026-05-04', forward: '0.9', aft: '1.1', list: '1 to port', 'freeboard.port': '0.4' };
  await world.post(`/plans/${made}/read`, { do: 'keep', ...read });
  const ofPlan = ['', '/first-cuts', '/weighed', '/stowed', '/survey', '/trial', '/left', '/read', '/moves'].map(
    (page) => `/plans/${made}${page}`,
  );
  const pages = [
    ...ofPlan,
    `/b/${made}/${first.bundle}`,
    `/jobs/${held}/hold?void=1`,
    `/jobs/${held}/hold?void=1&mass=5`,
    `/jobs/${held}/lift?void=1`,
    `/jobs/${held}/afloat?kg.0=100`,
  ];
  for (const page of pages.slice(0, 1)) expect(metricAlone(await text(page)), page).not.toEqual([]);
  await world.post(`/jobs/${held}/units`, { do: 'inches' });
  for (const page of pages) expect(metricAlone(await text(page)), page).toEqual([]);
});

test('doubts and faults beside fields have their figures in feet and pounds, what is typed stays as it is', async () => {
  const input = trialJobInput();
  const voids = [{ ...input.voids[0]!, handling: { reach: 45, start: 750, end: 0 } }, ...input.voids.slice(1)];
  const body = JSON.stringify({ ...input, voids, aims: { ...input.aims, ballast: 99_999 } });
  const doubted = world.store.jobs.add('Doubted', body, '2026-05-04T10:00:00Z');
  const metric = await text(`/jobs/${doubted}`);
  expect(metric).toMatch(/class="doubt"[^>]*>Did you mean 45 cm, which is 450 mm\?/);
  await world.post(`/jobs/${doubted}/units`, { do: 'inches' });
  const page = await text(`/jobs/${doubted}`);
  expect(page).toContain('Did you mean 17.7 in (45 cm), which is 1&#39;\u00a05\u00a023/32&#34; (450 mm)?');
  expect(page).toMatch(/The whole pile weighs [\d.]+ lb \(\d+ kg\)/);
  const [, revision = ''] = /name="revision" value="(\d+)"/.exec(page) ?? [];
  await world.post(`/jobs/${doubted}`, {
    do: 'save',
    revision,
    'voids[0].length': '1,280 mm',
    'voids[0].clear.ends': '3000',
  });
  const typed = await text(`/jobs/${doubted}`);
  expect(typed).toContain('“1,280 mm” could be a thousand or a little over one.');
  expect(typed).toContain('Write 1280 mm or 1.280 mm.');
});

test('the list of jobs and a plan being worked out follow, and a copy of a job is shown as that is', async () => {
  const shown = world.store.jobs.add('Shown', JSON.stringify(trialJobInput()), '2026-05-04T10:00:00Z');
  await world.post(`/jobs/${shown}/units`, { do: 'inches' });
  const copy = (await world.post(`/jobs/${shown}/copy`)).headers.get('location')!;
  expect(await text(copy)).toContain('Show millimetres and kilograms alone');
  world.planning.ask(shown, { effort: 'quick', seed: 1, stops: null }, JSON.stringify(trialJobInput()));
  const child = world.children.at(-1)!;
  child.say({ kind: 'progress', phase: 'plan', step: 1, value: 100, bound: 120, plan: null });
  expect(await text(`/jobs/${shown}/planning`)).toContain('worth 220\u00a0lb (100\u00a0kg) after scrap and labour');
  child.say({ kind: 'plan', plan: JSON.stringify(trialPair().plan) });
  expect(await text('/')).toMatch(/\d\u00a0lb \([\d.]+\u00a0kg\) of steel placed/);
});
