/** Finding a void, a bundle or a bar of a plan by its mark, also where the plan fills many pages. */
import { afterAll, beforeAll, expect, test } from 'vitest';
import { VOIDS_SHOWN } from '../../server/show/planPage.ts';
import { keepPlan } from './keepPlan.ts';
import { stackedPair } from './paper/stackedPlan.ts';
import { openWorld, type World } from './world.ts';

const { job: input, plan } = stackedPair({ voids: 20, runs: 2, tiers: 2, across: 2 });
let world: World;
let page = '';

beforeAll(async () => {
  world = await openWorld();
  const job = world.store.jobs.add('Stacked', JSON.stringify(input), '2026-05-04T10:00:00Z');
  const serial = keepPlan(world.store, job, input, plan, '2026-05-04T10:00:00Z');
  page = `/plans/${serial}`;
});
afterAll(() => world.close());

/** Where the page leads that is asked for a mark. */
async function led(mark: string): Promise<string> {
  const answer = await world.get(`${page}/find?${new URLSearchParams({ mark })}`);
  expect(answer.status).toBe(303);
  return answer.headers.get('location') ?? '';
}

/** True where the place that an address leads to is on its page. */
async function isThere(to: string): Promise<boolean> {
  return (await world.text(to)).includes(`id="${to.split('#')[1]}"`);
}

test('every void is found on its page, whatever the case of its mark', async () => {
  const marks = [plan.voids[0]!, plan.voids[VOIDS_SHOWN]!, plan.voids.at(-1)!].map((each) => each.void);
  for (const mark of marks) {
    const to = await led(` ${mark.toLowerCase()} `);
    expect(await isThere(to)).toBe(true);
    expect(await world.text(to)).toContain(`<h3>${mark}`);
  }
});

test('a bar is found where its like are drawn, a bundle on its own page', async () => {
  const bar = plan.bars.at(-1)!.bar;
  expect(await isThere(await led(bar))).toBe(true);
  const { bundle } = plan.bundles.at(-1)!;
  expect(await led(bundle)).toBe(`${page.replace('plans', 'b')}/${encodeURIComponent(bundle)}`);
  expect((await world.get(await led(bundle))).status).toBe(200);
});

test('what the plan does not have is told, with what was probably meant', async () => {
  const { bundle } = plan.bundles[0]!;
  const to = await led(`${bundle}x`);
  expect(to).toContain('#find');
  const text = await world.text(to);
  expect(text).toContain(`Nothing in this plan is marked “${bundle}x”.`);
  expect(text).toMatch(new RegExp(`Did you mean <a href="[^"]*find\\?mark=[^"]*">${bundle}</a>`));
  expect(await led('')).toBe(`${page}#find`);
});

test('every page of voids leads to each of them', async () => {
  const text = await world.text(`${page}?void=2`);
  const every = /aria-label="Every void">(.*?)<\/nav>/s.exec(text)?.[1] ?? '';
  const links = [...every.matchAll(/href="([^"]*)">([^<]*)</g)].map(([, to, mark]) => [
    mark,
    to?.replaceAll('&amp;', '&'),
  ]);
  expect(links.map(([mark]) => mark)).toEqual(plan.voids.map((each) => each.void));
  for (const n of [0, VOIDS_SHOWN, plan.voids.length - 1]) {
    const to = links[n]![1]!;
    expect(await isThere(to.startsWith('#') ? `${page}?void=2${to}` : page + to)).toBe(true);
  }
});
