/** The list of what is stowed on a phone: a tick is kept as it is made, and none is lost with the connection. */
import { setTimeout as wait } from 'node:timers/promises';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, beforeEach, expect, test, vi } from 'vitest';
import { recordPlan } from '../../server/planning/record.ts';
import { trialJobInput, trialPair } from '../plan/trialPlan.ts';
import { stackedPair } from '../server/paper/stackedPlan.ts';
import { openWorld, type World } from '../server/world.ts';
import { closeWindows, openBrowser } from './launch.ts';
import { openPage, PATIENCE, PHONE, seen } from './window.ts';

vi.setConfig({ testTimeout: PATIENCE, hookTimeout: PATIENCE });

const { plan } = trialPair();
const inOrder = plan.bundles.filter((own) => own.void === 'V1').sort((p, q) => p.order - q.order);
const [first, second, third] = inOrder.map(({ bundle }) => bundle) as [string, string, string];
let browser: Browser;
let world: World;
let serial = 0;
beforeAll(async () => {
  browser = await openBrowser();
  // Whether a tick comes before another goes by times: here they run.
  world = await openWorld(undefined, undefined, () => new Date());
}, PATIENCE);
beforeEach(() => {
  const body = JSON.stringify(trialJobInput());
  const job = world.store.jobs.add('Trial', body, '2026-05-04T10:00:00Z');
  world.planning.ask(job, { effort: 'quick', seed: 1, stops: null }, body);
  world.children.at(-1)?.say({ kind: 'plan', plan: JSON.stringify(plan) });
  world.children.at(-1)?.end();
  serial = world.store.plannings.latest(job)?.plan ?? 0;
});
afterAll(async () => {
  await closeWindows(browser);
  await world?.close();
});

const told = () => world.store.records.of(serial).map(({ bundle, what }) => `${bundle} ${what}`);
const boxOf = (page: Page, bundle: string) =>
  page.locator(`[name="in.${plan.bundles.findIndex((own) => own.bundle === bundle)}"]`);
const state = (page: Page, words: string) => seen(page.locator('[data-state]', { hasText: words }));

test('a tick is kept at once, and one of another phone neither lost nor taken away', async () => {
  const page = await openPage(browser, PHONE);
  await page.goto(`${world.address}/plans/${serial}/stowed`);
  await boxOf(page, first).check();
  await state(page, 'Kept.');
  // What goes in next is told at the foot of the window, too: the list of all voids is long.
  const next = await page.locator('[data-next]').getAttribute('data-next');
  expect(next).not.toBe(first);
  await state(page, `Next in: ${next}.`);
  expect(told()).toEqual([`${first} in`]);
  world.store.records.add(serial, [{ bundle: third, what: 'in', note: '', at: '2026-05-04T10:00:00Z' }]);
  await boxOf(page, second).check();
  await vi.waitFor(() => expect(told()).toContain(`${second} in`), { timeout: 10_000 });
  await vi.waitFor(async () => expect(await boxOf(page, third).isChecked()).toBe(true), { timeout: 10_000 });
  await boxOf(page, first).uncheck();
  await vi.waitFor(() => expect(told()).toContain(`${first} undone`), { timeout: 10_000 });
  expect(told()).toHaveLength(4);
  await page.context().close();
});

test('a tick taken away while it is still under way, on a slow line, is taken away', async () => {
  const page = await openPage(browser, PHONE);
  await page.goto(`${world.address}/plans/${serial}/stowed`);
  let release = (): void => {};
  const released = new Promise<void>((resolve) => {
    release = resolve;
  });
  await page.route('**/stowed?*', async (route) => {
    await released;
    await route.continue();
  });
  await boxOf(page, first).check();
  await state(page, 'Keeping it');
  await boxOf(page, first).uncheck();
  // The first is on its way for so long that by its time the second comes before it.
  await wait(300);
  release();
  await state(page, 'Kept.');
  await vi.waitFor(() => expect(told()).toEqual([`${first} in`, `${first} undone`]), { timeout: 10_000 });
  await page.context().close();
});

test('without a connection ticks wait, also when the page is closed, and go when it is back', async () => {
  const page = await openPage(browser, PHONE);
  const context = page.context();
  const address = `${world.address}/plans/${serial}/stowed`;
  await page.goto(address);
  await context.setOffline(true);
  await boxOf(page, first).check();
  await state(page, 'Not kept yet: no connection');
  await page.getByRole('button', { name: 'All of V2 is in' }).click();
  await state(page, 'Not kept yet');
  expect(told()).toEqual([]);
  await page.close();
  await context.setOffline(false);
  const again = await context.newPage();
  await again.goto(address);
  await state(again, 'Kept.');
  const whole = plan.bundles.filter((own) => own.void === 'V2').map(({ bundle }) => `${bundle} in`);
  expect(told().sort()).toEqual([`${first} in`, ...whole].sort());
  // And kept once.
  await again.reload();
  await again.getByRole('button', { name: 'Keep the ticks' }).first().click();
  await state(again, 'Kept.');
  expect(told()).toHaveLength(whole.length + 1);
  await context.close();
});

test('a void that was ticked as a whole is nowhere on the page still said to be empty', async () => {
  const stacked = stackedPair({ voids: 4, runs: 2, tiers: 3, across: 2 });
  const body = JSON.stringify(stacked.job);
  const job = world.store.jobs.add('Stacked', body, '2026-05-04T10:00:00Z');
  const own = recordPlan(world.store, { job, body }, JSON.stringify(stacked.plan), null, false, '2026-05-04T10:00:00Z');
  const page = await openPage(browser, PHONE);
  await page.goto(`${world.address}/plans/${own}/stowed`);
  const names = await page
    .locator('[data-fold]:not([open])')
    .evaluateAll((folds) => folds.map((fold) => (fold as HTMLElement).dataset.fold ?? ''));
  const name = names[0]!;
  const fold = page.locator(`[data-fold="${name}"] > summary`);
  expect(await fold.textContent()).toMatch(/none is in yet$/);
  await page.getByRole('button', { name: `All of ${name} is in` }).click();
  await state(page, 'Kept.');
  expect(await fold.textContent()).toBe('Its bundles, in loading order');
  await page.context().close();
});

test('a void of which all is ticked is not offered to be ticked as a whole, and is again once a tick is taken away', async () => {
  const context = await browser.newContext(PHONE);
  const page = await context.newPage();
  await page.goto(`${world.address}/plans/${serial}/stowed`);
  const whole = page.locator('[name="whole"]', { hasText: 'All of V1 is in' });
  expect(await whole.isVisible()).toBe(true);
  await whole.focus();
  await page.keyboard.press('Enter');
  await state(page, 'Kept.');
  expect(await whole.isHidden()).toBe(true);
  expect(await page.locator(':focus').getAttribute('name')).toBe('keep');
  expect(await page.locator('[name="whole"]', { hasText: 'All of V2 is in' }).isVisible()).toBe(true);
  await boxOf(page, first).uncheck();
  await vi.waitFor(() => expect(told()).toContain(`${first} undone`), { timeout: 10_000 });
  expect(await whole.isVisible()).toBe(true);
  // One by one, and without a connection, too.
  await context.setOffline(true);
  await boxOf(page, first).check();
  await state(page, 'Not kept yet');
  expect(await whole.isHidden()).toBe(true);
  await context.close();
});

test('one that another wrote of in the meantime stands as that says; a page that is refused loses no tick', async () => {
  const page = await openPage(browser, PHONE);
  const context = page.context();
  await page.goto(`${world.address}/plans/${serial}/stowed`);
  await page.route('**/stowed?*', (route) => route.fulfill({ status: 403, body: 'no' }));
  await boxOf(page, first).check();
  await state(page, 'load the page anew');
  expect(told()).toEqual([]);
  await page.unroute('**/stowed?*');
  await page.reload();
  await state(page, 'Kept.');
  expect(told()).toEqual([`${first} in`]);
  await context.setOffline(true);
  await boxOf(page, second).check();
  await state(page, 'Not kept yet');
  // So much later that it is later also by a tick's time as the server reckons it: that errs by how long the tick is under way.
  await wait(2000);
  const at = new Date().toISOString();
  for (const what of ['in', 'out'] as const) world.store.records.add(serial, [{ bundle: second, what, note: '', at }]);
  await context.setOffline(false);
  await state(page, `${second} was written of since`);
  expect(await boxOf(page, second).isChecked()).toBe(false);
  expect(told().at(-1)).toBe(`${second} out`);
  await context.close();
});

test('two windows without a connection: neither writes over what the other has waiting, and any window sends it all', async () => {
  const page = await openPage(browser, PHONE);
  const context = page.context();
  const address = `${world.address}/plans/${serial}/stowed`;
  await page.goto(address);
  const other = await context.newPage();
  await other.goto(address);
  await context.setOffline(true);
  await boxOf(page, first).check();
  await state(page, 'Not kept yet');
  // What waits is shown in the other window, too.
  await vi.waitFor(async () => expect(await boxOf(other, first).isChecked()).toBe(true), { timeout: 10_000 });
  await boxOf(other, second).check();
  await state(other, 'Not kept yet');
  await page.close();
  await other.close();
  await context.setOffline(false);
  const again = await context.newPage();
  await again.goto(address);
  await state(again, 'Kept.');
  expect(told().sort()).toEqual([`${first} in`, `${second} in`]);
  expect(await again.evaluate(() => localStorage.length)).toBe(0);
  await context.close();
});

test('two phones without a connection: the later act counts whichever comes first, and who is contradicted is told', async () => {
  const [one, other] = [await openPage(browser, PHONE), await openPage(browser, PHONE)];
  const address = `${world.address}/plans/${serial}/stowed`;
  await one.goto(address);
  await boxOf(one, first).check();
  await state(one, 'Kept.');
  await other.goto(address);
  for (const page of [one, other]) await page.context().setOffline(true);
  // The first phone takes it away and says how another lies; later the other says so otherwise, and leaves the tick.
  await boxOf(one, first).uncheck();
  await boxOf(one, third).check();
  const lies = (page: Page) => page.locator(`[name="lies.${plan.bundles.findIndex((own) => own.bundle === second)}"]`);
  const say = (page: Page, words: string) =>
    lies(page).evaluate((field, text) => {
      (field as HTMLTextAreaElement).value = text;
      for (const type of ['input', 'change']) field.dispatchEvent(new Event(type, { bubbles: true }));
    }, words);
  await say(one, 'on edge');
  await wait(1500);
  await say(other, '20 mm to port');
  await state(other, 'Not kept yet');
  await other.context().setOffline(false);
  await state(other, 'Kept.');
  await wait(500);
  await one.context().setOffline(false);
  await state(one, `How ${second} lies was said since by another`);
  expect(await lies(one).inputValue()).toBe('20 mm to port');
  expect(told().filter((line) => line === `${second} lies`)).toHaveLength(3);
  expect(told().filter((line) => line === `${first} undone` || line === `${third} in`)).toHaveLength(2);
  // The other still shows what it was shown: with its next tick it is told.
  await boxOf(other, second).check();
  await state(other, `Since, by another: ${first} not in, ${third} in.`);
  expect(await boxOf(other, first).isChecked()).toBe(false);
  expect(told().filter((line) => line === `${first} in`)).toHaveLength(1);
  for (const page of [one, other]) await page.context().close();
});

test('a page that is not kentledge’s, as of a network that asks who one is, keeps no tick: it waits', async () => {
  const page = await openPage(browser, PHONE);
  await page.goto(`${world.address}/plans/${serial}/stowed`);
  await page.route('**/stowed?*', (route) =>
    route.fulfill({ status: 200, contentType: 'text/html', body: '<h1>Who are you?</h1>' }),
  );
  await boxOf(page, first).check();
  await state(page, 'Not kept yet');
  expect(told()).toEqual([]);
  await page.unroute('**/stowed?*');
  await wait(50);
  await page.reload();
  await state(page, 'Kept.');
  expect(told()).toEqual([`${first} in`]);
  await page.context().close();
});

test('a tick whose answer was lost may have come in: unticked then, it is taken away', async () => {
  const page = await openPage(browser, PHONE);
  await page.goto(`${world.address}/plans/${serial}/stowed`);
  await page.route('**/stowed?*', async (route) => {
    await route.fetch();
    await route.abort();
  });
  await boxOf(page, first).check();
  await state(page, 'Not kept yet');
  expect(told()).toEqual([`${first} in`]);
  await page.unroute('**/stowed?*');
  await wait(50);
  await boxOf(page, first).uncheck();
  await state(page, 'Kept.');
  expect(told()).toEqual([`${first} in`, `${first} undone`]);
  await page.context().close();
});

test('a note too long to keep is shown with what to do, and a bundle over one that is not in is told', async () => {
  const page = await openPage(browser, PHONE);
  await page.goto(`${world.address}/plans/${serial}/stowed`);
  const upper = inOrder.find((own) => own.tier > 1)!.bundle;
  await boxOf(page, upper).check();
  await state(page, `${upper} rests on`);
  await page.locator('details details').first().locator('summary').click();
  await page.getByLabel(`How ${first} lies`).fill('y'.repeat(600));
  await boxOf(page, first).check();
  await seen(page.getByText('Say it shorter'));
  expect(await page.getByLabel(`How ${first} lies`).inputValue()).toHaveLength(600);
  expect(told()).toContain(`${first} in`);
  // It stands as it was typed, whatever is ticked besides.
  await boxOf(page, second).check();
  await state(page, 'Kept.');
  expect(await page.getByLabel(`How ${first} lies`).inputValue()).toHaveLength(600);
  await page.context().close();
});
