/** The page of a plan being worked out: what the best plan is worth, told as it gets better. */

interface Step {
  told: string;
  phase: string;
  value: number | null;
  bound: number | null;
}

/** After so long it is asked again where the answer was none, ms. */
const RETRY = 5000;

/** Follows the events of a planning; at its end the page is loaded again and shows what came of it. */
export function followProgress(working: HTMLElement): void {
  const told = working.querySelector<HTMLElement>('[data-told]');
  const phase = working.querySelector<HTMLElement>('[data-step]');
  const worth = working.querySelector<SVGRectElement>('[data-worth]');
  const band = working.querySelector<SVGSVGElement>('[data-band]');
  const lost = working.querySelector<HTMLElement>('[data-lost]');
  const stop = document.querySelector<HTMLElement>('[data-stop]');
  listen();

  function listen(): void {
    const events = new EventSource(working.dataset.progress ?? '');
    events.addEventListener('step', (event) => show(JSON.parse((event as MessageEvent<string>).data) as Step));
    events.addEventListener('open', () => lost?.toggleAttribute('hidden', true));
    events.addEventListener('error', () => {
      lost?.toggleAttribute('hidden', false);
      // A browser asks again by itself where nobody answers, and no more where something on the way answers in place of the server.
      if (events.readyState === EventSource.CLOSED) setTimeout(listen, RETRY);
    });
    events.addEventListener('end', () => {
      events.close();
      location.reload();
    });
  }

  function show(step: Step): void {
    if (told && told.textContent !== step.told) told.textContent = step.told;
    if (phase) phase.textContent = step.phase;
    if (stop && step.value !== null) stop.textContent = 'Enough, keep the best';
    band?.toggleAttribute('hidden', step.value === null || step.bound === null);
    const share = step.value !== null && step.bound !== null && step.bound > 0 ? step.value / step.bound : 0;
    worth?.setAttribute('width', String(Math.round(1000 * Math.min(1, Math.max(0, share)))));
  }
}
