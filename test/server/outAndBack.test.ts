/** What the survey's page tells over all voids: next out, next back, the marks between, and some voids alone. */
import { afterEach, beforeEach, expect, test } from 'vitest';
import { breakOutOf } from '../../src/balance/breakOut.ts';
import { readJobValue } from '../../src/job/readJob.ts';
import { liesOver } from '../../src/plan/access.ts';
import { recordOf } from '../../src/plan/record.ts';
import { trialJobInput, trialPair } from '../plan/trialPlan.ts';
import { readPdf, textOf } from './paper/readPdf.ts';
import { openWorld, type World } from './world.ts';

const { plan } = trialPair();
const input = {
  ...trialJobInput(),
  vessel: {
    displacement: 8000,
    vcg: 1.1,
    gm: 0.7,
    beam: 2.8,
    waterlineLength: 9,
    lcf: 4.7,
    kgPerCm: 180,
    kgmPerCm: 90,
  },
};
const read = readJobValue(input);
if (!read.ok) throw new Error(JSON.stringify(read.faults));
const { job } = read.value;
const voidNumber = (name: string) => plan.voids.findIndex((own) => own.void === name);
let world: World;
let serial = 0;

beforeEach(async () => {
  world = await openWorld();
  const number = world.store.jobs.add('Trial', JSON.stringify(input), '2026-05-04T10:00:00.000Z');
  world.planning.ask(number, { effort: 'quick', seed: 1, stops: null }, JSON.stringify(input));
  world.children.at(-1)?.say({ kind: 'plan', plan: JSON.stringify(plan) });
  world.children.at(-1)?.end();
  serial = world.store.plannings.latest(number)?.plan ?? 0;
});
afterEach(() => world.close());

const stowAll = async () => {
  for (const name of ['V1', 'V2']) await world.post(`/plans/${serial}/stowed`, { whole: String(voidNumber(name)) });
};
const page = (only = '') => world.text(`/plans/${serial}/survey?void=1${only}`);
const listed = (text: string, which: 'out' | 'back') => {
  const part = new RegExp(`<ol class="next" data-${which}="[^"]*">([\\s\\S]*?)</ol>`).exec(text)?.[1] ?? '';
  return [...part.matchAll(/<strong>([^<]*)<\/strong><\/a>/g)].map(([, mark]) => mark);
};
/** Presses the button under the list, as it stands on the page. */
const press = async (which: 'out' | 'back') => {
  const form = new RegExp(
    `data-${which}=[\\s\\S]*?<form class="alone"[^>]*action="([^"]*)"[^>]*>([\\s\\S]*?)</form>`,
  ).exec(await page());
  const fields = [...form![2]!.matchAll(/name="([^"]*)" value="([^"]*)"/g)].map(([, name, value]) => [name, value]);
  return world.post(form![1]!.replaceAll('&amp;', '&'), Object.fromEntries(fields));
};
const order = (voids?: string[]) =>
  breakOutOf(job, plan, recordOf(world.store.records.of(serial)), new Map(), voids).steps.map(
    ({ bundle }) => bundle.bundle,
  );

test('nothing before anything is in', async () => {
  expect(await page()).not.toContain('id="over"');
});

test('a button of the order leads back to it, and what was written is told there', async () => {
  await stowAll();
  const location = (await press('out')).headers.get('location')!;
  expect(location).toMatch(/&place=over#over$/);
  const text = await world.text(location);
  expect(text.match(/Written: 1 bundle lifted out\./g)).toHaveLength(1);
  expect(text.indexOf('Written: 1 bundle')).toBeGreaterThan(text.indexOf('id="over"'));
  const typed = await world.post(`/plans/${serial}/survey`, { 'pick.0': 'on', do: 'seen', entries: '99' });
  expect(typed.headers.get('location') ?? '').not.toContain('#over');
});

test('all comes out by the buttons in its order and goes back in the opposite one', async () => {
  await stowAll();
  const way = order();
  expect(way).toHaveLength(plan.bundles.length);
  for (const [i, mark] of way.entries()) {
    const text = await page();
    expect(listed(text, 'out')).toEqual(way.slice(i, i + 3));
    expect(listed(text, 'back')).toEqual(way.slice(Math.max(0, i - 3), i).reverse());
    expect(text).toContain(`${mark} is out</button>`);
    expect((await press('out')).status).toBe(303);
  }
  const empty = await page();
  expect(listed(empty, 'out')).toEqual([]);
  expect(empty).toContain('<strong>All of it is out: read the marks.</strong>');
  for (const mark of [...way].reverse()) {
    expect(listed(await page(), 'back')[0]).toBe(mark);
    expect((await press('back')).status).toBe(303);
  }
  expect(listed(await page(), 'back')).toEqual([]);
  expect(listed(await page(), 'out')).toEqual(way.slice(0, 3));
});

test('marks are asked for at a quarter while no other is out', async () => {
  await stowAll();
  const { steps } = breakOutOf(job, plan, recordOf(world.store.records.of(serial)), new Map());
  const quarter = steps.findIndex((step) => step.quarter === 1);
  for (let i = 0; i < quarter; i += 1) await press('out');
  const text = () => page().then((html) => html.slice(html.indexOf('id="over"'), html.indexOf('<h3>')));
  expect(await text()).not.toContain('read the marks');
  await press('out');
  expect(await text()).toContain(`<strong>A quarter is out: read the marks.</strong> ${steps[quarter]!.floats}`);
  const last = plan.bundles.findIndex(({ bundle }) => bundle === steps.at(-1)!.bundle.bundle);
  const entries = String(world.store.records.of(serial).length);
  await world.post(`/plans/${serial}/survey`, { [`pick.${last}`]: 'on', do: 'out', entries });
  expect(await text()).not.toContain('read the marks');
});

test('a whole void lifted out before its turn is told, and no more once only the others are asked for', async () => {
  await stowAll();
  const entries = String(world.store.records.of(serial).length);
  await world.post(`/plans/${serial}/survey`, { [`void.${voidNumber('V2')}`]: 'on', do: 'out', entries });
  expect(await page()).toContain('Out before their turn: V2-');
  expect(await page(`&only=${voidNumber('V1')}`)).not.toContain('before their turn');
  // Who opens the plan two years on sees that it is not all in her.
  expect(/Out of her now:.*/.exec(await world.text(`/plans/${serial}`))?.[0]).toContain('V2-01');
  await world.post(`/plans/${serial}/survey`, { [`void.${voidNumber('V2')}`]: 'on', do: 'in', entries });
  expect(await world.text(`/plans/${serial}`)).not.toContain('Out of her now');
});

test('of some voids alone, kept on the page, in what is written and on the sheet; other numbers are none', async () => {
  await stowAll();
  const only = `&only=${voidNumber('V2')}`;
  const text = await page(only);
  expect(text).toContain('<h2 id="over">Out and back over V2</h2>');
  expect(listed(text, 'out')).toEqual(order(['V2']).slice(0, 3));
  expect(text).toContain(`/papers/breaking-out.pdf?only=${voidNumber('V2')}`);
  const entries = String(world.store.records.of(serial).length);
  const answer = await world.post(`/plans/${serial}/survey?void=1${only}`, {
    [`void.${voidNumber('V2')}`]: 'on',
    do: 'out',
    entries,
  });
  expect(answer.headers.get('location')).toContain(only);
  const sheet = await world.get(`/plans/${serial}/papers/breaking-out.pdf?only=${voidNumber('V2')}`);
  const words = textOf(await readPdf(new Uint8Array(await sheet.arrayBuffer())));
  expect(words).toContain('V2-01');
  expect(words).not.toContain('V1-01');
  for (const bad of ['&only=x', '&only=99', '&only[a]=1', '&only=-1'])
    expect(await page(bad)).toContain('<h2 id="over">Out and back over all voids</h2>');
});

test('the page of a tag lifts its bundle out, names what lies on it first, and tells what comes next either way', async () => {
  await stowAll();
  const way = order();
  const tag = (mark: string) => world.text(`/b/${serial}/${mark}`);
  const low = plan.bundles.find(({ bundle }) => bundle === 'V1-01')!;
  const over = plan.bundles.filter((one) => one.void === 'V1' && liesOver(one, low)).map(({ bundle }) => bundle);
  expect(over.length).toBeGreaterThan(0);
  const told = (await tag('V1-01')).split(/in by the record: lifted out before it/);
  expect(told).toHaveLength(2);
  for (const mark of over) expect(told[0]).toContain(mark);
  const top = await tag(way[0]!);
  expect(top).not.toContain('lifted out before it');
  expect(top).not.toContain('Next out');
  const [, action, inside] = /<form class="alone"[^>]*action="([^"]*survey[^"]*)"[^>]*>([\s\S]*?)<\/form>/.exec(top)!;
  const fields = [...inside!.matchAll(/name="([^"]*)" value="([^"]*)"/g)].map(([, name, value]) => [name, value]);
  const answer = await world.post(action!, Object.fromEntries(fields));
  expect(answer.headers.get('location')).toBe(`/b/${serial}/${way[0]}`);
  const out = await tag(way[0]!);
  expect(out).toContain('<strong class="warm">Lifted out</strong>');
  expect(listed(out, 'out')).toEqual(way.slice(1, 4));
  expect(listed(out, 'back')).toEqual([way[0]]);
  expect(out).toContain('It is back in</button>');
});

test('what lies over the place of one that is out comes out before that is called next back, on every page and the sheet', async () => {
  await stowAll();
  const low = plan.bundles.find(({ bundle }) => bundle === 'V1-01')!;
  const over = plan.bundles.filter((one) => one.void === 'V1' && liesOver(one, low)).map(({ bundle }) => bundle);
  const write = async (mark: string, what: 'out' | 'in') => {
    const entries = String(world.store.records.of(serial).length);
    const index = plan.bundles.findIndex(({ bundle }) => bundle === mark);
    return world.post(`/plans/${serial}/survey`, { [`pick.${index}`]: 'on', do: what, entries });
  };
  await write('V1-01', 'out');
  const first = order().filter((mark) => over.includes(mark));
  const words = `V1-01 can not go back yet: ${first.join(', ')} `;
  const survey = await page();
  expect(listed(survey, 'back')).toEqual([]);
  expect(survey).toContain(words);
  expect(survey).toContain('Over a place that is empty by the record.');
  expect(survey).not.toContain('Ticked over what is not in');
  for (const path of [`/plans/${serial}/stowed`, `/b/${serial}/V1-01`]) {
    const text = await world.text(path);
    expect(text).toContain(words);
    expect(text).not.toContain('data-next="V1-01"');
    expect(listed(text, 'back')).toEqual([]);
  }
  expect(await world.text(`/b/${serial}/V1-01`)).toContain('over its place, in by the record');
  const sheet = await world.get(`/plans/${serial}/papers/breaking-out.pdf`);
  expect(textOf(await readPdf(new Uint8Array(await sheet.arrayBuffer())))).toContain(words.trim());
  for (const mark of first) await write(mark, 'out');
  const free = await page();
  expect(listed(free, 'back')[0]).toBe('V1-01');
  expect(free).not.toContain('can not go back yet');
});

test('while some are still to go in, one lifted out from under another is not next in either, and is told once beside its list', async () => {
  await world.post(`/plans/${serial}/stowed`, { whole: String(voidNumber('V1')) });
  const index = plan.bundles.findIndex(({ bundle }) => bundle === 'V1-01');
  const entries = String(world.store.records.of(serial).length);
  await world.post(`/plans/${serial}/survey`, { [`pick.${index}`]: 'on', do: 'out', entries });
  const text = await world.text(`/plans/${serial}/stowed`);
  expect(text).toContain('<h2>Next in</h2>');
  expect(text).toMatch(/data-next="V2-/);
  expect(text).toContain('V1-01 can not go back yet');
  expect((await world.text(`/b/${serial}/V1-01`)).match(/can not go back yet/g)).toHaveLength(1);
});

test('what is stowed so far tells what is out in the order in which it goes back', async () => {
  await stowAll();
  const way = order();
  for (let i = 0; i < 5; i += 1) await press('out');
  const text = await world.text(`/plans/${serial}/stowed`);
  const next = /<h2>Next back<\/h2>([\s\S]*?)<nav/.exec(text)![1]!;
  expect([...next.matchAll(/<strong>([^<]*)<\/strong><\/a>/g)].map(([, mark]) => mark)).toEqual(
    way.slice(2, 5).reverse(),
  );
});
