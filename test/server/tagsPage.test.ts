/** The layout of tags: asked for on the plan's page, refused where it can not be, kept for tags and archive. */
import { afterEach, beforeEach, expect, test } from 'vitest';
import { trialJobInput, trialPair } from '../plan/trialPlan.ts';
import { readPdf } from './paper/readPdf.ts';
import { openWorld, type World } from './world.ts';

const { plan } = trialPair();
const MM = 72 / 25.4;
const GRID = { kind: 'grid', columns: '1', rows: '2', marginX: '8', marginY: '10', gapX: '4', gapY: '3' };
let world: World;
let serial = 0;

beforeEach(async () => {
  world = await openWorld();
  const body = JSON.stringify(trialJobInput());
  const id = world.store.jobs.add('Trial', body, '2026-05-04T10:00:00Z');
  world.planning.ask(id, { effort: 'quick', seed: 1, stops: null }, body);
  world.children.at(-1)?.say({ kind: 'plan', plan: JSON.stringify(plan) });
  serial = world.store.plannings.latest(id)?.plan ?? 0;
});
afterEach(() => world.close());

const ask = (fields: Record<string, string>) => world.post(`/plans/${serial}/tags`, fields);
const tags = async (query = '') => {
  const answer = await world.get(`/plans/${serial}/papers/tags.pdf${query}`);
  return readPdf(new Uint8Array(await answer.arrayBuffer()));
};

test('the form stands on the plan’s page and leads to tags laid out so', async () => {
  const page = await (await world.get(`/plans/${serial}`)).text();
  expect(page).toContain(`action="/plans/${serial}/tags"`);
  expect(page).toContain('name="marginX" value="8"');
  expect(page).not.toContain('asked for last');
  const answer = await ask({ ...GRID, size: 'a4' });
  expect(answer.status).toBe(303);
  expect(answer.headers.get('location')).toBe(`/plans/${serial}/papers/tags.pdf`);
  expect(await tags()).toHaveLength(Math.ceil(plan.bundles.length / 2));
});

test('US Letter, and a roll, whose layouts are kept and shown the next time', async () => {
  const letter = await ask({ ...GRID, size: 'letter' });
  expect(letter.headers.get('location')).toBe(`/plans/${serial}/papers/tags.pdf?size=letter`);
  expect((await tags('?size=letter'))[0]!.height).toBeCloseTo(792, 1);
  expect(await (await world.get(`/plans/${serial}/tags`)).text()).toMatch(/value="letter" selected/);
  await ask({ kind: 'roll', width: '3 1/2"', height: '55' });
  const roll = await tags();
  expect(roll).toHaveLength(plan.bundles.length);
  expect(roll[0]!.width).toBeCloseTo(88.9 * MM, 1);
  const page = await (await world.get(`/plans/${serial}/tags`)).text();
  expect(page).toContain('name="width" value="88.9"');
  expect(page).toContain('for a roll printer (asked for last)');
});

test('what can not be is told field by field, with all that was typed still there, and the layout kept before stands', async () => {
  await ask({ kind: 'roll', width: '90', height: '60' });
  const answer = await ask({ ...GRID, size: 'letter', columns: 'two', gapX: '-4', rows: '99' });
  expect(answer.status).toBe(422);
  const page = await answer.text();
  for (const [name, value] of [
    ['columns', 'two'],
    ['gapX', '-4'],
    ['rows', '99'],
    ['marginX', '8'],
  ]) {
    expect(page).toContain(`name="${name}" value="${value}"`);
  }
  expect(page.match(/class="remedy"/g)).toHaveLength(3);
  expect((await ask({ ...GRID, columns: '9' })).status).toBe(422);
  expect((await ask({ kind: 'neither' })).status).toBe(422);
  expect(await tags()).toHaveLength(plan.bundles.length);
});

test('hostile fields are told as what they are, never a defect', async () => {
  const hostile: Record<string, string>[] = [
    { ...GRID, columns: '<script>alert(1)</script>' },
    { ...GRID, rows: '9'.repeat(4000) },
    { ...GRID, marginX: '\u0000', size: '../a4' },
    { kind: 'roll', width: '1e9', height: '-0' },
    { kind: '__proto__' },
  ];
  for (const fields of hostile) {
    const answer = await ask(fields);
    expect(answer.status).toBe(422);
    expect(await answer.text()).not.toContain('<script>alert');
  }
  expect(world.log.filter((line) => line.level === 'error')).toEqual([]);
});

test('a layout too small for the other page size leaves that one its usual tags', async () => {
  await ask({ ...GRID, size: 'a4', columns: '2', rows: '9', marginY: '5', gapY: '1' });
  expect((await tags())[0]!.words.length).toBeGreaterThan(0);
  expect(await tags('?size=letter')).toHaveLength(Math.ceil(plan.bundles.length / 8));
});
