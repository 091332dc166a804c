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
    });
  }
  place.addEventListener('drawn', show);
  show();

  function show(): void {
    const figures = [...place.querySelectorAll<HTMLElement>('figure[data-view]')];
    const ready = figures.some((figure) => figure.querySelector('.drawn svg'));
    if (ready && !buttons.isConnected) place.prepend(buttons);
    for (const figure of figures) figure.hidden = !ready || figure.dataset.view !== chosen;
    for (const button of buttons.querySelectorAll('button'))
      button.setAttribute('aria-pressed', String(button.dataset.choose === chosen));
    place.dispatchEvent(new Event('shown'));
  }
}
