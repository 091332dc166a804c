/**
 * While a job is being typed: how each length was read, the sums, the drawing of the void in hand, and what is still to
 * mend. The server says it all, from the form as it stands; nothing is saved by it.
 */

interface Fault {
  code: string;
  message: string;
  remedy: string;
}

/** A void's drawings, and where what is fitted in it lies; `handles.ts` reads the rest of it. */
interface VoidSketch {
  views: Record<string, { svg: string; scale: number | null; x: string; y: string }>;
  places: object;
  slips: string[];
}

interface Sketch {
  echoes: Record<string, string>;
  faults: Record<string, Fault[]>;
  doubts: Record<string, string>;
  faultCount: number;
  questionCount: number;
  lists: Record<string, Fault[]>;
  /** Markup. */
  wanted: string;
  follows: Record<string, string>;
  voids: Record<string, VoidSketch>;
  sums: Record<string, string>;
  total: string;
  drawings: Record<string, Record<string, string>>;
}

type Control = HTMLInputElement | HTMLSelectElement | HTMLTextAreaElement;

/** Typing has to rest so long before the server is asked, ms. */
const REST = 300;

export function sketchWhileTyping(form: HTMLFormElement): void {
  const touched = new Set<string>();
  let timer: ReturnType<typeof setTimeout> | undefined;
  let asked = 0;

  form.addEventListener('input', (event) => {
    const control = event.target as Control;
    touched.add(control.name);
    clearTimeout(timer);
    timer = setTimeout(() => void ask(control.name), REST);
  });

  // What is typed and not saved is not left behind without a word.
  form.addEventListener('submit', () => touched.clear());
  addEventListener('beforeunload', (event) => {
    if (touched.size > 0) event.preventDefault();
  });

  async function ask(focus: string): Promise<void> {
    const turn = ++asked;
    const fields = new URLSearchParams();
    for (const [name, value] of new FormData(form)) if (typeof value === 'string') fields.append(name, value);
    fields.set('focus', focus);
    const response = await fetch(`${form.action}/sketch`, { method: 'POST', body: fields }).catch(() => null);
    if (!response?.ok || turn !== asked) return;
    show((await response.json()) as Sketch);
  }

  function show(sketch: Sketch): void {
    for (const control of form.querySelectorAll<Control>('input[id], select[id], textarea[id]')) {
      // What is doubtful of a field may have been typed in another.
      note(control, 'doubt', sketch.doubts[control.name] ?? '');
      if (!touched.has(control.name)) {
        // What was lacking here may follow by now from what was typed elsewhere.
        if (control.hasAttribute('aria-invalid') && !sketch.faults[control.name]) showFaults(control, []);
        continue;
      }
      note(control, 'echo', sketch.echoes[control.name] ?? '');
      showFaults(control, sketch.faults[control.name] ?? []);
    }
    for (const [list, faults] of Object.entries(sketch.lists))
      form
        .querySelector(`[data-list="${list}"]`)
        ?.replaceChildren(...(faults.length > 0 ? [listOf(faults, `${list}-fault`)] : []));
    // A line that was emptied weighs nothing any more.
    for (const sum of form.querySelectorAll<HTMLElement>('[data-sum]'))
      setText(sum, sketch.sums[sum.dataset.sum ?? ''] ?? '');
    setText(form.querySelector('[data-total]'), sketch.total);
    const things = sketch.faultCount === 1 ? '1 thing' : `${sketch.faultCount} things`;
    const state = sketch.faultCount === 0 ? 'ready to plan' : `${things} to fill in or mend`;
    const asked = sketch.questionCount === 1 ? ', 1 question' : `, ${sketch.questionCount} questions`;
    setText(form.querySelector('[data-state]'), `${state}${sketch.questionCount === 0 ? '' : asked}, not saved yet`);
    const wanted = document.querySelector('[data-wanted]');
    if (wanted) wanted.innerHTML = sketch.wanted;
    for (const [name, text] of Object.entries(sketch.follows)) fill(form, name, text);
    for (const [id, drawn] of Object.entries(sketch.voids)) showVoid(form, id, drawn);
    for (const [id, drawings] of Object.entries(sketch.drawings)) showDrawings(form, id, drawings);
  }
}

function setText(element: Element | null, text: string): void {
  if (element && element.textContent !== text) element.textContent = text;
}

function note(control: Control, look: string, text: string): void {
  const id = `${control.id}-${look}`;
  const there = document.getElementById(id);
  describe(control, id, text !== '');
  if (text === '') {
    there?.remove();
    return;
  }
  const line = there ?? control.parentElement?.appendChild(document.createElement('p'));
  if (!line) return;
  line.id = id;
  line.className = look;
  line.setAttribute('role', 'status');
  setText(line, text);
}

function showFaults(control: Control, faults: Fault[]): void {
  const id = `${control.id}-fault`;
  document.getElementById(id)?.remove();
  control.parentElement?.classList.toggle('faulty', faults.length > 0);
  describe(control, id, faults.length > 0);
  if (faults.length === 0) {
    control.removeAttribute('aria-invalid');
    return;
  }
  control.setAttribute('aria-invalid', 'true');
  control.parentElement?.append(listOf(faults, id));
}

function listOf(faults: Fault[], id: string): HTMLElement {
  const list = document.createElement('ul');
  list.id = id;
  list.className = 'faults';
  for (const fault of faults) {
    const line = list.appendChild(document.createElement('li'));
    line.classList.toggle('lacking', fault.code === 'missing-field');
    line.append(`${fault.message} `);
    const remedy = line.appendChild(document.createElement('span'));
    remedy.className = 'remedy';
    remedy.textContent = fault.remedy;
  }
  return list;
}

/** Ties a line to its field, or unties one that is gone. */
function describe(control: Control, id: string, there: boolean): void {
  const lines = (control.getAttribute('aria-describedby') ?? '')
    .split(' ')
    .filter((line) => line !== '' && line !== id);
  if (there) lines.push(id);
  if (lines.length > 0) control.setAttribute('aria-describedby', lines.join(' '));
  else control.removeAttribute('aria-describedby');
}

/** A field that follows from another is filled in, unless it is being typed in itself. */
function fill(form: HTMLFormElement, name: string, text: string): void {
  const control = form.elements.namedItem(name);
  if (!(control instanceof HTMLTextAreaElement || control instanceof HTMLInputElement)) return;
  if (control !== document.activeElement) control.value = text;
}

/** The drawings come from our own server, with every name in them escaped. */
function showVoid(form: HTMLFormElement, id: string, { views, places, slips }: VoidSketch): void {
  const place = form.querySelector<HTMLElement>(`[data-sketches="${CSS.escape(id)}"]`);
  if (!place || Object.keys(views).length === 0) return;
  place.dataset.places = JSON.stringify(places);
  showSlips(place, slips);
  for (const [view, { svg, scale, x, y }] of Object.entries(views)) {
    const figure = place.querySelector<HTMLElement>(`[data-view="${view}"]`);
    const drawn = figure?.querySelector<HTMLElement>('.drawn');
    if (!figure || !drawn) continue;
    drawn.innerHTML = svg;
    delete drawn.dataset.later;
    Object.assign(figure.dataset, { scale: String(scale), x, y });
  }
  place.dispatchEvent(new Event('drawn'));
}

function showSlips(place: HTMLElement, slips: string[]): void {
  const list = place.querySelector('.slips');
  if (!list || [...list.children].map((line) => line.textContent).join('\n') === slips.join('\n')) return;
  list.replaceChildren(
    ...slips.map((slip) => {
      const line = document.createElement('li');
      line.textContent = slip;
      return line;
    }),
  );
}

function showDrawings(form: HTMLFormElement, id: string, drawings: Record<string, string>): void {
  const place = form.querySelector<HTMLElement>(`[data-sketches="${CSS.escape(id)}"]`);
  for (const [view, svg] of Object.entries(drawings)) {
    const figure = place?.querySelector(`[data-view="${view}"]`);
    if (figure) figure.innerHTML = svg;
  }
}
