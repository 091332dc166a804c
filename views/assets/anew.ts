/**
 * A page that is come back to by the browser's own buttons is as it was when it was left, and what is sent from it would
 * come too late: it is asked for anew, unless something stands typed on it that may not be saved, or nobody answers.
 */
import { isChanged } from './changed.ts';

export function showAnew(): void {
  document.addEventListener('submit', ({ target }) => {
    if (target instanceof HTMLFormElement) target.dataset.sent = '';
  });
  addEventListener('pageshow', ({ persisted }) => {
    if (persisted || isBack()) void look();
  });
}

export function isBack(): boolean {
  const [entry] = performance.getEntriesByType('navigation') as PerformanceNavigationTiming[];
  return entry?.type === 'back_forward';
}

async function look(): Promise<void> {
  // What was typed there is in no address.
  if (document.querySelector('form[data-whole]')) return;
  // What the browser puts back into fields it puts there at last.
  await new Promise((resolve) => setTimeout(resolve));
  const response = await fetch(location.href, { cache: 'no-cache' }).catch(() => null);
  if (!response?.ok) return;
  const typed = [...document.forms].filter(isTyped);
  const fresh = new DOMParser().parseFromString(await response.text(), 'text/html');
  if (typed.every((form) => form.dataset.sent !== undefined && isOvertaken(fresh))) location.reload();
}

/** Texts that follow the typing stand in the address, and ticks are kept by themselves: neither is lost. */
function isTyped(form: HTMLFormElement): boolean {
  return !form.matches('[data-follow], [data-ticks]') && [...form.elements].some(isChanged);
}

/** True where the job, or the record, has another revision by now than the one shown here: then what was sent from here has come in. */
function isOvertaken(fresh: Document): boolean {
  const [own, now] = [revisionIn(document), revisionIn(fresh)];
  return own !== null && now !== null && own !== now;
}

function revisionIn(page: Document): string | null {
  const told = [...page.querySelectorAll<HTMLInputElement>('input[name="revision"], input[name="entries"]')];
  return told.length === 0 ? null : told.map((one) => one.defaultValue).join(' ');
}
