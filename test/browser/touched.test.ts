/** A bundle touched in a drawing tells what it is made of, whichever answer comes first. */
import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, expect, test, vi } from 'vitest';
import { recordPlan } from '../../server/planning/record.ts';
import { addDraft } from '../../server/routes/jobs.ts';
import { trialJobInput, trialPair } from '../plan/trialPlan.ts';
import { openWorld, type World } from '../server/world.ts';
import { openBrowser } from './launch.ts';
import { DESK, openPage, PATIENCE } from './window.ts';

vi.setConfig({ testTimeout: 150_000 });

let browser: Browser;
let world: World;
beforeAll(async () => {
  browser = await openBrowser();
  world = await openWorld();
}, PATIENCE);
afterAll(async () => {
  await browser?.close();
  await world?.close();
});

test('what is told is of the bundle touched last, though the answer for an earlier one comes later', async () => {
  const job = addDraft({ store: world.store, clock: () => new Date(0) }, { ...trialJobInput() });
  const { plan } = trialPair();
  const at = '2026-05-04T10:00:00Z';
  const order = { job, body: JSON.stringify(trialJobInput()) };
  const serial = recordPlan(world.store, order, JSON.stringify(plan), null, false, at);
  const [first, last] = plan.bundles.filter((bundle) => bundle.void === plan.bundles[0]?.void);
  const page = await openPage(browser, DESK);
  let answer: () => void = () => {};
  const held = new Promise<void>((resolve) => {
    answer = resolve;
  });
  await page.route(`**/b/${serial}/${first?.bundle}`, async (route) => {
    await held;
    await route.continue();
  });
  await page.goto(`${world.address}/plans/${serial}`);
  await page.locator(`.stow [data-name="${first?.bundle}"]`).first().dispatchEvent('click');
  await page.locator(`.stow [data-name="${last?.bundle}"]`).first().dispatchEvent('click');
  const slip = page.locator('.touched-bundle h4 a');
  await slip.waitFor();
  expect(await slip.textContent()).toBe(last?.bundle);
  const late = page.waitForResponse(`**/b/${serial}/${first?.bundle}`);
  answer();
  await (await late).finished();
  await page.waitForTimeout(300);
  expect(await slip.textContent()).toBe(last?.bundle);
  await page.context().close();
});
