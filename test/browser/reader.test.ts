/** For who reads large letters, has pages read out, or works with the keyboard alone. */
import { readFileSync } from 'node:fs';
import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, expect, test, vi } from 'vitest';
import { recordPlan } from '../../server/planning/record.ts';
import { addDraft, demonstration } from '../../server/routes/jobs.ts';
import { trialJobInput, trialPair } from '../plan/trialPlan.ts';
import { openWorld, type World } from '../server/world.ts';
import { findOverflow } from './chromium.ts';
import { closeWindows, openBrowser, openOwnBrowser } from './launch.ts';
import { openPage, PATIENCE, PHONE, seen, unfold } from './window.ts';

vi.setConfig({ testTimeout: PATIENCE, hookTimeout: PATIENCE });

let browser: Browser;
let world: World;
let job: number;
let plan: number;
let bilge: number;
beforeAll(async () => {
  browser = await openBrowser();
  world = await openWorld();
  job = addDraft({ store: world.store, clock: () => new Date() }, demonstration());
  bilge = addDraft(
    { store: world.store, clock: () => new Date() },
    JSON.parse(readFileSync(new URL('../../fixtures/awkward-bilge.json', import.meta.url), 'utf8')),
  );
  const body = JSON.stringify(trialJobInput());
  const trial = addDraft({ store: world.store, clock: () => new Date() }, trialJobInput() as Record<string, unknown>);
  const file = JSON.stringify(trialPair().plan);
  plan = recordPlan(world.store, { job: trial, body }, file, null, false, '2026-05-04T10:00:00Z');
});
afterAll(async () => {
  await closeWindows(browser);
  await world?.close();
});

test('letters twice as large in the browser are twice as large here, and all still fits a phone', async () => {
  const large = await openOwnBrowser(['--blink-settings=defaultFontSize=32']);
  const page = await openPage(large, PHONE);
  await page.goto(`${world.address}/jobs/${job}`);
  await unfold(page);
  expect(await page.evaluate(() => getComputedStyle(document.documentElement).fontSize)).toBe('32px');
  expect(await findOverflow(page)).toEqual([]);
  // And the smallest phone.
  await page.setViewportSize({ width: 320, height: 640 });
  const pages = ['', '/trial', '/first-cuts', '/weighed', '/stowed', '/survey', '/left', '/tags'];
  const jobPages = ['', '/afloat', '/readings', '/lift', '/hold', '/planning'];
  for (const path of [
    '/',
    '/help',
    ...pages.map((one) => `/plans/${plan}${one}`),
    ...jobPages.map((one) => `/jobs/${job}${one}`),
  ]) {
    await page.goto(world.address + path);
    await unfold(page);
    expect(await findOverflow(page), path).toEqual([]);
  }
  await large.close();
});

test('letters in drawings are 11 px high on a phone; the drawing is moved sideways in its figure, which says so, by the keyboard too', async () => {
  const page = await openPage(browser, PHONE);
  for (const path of [`/plans/${plan}`, `/jobs/${job}`]) {
    await page.goto(world.address + path);
    await unfold(page);
    await page.waitForFunction(() => document.querySelector('figure[tabindex="0"]'));
    const { least, wide, unreached, said } = await page.evaluate(() => {
      const sizes = [...document.querySelectorAll<SVGSVGElement>('figure > svg, .drawn > svg')].flatMap((svg) => {
        const { width } = svg.getBoundingClientRect();
        const letters = [...svg.querySelectorAll('text')].map((text) => Number(text.getAttribute('font-size')));
        // Letters shrunk below 1.7 mm to fit their bundle do not count.
        return width === 0 ? [] : letters.map((size) => (Math.max(1.7, size) * width) / svg.viewBox.baseVal.width);
      });
      const wide = [...document.querySelectorAll('figure')].filter((one) => one.scrollWidth > one.clientWidth + 1);
      const unreached = wide.filter((one) => one.tabIndex !== 0 || !one.getAttribute('aria-label')).length;
      const saying = [...document.querySelectorAll('figure')].filter((one) =>
        getComputedStyle(one, '::after').content.includes('sideways'),
      );
      const said = saying.length === wide.length && wide.every((one) => saying.includes(one));
      return { least: Math.min(...sizes), wide: wide.length, unreached, said };
    });
    expect(least, path).toBeGreaterThan(11);
    expect(wide, path).toBeGreaterThan(0);
    expect(unreached, path).toBe(0);
    expect(said, path).toBe(true);
    expect(await findOverflow(page), path).toEqual([]);
  }
  await page.goto(`${world.address}/plans/${plan}`);
  const figure = page.locator('.stow figure[tabindex="0"]').first();
  await figure.focus();
  for (let n = 0; n < 5; n++) await page.keyboard.press('ArrowRight');
  await expect.poll(() => figure.evaluate((one) => one.scrollLeft)).toBeGreaterThan(20);
  // “Lift out” puts a new drawing there, moved as far.
  await page.locator('.stow a[data-lift]').first().click();
  await seen(page.locator('.stow a', { hasText: 'Put back' }).first());
  expect(await figure.evaluate((one) => one.scrollLeft)).toBeGreaterThan(20);
  await page.context().close();
});

test('a handle stays on what it moves where the drawing is moved sideways', async () => {
  const page = await openPage(browser, PHONE);
  await page.goto(`${world.address}/jobs/${bilge}`);
  await page.getByRole('button', { name: 'from above' }).first().click();
  const handle = page.locator('figure[data-view="above"] .handle').first();
  await handle.waitFor();
  const apart = () =>
    handle.evaluate((one) => {
      const figure = one.closest('figure')!;
      figure.scrollLeft = 40;
      figure.closest('.sketches')!.dispatchEvent(new Event('shown'));
      const middle = (box: DOMRect) => box.left + box.width / 2;
      const shape = figure.querySelector(`.drawn [data-name="${CSS.escape(one.dataset.moves ?? '')}"]`)!;
      return Math.abs(middle(one.getBoundingClientRect()) - middle(shape.getBoundingClientRect()));
    });
  expect(
    await page
      .locator('figure[data-view="above"]')
      .first()
      .evaluate((one) => one.scrollWidth - one.clientWidth),
  ).toBeGreaterThan(40);
  expect(await apart()).toBeLessThan(1);
  await page.context().close();
});

test('printed, a list of what is stowed has every bundle and white boxes, folded or not, from a dark screen too', async () => {
  const page = await openPage(browser, PHONE);
  await page.emulateMedia({ media: 'print', colorScheme: 'dark' });
  await page.goto(`${world.address}/plans/${plan}/stowed`);
  await page.evaluate(() => {
    for (const fold of document.querySelectorAll<HTMLDetailsElement>('[data-fold]')) fold.open = false;
  });
  const boxes = page.locator('input[type="checkbox"]');
  expect(await boxes.count()).toBe(trialPair().plan.bundles.length);
  for (const box of await boxes.all()) expect((await box.boundingBox())?.height).toBeGreaterThan(20);
  expect(await page.evaluate(() => getComputedStyle(document.documentElement).colorScheme)).toBe('light');
  // A box that nobody wrote in stays away.
  expect(await page.locator('textarea').first().isVisible()).toBe(false);
  await page.context().close();
});
