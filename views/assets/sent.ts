/**
 * What was sent and did not arrive, since the line or the server was away, is typed again when the page of the job is next
 * there: it is kept in this window until the page tells that it came in, or holds another revision by now.
 */
import { isBack } from './anew.ts';
import { isChanged } from './changed.ts';
import { keep, take } from './kept.ts';

interface Sent {
  revision: string;
  /** By field. */
  texts: [string, string][];
}

type Control = HTMLInputElement | HTMLSelectElement | HTMLTextAreaElement;

/** On a page to which a button of the job's form leads, what was sent with it has come in. */
export function forgetSent(): void {
  const [, job, page] = /^(\/jobs\/\d+)\/(\w+)$/.exec(location.pathname) ?? [];
  if (job !== undefined && (page === 'planning' || location.search.includes('saved=1'))) take(nameOf(job));
}

export function keepSent(form: HTMLFormElement): void {
  const own = nameOf(location.pathname);
  const revision = form.querySelector<HTMLInputElement>('[name="revision"]')?.defaultValue ?? '';
  const sent = JSON.parse(take(own) ?? 'null') as Sent | null;
  if (sent?.revision === revision && !isAnswer()) typeAgain(form, sent.texts);
  form.addEventListener('submit', () => {
    const texts = ([...form.elements] as Control[])
      .filter(isChanged)
      .map(({ name, value }): [string, string] => [name, value]);
    keep(own, JSON.stringify({ revision, texts } satisfies Sent));
  });
}

function nameOf(path: string): string {
  return `kentledge-sent ${path}`;
}

/** True of the page with which the server answers what was sent: a refusal, or where it leads after saving. */
function isAnswer(): boolean {
  return !document.querySelector('[data-anew]') || (/saved|since|lines/.test(location.search) && !isBack());
}

function typeAgain(form: HTMLFormElement, texts: [string, string][]): void {
  for (const [name, text] of texts) {
    const control = form.querySelector<Control>(`[name="${CSS.escape(name)}"]`);
    if (!control) continue;
    control.value = text;
    // As if it was typed: the pile grows below its last line, and what follows is told.
    control.dispatchEvent(new Event('input', { bubbles: true }));
  }
  if (texts.length === 0) return;
  form.dataset.sent = '';
  const told = document.createElement('p');
  told.className = 'told';
  told.setAttribute('role', 'status');
  told.textContent = 'What you typed is here again: it did not arrive, and is not saved yet.';
  (form.querySelector('.bar') ?? form).prepend(told);
}
