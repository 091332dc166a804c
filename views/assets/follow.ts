/**
 * A form that only asks: its answer follows as it is typed. The page itself is asked for again with what stands in the
 * form, and the parts of it that hold the answer take the place of those shown. The first words of each that changed, and
 * what is wrong with the field in hand, are told to whoever listens rather than looks.
 */
import { swapIn } from './swap.ts';

/** Typing has to rest so long before the server is asked, ms. */
const REST = 250;

export function followTyping(form: HTMLFormElement): void {
  let timer: ReturnType<typeof setTimeout> | undefined;
  let asked = 0;
  const told = form.appendChild(document.createElement('p'));
  told.className = 'unseen';
  told.setAttribute('role', 'status');

  form.addEventListener('input', () => {
    clearTimeout(timer);
    timer = setTimeout(() => void ask(), REST);
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
    const words: string[] = [];
    for (const place of document.querySelectorAll<HTMLElement>('[data-answer]')) {
      const fresh = page.querySelector(`[data-answer="${CSS.escape(place.dataset.answer ?? '')}"]`);
      if (!fresh || fresh.innerHTML === place.innerHTML) continue;
      const before = firstWords(place);
      swapIn(place, fresh);
      if (firstWords(place) !== before) words.push(firstWords(place));
    }
    for (const control of form.querySelectorAll<HTMLElement>('input[id], select[id]')) markFaults(control, page);
    words.unshift(document.activeElement?.parentElement?.querySelector('.faults')?.textContent ?? '');
    document.title = page.title;
    told.textContent = words.join(' ').replaceAll(/\s+/g, ' ').trim();
    history.replaceState(null, '', address);
  }
}

/** What an answer comes to, and what is refused; of the list of all that is to be mended the field in hand tells its own. */
function firstWords(answer: Element): string {
  return [...answer.querySelectorAll('.lead, .loud:not([role="group"])')]
    .map((line) => line.textContent?.trim())
    .join(' ');
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
