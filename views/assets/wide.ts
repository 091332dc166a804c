/** A drawing that is wider than its figure is moved sideways by the keyboard too: the figure takes the focus, says what it shows, and by its style that it is moved. */

export function reachWideDrawings(main: HTMLElement): void {
  const sizes = new ResizeObserver((entries) => {
    for (const { target } of entries) {
      const figure = target.closest('figure');
      if (figure) tell(figure);
    }
  });
  const observe = (): void => {
    for (const drawing of main.querySelectorAll('figure, figure .k-drawing')) sizes.observe(drawing);
  };
  // Drawings come anew as things are typed, or when they are looked at.
  new MutationObserver(observe).observe(main, { childList: true, subtree: true });
  observe();
}

function tell(figure: HTMLElement): void {
  if (figure.scrollWidth <= figure.clientWidth + 1) {
    figure.removeAttribute('tabindex');
    return;
  }
  figure.tabIndex = 0;
  const drawing = figure.querySelector('.k-drawing');
  const name =
    figure.querySelector('figcaption')?.textContent ??
    drawing?.querySelector(':scope > title')?.textContent ??
    drawing?.getAttribute('alt');
  if (name) figure.setAttribute('aria-label', name);
}
