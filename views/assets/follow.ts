/**
 * A form that only asks: its answer follows as it is typed. The page itself is asked for again with what stands in the
 * form, and the parts of it that hold the answer take the place of those shown. A button beside the answer takes what
 * stands in the form when it is pressed, whether it was answered by then or not.
 */

/** Typing has to rest so long before the server is asked, ms. */
const REST = 250;

export function followTyping(form: HTMLFormElement): void {
  let timer: ReturnType<typeof setTimeout> | undefined;
  let asked = 0;

  form.addEventListener('input', () => {
    clearTimeout(timer);
    timer = setTimeout(() => void ask(), REST);
  });

  document.addEventListener('submit', ({ target }) => {
    if (!(target instanceof HTMLFormElement) || !target.closest('[data-answer]')) return;
    clearTimeout(timer);
    asked++;
    const typed = new FormData(form);
    for (const copy of target.querySelectorAll<HTMLInputElement>('input[type="hidden"]')) {
      if (!form.elements.namedItem(copy.name)) continue;
      const value = typed.get(copy.name);
      copy.disabled = value === null;
      if (typeof value === 'string') copy.value = value;
    }
  });

  async function ask(): Promise<void> {
    const turn = ++asked;
    const fields = new URLSearchParams();
    for (const [name, value] of new FormData(form)) if (typeof value === 'string') fields.append(name, value);
    const address = `${form.action}?${fields}`;
    const response = await fetch(address).catch(() => null);
    if (!response?.ok || turn !== asked) return;
    const page = new DOMParser().parseFromString(await response.text(), 'text/html');
    if (turn === asked) putIn(page, address);
  }

  function putIn(page: Document, address: string): void {
    for (const place of document.querySelectorAll<HTMLElement>('[data-answer]')) {
      const fresh = page.querySelector(`[data-answer="${CSS.escape(place.dataset.answer ?? '')}"]`);
      if (fresh && fresh.innerHTML !== place.innerHTML) place.replaceChildren(...fresh.childNodes);
    }
    for (const control of form.querySelectorAll<HTMLElement>('input[id], select[id]')) markFaults(control, page);
    history.replaceState(null, '', address);
  }
}

/** The fields stay as they are, for someone is typing in them; only what is said below each follows. */
function markFaults(control: HTMLElement, page: Document): void {
  const fresh = page.getElementById(control.id);
  const [place, from] = [control.parentElement, fresh?.parentElement];
  if (!fresh || !place || !from) return;
  place.className = from.className;
  for (const name of ['aria-invalid', 'aria-describedby']) {
    const value = fresh.getAttribute(name);
    if (value === null) control.removeAttribute(name);
    else control.setAttribute(name, value);
  }
  const said = (box: Element) => [...box.children].filter((child) => child.matches('.faults, .echo, .usual, .doubt'));
  for (const old of said(place)) old.remove();
  control.after(...said(from));
}
