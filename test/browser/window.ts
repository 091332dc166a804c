/** Windows on pages: a desk and a phone, an axe, and the ways of a keyboard. */
import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import type { Browser, BrowserContextOptions, Locator, Page } from 'playwright-core';
import { vi } from 'vitest';

/** Put in by the driver itself: the pages' policy lets no other script in. */
const AXE = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');
export const PHONE: BrowserContextOptions = { viewport: { width: 390, height: 844 }, hasTouch: true };
export const DESK: BrowserContextOptions = { viewport: { width: 1280, height: 900 } };

/** A plan takes its time where other tests run beside it, ms. */
export const PATIENCE = 90_000;

export async function openPage(browser: Browser, how: BrowserContextOptions): Promise<Page> {
  const context = await browser.newContext(how);
  context.setDefaultNavigationTimeout(PATIENCE);
  return context.newPage();
}

export function unfold(page: Page): Promise<void> {
  return page.evaluate(() => {
    for (const details of document.querySelectorAll('details')) details.open = true;
  });
}

/** Waits until it is seen. The driver by itself looks each half second: later than an answer to what is typed comes. */
export async function seen(what: Locator): Promise<void> {
  const look = async (): Promise<void> => {
    if (!(await what.isVisible())) throw new Error(`${what} is not seen`);
  };
  await vi.waitFor(look, { interval: 50, timeout: PATIENCE - 10_000 });
}

/** Presses Tab until the element has the focus. */
export async function tabTo(page: Page, selector: string): Promise<void> {
  for (let n = 0; n < 150; n++) {
    if (await page.evaluate((wanted) => document.activeElement?.matches(wanted) ?? false, selector)) return;
    await page.keyboard.press('Tab');
  }
  throw new Error(`${selector} can not be reached by Tab`);
}

export function focused(page: Page): Promise<string | null> {
  return page.evaluate(() => document.activeElement?.getAttribute('name') ?? null);
}

/** What axe finds against WCAG 2.2 A and AA. */
export async function violations(page: Page, coloursAlone = false): Promise<string[]> {
  if (!(await page.evaluate(() => 'axe' in window))) await page.evaluate(AXE);
  return page.evaluate(async (colours) => {
    const { axe } = window as unknown as {
      axe: { run(where: Document, how: object): Promise<{ violations: { id: string; nodes: { html: string }[] }[] }> };
    };
    const found = await axe.run(document, {
      // Of what passes nothing is asked.
      resultTypes: ['violations'],
      runOnly: colours ? ['color-contrast'] : ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa'],
    });
    return found.violations.map(
      ({ id, nodes }) =>
        `${id}: ${nodes
          .slice(0, 3)
          .map((node) => node.html.slice(0, 160))
          .join(' | ')} (${nodes.length})`,
    );
  }, coloursAlone);
}
