/**
 * How she floats before and after: one outline with both waterlines and the change at each end of the waterline. Her
 * lines are not known: the outline stands for a hull and is not hers, and the change is drawn larger than it is.
 */
import { AFLOAT_WORDS as W } from './afloatWords.ts';
import { line, type Point, polygon, type Scene, type Shape, text } from './scene.ts';

export interface Afloat {
  /** Change at the ends of the waterline, cm, down positive. */
  forward: number;
  aft: number;
  /** Her draughts before, m, where they are known: then the marks are written too. */
  draughtForward?: number | undefined;
  draughtAft?: number | undefined;
}

export interface AfloatOptions {
  width: number;
  height: number;
  /** What the lines stand for is told beneath the drawing, where it is not cut off by a narrow window. Default: within it. */
  toldBelow?: boolean;
  /** Puts metric figures in words into the units wanted, metric in brackets after them. Default: as they are. */
  tell?: (words: string) => string;
}

/** Along the hull from aft and up from the keel, as shares of length and depth. */
const OUTLINE: readonly (readonly [number, number])[] = [
  [0.02, 0.98],
  [0, 0.62],
  [0.05, 0.36],
  [0.16, 0.06],
  [0.6, 0],
  [0.84, 0.16],
  [0.95, 0.5],
  [1, 1],
  [0.8, 0.9],
  [0.5, 0.86],
  [0.2, 0.9],
];
const WATERLINE = 0.55;
/** The greater change of the two ends is drawn as this share of the depth. */
const DRAWN = 0.16;
const MARGIN = { x: 30, top: 6, bottom: 10 };

/** Seen from starboard, the bow to the right: solid the waterline after, broken the one before. */
export function afloatScene(change: Afloat, options: AfloatOptions): Scene {
  const [length, depth] = [options.width - 2 * MARGIN.x, options.height - MARGIN.top - MARGIN.bottom];
  const place = (along: number, up: number): Point => ({
    x: MARGIN.x + along * length,
    y: MARGIN.top + (1 - up) * depth,
  });
  const { tell = (words: string) => words } = options;
  const most = Math.max(Math.abs(change.forward), Math.abs(change.aft), 0.1);
  const risen = (cm: number): number => WATERLINE + (DRAWN * cm) / most;
  const [stern, bow] = [place(-0.02, risen(change.aft)), place(1.02, risen(change.forward))];
  const [sternBefore, bowBefore] = [place(-0.02, WATERLINE), place(1.02, WATERLINE)];
  const hull = OUTLINE.map(([along, up]) => place(along, up));
  const shapes: Shape[] = [
    polygon('bundle', hull),
    line('guide', sternBefore.x, sternBefore.y, bowBefore.x, bowBefore.y),
    line('void', stern.x, stern.y, bow.x, bow.y),
    ...toldAt({ x: stern.x - 1.5, y: stern.y }, 'end', W.aft, change.aft, change.draughtAft, tell),
    ...toldAt({ x: bow.x + 1.5, y: bow.y }, 'start', W.forward, change.forward, change.draughtForward, tell),
    ...(options.toldBelow ? [] : [text('note', options.width / 2, options.height - 2, W.notToScale, 2.6, 'middle')]),
  ];
  return {
    width: options.width,
    height: options.height,
    title: W.title,
    description: W.inWords(tell(W.change(change.forward)), tell(W.change(change.aft))),
    shapes,
  };
}

/** What one end does, its name and its marks, a line each from `y` on; what stands in brackets has a line of its own. */
function toldAt(
  { x, y }: Point,
  anchor: 'start' | 'end',
  end: string,
  cm: number,
  draught: number | undefined,
  tell: (words: string) => string,
): Shape[] {
  const told = (words: string): string[] => tell(words).split(/ (?=\()/);
  const [change = '', ...metric] = told(W.change(cm));
  const marks = draught === undefined ? [] : told(W.marks(draught, cm));
  const lines = [
    text('label', x, 0, change, 3.6, anchor, true),
    ...metric.map((words) => text('label', x, 0, words, 2.8, anchor)),
    text('note', x, 0, end, 2.6, anchor),
    ...marks.map((words) => text('label', x, 0, words, 2.8, anchor)),
  ];
  return lines.map((line, n) => ({ ...line, y: y + 1 + 4 * n }));
}
