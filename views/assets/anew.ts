/**
 * A page that is come back to by the browser's own buttons is as it was when it was left, and what is sent from it would
 * come too late: it is asked for anew, unless something stands typed on it that may not be saved.
 */

export function showAnew(): void {
  let sent = false;
  document.addEventListener('submit', () => {
    sent = true;
  });
  addEventListener('pageshow', ({ persisted }) => {
    if (persisted || isBack()) void look(sent);
  });
}

function isBack(): boolean {
  const [entry] = performance.getEntriesByType('navigation') as PerformanceNavigationTiming[];
  return entry?.type === 'back_forward';
}

async function look(sent: boolean): Promise<void> {
  if (!(await isTyped()) || (sent && (await isOvertaken()))) location.reload();
}

/** Texts that follow the typing stand in the address, and ticks are kept by themselves: neither is lost. */
async function isTyped(): Promise<boolean> {
  // What the browser puts back into fields it puts there at last.
  await new Promise((resolve) => setTimeout(resolve));
  return [...document.querySelectorAll<HTMLFormElement>('form:not([data-follow], [data-ticks])')].some((form) =>
    [...form.elements].some(isChanged),
  );
}

function isChanged(control: Element): boolean {
  if (control instanceof HTMLTextAreaElement) return control.value !== control.defaultValue;
  if (control instanceof HTMLSelectElement) {
    const usual = [...control.options].findLastIndex((option) => option.defaultSelected);
    return control.selectedIndex !== Math.max(0, usual);
  }
  if (!(control instanceof HTMLInputElement) || control.type === 'hidden') return false;
  return control.value !== control.defaultValue || control.checked !== control.defaultChecked;
}

/** True where the job has another revision by now than the one shown here: then what was sent from here has come in. */
async function isOvertaken(): Promise<boolean> {
  const own = revisionIn(document);
  const response = own === null ? null : await fetch(location.href, { cache: 'no-cache' }).catch(() => null);
  if (!response?.ok) return false;
  const now = revisionIn(new DOMParser().parseFromString(await response.text(), 'text/html'));
  return now !== null && now !== own;
}

function revisionIn(page: Document): string | null {
  return page.querySelector<HTMLInputElement>('input[name="revision"]')?.defaultValue ?? null;
}
