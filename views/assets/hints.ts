/** The hint of the field in hand: brought into sight above the bar at the foot of a form, and put away by Escape. */

export function keepHintsInSight(): void {
  document.addEventListener('focusin', ({ target }) => {
    const hint = hintOf(target);
    // A list that drops down would close if the page moved under it.
    if (!hint || target instanceof HTMLSelectElement) return;
    const bar = document.querySelector('.bar')?.getBoundingClientRect();
    const hidden = hint.getBoundingClientRect().bottom - (bar?.top ?? innerHeight);
    if (hidden > 0) scrollBy(0, hidden + 4);
  });
  document.addEventListener('keydown', ({ key }) => {
    const hint = hintOf(document.activeElement);
    if (key === 'Escape' && hint) hint.hidden = true;
  });
  document.addEventListener('focusout', ({ target }) => {
    const hint = hintOf(target);
    if (hint) hint.hidden = false;
  });
}

function hintOf(target: EventTarget | null): HTMLElement | null {
  return target instanceof Element ? (target.closest('.field')?.querySelector<HTMLElement>('.help') ?? null) : null;
}
