/** The page on which reach and heights are typed beside the drawing: at a desk, on a phone, by keyboard, without scripts. */
import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import type { Browser, BrowserContextOptions, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test, vi } from 'vitest';
import { addDraft, demonstration } from '../../server/routes/jobs.ts';
import { openWorld, type World } from '../server/world.ts';
import { collectComplaints, findOverflow, findSmallTargets, openBrowser } from './chromium.ts';

const AXE = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');
const PHONE: BrowserContextOptions = { viewport: { width: 390, height: 844 }, hasTouch: true };
const DESK: BrowserContextOptions = { viewport: { width: 1280, height: 900 } };
vi.setConfig({ testTimeout: 90_000 });

let browser: Browser;
let world: World;
let address: string;
beforeAll(async () => {
  browser = await openBrowser();
  world = await openWorld();
  const job = addDraft({ store: world.store, clock: () => new Date('2026-05-04T10:00:00Z') }, demonstration());
  address = `${world.address}/jobs/${job}/lift?void=6`;
}, 60_000);
afterAll(async () => {
  await browser?.close();
  await world?.close();
});

async function openPage(how: BrowserContextOptions): Promise<Page> {
  const page = await (await browser.newContext(how)).newPage();
  await page.goto(address);
  return page;
}

const reach = '#voids-5-handling-reach';
const most = async (page: Page) => Number(/At most ([\d.]+)/.exec((await page.locator('.lead').textContent())!)![1]);

describe('the lift into a void', () => {
  test.each([
    ['at a desk', DESK],
    ['on a phone', PHONE],
  ])('numbers and drawing follow the typing, %s', async (_, how) => {
    const page = await openPage(how);
    const complaints = collectComplaints(page);
    const before = await most(page);
    await page.locator(reach).fill('600');
    await page.locator('svg text', { hasText: 'reach 600' }).waitFor();
    expect(await most(page)).toBeLessThan(before);
    // The field that is being typed in stays the same one.
    expect(await page.evaluate(() => document.activeElement?.getAttribute('name'))).toBe('voids[5].handling.reach');
    await page.locator(reach).fill('an arm');
    await page.locator(`${reach}[aria-invalid="true"]`).waitFor();
    expect(complaints).toEqual([]);
    expect(await findOverflow(page)).toEqual([]);
    expect(await findSmallTargets(page)).toEqual([]);
    await page.context().close();
  });

  test('with the keyboard alone: typed, followed, put into the job', async () => {
    const page = await openPage(DESK);
    for (let n = 0; n < 60; n++) {
      if ((await page.evaluate(() => document.activeElement?.getAttribute('name'))) === 'voids[5].handling.reach')
        break;
      await page.keyboard.press('Tab');
    }
    await page.keyboard.press('Control+A');
    await page.keyboard.type('550');
    await page.locator('svg text', { hasText: 'reach 550' }).waitFor();
    for (let n = 0; n < 60; n++) {
      if ((await page.evaluate(() => document.activeElement?.getAttribute('value'))) === 'follow') break;
      await page.keyboard.press('Tab');
    }
    await page.keyboard.press('Enter');
    await page.getByText('Saved.').waitFor();
    const file = await (await page.request.get(address.replace(/lift.*/, 'job.json'))).json();
    expect(file.voids[5]).toMatchObject({ limitByGuide: true, handling: { reach: 550 } });
    await page.context().close();
  });

  test('without scripts a button says what follows', async () => {
    const page = await openPage({ ...DESK, javaScriptEnabled: false });
    await page.locator(reach).fill('610');
    await page.getByRole('button', { name: 'Say what follows' }).click();
    expect(await page.locator('svg text', { hasText: 'reach 610' }).count()).toBe(1);
    await page.context().close();
  });

  test.each(['light', 'dark'] as const)('axe finds nothing, by %s', async (colorScheme) => {
    const page = await openPage({ ...DESK, colorScheme });
    await page.evaluate(AXE);
    const found = await page.evaluate(async () => {
      const { axe } = window as unknown as {
        axe: { run(root: Document, how: object): Promise<{ violations: { id: string }[] }> };
      };
      const tags = ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa'];
      return (await axe.run(document, { runOnly: tags })).violations.map(({ id }) => id);
    });
    expect(found).toEqual([]);
    await page.context().close();
  });
});
