/** A bundle touched in a drawing tells what it is made of, whichever answer comes first; from a piece one comes to it, whatever its mark. */
import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, expect, test, vi } from 'vitest';
import { recordPlan } from '../../server/planning/record.ts';
import { addDraft } from '../../server/routes/jobs.ts';
import { trialJobInput, trialPair } from '../plan/trialPlan.ts';
import { openWorld, type World } from '../server/world.ts';
import { findOverflow } from './chromium.ts';
import { closeWindows, openBrowser } from './launch.ts';
import { DESK, openPage, PATIENCE, PHONE, seen, unfold } from './window.ts';

vi.setConfig({ testTimeout: 150_000 });

let browser: Browser;
let world: World;
beforeAll(async () => {
  browser = await openBrowser();
  world = await openWorld();
}, PATIENCE);
afterAll(async () => {
  await closeWindows(browser);
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
  await seen(slip);
  expect(await slip.textContent()).toBe(last?.bundle);
  const late = page.waitForResponse(`**/b/${serial}/${first?.bundle}`);
  answer();
  await (await late).finished();
  await page.waitForTimeout(300);
  expect(await slip.textContent()).toBe(last?.bundle);
  await page.context().close();
});

test('marks of any letters lead from a piece to its bundle, and however long they are they fit a phone', async () => {
  const marks = [['V1', '5% of "A/B" #1?'] as const, ['V2', 'Vorschiff'.repeat(20)] as const];
  const marked = (value: object): string =>
    marks.reduce(
      (text, [from, to]) => text.replaceAll(new RegExp(`\\b${from}\\b`, 'g'), JSON.stringify(to).slice(1, -1)),
      JSON.stringify(value),
    );
  const body = marked({ ...trialJobInput(), name: 'Vorschiff'.repeat(20) });
  const job = addDraft({ store: world.store, clock: () => new Date(0) }, JSON.parse(body));
  const at = '2026-05-04T10:00:00Z';
  const serial = recordPlan(world.store, { job, body }, marked(trialPair().plan), null, false, at);
  const page = await openPage(browser, PHONE);
  const mark = `${marks[0]![1]}-01`;
  await page.goto(`${world.address}/plans/${serial}`);
  await unfold(page);
  await page.getByRole('link', { name: mark, exact: true }).last().click();
  const drawn = page.locator('.stow .touched').first();
  await seen(drawn);
  expect(await drawn.getAttribute('data-name')).toBe(mark);
  expect(await page.locator('tr:target').getAttribute('id')).toBe(`at-${mark}`);
  // And where a page is opened there at once.
  await page.reload();
  await seen(drawn);
  const bundle = `/b/${serial}/${encodeURIComponent(mark)}`;
  const plans = ['', '/stowed', '/survey', '/left', '/weighed', '/trial', '/first-cuts'].map(
    (one) => `/plans/${serial}${one}`,
  );
  const jobs = ['', '/lift', '/hold', '/afloat'].map((one) => `/jobs/${job}${one}`);
  for (const path of ['/', bundle, ...plans, ...jobs]) {
    await page.goto(world.address + path);
    await unfold(page);
    expect(await findOverflow(page), path).toEqual([]);
  }
  await page.context().close();
});
