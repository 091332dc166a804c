/** How far a bar across is drawn: as long as it is, or broken off where that would make the void too small to be read. */
import type { BarAcross } from '../job/holdDown.ts';
import type { LaidVoid } from '../stow/laid.ts';
import { sidesAt } from './outline.ts';
import { line, type Point, polygon, type Shape } from './scene.ts';

/** A bar reaches so far past its bolts on the drawing, mm. */
export const PAST_BOLT = 20;
/** Past each side of the void a bar is drawn no further than this, or half the void's width where that is more, mm. */
const MOST_PAST = 120;

export interface DrawnBar {
  /** From the middle of the void to a bolt as drawn, mm. */
  half: number;
  /** Where it is broken off on either side, from the middle, mm; null where it is as long as it is. */
  breakAt: number | null;
}

export function drawnBar(laid: LaidVoid, along: number, { span }: Pick<BarAcross, 'span'>): DrawnBar {
  const { from, to } = sidesAt(laid, along, laid.height - laid.clear.top);
  const side = (to - from) / 2;
  const most = Math.max(MOST_PAST, side);
  if (span / 2 + PAST_BOLT <= side + most) return { half: span / 2, breakAt: null };
  return { half: side + most - PAST_BOLT, breakAt: side + most / 2 };
}

/** Half the gap of a break, how far it leans, and how far its strokes reach past the bar, mm of paper. */
const BREAK = { gap: 0.6, lean: 0.5, past: 0.9 };

/** Two leaning strokes with nothing between them, over a bar about `at` that is `thick` on paper and runs across or upright. */
export function breakMark(at: Point, thick: number, upright: boolean): Shape[] {
  const out = thick / 2 + BREAK.past;
  const corner = (along: number, aside: number): Point =>
    upright ? { x: at.x + aside, y: at.y + along } : { x: at.x + along, y: at.y + aside };
  const stroke = (along: number) => [corner(along + BREAK.lean, -out), corner(along - BREAK.lean, out)] as const;
  const [first, last] = [stroke(-BREAK.gap), stroke(BREAK.gap)];
  return [
    polygon('plate', [first[0], first[1], last[1], last[0]]),
    line('cutEnd', first[0].x, first[0].y, first[1].x, first[1].y),
    line('cutEnd', last[0].x, last[0].y, last[1].x, last[1].y),
  ];
}
