/** One large drawing of a void at a time, with a button for each way of looking at it. */

export function chooseViews(place: HTMLElement): void {
  let chosen = 'aft';
  const buttons = document.createElement('div');
  buttons.className = 'views';
  buttons.setAttribute('role', 'group');
  buttons.setAttribute('aria-label', 'Look at the void');
  for (const figure of place.querySelectorAll<HTMLElement>('figure[data-view]')) {
    const button = buttons.appendChild(document.createElement('button'));
    const caption = figure.querySelector('figcaption');
    button.type = 'button';
    button.textContent = caption?.textContent ?? '';
    button.dataset.choose = figure.dataset.view ?? '';
    // The button that is pressed says it already.
    caption?.classList.add('unseen');
    button.addEventListener('click', () => {
      chosen = button.dataset.choose ?? '';
      show();
      void bring(figure);
    });
  }
  place.addEventListener('drawn', show);
  show();

  function show(): void {
    const figures = [...place.querySelectorAll<HTMLElement>('figure[data-view]')];
    const ready = figures.some((figure) => figure.querySelector('.drawn > *'));
    if (ready && !buttons.isConnected) place.prepend(buttons);
    for (const figure of figures) figure.hidden = !ready || figure.dataset.view !== chosen;
    for (const button of buttons.querySelectorAll('button'))
      button.setAttribute('aria-pressed', String(button.dataset.choose === chosen));
    place.dispatchEvent(new Event('shown'));
  }

  /** A drawing that was not sent with the page is put into it, so that things can be moved on it. */
  async function bring(figure: HTMLElement): Promise<void> {
    const drawn = figure.querySelector<HTMLElement>('.drawn[data-later]');
    if (!drawn) return;
    const response = await fetch(drawn.dataset.later ?? '').catch(() => null);
    // While it was on its way a newer one may have come from what is being typed.
    if (!response?.ok || drawn.dataset.later === undefined) return;
    delete drawn.dataset.later;
    drawn.innerHTML = await response.text();
    place.dispatchEvent(new Event('drawn'));
  }
}
