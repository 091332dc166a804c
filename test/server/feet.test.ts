/** Feet, inches and pounds, where a job is shown in them: its page, its plan, its papers. */
import { afterAll, beforeAll, expect, test } from 'vitest';
import { trialJobInput, trialPair } from '../plan/trialPlan.ts';
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
  expect(page).toMatch(/\d lb \(/);
  expect(page).toContain('reckoned with 1/8&#34; (3 mm) of wrap');
  expect(page).toContain('asked for, 1400 lb (635.029 kg), is reached');
  expect(await sawSheet()).toContain('Inches are to the nearest 1/32');
  await world.post(`/jobs/${id}/units`, { do: 'metric' });
  expect(await text(`/plans/${serial}`)).not.toMatch(/\d lb \(/);
  expect(await sawSheet()).not.toContain('Inches are');
});
