/** What is fitted in a void, as seen from above, from the side and across: keep-outs, openings, bearers, the drain channel. */
import type { Opening } from '../job/job.ts';
import type { LaidVoid } from '../stow/laid.ts';
import { hatchRect } from './hatch.ts';
import { keepOutsIn, keepOutTop } from './laid.ts';
import { fitSize } from './letter.ts';
import { bottomAt, bottomLine, floorSidesAt, sidesAt } from './outline.ts';
import { centredText, circle, group, type Point, polygon, type Role, rect, type Shape } from './scene.ts';
import { DRAWING_WORDS as W } from './words.ts';

/** From a void's own two coordinates to the paper. */
type Place = (first: number, second: number) => Point;
type Span = readonly [number, number];

/** How thick an opening is drawn where it is seen on its edge, mm of paper. */
const EDGE = 0.9;

export interface Fitted {
  /** Lies under the bundles. */
  under: Shape[];
  /** Drawn over them. */
  over: Shape[];
}

/**
 * `named` gives each its path in the void (`keepOut[0]`, `bearers[1]`), so that a page can find and move it; `labelled`
 * writes into each opening what it is, which would stand in the way of loading numbers.
 */
export function fittedAbove(
  laid: LaidVoid,
  place: Place,
  how: { bare: boolean; named: boolean; labelled: boolean },
): Fitted {
  const name = namer(how.named);
  if (how.bare) return { under: [], over: keepOutsIn(laid).map((one) => box('keepOut', one.along, one.across, place)) };
  const { length } = laid;
  const keepOuts = (access: boolean) =>
    keepOutsIn(laid).flatMap((keepOut, n) => {
      if (keepOut.access !== access) return [];
      const outline = hatched(box('keepOut', keepOut.along, keepOut.across, place));
      return [name(outline, `keepOut[${n}]`, keepOut.what ?? W.keepOut)];
    });
  return {
    under: [
      // Bundles may lie over what need not be got at.
      ...keepOuts(false),
      ...drainAbove(laid, place),
      ...(laid.bearers ?? []).map(({ along, width }, n) => {
        const sides = floorSides(laid, along);
        return name([box('bearer', [along - width / 2, along + width / 2], sides, place)], `bearers[${n}]`, W.bearer);
      }),
    ],
    over: [
      ...keepOuts(true),
      ...openingsOf(laid).map(({ opening, path }) => {
        const { along, across } = middleOf(opening, length);
        const outline = box('opening', about(along, opening.along), about(across, opening.across), place);
        const size = fitSize(W.opening, outline.width - 1, Math.min(2.4, outline.height / 2), 1.3);
        const label = size === null || !how.labelled ? [] : [wordsIn(outline, size)];
        return name([outline, ...label], path, W.opening);
      }),
    ],
  };
}

/** (along, up). Keep-outs lie under, since bundles stand before them. */
export function fittedBeside(laid: LaidVoid, place: Place, named: boolean): Fitted {
  const name = namer(named);
  return {
    under: [
      ...(laid.drain ? [bandAlong(laid, laid.drain.height, place)] : []),
      ...(laid.bearers ?? []).map(({ along, width }, n) => {
        const floor = bottomAt(laid, along);
        const span = [along - width / 2, along + width / 2] as const;
        return name([box('bearer', span, [floor, floor + laid.dunnage], place)], `bearers[${n}]`, W.bearer);
      }),
      ...keepOutsIn(laid).map((keepOut, n) => {
        const whole = box('keepOut', keepOut.along, [keepOut.up[0], keepOutTop(laid, keepOut)], place);
        return name(
          [whole, ...hatchOf(box('keepOut', keepOut.along, keepOut.up, place))],
          `keepOut[${n}]`,
          keepOut.what ?? W.keepOut,
        );
      }),
    ],
    over: [
      ...openingsOf(laid).map(({ opening, path }) => {
        const { along } = middleOf(opening, laid.length);
        return name([edgeOn(about(along, opening.along), laid.height, place)], path, W.opening);
      }),
    ],
  };
}

/** (across, up) at a place along the void; only what stands there. */
export function fittedAcross(laid: LaidVoid, at: number, place: Place, named: boolean): Fitted {
  const name = namer(named);
  const floor = bottomAt(laid, at);
  const bearer = (laid.bearers ?? []).findIndex(({ along, width }) => Math.abs(at - along) <= width / 2);
  const sides = floorSides(laid, at);
  return {
    under: [
      ...(bearer < 0 ? [] : [box('bearer', sides, [floor, floor + laid.dunnage], place)]),
      ...drainSpans(laid, at).map((span) => box('drain', span, [floor, floor + (laid.drain?.height ?? 0)], place)),
    ],
    over: [
      ...keepOutsIn(laid).flatMap((keepOut, n) => {
        if (at < keepOut.along[0] || at > keepOut.along[1]) return [];
        const whole = box('keepOut', keepOut.across, [keepOut.up[0], keepOutTop(laid, keepOut)], place);
        return [
          name(
            [whole, ...hatchOf(box('keepOut', keepOut.across, keepOut.up, place))],
            `keepOut[${n}]`,
            keepOut.what ?? W.keepOut,
          ),
        ];
      }),
      ...openingsOf(laid).flatMap(({ opening, path }) => {
        const { along, across } = middleOf(opening, laid.length);
        if (Math.abs(at - along) > opening.along / 2) return [];
        return [name([edgeOn(about(across, opening.across), laid.height, place)], path, W.opening)];
      }),
    ],
  };
}

function namer(named: boolean): (shapes: Shape[], name: string, title: string) => Shape {
  return (shapes, name, title) => group({ x: 0, y: 0 }, shapes, named ? name : undefined, title);
}

function openingsOf({ opening, otherOpenings }: LaidVoid): { opening: Opening; path: string }[] {
  const others = (otherOpenings ?? []).map((other, n) => ({ opening: other, path: `otherOpenings[${n}]` }));
  return opening ? [{ opening, path: 'opening' }, ...others] : others;
}

function middleOf({ at }: Opening, length: number): { along: number; across: number } {
  return at ?? { along: length / 2, across: 0 };
}

function about(middle: number, size: number): Span {
  return [middle - size / 2, middle + size / 2];
}

type Box = Shape & { kind: 'rect' };

/** The rectangle between two places, whichever way they lie on the paper. */
function box(role: Role, first: Span, second: Span, place: Place): Box {
  const a = place(first[0], second[0]);
  const b = place(first[1], second[1]);
  return rect(role, Math.min(a.x, b.x), Math.min(a.y, b.y), Math.abs(b.x - a.x), Math.abs(b.y - a.y));
}

/** An opening seen on its edge, at the top of the void. */
function edgeOn(span: Span, height: number, place: Place): Box {
  const flat = box('opening', span, [height, height], place);
  return rect('opening', flat.x, flat.y - EDGE / 2, flat.width, EDGE);
}

function hatched(shape: Box): Shape[] {
  return [shape, ...hatchOf(shape)];
}

function hatchOf({ x, y, width, height }: Box): Shape[] {
  return hatchRect(x, y, width, height, 1.4);
}

/** Just inside the upper edge. */
function wordsIn({ x, y, width }: Box, size: number): Shape {
  return centredText('note', x + width / 2, y + 0.8 + size / 2, W.opening, size);
}

function floorSides(laid: LaidVoid, along: number): Span {
  const { from, to } = sidesAt(laid, along, bottomAt(laid, along));
  return [from, to];
}

/** The channels across the floor at a place, least across first. */
function drainSpans(laid: LaidVoid, along: number): Span[] {
  if (!laid.drain) return [];
  const { from, to } = floorSidesAt(laid, along);
  const { width, where } = laid.drain;
  if (where === 'middle') return [about((from + to) / 2, width)];
  return [
    [from, from + width],
    [to - width, to],
  ];
}

function drainAbove(laid: LaidVoid, place: Place): Shape[] {
  const places = bottomLine(laid).map(({ x }) => x);
  const channels = drainSpans(laid, 0).length;
  return Array.from({ length: channels }, (_, channel) => {
    const spans = places.map((along) => ({ along, span: drainSpans(laid, along)[channel] as Span }));
    const there = spans.map(({ along, span }) => place(along, span[0]));
    return polygon('drain', [...there, ...spans.reverse().map(({ along, span }) => place(along, span[1]))]);
  });
}

/** A band of one height all along the floor. */
function bandAlong(laid: LaidVoid, height: number, place: Place): Shape {
  const floor = bottomLine(laid);
  const top = [...floor].reverse().map(({ x, y }) => place(x, y + height));
  return polygon('drain', [...floor.map(({ x, y }) => place(x, y)), ...top]);
}

/** A reading to be taken once more, mm; on one side of the void where it is about a side. */
export interface Doubt {
  along: number;
  up: number;
  side: 'from' | 'to' | null;
}

/** How large it is ringed, mm of paper. */
const RING = 2;

export function ringsAbove(laid: LaidVoid, doubts: readonly Doubt[], place: Place): Shape[] {
  return doubts.map((doubt) => ring(place(doubt.along, acrossOf(laid, doubt))));
}

export function ringsBeside(doubts: readonly Doubt[], place: Place): Shape[] {
  return doubts.map(({ along, up }) => ring(place(along, up)));
}

/** Those at this place. */
export function ringsAcross(laid: LaidVoid, at: number, doubts: readonly Doubt[], place: Place): Shape[] {
  const here = doubts.filter(({ along }) => Math.abs(along - at) < 1);
  return here.map((doubt) => ring(place(acrossOf(laid, doubt), doubt.up)));
}

function ring({ x, y }: Point): Shape {
  return circle('doubt', x, y, RING);
}

function acrossOf(laid: LaidVoid, { along, up, side }: Doubt): number {
  const sides = sidesAt(laid, along, up);
  return side === null ? (sides.from + sides.to) / 2 : sides[side];
}
