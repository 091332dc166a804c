/** The page on which reach and heights are typed beside the drawing: at a desk, on a phone, by keyboard, without scripts. */
import type { Browser, BrowserContextOptions, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test, vi } from 'vitest';
import { addDraft, demonstration } from '../../server/routes/jobs.ts';
import { openWorld, type World } from '../server/world.ts';
import { collectComplaints, findOverflow, findSmallTargets } from './chromium.ts';
import { closeWindows, openBrowser } from './launch.ts';
import { DESK, PHONE, seen, violations } from './window.ts';

vi.setConfig({ testTimeout: 150_000 });

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
  await closeWindows(browser);
  await world?.close();
});

async function openPage(how: BrowserContextOptions): Promise<Page> {
  const page = await (await browser.newContext(how)).newPage();
  // A machine that other work shares may stand still for half a minute.
  page.setDefaultTimeout(90_000);
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
    await seen(page.locator('svg text', { hasText: 'reach 600' }));
    expect(await most(page)).toBeLessThan(before);
    // The field that is being typed in stays the same one.
    expect(await page.evaluate(() => document.activeElement?.getAttribute('name'))).toBe('voids[5].handling.reach');
    await page.locator(reach).fill('an arm');
    await seen(page.locator(`${reach}[aria-invalid="true"]`));
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
    await seen(page.locator('svg text', { hasText: 'reach 550' }));
    for (let n = 0; n < 60; n++) {
      if ((await page.evaluate(() => document.activeElement?.getAttribute('value'))) === 'follow') break;
      await page.keyboard.press('Tab');
    }
    await page.keyboard.press('Enter');
    await seen(page.getByText('Saved.'));
    const file = await (await page.request.get(address.replace(/lift.*/, 'job.json'))).json();
    expect(file.voids[5]).toMatchObject({ limitByGuide: true, handling: { reach: 550 } });
    await page.context().close();
  });

  test('without scripts a button says what follows, and another puts in what was typed since', async () => {
    const page = await openPage({ ...DESK, javaScriptEnabled: false });
    await page.locator(reach).fill('610');
    await page.getByRole('button', { name: 'Say what follows' }).click();
    expect(await page.locator('svg text', { hasText: 'reach 610' }).count()).toBe(1);
    await page.locator(reach).fill('615');
    await page.getByRole('button', { name: 'Put this into the job', exact: true }).click();
    expect(await page.locator(reach).inputValue()).toBe('615');
    expect(page.url()).not.toContain('token');
    await page.context().close();
  });

  test('what holds it down follows the typing too, and so does what is said afloat', async () => {
    const page = await openPage(DESK);
    await page.goto(address.replace(/lift.*/, 'hold?void=5&mass=150'));
    await seen(page.getByText('Every assumed load is carried'));
    await page.locator('#voids-4-holdDown-bars-0-thickness').fill('5');
    await page.locator('[data-answer] button[value="save"]').focus();
    await seen(page.locator('.stamp', { hasText: 'NOT SECURED, DO NOT GO TO SEA' }));
    // It is said, and who was on the way to the button is still there.
    await page.locator('[role="status"]', { hasText: 'NOT SECURED' }).waitFor({ state: 'attached' });
    expect(await page.evaluate(() => document.activeElement?.getAttribute('value'))).toBe('save');
    await page.goto(address.replace(/lift.*/, 'afloat'));
    await page.locator('[name="kg.4"]').fill('1500');
    await seen(page.getByText('NOT ENOUGH').first());
    await page.goto(address.replace(/lift.*/, 'readings'));
    for (const [name, text] of Object.entries({ inclineMass: '60', inclineBy: '1.5', line: '1000', moved: '28' }))
      await page.locator(`[name="${name}"]`).first().fill(text);
    await seen(page.locator('.lead', { hasText: 'about 0.66 m' }));
    await page.getByRole('button', { name: 'Put this figure of her into the job' }).click();
    await page.waitForURL(/saved=1/);
    // A row that is added is ready to be typed in.
    await page.goto(address.replace(/lift.*/, 'hold?void=5'));
    await page.getByRole('button', { name: 'Add a strap' }).click();
    await page.waitForURL(/straps-0$/);
    await page.waitForFunction(() => document.activeElement?.getAttribute('name')?.includes('.straps[0].'));
    await page.context().close();
  });

  test('the address has only what was typed; what it does not hold is posted, with scripts and without', async () => {
    const job = demonstration() as { voids: { holdDown: { bars: object[] } }[] };
    const { bars } = job.voids[4]!.holdDown;
    job.voids[4]!.holdDown.bars = Array.from({ length: 50 }, () => ({ ...bars[0], at: undefined }));
    const id = addDraft({ store: world.store, clock: () => new Date() }, job as Record<string, unknown>);
    const many = `${world.address}/jobs/${id}/hold?void=5`;
    for (const javaScriptEnabled of [true, false]) {
      const page = await openPage({ ...DESK, javaScriptEnabled });
      await page.goto(`${many}&mass=150`);
      await page.locator('#voids-4-holdDown-bars-49-span').fill('34');
      if (javaScriptEnabled) {
        await seen(page.locator('.caution', { hasText: 'their span of 34 mm' }));
        expect(page.url()).toBe(`${many}&mass=150&voids%5B4%5D.holdDown.bars%5B49%5D.span=34`);
        // More than an address holds, in one field.
        await page.locator('#voids-4-holdDown-blocked-aft-by').fill('long '.repeat(1500));
        await seen(page.locator('form[data-whole]'));
      }
      await page.getByRole('button', { name: 'Say what that carries' }).click();
      await page.waitForURL(many);
      expect(await page.locator('#voids-4-holdDown-bars-49-span').inputValue()).toBe('34');
      expect(await page.locator('#mass').inputValue()).toBe('150');
      await page.context().close();
    }
  });

  test('a button beside the answer takes what was typed a moment ago', async () => {
    const page = await openPage(DESK);
    await page.goto(address.replace(/lift.*/, 'hold?void=5&mass=150'));
    const width = '#voids-4-holdDown-bars-0-width';
    await Promise.all([
      page.waitForURL(/saved=1/),
      page.locator(width).evaluate((field: HTMLInputElement) => {
        field.value = '77';
        field.dispatchEvent(new Event('input', { bubbles: true }));
        document.querySelector<HTMLButtonElement>('[data-answer="held"] button[value="save"]')?.click();
      }),
    ]);
    expect(await page.locator(width).inputValue()).toBe('77');
    await page.context().close();
  });

  test.each([
    ['on a phone', PHONE],
    ['at a desk', DESK],
  ])('pages of what is typed and answered fit, for gloves too, and axe finds nothing, %s', async (_, how) => {
    const page = await openPage(how);
    for (const path of [
      'lift?void=6',
      'hold?void=5&mass=320',
      'readings?inclineMass=60&inclineBy=1.5&line=1000&moved=28',
      'afloat?roll=quick&forward=3.2&aft=2.8&upright=none',
    ]) {
      await page.goto(address.replace(/lift.*/, path));
      expect(await findOverflow(page), path).toEqual([]);
      expect(await findSmallTargets(page), path).toEqual([]);
      expect(await violations(page), path).toEqual([]);
      if (how === PHONE || !path.startsWith('lift')) continue;
      await page.emulateMedia({ colorScheme: 'dark' });
      expect(await violations(page, true), path).toEqual([]);
      await page.emulateMedia({ colorScheme: 'light' });
    }
    await page.context().close();
  });

  test('no figure and no heading of a table is broken, in a narrow window and printed', async () => {
    const page = await openPage({ viewport: { width: 700, height: 900 } });
    await page.goto(address.replace(/lift.*/, 'hold?void=5&mass=320'));
    for (const media of ['screen', 'print'] as const) {
      await page.emulateMedia({ media });
      await page.evaluate(() => {
        for (const details of document.querySelectorAll('details')) details.open = true;
      });
      const broken = await page.evaluate(() =>
        [...document.querySelectorAll('.cases :is(thead th, [data-label="load"], [data-label="carries"])')].flatMap(
          (cell) => {
            const text = cell.firstChild as Text;
            return [...text.data.matchAll(/\S+/g)].flatMap(({ 0: word, index }) => {
              const range = document.createRange();
              range.setStart(text, index);
              range.setEnd(text, index + word.length);
              return range.getClientRects().length > 1 ? [word] : [];
            });
          },
        ),
      );
      expect(broken).toEqual([]);
    }
    await page.context().close();
  });
});
