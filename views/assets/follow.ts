/**
 * A form that only asks: its answer follows as it is typed. The page itself is asked for again with what stands in the
 * form, and the parts of it that hold the answer take the place of those shown. The first words of each that changed, and
 * what is wrong with the field in hand, are told to whoever listens rather than looks.
 */
import { isChanged } from './changed.ts';
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
    const own = ownFields(form);
    const address = `${form.action.replace(/\?.*/, '')}?${own}`;
    // An address holds only so much; what it does not hold is sent whole from then on.
    if (String(own).length > Number(form.dataset.follow || Number.POSITIVE_INFINITY)) postFromNowOn();
    const isPosted = form.dataset.whole !== undefined;
    const asking = isPosted ? fetch(form.action, { method: 'POST', body: wholeOf(form) }) : fetch(address);
    const response = await asking.catch(() => null);
    if (!response?.ok || turn !== asked) return;
    const page = new DOMParser().parseFromString(await response.text(), 'text/html');
    if (turn !== asked) return;
    putIn(page);
    if (!isPosted) history.replaceState(null, '', address);
  }

  function postFromNowOn(): void {
    if (form.dataset.whole !== undefined) return;
    form.dataset.whole = '';
    if (form.method === 'post') return;
    form.method = 'post';
    const token = form.appendChild(document.createElement('input'));
    [token.type, token.name, token.value] = ['hidden', 'token', form.dataset.token ?? ''];
  }

  function putIn(page: Document): void {
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
  }
}

/** What the address has to hold of a form: what it holds already, and what was changed since. */
function ownFields(form: HTMLFormElement): URLSearchParams {
  const held = new URLSearchParams(location.search);
  const names = new Set<string>();
  for (const control of form.elements) {
    const { name, type } = control as HTMLInputElement;
    if (name !== 'token' && (type === 'hidden' || held.has(name) || isChanged(control))) names.add(name);
  }
  return new URLSearchParams(textsIn(form).filter(([name]) => names.has(name)));
}

/** All that stands in a form, to be asked by a post. */
function wholeOf(form: HTMLFormElement): URLSearchParams {
  return new URLSearchParams([...textsIn(form), ['do', 'ask']]);
}

function textsIn(form: HTMLFormElement): [string, string][] {
  return [...new FormData(form)].filter((field): field is [string, string] => typeof field[1] === 'string');
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
