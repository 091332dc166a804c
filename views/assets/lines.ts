/** The pile behaves like paper: type, Enter, next line; an empty line always stands ready below the last. */

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
  });
}

/** Puts an empty copy of the last line below it, with the next number in its names and ids. */
function addLine(lots: HTMLElement): Element | null {
  const last = lots.lastElementChild;
  const number = Number(/pile-(\d+)$/.exec(last?.id ?? '')?.[1] ?? Number.NaN);
  if (!last || Number.isNaN(number)) return null;
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
