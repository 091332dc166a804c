/** What is looked for on a page: complaints, things that stick out, targets too small. */
import type { Page } from 'playwright-core';

/** What a page says went wrong on it, collected from now on. */
export function collectComplaints(page: Page): string[] {
  const complaints: string[] = [];
  page.on('pageerror', (error) => complaints.push(error.message));
  page.on('console', (message) => {
    if (message.type() === 'error' || message.type() === 'warning') complaints.push(message.text());
  });
  return complaints;
}

/** Things that stick out: the page wider than its window, or text cut off by the box that it is in. */
export async function findOverflow(page: Page): Promise<string[]> {
  return page.evaluate(() => {
    const out: string[] = [];
    const { scrollWidth } = document.documentElement;
    if (scrollWidth > window.innerWidth)
      out.push(`the page is ${scrollWidth} wide in a window of ${window.innerWidth}`);
    for (const element of document.querySelectorAll<HTMLElement>('main *:not(svg *):not(.unseen):not(.help)')) {
      const box = element.getBoundingClientRect();
      // A drawing is moved sideways in its figure.
      if (element.parentElement?.closest('figure') && !element.matches('figcaption')) continue;
      if (box.width > 0 && box.right > window.innerWidth + 1)
        out.push(`${element.tagName}.${element.className} reaches ${Math.round(box.right)}`);
    }
    for (const button of document.querySelectorAll<HTMLElement>('button:not(.unseen), .button')) {
      if (button.scrollWidth > button.clientWidth + 1)
        out.push(`the words of “${button.textContent?.trim()}” do not fit`);
    }
    return out;
  });
}

/** Buttons, fields and summaries that are smaller than a gloved finger, 44 px. */
export async function findSmallTargets(page: Page): Promise<string[]> {
  return page.evaluate(() => {
    const small: string[] = [];
    for (const element of document.querySelectorAll<HTMLElement>(
      'button:not(.unseen), .button, input:not([type=hidden]), select, textarea, summary',
    )) {
      const { width, height } = element.getBoundingClientRect();
      if (height > 0 && (height < 43.5 || width < 43.5))
        small.push(
          `${element.tagName} “${element.textContent?.trim().slice(0, 30)}” ${Math.round(width)} × ${Math.round(height)}`,
        );
    }
    return small;
  });
}

/** Neighbours in a row of fields of which one stands lower than the other, because its label takes more lines. */
export async function findUneven(page: Page): Promise<string[]> {
  return page.evaluate(() => {
    const uneven: string[] = [];
    for (const cells of document.querySelectorAll('.cells, .pair')) {
      const controls = [...cells.querySelectorAll('input:not([type=checkbox], [type=hidden]), select, textarea')];
      const boxes = controls.map((control) => ({ control, box: control.getBoundingClientRect() }));
      for (const [i, { control, box }] of boxes.entries()) {
        const before = boxes[i - 1];
        // Those further right stand in the same row, if there is a row at all.
        if (!before || box.height === 0 || before.box.right > box.left) continue;
        const off = box.top - before.box.top;
        if (Math.abs(off) > 1) uneven.push(`${control.id} ${Math.round(off)} px off ${before.control.id}`);
      }
    }
    return uneven;
  });
}
