/**
 * What she lists before and after, seen from aft, so that port is to the left: one outline, standing upright as her own
 * lines would, with both waterlines across it; the water climbs on the side to which she lists. Her lines are not known:
 * the outline is not hers, and the angles are drawn larger than they are.
 */
import { AFLOAT_WORDS as W } from './afloatWords.ts';
import { line, type Point, polygon, type Scene, text } from './scene.ts';

/** Degrees, to starboard positive. */
export interface Listed {
  before: number;
  after: number;
}

/** Half of the outline: out from the middle as a share of the half beam, up from the keel as a share of the depth. */
const HALF: readonly (readonly [number, number])[] = [
  [0, 0],
  [0.1, 0.02],
  [0.16, 0.2],
  [0.72, 0.38],
  [0.96, 0.62],
  [1, 1],
];
const WATERLINE = 0.58;
/** The greater of the two lists is drawn so: the rise of the waterline over half its length. */
const DRAWN = 0.2;
/** A list under this, degrees, is drawn and told as none. */
const LEAST = 0.05;
const MARGIN = { top: 4, bottom: 9 };

export interface ListedOptions {
  width: number;
  height: number;
  /** As of the drawing of how she floats. */
  toldBelow?: boolean;
}

export function listedScene({ before, after }: Listed, { width, height, toldBelow }: ListedOptions): Scene {
  const depth = height - MARGIN.top - MARGIN.bottom;
  const [middle, half] = [width / 2, Math.min(depth * 0.75, width / 9)];
  const place = (out: number, up: number): Point => ({ x: middle + out * half, y: MARGIN.top + (1 - up) * depth });
  const hull = [...HALF.map(([out, up]) => place(out, up)), ...HALF.map(([out, up]) => place(-out, up)).reverse()];
  const most = Math.max(Math.abs(before), Math.abs(after), LEAST);
  const water = (list: number): [Point, Point] => {
    const rise = (DRAWN * half * list) / most;
    const { y } = place(0, WATERLINE);
    return [
      { x: middle - 1.5 * half, y: y + 1.5 * rise },
      { x: middle + 1.5 * half, y: y - 1.5 * rise },
    ];
  };
  const [[portBefore, starboardBefore], [port, starboard]] = [water(before), water(after)];
  const [left, right] = [middle - 1.6 * half, middle + 1.6 * half];
  const level = place(0, WATERLINE).y;
  return {
    width,
    height,
    title: W.listTitle,
    description: W.listInWords(W.list(before), W.list(after)),
    shapes: [
      polygon('bundle', hull),
      line('guide', portBefore.x, portBefore.y, starboardBefore.x, starboardBefore.y),
      line('void', port.x, port.y, starboard.x, starboard.y),
      text('note', left, MARGIN.top + 3, W.port, 2.6, 'end'),
      text('note', right, MARGIN.top + 3, W.starboard, 2.6, 'start'),
      text('label', left, level + 1, W.before(W.list(before)), 3.2, 'end'),
      text('label', right, level + 1, W.after(W.list(after)), 3.2, 'start', true),
      ...(toldBelow ? [] : [text('note', width / 2, height - 2, W.listNotToScale, 2.6, 'middle')]),
    ],
  };
}
