/**
 * Marks of boxes that may lie over each other: each near the middle of its own, none over another, and where there is a
 * choice not in a box of another mark. A mark too long for its box is wrapped, then shortened: its end is kept, because
 * the end tells a mark from its like.
 */
import { textWidth } from './letter.ts';
import { centredText, group, rect, type Shape } from './scene.ts';

/** Upper left corner and size, mm of paper. */
export interface Area {
  x: number;
  y: number;
  width: number;
  height: number;
}

export interface MarkedBox extends Area {
  mark: string;
}

const SIZES = [3, 2.75, 2.5, 2.25, 2];
const LEAST = 2;
/** From base line to base line, in ems. */
const LINE = 1.15;
/** Clear of the outline, mm. */
const CLEAR = 0.5;
/** A mark may be so wide, mm, though its box is narrower. */
const WIDEST_OVER = 9;
/** Where in its box a mark may stand, as parts of it; first the middle. Beyond 0 and 1 it stands beside its box. */
const PLACES = [0.5, 0.3, 0.7, 0.15, 0.85, -0.2, 1.2];

/** A shape for each box, in their order; null where no place was left. `taken` is where other words stand, `frame` where marks may. Places are tried in turn, small boxes first. */
export function markBoxes(boxes: readonly MarkedBox[], frame: Area, taken: readonly Area[]): (Shape | null)[] {
  const shapes: (Shape | null)[] = boxes.map(() => null);
  const filled = [...taken];
  const order = [...boxes.entries()].sort(([, p], [, q]) => p.width * p.height - q.width * q.height);
  for (const [n, box] of order) {
    const { lines, size } = fitMark(box.mark, box);
    const others = boxes.filter((other) => other !== box);
    const place = choosePlace(box, sizeOf(lines, size), others, frame, filled);
    if (!place) continue;
    filled.push(place);
    const crossed = boxes.some((other) => meet(place, other) && !within(place, other));
    shapes[n] = drawMark(place, lines, size, crossed || !within(place, box));
  }
  return shapes;
}

/** The mark in lines, at the largest size at which it fits its box; else over the box's sides, and shortened at last. */
function fitMark(mark: string, box: Area): { lines: string[]; size: number } {
  const inside = box.width - 2 * CLEAR;
  const room = Math.max(box.height - CLEAR, LEAST * LINE);
  for (const linesAt of [
    (size: number) => (textWidth(mark, size) <= inside ? [mark] : null),
    (size: number) => wrapWords(mark, inside, size),
    (size: number) => (textWidth(mark, size) <= WIDEST_OVER ? [mark] : null),
  ]) {
    for (const size of SIZES) {
      const lines = linesAt(size);
      if (lines && lines.length * LINE * size <= room) return { lines, size };
    }
  }
  return { lines: shorten(mark, Math.max(inside, WIDEST_OVER), Math.floor(room / (LEAST * LINE))), size: LEAST };
}

/** By whole words; null where one of them is wider than `width`. */
function wrapWords(mark: string, width: number, size: number): string[] | null {
  const lines: string[] = [];
  for (const word of mark.split(/\s+/)) {
    if (textWidth(word, size) > width) return null;
    const longer = `${lines.at(-1)} ${word}`;
    if (lines.length > 0 && textWidth(longer, size) <= width) lines[lines.length - 1] = longer;
    else lines.push(word);
  }
  return lines;
}

/** The end of the mark, broken anywhere into at most `most` lines, with … before it. */
function shorten(mark: string, width: number, most: number): string[] {
  const letters = [...mark];
  const lines = [''];
  while (letters.length > 0) {
    const letter = letters.pop()!;
    const line = lines[0]!;
    // The first line has room for the … that may have to stand before it.
    const spare = lines.length === most && letters.length > 0 ? '…' : '';
    if (textWidth(spare + letter + line, LEAST) <= width) lines[0] = letter + line;
    else if (lines.length < most) lines.unshift(letter);
    else return [`…${line}`, ...lines.slice(1)];
  }
  return lines;
}

function sizeOf(lines: readonly string[], size: number): { width: number; height: number } {
  return { width: Math.max(...lines.map((line) => textWidth(line, size))), height: lines.length * LINE * size };
}

function choosePlace(
  box: Area,
  { width, height }: { width: number; height: number },
  others: readonly Area[],
  frame: Area,
  taken: readonly Area[],
): Area | null {
  const middle = { x: box.x + box.width / 2, y: box.y + box.height / 2 };
  let best: Area | null = null;
  let least = Infinity;
  for (const down of PLACES) {
    for (const right of PLACES) {
      const x = box.x + right * box.width;
      const y = box.y + down * box.height;
      const place = { x: x - width / 2, y: y - height / 2, width, height };
      if (!within(place, frame) || taken.some((other) => meet(place, other))) continue;
      const own = box.width >= width && box.height >= height ? within(place, box) : meet(place, box);
      const strange = others.filter((other) => meet(place, other)).length;
      const cost = (own ? 0 : 1000) + 100 * strange + Math.hypot(x - middle.x, y - middle.y);
      if (cost < least) [best, least] = [place, cost];
    }
  }
  return best;
}

/** `plate`: on a ground of its own, so that no line passes through it. */
function drawMark(place: Area, lines: readonly string[], size: number, plate: boolean): Shape {
  const x = place.x + place.width / 2;
  const words = lines.map((line, n) => centredText('label', x, place.y + (n + 0.5) * LINE * size, line, size));
  const ground = plate ? [rect('plate', place.x, place.y, place.width, place.height)] : [];
  return group({ x: 0, y: 0 }, [...ground, ...words]);
}

function within(inner: Area, outer: Area): boolean {
  return (
    inner.x >= outer.x &&
    inner.y >= outer.y &&
    inner.x + inner.width <= outer.x + outer.width &&
    inner.y + inner.height <= outer.y + outer.height
  );
}

export function meet(a: Area, b: Area): boolean {
  return a.x < b.x + b.width && b.x < a.x + a.width && a.y < b.y + b.height && b.y < a.y + a.height;
}
