/** A void's section at full size, to cut in cardboard and offer up. */
import type { LaidVoid } from '../stow/laid.ts';
import { fittedAcross } from './fitted.ts';
import { voidTitle } from './laid.ts';
import { bottomAt, crossOutline, sidesAt, widestSides } from './outline.ts';
import { figure } from './scale.ts';
import { line, polygon, type Scene } from './scene.ts';
import { DRAWING_WORDS as W } from './words.ts';

/**
 * One mm for one mm. The solid line is the void as measured, the dashed one what bundles may fill: inside the clearances
 * and above the dunnage; the drain channel is marked. The least-across side is to the left.
 */
export function templateScene(laid: LaidVoid, along: number): Scene {
  const sides = widestSides(laid);
  const x = (across: number) => across - sides.from + 1;
  const y = (up: number) => laid.height - up + 1;
  const outline = crossOutline(laid, along);
  const low = bottomAt(laid, along) + laid.dunnage;
  const high = laid.height - laid.clear.top;
  const levels = [low, ...outline.map((point) => point.y).filter((up) => up > low && up < high), high];
  const ups = [...new Set(levels)].sort((p, q) => p - q);
  const clear = ups.map((up) => ({ up, ...sidesAt(laid, along, up) }));
  const inside = [
    ...clear.map((side) => ({ x: x(side.to - laid.clear.sides), y: y(side.up) })),
    ...[...clear].reverse().map((side) => ({ x: x(side.from + laid.clear.sides), y: y(side.up) })),
  ];
  return {
    width: sides.to - sides.from + 2,
    height: laid.height + 2,
    title: W.crossSection(voidTitle(laid), figure(along)),
    description: W.crossSection(voidTitle(laid), figure(along)),
    shapes: [
      ...fittedAcross(laid, along, (across, up) => ({ x: x(across), y: y(up) }), false).under,
      polygon(
        'void',
        outline.map((point) => ({ x: x(point.x), y: y(point.y) })),
      ),
      ...(high > low ? [polygon('clearance', inside)] : []),
      line('guide', x(0), y(laid.height), x(0), y(bottomAt(laid, along))),
    ],
  };
}
