/** Windows on pages: a desk and a phone, an axe, and the ways of a keyboard. */
import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import type { Browser, BrowserContextOptions, Locator, Page } from 'playwright-core';
import { vi } from 'vitest';

/** Put in by the driver itself: the pages' policy lets no other script in. */
const AXE = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.js'), 'utf8');
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

/** Kinds of text that axe found nothing of in a window. */
const judged = new WeakMap<Page, Set<string>>();

/**
 * What axe finds against WCAG 2.2 A and AA; `coloursAlone`, only whether text stands out from what is behind it. That takes
 * more time than all else together and goes by styles: it is asked of the first and the last text of every kind that was not
 * in the same window before.
 */
export async function violations(page: Page, coloursAlone = false): Promise<string[]> {
  const known = judged.get(page) ?? new Set();
  judged.set(page, known);
  const kinds = await markKindsOfText(page, [...known]);
  if (coloursAlone && kinds.length === 0) return [];
  if (!(await page.evaluate(() => 'axe' in window))) {
    await page.evaluate(AXE);
    await page.evaluate(() => {
      const rules = [{ id: 'color-contrast', selector: '[data-kind-of-text]' }];
      (window as unknown as { axe: { configure(how: object): void } }).axe.configure({ rules });
    });
  }
  const found = await page.evaluate(async (colours) => {
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
  if (found.length === 0) for (const kind of kinds) known.add(kind);
  return found;
}

/**
 * Marks the texts that axe is to judge and tells their kinds. Texts and fields are of one kind where they have the same name,
 * classes, colours and letters, on the same grounds.
 */
function markKindsOfText(page: Page, known: string[]): Promise<string[]> {
  return page.evaluate((before) => {
    const judged = new Set(before);
    // What is behind a text, from the outermost on, and what changes it with all that it is in.
    const grounds = new Map<Element, string>();
    const groundOf = (element: Element): string => {
      const told = grounds.get(element);
      if (told !== undefined) return told;
      const { backgroundColor, backgroundImage, opacity, position, filter } = getComputedStyle(element);
      const own = `${backgroundColor} ${backgroundImage} ${opacity} ${position} ${filter}`;
      const behind = element.parentElement ? groundOf(element.parentElement) : '';
      const ground = own === 'rgba(0, 0, 0, 0) none 1 static none' ? behind : `${behind}/${own}`;
      grounds.set(element, ground);
      return ground;
    };
    const kinds = new Map<string, Element[]>();
    for (const element of document.body.querySelectorAll<HTMLElement>('*')) {
      delete element.dataset.kindOfText;
      const own = [...element.childNodes].filter((node) => node.nodeType === Node.TEXT_NODE);
      const letters = own.map((node) => node.nodeValue?.trim()).join('').length;
      if (letters === 0 && !element.matches('input, select, textarea')) continue;
      if (!element.checkVisibility({ visibilityProperty: true })) continue;
      const { color, fill, fontSize, fontWeight, textShadow } = getComputedStyle(element);
      const name = `${element.localName} ${element.getAttribute('class')}`;
      // Of a single letter axe says nothing.
      const kind = [name, color, fill, fontSize, fontWeight, textShadow, letters === 1, groundOf(element)].join();
      if (!judged.has(kind)) kinds.set(kind, [...(kinds.get(kind) ?? []).slice(0, 1), element]);
    }
    for (const element of [...kinds.values()].flat()) element.setAttribute('data-kind-of-text', '');
    return [...kinds.keys()];
  }, known);
}
