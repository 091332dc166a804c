/** Chocks as they are drawn: wood, crossed as it is drawn end on, each with its mark; long ones at ends as the frames that they are. */
import { chockMade, FRAME } from '../plan/chockMade.ts';
import { type Chock, chocksOf, isAtEnd, roomOf } from '../plan/chocks.ts';
import type { Plan } from '../plan/plan.ts';
import type { LaidVoid } from '../stow/laid.ts';
import { fitSize, textWidth } from './letter.ts';
import { centredText, line, type Point, polygon, rect, type Shape } from './scene.ts';

/** What is drawn of a chock: the wood, which lies under the bundles, and its mark, which stands over all. */
export interface Wood {
  wood: Shape[];
  mark: Shape[];
}

/** One block by its corners, round about. */
export function crossedWood(corners: readonly [Point, Point, Point, Point]): Shape[] {
  const [a, b, c, d] = corners;
  return [polygon('chock', [...corners]), line('chock', a.x, a.y, c.x, c.y), line('chock', b.x, b.y, d.x, d.y)];
}

/** What marks of chocks say beyond void and run, on a plate of its own; nothing where it could not be read. */
export function woodMark(marks: readonly string[], { x, y }: Point, width: number, height: number): Shape[] {
  const words = marks.map((mark) => mark.slice(mark.lastIndexOf('/') + 1)).join(', ');
  const size = fitSize(words, width - 0.6, Math.min(2.6, height * 0.7), 1.5);
  if (size === null) return [];
  const half = { w: textWidth(words, size) / 2 + 0.1, h: size * 0.48 };
  return [rect('chock', x - half.w, y - half.h, 2 * half.w, 2 * half.h), centredText('label', x, y, words, size)];
}

type Place = (p: number, q: number) => Point;
type Range = readonly [number, number];

function boxOf(place: Place, [p0, p1]: Range, [q0, q1]: Range): [Point, Point, Point, Point] {
  return [place(p0, q0), place(p1, q0), place(p1, q1), place(p0, q1)];
}

function boxMark(marks: readonly string[], [a, , c]: readonly Point[]): Shape[] {
  const middle = { x: (a!.x + c!.x) / 2, y: (a!.y + c!.y) / 2 };
  return woodMark(marks, middle, Math.abs(c!.x - a!.x), Math.abs(c!.y - a!.y));
}

/** One from above, as broad as it is where it is broadest. `place` is along and across. */
export function woodAbove(laid: LaidVoid, chock: Chock, place: Place): Wood {
  const { along, across } = roomOf(chock);
  const box = boxOf(place, [along.from, along.to], [across.from, across.to]);
  const { struts, pieces } = chockMade(laid, chock);
  const wood = struts ? frameAbove(chock, { count: struts.count, pieces: pieces ?? 1 }, place) : crossedWood(box);
  return { wood, mark: boxMark([chock.mark], box) };
}

/** Boards at both ends and struts between them, the outer ones at the ends of the boards; each frame of several by itself. */
function frameAbove(
  { from, to, across, length }: Chock,
  { count, pieces }: { count: number; pieces: number },
  place: Place,
): Shape[] {
  const wide = length / pieces;
  return Array.from({ length: pieces }, (_, n) => across + n * wide).flatMap((start) => {
    const boards = [from, to - FRAME.board].map((at) => boxOf(place, [at, at + FRAME.board], [start, start + wide]));
    const struts = Array.from({ length: count }, (_, i) => {
      const at = start + (i * (wide - FRAME.strut)) / (count - 1);
      return boxOf(place, [from + FRAME.board, to - FRAME.board], [at, at + FRAME.strut]);
    });
    return [...boards, ...struts].map((corners) => polygon('chock', corners));
  });
}

/** The chocks of a void whose tiers are all there. */
function chocksThere(laid: LaidVoid, plan: Plan, present: ReadonlySet<string> | undefined): Chock[] {
  const isThere = ({ run, tier }: Chock) =>
    plan.bundles.every(
      (one) => one.void !== laid.void || one.run !== run || one.tier !== tier || (present?.has(one.bundle) ?? true),
    );
  return chocksOf(laid, plan).filter(isThere);
}

/** Those at ends of runs, between runs and behind short bundles from the side; those abreast as one. `place` is along and up. */
export function woodBeside(laid: LaidVoid, plan: Plan, place: Place, present: ReadonlySet<string> | undefined): Wood[] {
  const abreast = new Map<string, Chock[]>();
  for (const chock of chocksThere(laid, plan, present).filter(isAtEnd)) {
    const key = `${chock.run}/${chock.tier}/${chock.from}/${chock.to}/${chock.up}/${chock.height}`;
    abreast.set(key, [...(abreast.get(key) ?? []), chock]);
  }
  return [...abreast.values()].map((own) => {
    const [first] = own;
    const { from, to, up, height } = first!;
    const box = boxOf(place, [from, to], [up, up + height]);
    const isFrame = own.every((chock) => chockMade(laid, chock).struts);
    const wood = isFrame ? frameBeside(first!, place) : crossedWood(box);
    return {
      wood,
      mark: boxMark(
        own.map(({ mark }) => mark),
        box,
      ),
    };
  });
}

/** The boards are seen end on, a strut between them along its side. */
function frameBeside({ from, to, up, height }: Chock, place: Place): Shape[] {
  const high: Range = [up, up + height];
  return [
    polygon('chock', boxOf(place, [from + FRAME.board, to - FRAME.board], high)),
    ...crossedWood(boxOf(place, [from, from + FRAME.board], high)),
    ...crossedWood(boxOf(place, [to - FRAME.board, to], high)),
  ];
}
