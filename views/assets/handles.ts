/**
 * What is fitted in a void (something to stay off, an opening, a bearer) is moved on the drawing: by dragging its handle,
 * or with the arrow keys while the handle has the focus. The numbers follow, and the drawing follows the numbers. The
 * server says where everything lies and how the drawing is scaled; nothing of the trade is known here.
 */

/** Dragging and arrow keys go in steps, mm; with Shift in large ones. */
const STEP = 5;
const STRIDE = 50;
/** A gloved finger, px. */
const TARGET = 44;

type Range = [number, number];
type Place = Partial<Record<'along' | 'across' | 'up', Range>>;
type Axis = keyof Place;

export function moveFitted(space: HTMLElement): void {
  const sketches = space.querySelector<HTMLElement>('.sketches');
  if (!sketches) return;
  const base = sketches.closest<HTMLElement>('.void')?.dataset.path ?? '';
  sketches.addEventListener('shown', layOut);
  new ResizeObserver(layOut).observe(sketches);
  layOut();

  function layOut(): void {
    const figure = sketches?.querySelector<HTMLElement>('figure[data-view]:not([hidden])');
    if (!figure || !sketches) return;
    const places = JSON.parse(sketches.dataset.places ?? '{}') as Record<string, Place>;
    const old = new Map([...figure.querySelectorAll<HTMLElement>('.handle')].map((one) => [one.dataset.moves, one]));
    for (const shape of figure.querySelectorAll<SVGGElement>('.drawn [data-name]')) {
      const name = shape.dataset.name ?? '';
      const place = places[name];
      if (!place) continue;
      const handle = old.get(name) ?? addHandle(figure, name);
      old.delete(name);
      lay(handle, shape, figure);
      handle.setAttribute(
        'aria-label',
        `Move ${shape.querySelector('title')?.textContent}: ${tell(place)}. Arrow keys.`,
      );
    }
    for (const left of old.values()) left.remove();
  }

  function addHandle(figure: HTMLElement, name: string): HTMLElement {
    const handle = figure.appendChild(document.createElement('button'));
    handle.type = 'button';
    handle.className = `handle of-${name.replace(/\[.*/, '')}`;
    handle.dataset.moves = name;
    handle.addEventListener('pointerdown', (event) => drag(event, handle, figure));
    handle.addEventListener('keydown', (event) => {
      const way = ARROWS[event.key];
      if (!way) return;
      event.preventDefault();
      const by = event.shiftKey ? STRIDE : STEP;
      move(name, figure, way.x * by, way.y * by);
    });
    return handle;
  }

  function drag(down: PointerEvent, handle: HTMLElement, figure: HTMLElement): void {
    const picture = figure.querySelector('svg');
    const shape = figure.querySelector<SVGGElement>(`[data-name="${CSS.escape(handle.dataset.moves ?? '')}"]`);
    if (!picture || !shape || down.button !== 0) return;
    down.preventDefault();
    handle.focus();
    const perPixel = picture.viewBox.baseVal.width / picture.getBoundingClientRect().width;
    let [x, y] = [0, 0];
    const follow = (event: PointerEvent): void => {
      x = (event.clientX - down.clientX) * perPixel;
      y = (event.clientY - down.clientY) * perPixel;
      shape.setAttribute('transform', `translate(${x} ${y})`);
      lay(handle, shape, figure);
    };
    const dragging = new AbortController();
    const drop = (): void => {
      dragging.abort();
      const scale = Number(figure.dataset.scale);
      const step = (value: number): number => Math.round((value * scale) / STEP) * STEP;
      if (!move(handle.dataset.moves ?? '', figure, step(x), step(y))) putBack();
    };
    // Given up, by Escape or by the browser, it lies where it lay.
    const putBack = (): void => {
      dragging.abort();
      shape.removeAttribute('transform');
      lay(handle, shape, figure);
    };
    const listen = (name: 'pointermove' | 'pointerup' | 'pointercancel', act: (event: PointerEvent) => void): void =>
      addEventListener(name, (event) => event.pointerId === down.pointerId && act(event), { signal: dragging.signal });
    listen('pointermove', follow);
    listen('pointerup', drop);
    listen('pointercancel', putBack);
    handle.addEventListener('keydown', ({ key }) => key === 'Escape' && putBack(), { signal: dragging.signal });
  }

  /** Moves so many mm to the right and down on the drawing. True where a number was changed. */
  function move(name: string, figure: HTMLElement, right: number, down: number): boolean {
    const places = JSON.parse(sketches?.dataset.places ?? '{}') as Record<string, Place>;
    const place = places[name];
    if (!place || !sketches) return false;
    const moved: Axis[] = [];
    for (const [way, by] of [
      [figure.dataset.x, right],
      [figure.dataset.y, down],
    ] as const) {
      const axis = way?.slice(1) as Axis;
      const range = place[axis];
      if (!range || by === 0) continue;
      const signed = way?.startsWith('-') ? -by : by;
      place[axis] = [range[0] + signed, range[1] + signed];
      moved.push(axis);
    }
    // Of an opening's middle both numbers are stated, or neither.
    const stated = isOpening(name) && moved.length > 0 ? (Object.keys(place) as Axis[]) : moved;
    for (const axis of stated)
      write(space, `${base}.${name}${isOpening(name) ? '.at' : ''}.${axis}`, place[axis] as Range);
    sketches.dataset.places = JSON.stringify(places);
    return moved.length > 0;
  }
}

const ARROWS: Record<string, { x: number; y: number }> = {
  ArrowLeft: { x: -1, y: 0 },
  ArrowRight: { x: 1, y: 0 },
  ArrowUp: { x: 0, y: -1 },
  ArrowDown: { x: 0, y: 1 },
};

/** Lays a handle over its shape, large enough for a finger. An opening is held by its corner, since it lies over others. */
function lay(handle: HTMLElement, shape: SVGGElement, figure: HTMLElement): void {
  const box = shape.getBoundingClientRect();
  const frame = figure.getBoundingClientRect();
  // A figure that is moved sideways takes its handles along.
  const from = { left: frame.left - figure.scrollLeft, top: frame.top - figure.scrollTop };
  const corner = isOpening(handle.dataset.moves ?? '');
  const width = corner ? TARGET : Math.max(TARGET, box.width);
  const height = corner ? TARGET : Math.max(TARGET, box.height);
  handle.style.width = `${width}px`;
  handle.style.height = `${height}px`;
  handle.style.left = `${(corner ? box.left : box.left + (box.width - width) / 2) - from.left}px`;
  handle.style.top = `${(corner ? box.top : box.top + (box.height - height) / 2) - from.top}px`;
}

function tell(place: Place): string {
  return (Object.entries(place) as [Axis, Range][])
    .map(([axis, [from, to]]) => (from === to ? `${from} ${axis}` : `${from} to ${to} ${axis}`))
    .join(', ');
}

function isOpening(name: string): boolean {
  return name === 'opening' || name.startsWith('otherOpenings');
}

/** Writes a new place into its field. */
function write(space: HTMLElement, name: string, [from, to]: Range): void {
  const input = space.querySelector<HTMLInputElement>(`input[name="${CSS.escape(name)}"]`);
  if (!input) return;
  input.value = from === to ? String(from) : `${from} to ${to}`;
  input.dispatchEvent(new Event('input', { bubbles: true }));
}
