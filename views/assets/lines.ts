/**
 * The pile behaves like paper: type, Enter, next line; an empty line always stands ready below the last, and lines not saved
 * yet are headed by the marks typed in them.
 */

export function writeLikePaper(lots: HTMLElement): void {
  lots.addEventListener('keydown', (event) => {
    const control = event.target as HTMLElement;
    const line = control.closest<HTMLElement>('.lot');
    if (
      event.key !== 'Enter' ||
      !line ||
      !(control instanceof HTMLInputElement || control instanceof HTMLSelectElement)
    )
      return;
    event.preventDefault();
    const next = line.nextElementSibling ?? addLine(lots);
    next?.querySelector<HTMLElement>('input, select')?.focus();
  });
  lots.addEventListener('input', (event) => {
    const line = (event.target as HTMLElement).closest('.lot');
    if (line && line === lots.lastElementChild) addLine(lots);
    nameNew(lots);
  });
  nameNew(lots);
}

/** Heads every line below the lots that are saved by its mark, and as long as it has none by its number. */
function nameNew(lots: HTMLElement): void {
  for (const [n, line] of lots.querySelectorAll('.lot.blank').entries()) {
    const mark = line.querySelector<HTMLInputElement>('input[name$="].lot"]')?.value.trim() ?? '';
    const heading = mark !== '' ? `Lot ${mark}, not saved yet` : n === 0 ? 'New lot' : `New lot ${n + 1}`;
    const legend = line.querySelector('legend');
    if (legend && legend.textContent !== heading) legend.textContent = heading;
  }
}

/**
 * Puts an empty copy of the last line below it, with the next number in its names and ids. Below a lot that is saved there
 * is none: where a long pile goes on on another page that number is the next lot's, and an empty line would empty it.
 */
function addLine(lots: HTMLElement): Element | null {
  const last = lots.lastElementChild;
  const number = Number(/pile-(\d+)$/.exec(last?.id ?? '')?.[1] ?? Number.NaN);
  if (!last?.classList.contains('blank') || Number.isNaN(number)) return null;
  const line = last.cloneNode(true) as HTMLElement;
  const renumber = (text: string): string =>
    text.replaceAll(`pile[${number}]`, `pile[${number + 1}]`).replaceAll(`pile-${number}`, `pile-${number + 1}`);
  for (const element of [line, ...line.querySelectorAll('*')]) {
    for (const name of ['id', 'name', 'for', 'aria-describedby', 'data-sum', 'data-sketches']) {
      const value = element.getAttribute(name);
      if (value !== null) element.setAttribute(name, renumber(value));
    }
    if (element instanceof HTMLInputElement || element instanceof HTMLTextAreaElement) element.value = '';
    if (element instanceof HTMLSelectElement) element.selectedIndex = 0;
  }
  for (const said of line.querySelectorAll('.echo, .faults')) said.remove();
  for (const picture of line.querySelectorAll('figure')) picture.replaceChildren();
  for (const sum of line.querySelectorAll('.sum')) sum.textContent = '';
  return lots.appendChild(line);
}
