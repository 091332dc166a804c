/** For who reads large letters, has pages read out, or works with the keyboard alone. */
import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, expect, test, vi } from 'vitest';
import { addDraft, demonstration } from '../../server/routes/jobs.ts';
import { openWorld, type World } from '../server/world.ts';
import { findOverflow } from './chromium.ts';
import { openBrowser } from './launch.ts';
import { openPage, PATIENCE, PHONE, unfold } from './window.ts';

vi.setConfig({ testTimeout: PATIENCE, hookTimeout: PATIENCE });

let browser: Browser;
let world: World;
let job: number;
beforeAll(async () => {
  browser = await openBrowser();
  world = await openWorld();
  job = addDraft({ store: world.store, clock: () => new Date() }, demonstration());
});
afterAll(async () => {
  await browser?.close();
  await world?.close();
});

test('letters twice as large in the browser are twice as large here, and all still fits a phone', async () => {
  const large = await openBrowser(['--blink-settings=defaultFontSize=32']);
  const page = await openPage(large, PHONE);
  await page.goto(`${world.address}/jobs/${job}`);
  await unfold(page);
  expect(await page.evaluate(() => getComputedStyle(document.documentElement).fontSize)).toBe('32px');
  expect(await findOverflow(page)).toEqual([]);
  await large.close();
});
