/** One large drawing of a void at a time, with a button for each way of looking at it. */

const VIEWS = [
  ['aft', 'from aft'],
  ['port', 'from port'],
  ['above', 'from above'],
  ['solid', 'as a solid'],
] as const;

export function chooseViews(place: HTMLElement): void {
  let chosen = 'aft';
  const buttons = document.createElement('div');
  buttons.className = 'views';
  buttons.setAttribute('role', 'group');
  buttons.setAttribute('aria-label', 'Look at the void');
  for (const [view, label] of VIEWS) {
    const button = buttons.appendChild(document.createElement('button'));
    button.type = 'button';
    button.textContent = label;
    button.dataset.choose = view;
    button.addEventListener('click', () => {
      chosen = view;
      show();
    });
  }
  place.addEventListener('drawn', show);
  show();

  function show(): void {
    const figures = [...place.querySelectorAll<HTMLElement>('figure[data-view]')];
    if (figures.length > 0 && !buttons.isConnected) place.prepend(buttons);
    for (const figure of figures) figure.hidden = figure.dataset.view !== chosen;
    for (const button of buttons.querySelectorAll('button')) {
      button.setAttribute('aria-pressed', String(button.dataset.choose === chosen));
    }
  }
}
