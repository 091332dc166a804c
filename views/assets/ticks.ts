/**
 * The list of what is stowed: each tick is kept as it is made, with its own time. What the connection loses waits in this
 * browser, also when the page is closed, and goes as soon as there is one.
 */

/** Another try while something waits, ms. */
const AGAIN = 20_000;
/** One try may take so long, ms: in a yard a line can hang. */
const PATIENCE = 20_000;

/** What was ticked, unticked or typed and is not kept yet: its text, null where unticked, and when. */
interface Waiting {
  value: string | null;
  at: string;
}

type Control = HTMLInputElement | HTMLTextAreaElement;

export function keepTicks(form: HTMLFormElement): void {
  const kept = `kentledge-ticks ${form.action}`;
  const waiting = new Map<string, Waiting>(readKept(kept));
  const state = form.querySelector<HTMLElement>('[data-state]');
  let sending = false;
  let awaited = voidsNext();

  for (const [name, { value }] of waiting) restore(form, name, value);
  if (waiting.size > 0) void send();

  form.addEventListener('input', (event) => {
    const control = event.target as Control;
    if (!/^(in|lies)\.\d+$/.test(control.name)) return;
    note(control);
    if (isTick(control)) void send();
  });
  form.addEventListener('change', (event) => {
    if (!isTick(event.target as Control)) void send();
  });
  form.addEventListener('submit', (event) => {
    event.preventDefault();
    const { name } = (event.submitter ?? {}) as HTMLButtonElement;
    if (name === 'whole')
      for (const tick of event.submitter?.closest('section')?.querySelectorAll<HTMLInputElement>('[name^="in."]') ?? [])
        if (!tick.checked) {
          tick.checked = true;
          note(tick);
        }
    void send();
  });
  addEventListener('online', () => void send());
  setInterval(() => {
    if (waiting.size > 0) void send();
  }, AGAIN);

  function note(control: Control): void {
    const value = isTick(control) && !control.checked ? null : control.value;
    waiting.set(control.name, { value, at: new Date().toISOString() });
    store();
  }

  async function send(): Promise<void> {
    if (sending) return;
    sending = true;
    const sent = new Map(waiting);
    const body = new URLSearchParams();
    for (const [name, value] of new FormData(form)) if (typeof value === 'string') body.append(name, value);
    for (const [name, { at }] of sent)
      if (name.startsWith('in.')) body.append(name.replace('in.', 'ago.'), String(Date.now() - Date.parse(at)));
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
      // The page that says what is wrong is shown as it would be without this.
      waiting.clear();
      store();
      form.submit();
      return;
    }
    for (const [name, one] of sent) if (waiting.get(name) === one) waiting.delete(name);
    store();
    const marks = [...sent.keys()].map((name) => name.replace('in.', ''));
    const hanging = [...page.querySelectorAll<HTMLElement>('[data-hangs]')];
    const told = hanging.filter((line) => marks.includes(line.dataset.hangs ?? '')).map((line) => line.textContent);
    const next = page.querySelector<HTMLElement>('[data-next]')?.dataset.next;
    putIn(page);
    say(['Kept.', ...overtaken(sent), ...told, ...(next ? [`Next in: ${next}.`] : [])].join(' '));
    if (waiting.size > 0) void send();
  }

  /**
   * What was ticked while the same was under way comes after it, also where the way of the first took so long that by the
   * times told it would come before; whether the first came in is not always known.
   */
  function follow(sent: ReadonlyMap<string, Waiting>): void {
    for (const [name, one] of sent) {
      const now = waiting.get(name);
      if (now && now !== one) now.at = new Date().toISOString();
    }
  }

  /** Ticks that do not stand, since something was written of their bundles after they were made. */
  function overtaken(sent: ReadonlyMap<string, Waiting>): string[] {
    return [...sent].flatMap(([name, { value }]) => {
      const control = form.querySelector<Control>(`[name="${CSS.escape(name)}"]`);
      if (!control || !isTick(control) || waiting.has(name) || control.checked === (value !== null)) return [];
      const mark = control.closest('label')?.querySelector('strong')?.textContent;
      return [`${mark} was written of since by another: it stands as shown.`];
    });
  }

  async function post(body: URLSearchParams): Promise<Document | 'refused' | 'stale' | null> {
    const response = await fetch(form.action, { method: 'POST', body, signal: AbortSignal.timeout(PATIENCE) }).catch(
      () => null,
    );
    const text = await response?.text().catch(() => null);
    if (!response || text == null || response.status >= 500) return null;
    if (response.ok) return new DOMParser().parseFromString(text, 'text/html');
    return response.status === 422 ? 'refused' : 'stale';
  }

  /** What the server has takes the place of what is shown, but for what was ticked or typed since. */
  function putIn(page: Document): void {
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
      if (!fresh || waiting.has(control.name)) continue;
      if (isTick(control)) control.checked = (fresh as HTMLInputElement).checked;
      // Put in as it was, it would still move the cursor of who types there.
      else if (control.value !== fresh.value) control.value = fresh.value;
    }
  }

  function store(): void {
    try {
      if (waiting.size === 0) localStorage.removeItem(kept);
      else localStorage.setItem(kept, JSON.stringify([...waiting]));
    } catch {
      // A browser that keeps nothing still has the page itself, until it is closed.
    }
  }

  function say(words: string): void {
    if (state) state.textContent = words;
  }
}

/** The voids of what goes in next. */
function voidsNext(): Set<string> {
  return new Set([...document.querySelectorAll<HTMLElement>('[data-void]')].map(({ dataset }) => dataset.void ?? ''));
}

function readKept(kept: string): [string, Waiting][] {
  try {
    return JSON.parse(localStorage.getItem(kept) ?? '[]') as [string, Waiting][];
  } catch {
    return [];
  }
}

function restore(form: HTMLFormElement, name: string, value: string | null): void {
  const control = form.querySelector<Control>(`[name="${CSS.escape(name)}"]`);
  if (!control) return;
  if (isTick(control)) control.checked = value !== null;
  else control.value = value ?? '';
  for (let fold = control.closest('details'); fold; fold = fold.parentElement?.closest('details') ?? null)
    fold.open = true;
}

function isTick(control: Control): control is HTMLInputElement {
  return control.type === 'checkbox';
}
