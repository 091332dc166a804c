/** Back, and pressed twice: pages that are come back to are shown as things stand, and a form is sent once. */
import { once } from 'node:events';
import { request as ask, createServer } from 'node:http';
import type { AddressInfo } from 'node:net';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, expect, test, vi } from 'vitest';
import { recordPlan } from '../../server/planning/record.ts';
import { addDraft } from '../../server/routes/jobs.ts';
import { VOIDS_SHOWN } from '../../server/show/jobPage.ts';
import { JOB_FORMAT } from '../../src/job/job.ts';
import { trialJobInput, trialPair } from '../plan/trialPlan.ts';
import { openWorld, type World } from '../server/world.ts';
import { closeWindows, openBrowser } from './launch.ts';
import { DESK, openPage, PATIENCE, seen } from './window.ts';

vi.setConfig({ testTimeout: PATIENCE, hookTimeout: PATIENCE });

let browser: Browser;
let world: World;
let page: Page;
beforeAll(async () => {
  browser = await openBrowser();
  world = await openWorld();
  page = await openPage(browser, DESK);
});
afterAll(async () => {
  await closeWindows(browser);
  await world?.close();
});

const voids = Array.from({ length: VOIDS_SHOWN + 3 }, (_, n) => ({
  void: `V${n}`,
  length: 500,
  width: 200,
  height: 90,
}));
const bring = () =>
  addDraft({ store: world.store, clock: () => new Date() }, { format: JOB_FORMAT, name: 'Many', pile: [], voids });
const name = (n: number) => page.locator(`[name="voids[${VOIDS_SHOWN + n}].name"]`);
const save = () => page.getByRole('button', { name: 'Save', exact: true }).click();

test('who comes back to a job after saving finds what was saved, and goes on from there', async () => {
  const id = bring();
  await page.goto(`${world.address}/jobs/${id}?void=2`);
  await name(0).fill('Under the stove');
  await save();
  await page.waitForURL(/saved=1/);
  await page.goBack();
  await expect.poll(() => page.locator('[name="revision"]').inputValue()).toBe('2');
  expect(await name(0).inputValue()).toBe('Under the stove');
  await name(1).fill('Under the sink');
  await save();
  await page.waitForURL(/saved=1/);
  const { voids: kept } = JSON.parse(world.store.jobs.body(id)!) as { voids: { name?: string }[] };
  expect(kept.slice(VOIDS_SHOWN, VOIDS_SHOWN + 2).map((one) => one.name)).toEqual([
    'Under the stove',
    'Under the sink',
  ]);
  expect(world.store.jobs.beside(id)).toEqual([]);
});

test('a page that the browser had kept whole is asked for anew once its text is saved, and not before', async () => {
  const id = bring();
  await page.goto(`${world.address}/jobs/${id}?void=2`);
  await name(0).fill('Typed, and sent to nobody');
  // As if it was sent, and the line was lost on the way.
  await page.evaluate(() => {
    const form = document.querySelector<HTMLFormElement>('#job-form')!;
    form.addEventListener('submit', (event) => event.preventDefault(), { once: true });
    form.requestSubmit();
  });
  const comeBack = () => page.evaluate(() => dispatchEvent(new PageTransitionEvent('pageshow', { persisted: true })));
  await comeBack();
  await page.waitForTimeout(400);
  expect(await name(0).inputValue()).toBe('Typed, and sent to nobody');
  world.store.jobs.save(id, 1, 'Many', JSON.stringify({ format: JOB_FORMAT, name: 'Many', pile: [], voids: [] }), '');
  await comeBack();
  await expect.poll(() => page.locator('[name="revision"]').inputValue()).toBe('2');
});

test('on a slow line a button pressed twice is obeyed once', async () => {
  const line = createServer((request, response) => {
    const body: Buffer[] = [];
    request.on('data', (part: Buffer) => body.push(part));
    request.on('end', () =>
      // Only what is sent is slow: pages and scripts would take as long again and show nothing.
      setTimeout(
        () => {
          const { method, headers } = request;
          const onward = ask(world.address + request.url, { method, headers }, (answer) => {
            response.writeHead(answer.statusCode ?? 500, answer.headers);
            answer.pipe(response);
          });
          onward.end(Buffer.concat(body));
        },
        request.method === 'POST' ? 700 : 0,
      ),
    );
  }).listen(0, '127.0.0.1');
  await once(line, 'listening');
  const slow = `http://127.0.0.1:${(line.address() as AddressInfo).port}`;
  const id = bring();
  await page.goto(`${slow}/jobs/${id}?void=2`);
  await page.getByRole('button', { name: 'Another void' }).dblclick({ delay: 20 });
  await page.waitForURL(/saved=1/);
  await seen(page.locator('#job-form'));
  expect(JSON.parse(world.store.jobs.body(id)!).voids).toHaveLength(voids.length + 1);
  expect(world.store.jobs.beside(id)).toEqual([]);
  const before = world.store.jobs.all().length;
  await page.getByRole('button', { name: 'Copy this job' }).dblclick({ delay: 20 });
  await page.waitForURL((address) => !address.pathname.endsWith(`/${id}`));
  await page.waitForTimeout(400);
  expect(world.store.jobs.all()).toHaveLength(before + 1);
  line.closeAllConnections();
  line.close();
});

test('what was sent and did not arrive is typed again when the job is next opened, new lines of the pile too, and once saved never more', async () => {
  const id = bring();
  const job = `${world.address}/jobs/${id}`;
  const lost = page.getByText('it did not arrive, and is not saved yet');
  await page.goto(job);
  await page.locator('[name="voids[0].name"]').fill('Under the stove');
  await page.locator('[name="pile[0].length"]').fill('2345');
  await page.locator('[name="pile[1].section.shape"]').selectOption('flat');
  await page.route(job, (route) => (route.request().method() === 'POST' ? route.abort() : route.continue()));
  await save();
  await page.waitForURL(/^chrome-error/);
  await page.unroute(job);
  await page.goto(world.address);
  await page.locator(`h2 a[href="/jobs/${id}"]`).click();
  await seen(lost);
  expect(await page.locator('[name="voids[0].name"]').inputValue()).toBe('Under the stove');
  await save();
  await page.waitForURL(/saved=1/);
  expect(JSON.parse(world.store.jobs.body(id)!)).toMatchObject({
    pile: [{ length: 2345 }, { section: { shape: 'flat' } }],
    voids: [{ name: 'Under the stove' }, ...voids.slice(1)],
  });
  await page.goto(job);
  expect(await lost.count()).toBe(0);
  // What says nothing new was answered as well.
  await page.locator('[name="voids[0].length"]').fill('500 mm');
  await save();
  await page.waitForURL(/saved=1/);
  expect(await lost.count()).toBe(0);
  expect(await page.locator('[name="voids[0].length"]').inputValue()).toBe('500');
});

test('a reading that was sent and did not arrive is typed again, and pressed twice or come back to it is written once', async () => {
  const job = addDraft({ store: world.store, clock: () => new Date() }, trialJobInput() as Record<string, unknown>);
  const input = { job, body: JSON.stringify(trialJobInput()) };
  const serial = recordPlan(
    world.store,
    input,
    JSON.stringify(trialPair().plan),
    null,
    false,
    new Date().toISOString(),
  );
  const address = `${world.address}/plans/${serial}/read`;
  const texts = () => world.store.taken.of(job);
  const keep = page.getByRole('button', { name: 'Keep what was read' });
  await page.goto(address);
  await page.getByLabel('Draught, fore end').fill('0.91');
  await page.getByLabel('What else was aboard').fill('two people');
  await page.route(address, (route) => (route.request().method() === 'POST' ? route.abort() : route.continue()));
  await keep.click();
  await page.waitForURL(/chrome-error/).catch(() => {});
  await page.unroute(address);
  await page.goto(address);
  const lost = page.getByText('it did not arrive, and is not saved yet');
  await seen(lost);
  expect(await page.getByLabel('Draught, fore end').inputValue()).toBe('0.91');
  expect(await page.getByLabel('What else was aboard').inputValue()).toBe('two people');
  expect(texts()).toEqual([]);
  await keep.dblclick();
  await page.waitForURL(/saved=1/);
  expect(texts()).toHaveLength(1);
  // What the browser still has of the page before is shown as things stand.
  await page.goBack();
  const revision = async () => expect(await page.locator('[name="revision"]').inputValue()).toBe('1-new');
  await vi.waitFor(revision, { timeout: PATIENCE });
  expect(await page.getByLabel('Draught, fore end').inputValue()).toBe('');
  expect(await lost.count()).toBe(0);
  expect(texts()[0]!.reading).toMatchObject({ forward: 0.91, note: 'two people' });
});
