import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, beforeEach, describe, expect, test, vi } from 'vitest';
import { openLauncher } from '../../server/planning/launch.ts';
import { LIMITS } from '../../server/planning/planning.ts';
import { addDraft } from '../../server/routes/jobs.ts';
import { LOTS_SHOWN } from '../../server/show/jobPage.ts';
import { trialJobInput } from '../plan/trialPlan.ts';
import { openWorld, type World } from '../server/world.ts';
import { collectComplaints } from './chromium.ts';
import { closeWindows, openBrowser } from './launch.ts';
import { DESK, focused, openPage, PATIENCE, PHONE, seen, tabTo } from './window.ts';

vi.setConfig({ testTimeout: PATIENCE, hookTimeout: PATIENCE });

let browser: Browser;
let world: World;
const launcher = openLauncher();
beforeAll(async () => {
  browser = await openBrowser();
  world = await openWorld(LIMITS, launcher.launch);
}, PATIENCE);
afterAll(async () => {
  await closeWindows(browser);
  await world?.close();
  launcher.close();
});

describe('from nothing to printed tags', () => {
  test.each([
    ['at a desk', DESK],
    ['on a phone', PHONE],
    ['with scripts off', { ...DESK, javaScriptEnabled: false }],
  ] as const)('%s', async (_name, how) => {
    const page = await openPage(browser, how);
    const complaints = collectComplaints(page);
    await page.goto(world.address);
    await page.getByLabel('Name of the job').fill('First boat');
    await page.getByRole('button', { name: 'New job' }).click();
    await typeJob(page);
    await page.getByRole('button', { name: 'Save and plan' }).click();
    await waitForPlan(page);
    expect(await page.getByText('NOT SECURED, DO NOT GO TO SEA').count()).toBeGreaterThan(0);
    for (const paper of ['Saw sheet', 'Tags', 'Stowage sheets']) {
      const address = await page.getByRole('link', { name: paper, exact: true }).getAttribute('href');
      const response = await page.request.get(world.address + address);
      expect((await response.body()).subarray(0, 5).toString()).toBe('%PDF-');
    }
    await page.getByText('Its bundles, in loading order').first().click();
    const mark = (await page.locator('.bundles th a').first().textContent()) ?? '';
    await page.goto(`${world.address}/b/${page.url().split('/').at(-1)}/${mark}`);
    expect(await page.getByRole('heading', { level: 1 }).textContent()).toBe(mark);
    expect(complaints).toEqual([]);
    await page.context().close();
  });

  test('with the keyboard alone', async () => {
    const page = await openPage(browser, DESK);
    await page.goto(world.address);
    await tabTo(page, '#new-name');
    await page.keyboard.type('Keyboard boat');
    await page.keyboard.press('Enter');
    await page.waitForURL(/\/jobs\/\d+/);
    await tabTo(page, '[name="pile[0].section.shape"]');
    await page.keyboard.type('square');
    for (const text of ['20', '3 m', '3']) {
      await page.keyboard.press('Tab');
      await page.keyboard.type(text);
    }
    await page.keyboard.press('Enter');
    expect(await focused(page)).toBe('pile[1].lot');
    await tabTo(page, '[name="voids[0].length"]');
    for (const text of ['900', '120', '90']) {
      await page.keyboard.type(text);
      await page.keyboard.press('Tab');
    }
    await tabTo(page, '#wish-effort');
    await page.keyboard.type('quickly');
    await tabTo(page, 'button[value="plan"]');
    await page.keyboard.press('Enter');
    await waitForPlan(page);
    await page.context().close();
  });
});

describe('typing', () => {
  let page: Page;
  beforeEach(async () => {
    page = await openPage(browser, DESK);
    await page.goto(
      `${world.address}/jobs/${addDraft({ store: world.store, clock: () => new Date() }, trialJobInput() as Record<string, unknown>)}`,
    );
    return () => page.context().close();
  });

  test('feet and inches, a decimal comma and a bare number are read and told in millimetres', async () => {
    const length = page.locator('[name="voids[0].length"]');
    for (const [typed, told] of [
      [`3' 4 1/2"`, '= 1028.7 mm'],
      ['1,05 m', '= 1050 mm'],
      ['98,5 cm', '= 985 mm'],
      ['1,280', 'Not read as a number'],
    ]) {
      await length.fill(typed as string);
      await seen(page.locator('#voids-0-length-echo', { hasText: told as string }));
    }
    await length.fill('1010');
    await page.locator('#voids-0-length-echo').waitFor({ state: 'detached' });
    await seen(page.locator('#voids-0 svg', { hasText: '260' }).first());
  });

  test('the drawing follows the reading, from each side', async () => {
    await page.getByRole('button', { name: 'from above' }).first().click();
    await page.locator('[name="voids[0].length"]').fill('1234');
    await seen(page.locator('#voids-0 [data-view="above"] svg', { hasText: '1234' }));
    expect(await page.locator('#voids-0 [data-view="aft"]').isVisible()).toBe(false);
  });

  test('something to stay off is moved by dragging, and its numbers follow', async () => {
    const along = page.locator('[name="voids[0].keepOut[0].along"]');
    expect(await along.inputValue()).toBe('560 to 600');
    await page.getByRole('button', { name: 'from above' }).first().click();
    const bolt = page.locator('#voids-0 [data-view="above"] .handle.of-keepOut').first();
    const drawn = page.locator('#voids-0 [data-view="above"] [data-name="keepOut[0]"]');
    const scale = Number(await page.locator('#voids-0 [data-view="above"]').getAttribute('data-scale'));
    const perPixel = await drawn.evaluate((shape) => {
      const { ownerSVGElement: picture } = shape as SVGGElement;
      return picture!.viewBox.baseVal.width / picture!.getBoundingClientRect().width;
    });
    await bolt.scrollIntoViewIfNeeded();
    const box = (await bolt.boundingBox())!;
    const [x, y] = [box.x + box.width / 2, box.y + box.height / 2];
    const drag = async (): Promise<void> => {
      await page.mouse.move(x, y);
      await page.mouse.down();
      await page.mouse.move(x + 60, y, { steps: 4 });
    };
    // Given up, by who drags or by the browser, it lies where it lay.
    for (const giveUp of [
      () => page.keyboard.press('Escape'),
      () => page.evaluate(() => dispatchEvent(new PointerEvent('pointercancel', { pointerId: 1 }))),
    ]) {
      await drag();
      expect((await bolt.boundingBox())!.x).toBeGreaterThan(box.x + 40);
      // Another finger is no part of it.
      await page.evaluate(() => dispatchEvent(new PointerEvent('pointercancel', { pointerId: 77 })));
      expect((await bolt.boundingBox())!.x).toBeGreaterThan(box.x + 40);
      await giveUp();
      expect((await bolt.boundingBox())!.x).toBeCloseTo(box.x, 0);
      await page.mouse.up();
      expect(await along.inputValue()).toBe('560 to 600');
    }
    await drag();
    await page.mouse.up();
    const by = Math.round((60 * perPixel * scale) / 5) * 5;
    expect(by).toBeGreaterThan(0);
    expect(await along.inputValue()).toBe(`${560 + by} to ${600 + by}`);
    await expect.poll(async () => (await bolt.boundingBox())!.x).toBeGreaterThan(box.x + 40);

    // And with the arrow keys, while its handle has the focus; the drawing follows a number that is typed.
    const across = page.locator('[name="voids[0].keepOut[0].across"]');
    const [, from] = /^(-?\d+) to/.exec(await across.inputValue()) ?? [];
    await bolt.focus();
    await page.keyboard.press('ArrowDown');
    await page.keyboard.press('Shift+ArrowLeft');
    expect(await across.inputValue()).toMatch(new RegExp(`^${Number(from) + 5} to`));
    expect(await along.inputValue()).toBe(`${510 + by} to ${550 + by}`);
    await expect.poll(() => bolt.getAttribute('aria-label')).toContain(`${510 + by} to ${550 + by} along`);
    await along.fill('100 to 140');
    await expect.poll(async () => (await bolt.boundingBox())!.x).toBeLessThan(box.x);
  });

  test('a station taken down from a level batten gives its readings, and the drawing follows', async () => {
    await page.locator('button[value="shape voids[0]"]').click();
    await page.waitForURL(/#voids-0-stations/);
    // What is to be measured are the readings, and their hint says how a sloping side is typed.
    await expect.poll(() => focused(page)).toBe('voids[0].stations[0].at');
    expect(await page.locator('#voids-0-stations-0-at-help').textContent()).toContain('A sloping side');
    await page.locator('[name="voids[0].stations[0].batten.up"]').fill('100');
    await page.locator('[name="voids[0].stations[0].batten.readings"]').fill('-120: 10\n0: 100\n130: 20');
    const at = page.locator('[name="voids[0].stations[0].at"]');
    await expect.poll(() => at.inputValue()).toBe('0: 0 to 0\n80: -106.6 to 130\n90: -120 to 130');
    await page.getByRole('button', { name: 'Save', exact: true }).click();
    await page.waitForURL(/saved=1/);
    expect(await at.inputValue()).toBe('0: 0 to 0\n80: -106.6 to 130\n90: -120 to 130');
    expect(await page.locator('[name="voids[0].stations[0].batten.readings"]').inputValue()).toBe(
      '-120: 10\n0: 100\n130: 20',
    );
  });

  test('a line typed below the last lot is weighed at once, another stands ready, and both are kept', async () => {
    await page.locator('[name="pile[4].section.shape"]').selectOption('round');
    await page.locator('[name="pile[4].section.sizes"]').fill('20');
    await page.locator('[name="pile[4].length"]').fill('2000');
    await seen(page.locator('[data-sum="pile-4"]', { hasText: '4.93 kg' }));
    const headings = () => page.locator('.lot.blank > legend').allTextContents();
    expect(await headings()).toEqual(['New lot', 'New lot 2']);
    await page.locator('[name="pile[5].lot"]').fill('X');
    expect(await headings()).toEqual(['New lot', 'Lot X, not saved yet', 'New lot 3']);
    await page.getByRole('button', { name: 'Save', exact: true }).click();
    await page.waitForURL(/saved=1/);
    expect(await headings()).toEqual(['New lot']);
    await seen(page.locator('.bar [role="status"]', { hasText: /^Saved\. / }));
    expect(await page.evaluate(() => document.activeElement?.getAttribute('value'))).toBe('save');
    expect(await page.locator('[name="pile[4].lot"]').inputValue()).toBe('E');
    expect(await page.locator('[name="pile[5].lot"]').inputValue()).toBe('X');
  });

  test('what is typed in the last lot of a page leaves the lots of the next page as they are', async () => {
    const pile = Array.from({ length: LOTS_SHOWN + 2 }, (_, n) => ({
      lot: `L${n + 1}`,
      section: { shape: 'round', diameter: 20 },
      length: 2000,
    }));
    const job = addDraft({ store: world.store, clock: () => new Date() }, { ...trialJobInput(), pile });
    await page.goto(`${world.address}/jobs/${job}`);
    const last = page.locator(`[name="pile[${LOTS_SHOWN - 1}].length"]`);
    await last.fill('1900');
    await last.press('Enter');
    await page.getByRole('button', { name: 'Save', exact: true }).click();
    await page.waitForURL(/saved=1/);
    const lots = (JSON.parse(world.store.jobs.body(job) ?? '') as { pile: object[] }).pile;
    expect(lots.slice(LOTS_SHOWN - 1)).toMatchObject([{ length: 1900 }, pile[LOTS_SHOWN], pile[LOTS_SHOWN + 1]]);
  });

  test('of two windows the second to save is told, and chooses', async () => {
    const other = await page.context().newPage();
    await other.goto(page.url());
    await page.locator('[name="voids[0].name"]').fill('Under the stove');
    await page.getByRole('button', { name: 'Save', exact: true }).click();
    await page.waitForURL(/saved=1/);
    await other.locator('[name="voids[0].name"]').fill('Under the sink');
    await other.getByRole('button', { name: 'Save', exact: true }).click();
    await seen(other.getByRole('heading', { name: 'This job was changed in another window' }));
    expect(await other.locator('[name="voids[0].name"]').inputValue()).toBe('Under the stove');
    await other.getByRole('button', { name: 'Use the text kept beside' }).click();
    await seen(other.locator('[name="voids[0].name"]'));
    expect(await other.locator('[name="voids[0].name"]').inputValue()).toBe('Under the sink');
    expect(await other.getByText('Under the stove').count()).toBe(1);
  });
});

/** Waits for the page of the plan; a planning that ended otherwise is told as what its page says. */
async function waitForPlan(page: Page): Promise<void> {
  const told = page.getByRole('heading', { name: /^(Plan \d+|The plan was not finished|No bundle can be placed)$/ });
  await told.waitFor({ timeout: PATIENCE - 10_000 });
  expect(await page.locator('main').textContent()).toContain('What it comes to');
}

async function typeJob(page: Page): Promise<void> {
  await page.locator('[name="pile[0].section.shape"]').selectOption('square');
  await page.locator('[name="pile[0].section.sizes"]').fill('20');
  await page.locator('[name="pile[0].length"]').fill('3 m');
  await page.locator('[name="pile[0].count"]').fill('4');
  await page.locator('[name="voids[0].length"]').fill(`3' 4"`);
  await page.locator('[name="voids[0].width"]').fill('150');
  await page.locator('[name="voids[0].height"]').fill('9,5 cm');
  await page.locator('#wish-effort').selectOption('quick');
}
