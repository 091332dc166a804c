/**
 * What was sent and did not arrive, since the line or the server was away, is typed again when its page is next there: it is
 * kept in this window until the page tells that it came in. A job, or what was read afloat, is then sent as a whole: where
 * it holds another revision by now, nothing is typed again. Where fields are sent one by one (`data-again`, which tells the
 * forms of a page apart), each that still stands as it stood is typed again, and it is said that something came in since.
 */
import { isBack } from './anew.ts';
import { isChanged } from './changed.ts';
import { keep, take } from './kept.ts';
import { type Control, controlOf, isTick, restore } from './restore.ts';

interface Sent {
  revision: string;
  /** Name, text (null where it was unticked), and what the field came with. */
  fields: [name: string, text: string | null, before: string][];
  /** What was pressed. */
  button: string;
}

/** On a page to which a button of the job's form leads, what was sent with it has come in. */
export function forgetSent(): void {
  const [, job, page] = /^(\/jobs\/\d+)\/(\w+)$/.exec(location.pathname) ?? [];
  if (job !== undefined && (page === 'planning' || location.search.includes('saved=1'))) take(nameOf(job));
}

export function keepSent(form: HTMLFormElement): void {
  const { again } = form.dataset;
  const own = nameOf(location.pathname, again);
  const revision = form.querySelector<HTMLInputElement>('[name="revision"], [name="entries"]')?.defaultValue ?? '';
  const sent = JSON.parse(take(own) ?? 'null') as Sent | null;
  const isLate = sent?.revision !== revision;
  if (sent && !isAnswer() && (!isLate || again !== undefined)) {
    const isAny = typeAgain(form, sent);
    if (isAny) tell(form, again === undefined ? LOST : isLate ? LATE : NOT_KEPT);
    else if (again !== undefined && !isLate && sent.fields.length === 0)
      tell(form, `“${sent.button}” was not written. Press it again.`);
  }
  form.addEventListener('submit', ({ submitter }) => {
    const fields = ([...form.elements] as Control[])
      .filter(isChanged)
      .map((control): Sent['fields'][number] => [control.name, textOf(control), usualOf(control)]);
    keep(own, JSON.stringify({ revision, fields, button: submitter?.textContent?.trim() ?? '' } satisfies Sent));
  });
}

const LOST = 'What you typed is here again: it did not arrive, and is not saved yet.';
const NOT_KEPT = 'What you typed is here again: it was not kept yet.';
const LATE = 'What you typed is here again. Something was written here since you sent it: look whether it is in there.';

function nameOf(path: string, part = ''): string {
  return `kentledge-sent ${path}${part === '' ? '' : ` ${part}`}`;
}

/** True of the page with which the server answers what was sent: a refusal, or where it leads after saving. */
function isAnswer(): boolean {
  return !document.querySelector('[data-anew]') || (/saved|since|lines/.test(location.search) && !isBack());
}

/** Whether anything was typed again. */
function typeAgain(form: HTMLFormElement, { fields }: Sent): boolean {
  let isAny = false;
  for (const [name, text, before] of fields) {
    const now = controlOf(form, name);
    if (!now || usualOf(now) !== before) continue;
    restore(form, name, text);
    // As if it was typed: the pile grows below its last line, and what follows is told.
    now.dispatchEvent(new Event('input', { bubbles: true }));
    isAny = true;
  }
  return isAny;
}

function textOf(control: Control): string | null {
  return isTick(control) && !control.checked ? null : control.value;
}

/** What a field came with. */
function usualOf(control: Control): string {
  if (control instanceof HTMLSelectElement) return [...control.options].find((one) => one.defaultSelected)?.value ?? '';
  return isTick(control) ? String(control.defaultChecked) : control.defaultValue;
}

function tell(form: HTMLFormElement, words: string): void {
  form.dataset.sent = '';
  const told = document.createElement('p');
  told.className = 'told';
  told.setAttribute('role', 'status');
  told.textContent = words;
  const bar = form.querySelector('.bar');
  (bar ?? form).prepend(told);
  if (!bar && form.dataset.again !== undefined) told.scrollIntoView({ block: 'center' });
}
