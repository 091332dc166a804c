/**
 * Of what a chock is made: one block, or pieces that pass the opening of its void; a long one at an end of a run not of solid
 * wood but as a frame, two boards across with struts between them. Mm.
 */
import type { LaidVoid } from '../stow/laid.ts';
import { passesByHand } from '../stow/opening.ts';
import { type Chock, isAtEnd } from './chocks.ts';

export interface ChockMade {
  /** So many alike, side by side across, or end to end of one that lies along; null where none so made passes the opening. */
  pieces: number | null;
  /** The struts of each, and how long they are, mm; null of a block. */
  struts: { count: number; length: number } | null;
}

/** Longer along than this a chock at an end of a run is a frame, mm; no wider than `LEAST_FRAME` across it is a strut itself. */
const LONGEST_BLOCK = 150;
const LEAST_FRAME = 100;
/** Of a frame: how thick its boards and how wide its struts are, and how far apart these stand at most, mm. */
export const FRAME = { board: 30, strut: 45, apart: 250 } as const;
/** Nobody makes a chock of more pieces. */
const MOST_PIECES = 20;

/** Of as few pieces as pass; frames are screwed together in the void, so that their boards and struts pass one by one. */
export function chockMade(laid: LaidVoid, chock: Chock): ChockMade {
  const { up, height } = chock;
  const passes = (along: number, across: number) => passesByHand(laid, { along, across, up: height }, up);
  const thick = Math.max(chock.size, chock.sizeAtHead);
  for (let pieces = 1; pieces <= MOST_PIECES; pieces++) {
    const length = chock.length / pieces;
    const struts = strutsOf(chock, length);
    const isPassing = struts
      ? passes(FRAME.board, length) && passes(struts.length, FRAME.strut)
      : isAtEnd(chock)
        ? passes(thick, length)
        : passes(length, thick);
    if (isPassing) return { pieces, struts };
  }
  return { pieces: null, struts: strutsOf(chock, chock.length) };
}

function strutsOf(chock: Chock, across: number): ChockMade['struts'] {
  if (!isAtEnd(chock) || chock.size <= LONGEST_BLOCK || across <= LEAST_FRAME) return null;
  return { count: 1 + Math.ceil((across - FRAME.strut) / FRAME.apart), length: chock.size - 2 * FRAME.board };
}
