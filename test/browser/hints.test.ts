/** Forms on a phone: what stays in sight while typing does not hide what else is needed there. */
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, expect, test, vi } from 'vitest';
import { addDraft, demonstration } from '../../server/routes/jobs.ts';
import { trialJobInput, trialPair } from '../plan/trialPlan.ts';
import { keepPlan } from '../server/keepPlan.ts';
import { openWorld, type World } from '../server/world.ts';
import { closeWindows, openBrowser } from './launch.ts';
import { DESK, openPage, PATIENCE, PHONE } from './window.ts';

vi.setConfig({ testTimeout: 150_000 });

let browser: Browser;
let world: World;
let address: string;
beforeAll(async () => {
  browser = await openBrowser();
  world = await openWorld();
  const job = addDraft({ store: world.store, clock: () => new Date('2026-05-04T10:00:00Z') }, demonstration());
  address = `${world.address}/jobs/${job}`;
}, PATIENCE);
afterAll(async () => {
  await closeWindows(browser);
  await world?.close();
});

/** Scrolls so that the element's top stands `up` px over the foot of the window. */
const scrollTo = (page: Page, selector: string, up: number) =>
  page.locator(selector).evaluate((element, over) => {
    scrollBy(0, element.getBoundingClientRect().top - innerHeight + over);
  }, up);

test('neither a drawing nor a hint covers “Save and plan”; a hint comes into sight and goes with Escape', async () => {
  const page = await openPage(browser, PHONE);
  await page.goto(address);
  const button = page.getByRole('button', { name: 'Save and plan' });
  const seen = () =>
    button.evaluate((element) => {
      const { left, top, width, height } = element.getBoundingClientRect();
      return document.elementFromPoint(left + width / 2, top + height / 2) === element;
    });
  await page.locator('#voids-1-height').focus();
  await scrollTo(page, '#voids-1', 300);
  expect(await seen()).toBe(true);

  const hint = page.locator('#voids-1-limit-help');
  await scrollTo(page, '#voids-1-limit', 150);
  await page.locator('#voids-1-limit').evaluate((field) => field.focus({ preventScroll: true }));
  const foot = await page.locator('.bar').evaluate((bar) => bar.getBoundingClientRect().top);
  expect(await hint.evaluate((shown) => shown.getBoundingClientRect().bottom)).toBeLessThanOrEqual(foot);
  expect(await seen()).toBe(true);
  await page.keyboard.press('Escape');
  expect(await hint.isVisible()).toBe(false);
  await page.locator('#voids-1-height').focus();
  await page.locator('#voids-1-limit').focus();
  expect(await hint.isVisible()).toBe(true);
  await page.context().close();
});

test('what is reached with Tab on a phone stands clear of the bar at its foot, with what is told beneath it', async () => {
  const at = '2026-05-04T10:00:00Z';
  const clock = () => new Date(at);
  const bare = { format: 'kentledge-job/1', name: 'New', pile: [], voids: [{ void: 'V1' }] };
  const empty = addDraft({ store: world.store, clock }, bare);
  const trial = addDraft({ store: world.store, clock }, trialJobInput() as Record<string, unknown>);
  const plan = keepPlan(world.store, trial, trialJobInput(), trialPair().plan, at);
  // Its own keyboard leaves a phone half of its height.
  const page = await openPage(browser, { ...PHONE, viewport: { width: 390, height: 420 } });
  for (const path of [`/jobs/${empty}`, `/plans/${plan}/weighed`]) {
    await page.goto(world.address + path);
    let fields = 0;
    for (let n = 0; n < 40; n++) {
      await page.keyboard.press('Tab');
      const under = await page.evaluate(() => {
        const field = document.activeElement?.closest('.field');
        const bar = document.querySelector('.bar')!.getBoundingClientRect();
        return field && bar.bottom > innerHeight - 1 ? field.getBoundingClientRect().bottom - bar.top : null;
      });
      if (under === null) continue;
      fields++;
      expect(under, path).toBeLessThanOrEqual(0);
    }
    expect(fields, path).toBeGreaterThan(5);
  }
  await page.context().close();
});

test('the words of each choice of stops fit their field', async () => {
  const page = await openPage(browser, DESK);
  await page.goto(address);
  const [room, words] = await page.locator('#wish-stops').evaluate((select) => {
    const wide = select.getBoundingClientRect().width;
    (select as HTMLSelectElement).style.width = 'auto';
    return [wide, select.getBoundingClientRect().width];
  });
  expect(words).toBeLessThanOrEqual(room ?? 0);
  await page.context().close();
});

test('lengths measured one by one have a line of their own, all in sight, without scripts too', async () => {
  const lengths = Array.from({ length: 38 }, (_, n) => 5480 - 37 * n);
  const pile = [{ lot: 'A', section: { shape: 'round', diameter: 25 }, lengths }];
  const draft = { format: 'kentledge-job/1', name: 'Odd', pile, voids: [] };
  const job = addDraft({ store: world.store, clock: () => new Date('2026-05-04T10:00:00Z') }, draft);
  for (const how of [DESK, { ...DESK, javaScriptEnabled: false }]) {
    const page = await openPage(browser, how);
    await page.goto(`${world.address}/jobs/${job}`);
    const box = page.locator('#pile-0-lengths');
    expect(await box.evaluate((area) => area.scrollHeight - area.clientHeight)).toBeLessThanOrEqual(0);
    // Also where the browser does not fit it to its text.
    expect(await box.evaluate((area) => (area as HTMLTextAreaElement).rows)).toBeGreaterThan(1);
    const [own, lot] = await Promise.all([box, page.locator('#pile-0')].map((one) => one.boundingBox()));
    expect(own!.width).toBeGreaterThan(0.95 * lot!.width);
    await page.context().close();
  }
});
