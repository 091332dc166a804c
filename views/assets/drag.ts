/**
 * Something to stay off is moved by dragging it in the drawing from above; its numbers follow, and can be typed as well.
 * How much a millimetre is in the drawing follows from the thing itself: its numbers, and how wide it is drawn.
 */

/** Dragging goes in steps, mm. */
const STEP = 5;

export function dragKeepOuts(space: HTMLElement): void {
  space.addEventListener('pointerdown', (event) => {
    const shape = (event.target as Element).closest<SVGRectElement>('[data-view="above"] rect.k-keepOut');
    const picture = shape?.ownerSVGElement;
    if (!shape || !picture) return;
    const number = [...picture.querySelectorAll('rect.k-keepOut')].indexOf(shape);
    const [along, across] = ['along', 'across'].map((name) => rangeField(space, number, name));
    if (!along || !across) return;
    event.preventDefault();
    follow(event, shape, picture, along, across, isAthwartships(space) ? -1 : 1);
  });
}

interface RangeField {
  input: HTMLInputElement;
  from: number;
  to: number;
}

function rangeField(space: HTMLElement, number: number, name: string): RangeField | null {
  const input = space.querySelector<HTMLInputElement>(`input[name$=".keepOut[${number}].${name}"]`);
  const [, from, to] = /^\s*(-?[\d.]+) to (-?[\d.]+)\s*$/.exec(input?.value ?? '') ?? [];
  return input && from !== undefined && to !== undefined ? { input, from: Number(from), to: Number(to) } : null;
}

function isAthwartships(space: HTMLElement): boolean {
  return space.querySelector<HTMLSelectElement>('select[name$=".axis"]')?.value === 'athwartships';
}

function follow(
  down: PointerEvent,
  shape: SVGRectElement,
  picture: SVGSVGElement,
  along: RangeField,
  across: RangeField,
  side: number,
): void {
  const perPixel = picture.viewBox.baseVal.width / picture.getBoundingClientRect().width;
  const millimetres = (along.to - along.from) / shape.width.baseVal.value;
  let moved = { x: 0, y: 0 };
  const move = (event: PointerEvent): void => {
    moved = { x: (event.clientX - down.clientX) * perPixel, y: (event.clientY - down.clientY) * perPixel };
    shape.setAttribute('transform', `translate(${moved.x} ${moved.y})`);
  };
  const drop = (): void => {
    removeEventListener('pointermove', move);
    removeEventListener('pointerup', drop);
    removeEventListener('pointercancel', drop);
    write(along, moved.x * millimetres);
    write(across, moved.y * millimetres * side);
  };
  addEventListener('pointermove', move);
  addEventListener('pointerup', drop);
  addEventListener('pointercancel', drop);
}

function write({ input, from, to }: RangeField, by: number): void {
  const step = Math.round(by / STEP) * STEP;
  if (step === 0) return;
  input.value = `${from + step} to ${to + step}`;
  input.dispatchEvent(new Event('input', { bubbles: true }));
}
