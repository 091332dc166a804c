/** A part of the page takes in what the server says anew, and nobody loses their place in it: not the focus, no fold that was open, no drawing that was moved sideways. */

const CONTROLS = 'a[href], button, input:not([type=hidden]), select, textarea, summary';

export function swapIn(place: Element, fresh: Element): void {
  const open = [...place.querySelectorAll('details')].map((details) => details.open);
  const moved = [...place.querySelectorAll('figure')].map((figure) => figure.scrollLeft);
  const before = controlsIn(place);
  const held = before.indexOf(document.activeElement as HTMLElement);
  const name = held < 0 ? '' : nameOf(before[held]!);
  // What takes the focus as a page comes does not while someone types.
  for (const one of fresh.querySelectorAll('[autofocus]')) one.removeAttribute('autofocus');
  place.replaceChildren(...fresh.childNodes);
  for (const [n, details] of [...place.querySelectorAll('details')].entries()) details.open = open[n] ?? details.open;
  for (const [n, figure] of [...place.querySelectorAll('figure')].entries()) figure.scrollLeft = moved[n] ?? 0;
  if (held < 0) return;
  const after = controlsIn(place);
  (after.find((control) => nameOf(control) === name) ?? after[Math.min(held, after.length - 1)])?.focus();
}

function controlsIn(place: Element): HTMLElement[] {
  return [...place.querySelectorAll<HTMLElement>(CONTROLS)];
}

/** What a control is known again by: in a list of like ones, what it says. */
function nameOf(control: HTMLElement): string {
  return `${control.tagName} ${control.id} ${control.getAttribute('name') ?? ''} ${control.getAttribute('value') ?? ''} ${control.textContent?.trim()}`;
}
