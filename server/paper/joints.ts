/** Bars of bundles that are made of two or three pieces butted end to end, as the papers tell them. */
import type { Plan } from '../../src/plan/plan.ts';
import { pieceLength } from '../../src/plan/stops.ts';

export interface JointedPiece {
  /** Which of the pieces of its bar of the bundle, from 1, counted from least along. */
  part: number;
  parts: number;
  /** mm. */
  length: number;
}

/** By mark of piece; pieces that are a whole bar of their bundle are left out. */
export function jointedPieces(plan: Plan): Map<string, JointedPiece> {
  const lengths = new Map(plan.bars.flatMap((bar) => bar.pieces.map((piece) => [piece.piece, pieceLength(piece)])));
  const jointed = plan.bundles.flatMap((bundle) => bundle.slots.filter((slot) => slot.length > 1));
  return new Map(
    jointed.flatMap((slot) =>
      slot.map((mark, i) => [mark, { part: i + 1, parts: slot.length, length: lengths.get(mark) ?? 0 }] as const),
    ),
  );
}
