/** The scale, the survey and the page of a tag on a phone whose connection goes: nothing that was done is lost without a word. */
import { setTimeout as wait } from 'node:timers/promises';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, beforeEach, expect, test, vi } from 'vitest';
import { recordPlan } from '../../server/planning/record.ts';
import { trialJobInput, trialPair } from '../plan/trialPlan.ts';
import { openWorld, type World } from '../server/world.ts';
import { closeWindows, openBrowser } from './launch.ts';
import { openPage, PATIENCE, PHONE, seen } from './window.ts';

vi.setConfig({ testTimeout: PATIENCE, hookTimeout: PATIENCE });

const { plan } = trialPair();
const indexOf = (bundle: string) => plan.bundles.findIndex((own) => own.bundle === bundle);
let browser: Browser;
let world: World;
let page: Page;
let serial = 0;
beforeAll(async () => {
  browser = await openBrowser();
  world = await openWorld(undefined, undefined, () => new Date());
  page = await openPage(browser, PHONE);
});
beforeEach(() => {
  const body = JSON.stringify(trialJobInput());
  const job = world.store.jobs.add('Trial', body, '2026-05-04T10:00:00Z');
  serial = recordPlan(world.store, { job, body }, JSON.stringify(plan), null, false, '2026-05-04T10:00:00Z');
});
afterAll(async () => {
  await closeWindows(browser);
  await world?.close();
});

/** Presses it without a connection, which comes back on the browser's own page of the error. */
const pressInVain = async (name: string) => {
  await page.context().setOffline(true);
  await page.getByRole('button', { name, exact: true }).click();
  await page.waitForURL(/^chrome-error/);
  await page.context().setOffline(false);
};
/** What waits for `opened` goes on once it is opened. */
const gate = () => {
  let open = () => {};
  const opened = new Promise<void>((resolve) => {
    open = resolve;
  });
  return { opened, open };
};
const told = () => world.store.records.of(serial).map(({ bundle, what }) => `${bundle} ${what}`);
const stow = (...marks: string[]) =>
  world.store.records.add(
    serial,
    marks.map((bundle) => ({ bundle, what: 'in', note: '', at: '2026-05-04T10:00:00Z' })),
  );
const notKept = () => page.getByText('What you typed is here again: it was not kept yet.');
const kept = () => page.getByText('Kept.', { exact: true });

test('weights that did not arrive are typed again and said not to be kept; nothing typed is not told as kept', async () => {
  const address = `${world.address}/plans/${serial}/weighed`;
  const field = (mark: string) => page.locator(`[name="mass.${indexOf(mark)}"]`);
  await page.goto(address);
  await page.getByRole('button', { name: 'Keep what was weighed' }).click();
  await seen(page.getByText('Nothing was typed that is not kept already.'));
  expect(await kept().count()).toBe(0);
  await page.goto(address);
  await field('V1-01').fill('7.9');
  await field('V1-02').fill('7,8');
  await pressInVain('Keep what was weighed');
  await page.goto(address);
  await seen(notKept());
  expect(await field('V1-01').inputValue()).toBe('7.9');
  expect(await field('V1-02').inputValue()).toBe('7,8');
  expect(world.store.weighed.of(serial).size).toBe(0);
  await page.getByRole('button', { name: 'Keep what was weighed' }).click();
  await seen(kept());
  expect([...world.store.weighed.of(serial)]).toEqual([
    ['V1-01', 7.9],
    ['V1-02', 7.8],
  ]);
  await page.goto(address);
  expect(await page.getByText('is here again').count()).toBe(0);
});

test('where another phone kept a weight meanwhile that stands, the others are typed again', async () => {
  const address = `${world.address}/plans/${serial}/weighed`;
  const field = (mark: string) => page.locator(`[name="mass.${indexOf(mark)}"]`);
  await page.goto(address);
  await field('V1-01').fill('7.9');
  await field('V1-02').fill('7.7');
  await pressInVain('Keep what was weighed');
  world.store.weighed.set(serial, new Map([['V1-01', 8]]), '2026-05-04T10:00:00Z');
  await page.goto(address);
  await seen(page.getByText('look whether it is in there'));
  expect(await field('V1-01').inputValue()).toBe('8');
  expect(await field('V1-02').inputValue()).toBe('7.7');
});

test('ticks and what was seen at a survey that did not arrive are there again, the fold of the tick open', async () => {
  stow('V1-01', 'V1-02');
  const address = `${world.address}/plans/${serial}/survey`;
  const tick = page.locator(`[type="checkbox"][name="pick.${indexOf('V1-02')}"]`);
  await page.goto(address);
  await page.getByText('Its bundles, in breaking-out order').first().click();
  await tick.check();
  await page.getByLabel('What was seen').fill('wet under it');
  await pressInVain('Lifted out');
  await page.goto(address);
  await seen(notKept());
  expect(await tick.isVisible()).toBe(true);
  expect(await tick.isChecked()).toBe(true);
  expect(await page.getByLabel('What was seen').inputValue()).toBe('wet under it');
  expect(told()).toHaveLength(2);
  await page.getByRole('button', { name: 'Lifted out', exact: true }).click();
  await seen(page.getByText('Written: 1 bundle lifted out.'));
  expect(told().at(-1)).toBe('V1-02 out');
  await page.goto(address);
  expect(await page.getByText('is here again').count()).toBe(0);
  // The buttons of the order have nothing typed: that they were pressed in vain is told.
  await pressInVain('V1-01 is out');
  await page.goto(address);
  await seen(page.getByText('“V1-01 is out” was not written. Press it again.'));
  expect(told()).toHaveLength(3);
});

test('“It is in” on the page of a tag waits without a connection, also when the page is closed, and goes once there is one', async () => {
  const address = `${world.address}/b/${serial}/V1-01`;
  const state = (words: string) => page.locator('[data-state]', { hasText: words });
  await page.goto(address);
  await page.context().setOffline(true);
  await page.getByRole('button', { name: 'It is in' }).click();
  await seen(state('Not kept yet: no connection. It waits on this device'));
  expect(told()).toEqual([]);
  await page.goto('about:blank');
  await page.context().setOffline(false);
  // The tag of another bundle sends it as well.
  await page.goto(`${world.address}/b/${serial}/V1-02`);
  await vi.waitFor(() => expect(told()).toEqual(['V1-01 in']), { timeout: 10_000 });
  // That page has shown itself anew before another is asked for: else it would come in between.
  await page.waitForFunction(
    () => (performance.getEntriesByType('navigation')[0] as PerformanceNavigationTiming | undefined)?.type === 'reload',
  );
  await page.goto(address);
  await seen(page.getByText('It is in, since'));
  await page.goto(`${world.address}/b/${serial}/V1-02`);
  await page.getByRole('button', { name: 'It is in' }).click();
  // Kept, the page says so itself.
  await seen(page.getByText('It is in, since'));
  expect(told()).toEqual(['V1-01 in', 'V1-02 in']);
});

test('who goes on from the page of a tag while “It is in” is under way, on a slow line, is not held there', async () => {
  const [tick, list] = [gate(), gate()];
  await page.route('**/stowed*', async (route) => {
    await (route.request().method() === 'POST' ? tick : list).opened;
    await route.continue();
  });
  await page.goto(`${world.address}/b/${serial}/V1-01`);
  await page.getByRole('button', { name: 'It is in' }).click();
  await seen(page.locator('[data-state]', { hasText: 'Keeping it' }));
  const asked = page.waitForRequest((request) => request.isNavigationRequest());
  await page.getByRole('link', { name: 'Stowed so far' }).click({ noWaitAfter: true });
  await asked;
  tick.open();
  await vi.waitFor(() => expect(told()).toEqual(['V1-01 in']), { timeout: 10_000 });
  // Its answer is there as well, before that of the list.
  await wait(300);
  list.open();
  await page.waitForURL('**/stowed*');
  await page.unrouteAll();
});

test('“It is lifted out” and a weight typed on the page of a tag that did not arrive are told there', async () => {
  stow('V1-01');
  const address = `${world.address}/b/${serial}/V1-01`;
  await page.goto(address);
  await pressInVain('It is lifted out');
  await page.goto(address);
  await seen(page.getByText('“It is lifted out” was not written. Press it again.'));
  expect(told()).toEqual(['V1-01 in']);
  await page.getByRole('button', { name: 'It is lifted out' }).click();
  await seen(page.getByText('Lifted out since'));
  expect(await page.getByText('was not written').count()).toBe(0);
  await page.getByLabel('What the scale says').fill('7.9');
  await pressInVain('Keep it');
  await page.goto(address);
  await seen(notKept());
  expect(await page.getByLabel('What the scale says').inputValue()).toBe('7.9');
  await page.getByRole('button', { name: 'Keep it' }).click();
  await seen(page.getByText('Off the scale'));
  expect(await page.getByText('is here again').count()).toBe(0);
});
