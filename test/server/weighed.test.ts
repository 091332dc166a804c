/** Masses read off the scale: typed on their page or on the page of a tag, told on the register and in the tables. */
import { afterEach, beforeEach, expect, test } from 'vitest';
import type { Weighing } from '../../server/paper/weighing.ts';
import { overLines } from '../../server/show/weighed.ts';
import { kilograms, wordsIn } from '../../server/words.ts';
import { withSecuring } from '../../src/hold/securing.ts';
import type { Job } from '../../src/job/job.ts';
import { readJobValue } from '../../src/job/readJob.ts';
import { massTolerances } from '../../src/plan/massTolerance.ts';
import { markRanges } from '../../src/plan/stops.ts';
import { bundleMassOf } from '../../src/plan/totals.ts';
import { trialJobInput, trialPair } from '../plan/trialPlan.ts';
import { readPdf, textOf } from './paper/readPdf.ts';
import { openWorld, plainSpaces, type World } from './world.ts';

const { job, plan } = trialPair();
const AT = '2026-05-04T10:00:00Z';
const [first, second] = [plan.bundles[0]!, plan.bundles[1]!];
let world: World;
let serial = 0;

beforeEach(async () => {
  world = await openWorld();
  const body = JSON.stringify(trialJobInput());
  const id = world.store.jobs.add('Trial', body, AT);
  world.planning.ask(id, { effort: 'quick', seed: 1, stops: null }, body);
  world.children.at(-1)?.say({ kind: 'plan', plan: JSON.stringify(plan) });
  serial = world.store.plannings.latest(id)?.plan ?? 0;
});
afterEach(() => world.close());

const text = async (path: string): Promise<string> => plainSpaces(await (await world.get(path)).text());
const register = async (): Promise<string> => {
  const answer = await world.get(`/plans/${serial}/papers/ballast-register.pdf`);
  return textOf(await readPdf(new Uint8Array(await answer.arrayBuffer()))).replace(/\s+/g, ' ');
};
const typeMass = (fields: Record<string, string>) => world.post(`/plans/${serial}/weighed`, fields);

test('nothing weighed: every field is empty, and the register leaves its column to the pencil', async () => {
  const page = await text(`/plans/${serial}/weighed`);
  for (const [n, { bundle }] of plan.bundles.entries()) {
    expect(page).toContain(`name="mass.${n}" value=""`);
    expect(page).toContain(bundle);
  }
  expect(await register()).not.toMatch(/bundles weighed|looked into/);
});

test('what is typed is kept beside the plan, and the plan stays as it was', async () => {
  const before = await text(`/plans/${serial}/plan.json`);
  const masses = Object.fromEntries(plan.bundles.map((bundle, n) => [`mass.${n}`, `${bundle.mass + 0.01} kg`]));
  expect((await typeMass(masses)).status).toBe(303);
  const all = plan.bundles.reduce((sum, bundle) => sum + bundle.mass + 0.01, 0);
  const words = await register();
  expect(words).toContain(
    `${plan.bundles.length} of ${plan.bundles.length} bundles weighed: ${Math.round(all * 100) / 100} kg`,
  );
  expect(words).not.toContain('looked into');
  for (const entry of plan.voids.filter((each) => each.bundles > 0)) {
    const own = plan.bundles.filter((bundle) => bundle.void === entry.void);
    const sum = own.reduce((total, bundle) => total + bundle.mass + 0.01, 0);
    expect(words).toContain(String(Math.round(sum * 100) / 100));
  }
  expect(await text(`/plans/${serial}/plan.json`)).toBe(before);
});

test('pounds, commas and a mass taken away again', async () => {
  await typeMass({ 'mass.0': '17 lb 6 oz', 'mass.1': '8,25' });
  expect([...world.store.weighed.of(serial)].sort()).toEqual(
    [
      [first.bundle, 7.881],
      [second.bundle, 8.25],
    ].sort(),
  );
  await typeMass({ 'mass.0': ' ' });
  expect([...world.store.weighed.of(serial).keys()]).toEqual([second.bundle]);
});

test('a page that another phone has overtaken takes nothing away that was typed there, nor puts back what was mended', async () => {
  await typeMass({ 'mass.0': '8.1' });
  // Shown before the others came: the first with 8.1, the second empty.
  await typeMass({ 'mass.0': '8.2', 'told.0': '8.1', 'mass.1': '7.9', 'told.1': '' });
  await typeMass({ 'mass.0': '8.1', 'told.0': '8.1', 'mass.1': '', 'told.1': '', 'mass.2': '8.5', 'told.2': '' });
  const kept = world.store.weighed.of(serial);
  expect(plan.bundles.slice(0, 3).map(({ bundle }) => kept.get(bundle))).toEqual([8.2, 7.9, 8.5]);
  // Emptied on purpose, it is taken away.
  await typeMass({ 'mass.0': '', 'told.0': '8.2' });
  expect(world.store.weighed.of(serial).has(first.bundle)).toBe(false);
});

test('what stood in a field when its page was shown goes along with it, on both pages', async () => {
  await typeMass({ 'mass.0': '8.1', 'mass.1': 'eight' });
  const page = await text(`/plans/${serial}/weighed`);
  expect(page).toContain('name="told.0" value="8.1"');
  expect(page).toContain('name="told.1" value=""');
  expect(await text(`/b/${serial}/${first.bundle}`)).toContain('name="told.0" value="8.1"');
  // What could not be read is not what was kept.
  expect(await (await typeMass({ 'mass.0': 'about 8', 'told.0': '8.1' })).text()).toContain(
    'name="told.0" value="8.1"',
  );
});

test('every text that is no mass is told at once with what to do, stays as typed, and the others are kept', async () => {
  const answer = await typeMass({ 'mass.0': 'about <b>eight', 'mass.1': '8.1', 'mass.2': '-3', 'mass.3': '1,250' });
  expect(answer.status).toBe(422);
  const page = await answer.text();
  expect(page).toContain('value="about &lt;b&gt;eight"');
  expect(page).toContain('value="-3"');
  expect(page).toContain('value="1,250"');
  expect(page.match(/not kept/g)).toHaveLength(6);
  expect(page.match(/class="remedy"/g)).toHaveLength(3);
  expect([...world.store.weighed.of(serial)]).toEqual([[second.bundle, 8.1]]);
});

test('a mass ten times what is reckoned is asked about before it counts, and kept when it is pressed again', async () => {
  const ten = String(Math.round(first.mass * 10));
  const asked = await typeMass({ 'mass.0': ten, 'mass.1': '8.1' });
  expect(asked.status).toBe(422);
  const page = await asked.text();
  expect(page).toContain(`Is it ${ten} kg? It is reckoned at ${first.mass} kg`);
  expect(page).toContain(`name="sure.0" value="${ten}"`);
  expect([...world.store.weighed.of(serial)]).toEqual([[second.bundle, 8.1]]);
  // Another figure as far off is asked about anew.
  expect((await typeMass({ 'mass.0': '0.1', 'sure.0': ten })).status).toBe(422);
  expect((await typeMass({ 'mass.0': ten, 'sure.0': ten })).status).toBe(303);
  expect(world.store.weighed.of(serial).get(first.bundle)).toBe(Number(ten));
});

test('a difference beyond the tolerance is called out on page, register, table and tag page; one within it is not', async () => {
  const tolerance = massTolerances(job, plan).get(first.bundle)!;
  const within = Math.round((first.mass + tolerance) * 1000) / 1000;
  await typeMass({ 'mass.0': String(within) });
  expect(await text(`/plans/${serial}/weighed`)).not.toContain('Beyond the tolerance');
  const beyond = Math.round((within + 0.01) * 1000) / 1000;
  await typeMass({ 'mass.0': String(beyond) });
  expect(await text(`/plans/${serial}/weighed`)).toContain('Beyond the tolerance');
  expect(await register()).toContain(
    `to be looked into: ${first.bundle} ${Math.round(beyond * 100) / 100} kg, planned ${first.mass} kg ± ${tolerance}`,
  );
  const rows = (await text(`/plans/${serial}/tables/bundles.csv`)).split('\r\n').map((row) => row.split(','));
  const row = rows.find((each) => each[0] === first.bundle)!;
  expect(row.slice(-8, -4)).toEqual([
    String(tolerance),
    String(beyond),
    String(Math.round((beyond - first.mass) * 1000) / 1000),
    'beyond the tolerance',
  ]);
  expect(rows.find((each) => each[0] === second.bundle)!.slice(-7, -4)).toEqual(['', '', '']);
  expect(await text(`/b/${serial}/${first.bundle}`)).toContain('find out why before it is carried');
});

test('on the page of a tag the weighed mass is the figure, the planned one beside it, and its lift is called by it', async () => {
  const page = `/b/${serial}/${first.bundle}`;
  expect(await text(page)).toContain(`<p class="large">${first.mass} kg</p>`);
  await typeMass({ 'mass.0': '26.5' });
  expect(await text(page)).toContain(`<p class="large">26.5 kg</p><p>Off the scale; planned ${first.mass} kg.</p>`);
  expect(await text(page)).toContain('TWO PEOPLE');
});

test('the page of the plan goes by the scale, bundle, void and all, and follows what is weighed later', async () => {
  const page = async () => (await text(`/plans/${serial}`)).replaceAll(/<[^>]+>/g, ' ').replaceAll(/\s+/g, ' ');
  const bare = await page();
  expect(bare).not.toMatch(/by the scale|off the scale/);
  const carries = (words: string) => Number(/may still carry: ([\d.]+) kg/.exec(words)![1]);
  const own = plan.bundles.filter((bundle) => bundle.void === first.void);
  const sum = own.reduce((all, { mass }) => all + mass, 0);
  for (const [count, more] of [
    [1, 3],
    [1, 4],
    [own.length, 40],
  ] as const) {
    const weighed = own.slice(0, count).map(({ bundle, mass }) => [bundle, mass + more] as const);
    world.store.weighed.set(serial, new Map(weighed), AT);
    const told = await page();
    const part = count === own.length ? ' by the scale' : `, ${count} of them by the scale, the rest as planned`;
    const now = kilograms(sum + count * more);
    expect(told).toContain(`${now} in ${own.length} bundles with their bands${part}`);
    for (const [bundle, mass] of weighed)
      expect(told).toContain(
        `${kilograms(mass)} off the scale; planned ${kilograms(own.find((one) => one.bundle === bundle)!.mass)}`,
      );
    expect(told.split('off the scale; planned')).toHaveLength(count + 1);
    const whole = bundleMassOf(plan) + count * more;
    expect(told).toContain(
      `${kilograms(bundleMassOf(plan))} planned; now ${kilograms(whole)}, ${count} of them by the scale`,
    );
    expect(Math.abs(carries(bare) - carries(told) - count * more)).toBeLessThan(1.01);
    expect(told).toContain(', at what it weighs now.');
  }
});

test('a figure that is right in pounds is asked about, and no other', async () => {
  const pounds = (first.mass / 0.45359237).toFixed(1);
  await typeMass({ 'mass.0': pounds });
  const hint = `If the scale shows pounds, type ${Number(pounds)} lb.`;
  expect(await text(`/plans/${serial}/weighed`)).toContain(hint);
  expect(await text(`/b/${serial}/${first.bundle}`)).toContain(hint);
  await typeMass({ 'mass.0': `${pounds} lb` });
  expect(await text(`/plans/${serial}/weighed`)).not.toContain('If the scale shows pounds');
  await typeMass({ 'mass.0': String(first.mass * 3) });
  expect(await text(`/plans/${serial}/weighed`)).not.toContain('If the scale shows pounds');
});

test('more than the lift limit is called out', async () => {
  expect(await text(`/plans/${serial}`)).not.toContain('Over the lift limit');
  await typeMass({ 'mass.0': String(first.limit + 0.5) });
  expect(await text(`/plans/${serial}`)).toContain('Over the lift limit');
  expect(await text(`/plans/${serial}/weighed`)).toContain('Over the lift limit');
  for (const page of ['stowed', 'survey'])
    expect((await text(`/plans/${serial}/${page}`)).match(/over its lift limit of/g)).toHaveLength(1);
  expect(await text(`/b/${serial}/${first.bundle}`)).toContain(`kg is over the lift limit of ${first.limit} kg`);
  expect(await register()).toContain(
    `over the lift limit of its void: ${first.bundle} ${first.limit + 0.5} kg, limit ${first.limit} kg`,
  );
});

test('bundles over one limit are called out by their ranges, with the heaviest', () => {
  const own = plan.bundles.filter((bundle) => bundle.void === 'V1' && bundle.limit === first.limit);
  const heavy = own.map((bundle, n) => ({ bundle, weighed: bundle.limit + n + 1 }) as Weighing);
  const words = wordsIn('metric');
  const marks = markRanges(own.map(({ bundle }) => bundle)).join(', ');
  expect(own.length).toBeGreaterThan(1);
  expect(overLines(heavy, words).map(plainSpaces)).toEqual([
    `${marks} weigh up to ${kilograms(first.limit + own.length)}, limit ${kilograms(first.limit)}`,
  ]);
  expect(overLines(heavy.slice(0, 1), words).map(plainSpaces)).toEqual([
    `${own[0]!.bundle} weighs ${kilograms(first.limit + 1)}, limit ${kilograms(first.limit)}`,
  ]);
});

test('bundles within their tolerance that together pass what a void carries are called out, by how much, wherever they are told', async () => {
  const most = 90;
  const own = plan.bundles.filter((bundle) => bundle.void === 'V1');
  const mass = own.reduce((sum, bundle) => sum + bundle.mass, 0);
  const pages = [`/plans/${serial}`, `/plans/${serial}/weighed`, `/b/${serial}/${own[0]!.bundle}`];
  const weighAll = (whole: number) =>
    typeMass(
      Object.fromEntries(
        own.map((bundle) => [`mass.${plan.bundles.indexOf(bundle)}`, ((bundle.mass * whole) / mass).toFixed(4)]),
      ),
    );
  await weighAll(most - 0.01);
  for (const page of pages) expect(await text(page)).not.toContain('More than it may carry');
  expect(await register()).not.toContain('MORE THAN IT MAY CARRY');
  await weighAll(most + 1.3);
  for (const page of pages) {
    expect(await text(page)).toContain('More than it may carry');
    expect(await text(page)).toContain('V1 holds 91.3 kg, 1.3 kg over the 90 kg it may carry');
  }
  expect(await register()).toContain('V1 holds 91.3 kg, 1.3 kg over the 90 kg it may carry');
  const elsewhere = plan.bundles.find((bundle) => bundle.void === 'V2')!;
  expect(await text(`/b/${serial}/${elsewhere.bundle}`)).not.toContain('More than it may carry');
});

test('typed on the page of a tag it leads back there', async () => {
  const n = plan.bundles.indexOf(second);
  const answer = await typeMass({ [`mass.${n}`]: '8.4', back: second.bundle });
  expect(answer.headers.get('location')).toBe(`/b/${serial}/${second.bundle}`);
  expect(await text(`/b/${serial}/${second.bundle}`)).toContain('value="8.4"');
});

test('hostile fields get a page that says so or change nothing, never a defect', async () => {
  const hostile: Record<string, string>[] = [
    { 'mass.0': 'x'.repeat(5000) },
    { 'mass.0': '<script>alert(1)</script>' },
    { 'mass.99999': '8', 'mass.-1': '8', 'mass.__proto__': '8', 'mass[0]': '8' },
    { 'mass.0': '8', back: '//elsewhere.example' },
    { 'mass.0': '1e400' },
    { 'mass.0': '\u0000' },
    { 'mass.0': 'NaN', 'mass.1': 'Infinity', 'mass.2': '1/0' },
  ];
  for (const fields of hostile) {
    const answer = await typeMass(fields);
    expect([303, 422], JSON.stringify(fields).slice(0, 80)).toContain(answer.status);
    expect(answer.headers.get('location') ?? '').not.toContain('elsewhere');
    expect(await answer.text()).not.toContain('<script>alert');
  }
  expect([...world.store.weighed.of(serial)]).toEqual([[first.bundle, 8]]);
  const asked = await world.get(`/plans/${serial}/weighed?void[]=2&void[x]=1&saved=<b>`);
  expect(asked.status).toBe(200);
  expect((await world.post(`/plans/${serial}/weighed?void[]=2`, { 'mass.1': '8' })).status).toBe(303);
  expect((await world.post(`/plans/99/weighed`, { 'mass.1': '8' })).status).toBe(404);
  expect(world.log.filter((line) => line.level === 'error')).toEqual([]);
});

test('the masses go with the plan, and with nothing else', async () => {
  await typeMass({ 'mass.0': '8' });
  expect(world.store.weighed.of(serial + 1).size).toBe(0);
  world.store.jobs.setDeleted(1, AT);
  world.store.jobs.purge('2026-12-01T00:00:00Z');
  expect(world.store.weighed.of(serial).size).toBe(0);
});

test('what she may still carry by the register goes by the scale', async () => {
  const carries = async () => Number(/may still carry: ([\d.]+) kg/.exec(await register())?.[1]);
  const { displacement = 0, displacementMost = 0 } = job.vessel ?? {};
  const reckoned = plan.bundles.reduce((sum, { mass }) => sum + mass, 0);
  expect(await carries()).toBe(Math.floor(displacementMost - displacement - reckoned + 1e-6));
  expect(await register()).not.toContain('at what the scale said');
  world.store.weighed.set(serial, new Map(plan.bundles.map(({ bundle, mass }) => [bundle, mass + 10])), AT);
  const heavier = reckoned + 10 * plan.bundles.length;
  expect(await carries()).toBe(Math.floor(displacementMost - displacement - heavier + 1e-6));
  expect(await register()).toContain(
    'With all of it in where it was planned, at what the scale said where it was weighed',
  );
});

test('a hold-down that the scale makes too little is NOT SECURED on the page of the plan', async () => {
  const mass = (name: string) => plan.bundles.reduce((sum, own) => sum + (own.void === name ? own.mass : 0), 0);
  const input = trialJobInput();
  // Each side carries 3 % more than twice the planned weight.
  const voids = input.voids.map((space) => {
    const by = { by: 'floors', carries: (1.03 * 2 * 9.81 * (mass(space.void) || 1)) / 1000 };
    const over = { kind: 'over' as const, count: 8, lashingCapacity: 5, angle: 60 };
    return { ...space, holdDown: { straps: [over], blocked: { forward: by, aft: by, port: by, starboard: by } } };
  });
  const body = JSON.stringify({ ...input, voids });
  const id = world.store.jobs.add('Held', body, AT);
  world.planning.ask(id, { effort: 'quick', seed: 1, stops: null }, body);
  const held = withSecuring(readHeld(body), plan);
  world.children.at(-1)?.say({ kind: 'plan', plan: JSON.stringify(held) });
  const own = world.store.plannings.latest(id)?.plan ?? 0;
  const page = () => text(`/plans/${own}`);
  expect(await page()).not.toContain('NOT SECURED');
  expect(await page()).toContain('Every assumed load is carried, on paper');
  world.store.weighed.set(own, new Map(plan.bundles.map(({ bundle, mass }) => [bundle, 1.05 * mass])), AT);
  const told = await page();
  expect(told).toContain('<p class="stamp">NOT SECURED, DO NOT GO TO SEA</p>');
  expect(told).toContain('What is entered does not carry every assumed load in V1, V2.');
  expect(told).not.toContain('Every assumed load is carried');
});

function readHeld(body: string): Job {
  const read = readJobValue(JSON.parse(body));
  if (!read.ok) throw new Error(JSON.stringify(read.faults));
  return read.value.job;
}
