/** A form that is on its way is not sent once more by a second touch: it would make a second job, a second row. */

/** After so long nothing may have come of it, and it is sent again, ms. */
const AGAIN = 5000;

export function sendOnce(): void {
  const underWay = new Set<EventTarget>();
  document.addEventListener('submit', (event) => {
    const form = event.target;
    // What a script sends itself is its own affair.
    if (!form || event.defaultPrevented) return;
    if (underWay.has(form)) {
      event.preventDefault();
      return;
    }
    underWay.add(form);
    setTimeout(() => underWay.delete(form), AGAIN);
  });
  // Come back to, it may be sent as ever.
  addEventListener('pageshow', () => underWay.clear());
}
