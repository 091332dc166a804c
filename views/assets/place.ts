/** One's place on a long page is kept: after saving, at a row that was added, and when Enter is pressed in a field. */
import { keep, take } from './kept.ts';

const KEPT = 'kentledge-place';

export function keepPlace(form: HTMLFormElement): void {
  form.addEventListener('submit', (event) => {
    const { value } = (event.submitter ?? {}) as HTMLButtonElement;
    if (value === 'save') keep(KEPT, `${location.pathname} ${scrollY}`);
  });
  const [path, down] = (take(KEPT) ?? '').split(' ');
  if (path === location.pathname && location.hash === '') {
    scrollTo({ top: Number(down) });
    stayAtButton(form);
  }

  goToRow(form);

  // Enter goes on to the next field, as on paper; the pile has lines of its own.
  form.addEventListener('keydown', (event) => {
    const control = event.target as HTMLElement;
    if (event.key !== 'Enter' || !(control instanceof HTMLInputElement) || control.closest('.lots')) return;
    event.preventDefault();
    const fields = [...form.querySelectorAll<HTMLElement>('input:not([type=hidden]), select, textarea')];
    fields
      .slice(fields.indexOf(control) + 1)
      .find((field) => field.offsetParent !== null)
      ?.focus();
  });
}

/** Who saved from far down the page is at the button once more, and is told there. */
function stayAtButton(form: HTMLFormElement): void {
  form.querySelector<HTMLElement>('.bar button[value="save"]')?.focus({ preventScroll: true });
  const state = form.querySelector('.bar [data-state]');
  // A status is told when it changes, not as the page comes.
  if (state && location.search.includes('saved=1'))
    setTimeout(() => {
      state.textContent = `Saved. ${state.textContent}`;
    }, 500);
}

/** A row that a button made, which the address names, is opened and ready to be typed in. */
export function goToRow(form: HTMLFormElement): void {
  const row = location.hash.length > 1 ? document.getElementById(decodeURIComponent(location.hash.slice(1))) : null;
  if (!row || !form.contains(row)) return;
  for (let fold = row.closest('details'); fold; fold = fold.parentElement?.closest('details') ?? null) fold.open = true;
  // The browser goes to the row of the address by itself, and takes the focus away once more as it does.
  if (row.matches('.void, .row, .rows')) addEventListener('load', () => setTimeout(() => firstEmpty(row)?.focus()));
}

function firstEmpty(row: HTMLElement): HTMLElement | undefined {
  const fields = [...row.querySelectorAll<HTMLInputElement | HTMLTextAreaElement>('input, textarea')];
  // What is to be measured of a void that is no box are its readings, which begin as those of the box.
  if (/-stations$/.test(row.id)) return row.querySelector('textarea') ?? fields[0];
  // Where a new station stands is filled in already, as a proposal.
  if (/-stations-\d+$/.test(row.id)) return fields[0];
  return fields.find((field) => field.value === '') ?? fields[0];
}
