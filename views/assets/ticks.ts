/**
 * The list of what is stowed: each tick is kept as it is made, with its own time. What the connection loses waits in this
 * browser, also when the page is closed, and goes as soon as there is one, from whichever window on the plan is open. On the
 * page of a tag its button is the tick (`data-ticks="one"`), and the page is shown anew once that is kept.
 */
import { isChanged } from './changed.ts';
import { type Control, controlOf, isTick, restore } from './restore.ts';
import { isSame, openKept, type Waiting } from './waiting.ts';

/** Another try while something waits, ms. */
const AGAIN = 20_000;
/** One try may take so long, ms: in a yard a line can hang. */
const PATIENCE = 20_000;

/** So many bundles that another wrote of are named. */
const NEWS_TOLD = 3;

export function keepTicks(form: HTMLFormElement): void {
  const key = `kentledge-ticks ${new URL(form.action).pathname}`;
  const kept = openKept(key);
  const state = form.querySelector<HTMLElement>('[data-state]');
  let sending = false;
  let isLeaving = false;
  let awaited = voidsNext();

  restoreAll();
  if (toSend().size > 0) void send();

  form.addEventListener('input', (event) => {
    const control = event.target as Control;
    if (!/^(in|lies)\.\d+$/.test(control.name)) return;
    note(control);
    showWholes();
    if (isTick(control)) void send();
  });
  form.addEventListener('change', (event) => {
    if (!isTick(event.target as Control)) void send();
  });
  form.addEventListener('submit', (event) => {
    event.preventDefault();
    const { name } = (event.submitter ?? {}) as HTMLButtonElement;
    if (isOfTick(name)) note(event.submitter as HTMLButtonElement);
    if (name === 'whole')
      for (const tick of event.submitter?.closest('section')?.querySelectorAll<HTMLInputElement>('[name^="in."]') ?? [])
        if (!tick.checked) {
          tick.checked = true;
          note(tick);
        }
    showWholes();
    void send();
  });
  addEventListener('online', () => void send());
  // Who is on the way to another page is not held here by showing this one anew. A paper that is saved leaves no page.
  addEventListener('beforeunload', () => {
    isLeaving = true;
    setTimeout(() => {
      isLeaving = false;
    }, PATIENCE);
  });
  // Another window on the plan ticked something that waits.
  addEventListener('storage', (event) => {
    if (event.key === key) restoreAll();
  });
  setInterval(() => {
    if (toSend().size > 0) void send();
  }, AGAIN);

  function note(control: Control | HTMLButtonElement): void {
    const value = isTick(control) && !control.checked ? null : control.value;
    const before = kept.all().get(control.name);
    const shown = form.querySelector(`[name="${CSS.escape(control.name.replace('in.', 'was.'))}"]`) !== null;
    kept.put(control.name, { value, at: new Date().toISOString(), was: before?.was ?? shown });
  }

  function restoreAll(): void {
    for (const [name, { value }] of kept.all()) restore(form, name, value);
    showWholes();
  }

  /** A void of which all is ticked is not offered to be ticked as a whole; who stood on that button stands on the one beside it. */
  function showWholes(): void {
    for (const whole of form.querySelectorAll<HTMLButtonElement>('[name="whole"]')) {
      const section = whole.closest('section');
      const isHeld = document.activeElement === whole;
      whole.hidden = section?.querySelector('[name^="in."]:not(:checked)') === null;
      if (isHeld && whole.hidden) section?.querySelector<HTMLElement>('[name="keep"]')?.focus();
    }
  }

  /** All that waits, but for what was typed on another page of the plan: one too long to keep is shown where it was typed. */
  function toSend(): Map<string, Waiting> {
    return new Map([...kept.all()].filter(([name]) => name.startsWith('in.') || controlOf(form, name) !== null));
  }

  async function send(): Promise<void> {
    if (sending) return;
    sending = true;
    const sent = toSend();
    const body = bodyOf(form, sent);
    // Without an answer nobody knows whether it came in: then unticking takes away what may stand.
    if (navigator.onLine) for (const [name, one] of sent) if (one.value !== null) kept.put(name, { ...one, was: true });
    say('Keeping it …');
    const page = await post(body);
    sending = false;
    follow(sent);
    if (page === null) {
      say('Not kept yet: no connection. It waits on this device and goes as soon as there is one.');
      return;
    }
    if (page === 'stale') {
      say('Not kept: this page is no longer right. What was ticked waits on this device: load the page anew.');
      return;
    }
    if (page === 'refused') {
      // The page that says what is wrong is shown as it would be without this; all that was done on this one goes with it.
      kept.done(new Map([...kept.all()].filter(([name]) => sent.has(name) || controlOf(form, name) !== null)));
      form.submit();
      return;
    }
    kept.done(sent);
    const marks = [...sent.keys()].map((name) => name.replace('in.', ''));
    const hanging = [...page.querySelectorAll<HTMLElement>('[data-hangs]')];
    const told = hanging.filter((line) => marks.includes(line.dataset.hangs ?? '')).map((line) => line.textContent);
    const next = page.querySelector<HTMLElement>('[data-next]')?.dataset.next;
    const news = putIn(page, sent);
    say(['Kept.', ...overtaken(sent), ...news, ...told, ...(next ? [`Next in: ${next}.`] : [])].join(' '));
    if (toSend().size > 0) void send();
    else if (form.dataset.ticks === 'one' && sent.size > 0 && !isLeaving && !isTypedOn()) location.reload();
  }

  /**
   * What was ticked while the same was under way comes after it, also where the way of the first took so long that by the
   * times told it would come before; whether the first came in is not always known.
   */
  function follow(sent: ReadonlyMap<string, Waiting>): void {
    const waiting = kept.all();
    for (const [name, one] of sent) {
      const now = waiting.get(name);
      if (now && !isSame(now, one)) kept.put(name, { ...now, at: new Date().toISOString() });
    }
  }

  /** What does not stand, since something was written of its bundle after it was done. */
  function overtaken(sent: ReadonlyMap<string, Waiting>): string[] {
    const waiting = kept.all();
    return [...sent].flatMap(([name, { value }]) => {
      const control = controlOf(form, name);
      if (!control || waiting.has(name)) return [];
      if (isTick(control))
        return control.checked === (value !== null)
          ? []
          : [`${markOf(control)} was written of since by another: it stands as shown.`];
      if (plain(control.value) === plain(value ?? '')) return [];
      return [`How ${markOf(control)} lies was said since by another: that stands as shown, and yours before it.`];
    });
  }

  async function post(body: URLSearchParams): Promise<Document | 'refused' | 'stale' | null> {
    const response = await fetch(form.action, { method: 'POST', body, signal: AbortSignal.timeout(PATIENCE) }).catch(
      () => null,
    );
    const text = await response?.text().catch(() => null);
    if (!response || text == null || response.status >= 500) return null;
    if (response.ok) {
      // A network that asks who one is answers in its own words to whatever is sent.
      const page = new DOMParser().parseFromString(text, 'text/html');
      return page.querySelector('form[data-ticks]') ? page : null;
    }
    return response.status === 422 ? 'refused' : 'stale';
  }

  /**
   * What the server has takes the place of what is shown, but for what was ticked or typed since. Returned is what stands
   * otherwise than it was shown here, by another phone or window.
   */
  function putIn(page: Document, sent: ReadonlyMap<string, Waiting>): string[] {
    const waiting = kept.all();
    const news: string[] = [];
    for (const place of document.querySelectorAll<HTMLElement>('[data-answer]')) {
      const fresh = page.querySelector(`[data-answer="${CSS.escape(place.dataset.answer ?? '')}"]`);
      if (fresh && fresh.innerHTML !== place.innerHTML) place.replaceChildren(...fresh.childNodes);
    }
    // A void whose turn it is now is unfolded.
    const now = voidsNext();
    for (const name of now)
      if (!awaited.has(name))
        form.querySelector<HTMLDetailsElement>(`[data-fold="${CSS.escape(name)}"]`)?.setAttribute('open', '');
    awaited = now;
    for (const control of form.querySelectorAll<Control>('[name^="in."], [name^="lies."]')) {
      const fresh = page.getElementById(control.id) as Control | null;
      // What was refused stands as it was typed until it is mended.
      const isRefused = control.getAttribute('aria-invalid') === 'true' && !sent.has(control.name);
      if (!fresh || waiting.has(control.name) || isRefused) continue;
      if (isTick(control)) {
        const isIn = (fresh as HTMLInputElement).checked;
        if (control.checked !== isIn && !sent.has(control.name))
          news.push(`${markOf(control)} ${isIn ? 'in' : 'not in'}`);
        control.checked = isIn;
      }
      // Put in as it was, it would still move the cursor of who types there.
      else if (control.value !== fresh.value) control.value = fresh.value;
    }
    showWholes();
    const more = news.length > NEWS_TOLD ? ` and ${news.length - NEWS_TOLD} more` : '';
    return news.length === 0 ? [] : [`Since, by another: ${news.slice(0, NEWS_TOLD).join(', ')}${more}.`];
  }

  function say(words: string): void {
    if (state) state.textContent = words;
  }
}

/** A weight typed on the page of a tag is not lost by showing it anew. */
function isTypedOn(): boolean {
  return [...document.forms].some((form) => [...form.elements].some(isChanged));
}

function isOfTick(name: string | undefined): boolean {
  return /^in\.\d+$/.test(name ?? '');
}

/** The voids of what goes in next. */
function voidsNext(): Set<string> {
  return new Set([...document.querySelectorAll<HTMLElement>('[data-void]')].map(({ dataset }) => dataset.void ?? ''));
}

/**
 * What was done and nothing else, also on another page or in another window, with how long ago: what only stands in this
 * window may be otherwise since.
 */
function bodyOf(form: HTMLFormElement, sent: ReadonlyMap<string, Waiting>): URLSearchParams {
  const all = new FormData(form);
  const body = new URLSearchParams({ token: String(all.get('token')) });
  for (const [name, { value, at, was }] of sent) {
    const of = (kind: string): string => name.replace(/^\w+/, kind);
    const ago = String(Date.now() - Date.parse(at));
    if (value !== null) body.set(name, value);
    if (name.startsWith('in.')) {
      body.set(of('ago'), ago);
      if (value === null && was) body.set(of('was'), 'on');
    } else {
      body.set(of('said'), ago);
      body.set(of('told'), String(all.get(of('told')) ?? ''));
    }
  }
  return body;
}

/** The mark of the bundle that a control is about. */
function markOf(control: Control): string {
  return control.closest('li')?.querySelector('.tick strong')?.textContent ?? '';
}

/** As the server keeps a text: on one line. */
function plain(text: string): string {
  return text.replaceAll(/[\p{Cc}\s]+/gu, ' ').trim();
}
