/** A void's section at full size, to cut in cardboard and offer up. */
import type { LaidVoid } from '../stow/laid.ts';
import type { Units } from '../units.ts';
import { fittedAcross } from './fitted.ts';
import { voidTitle } from './laid.ts';
import { bottomAt, crossOutline, sidesAt, widestSides } from './outline.ts';
import { lengthOn } from './scale.ts';
import { line, polygon, type Scene } from './scene.ts';
import { DRAWING_WORDS as W } from './words.ts';

/**
 * One mm for one mm. The solid line is the void as measured, the dashed one what bundles may fill: inside the clearances
 * and above the dunnage, where they leave any breadth; the drain channel is marked. The least-across side is to the left.
 */
export function templateScene(laid: LaidVoid, along: number, units: Units = 'metric'): Scene {
  const sides = widestSides(laid);
  const x = (across: number) => across - sides.from + 1;
  const y = (up: number) => laid.height - up + 1;
  const outline = crossOutline(laid, along);
  const low = bottomAt(laid, along) + laid.dunnage;
  const high = laid.height - laid.clear.top;
  const levels = [low, ...outline.map((point) => point.y).filter((up) => up > low && up < high), high];
  const ups = [...new Set(levels)].sort((p, q) => p - q);
  const clear = ups.map((up): Level => {
    const { from, to } = sidesAt(laid, along, up);
    return { up, from: from + laid.clear.sides, to: to - laid.clear.sides };
  });
  const insides = (high > low ? wideParts(clear) : []).map((levels) => [
    ...levels.map((level) => ({ x: x(level.to), y: y(level.up) })),
    ...[...levels].reverse().map((level) => ({ x: x(level.from), y: y(level.up) })),
  ]);
  return {
    width: sides.to - sides.from + 2,
    height: laid.height + 2,
    title: W.crossSection(voidTitle(laid), lengthOn(units, along)),
    description: W.crossSection(voidTitle(laid), lengthOn(units, along)),
    shapes: [
      ...fittedAcross(laid, along, (across, up) => ({ x: x(across), y: y(up) }), false).under,
      polygon(
        'void',
        outline.map((point) => ({ x: x(point.x), y: y(point.y) })),
      ),
      ...insides.map((points) => polygon('clearance', points)),
      line('guide', x(0), y(laid.height), x(0), y(bottomAt(laid, along))),
    ],
  };
}

/** What is clear at a height, `to` less than `from` where the clearances leave nothing. */
interface Level {
  up: number;
  from: number;
  to: number;
}

/** The stretches of the height in which there is breadth, straight between the levels: in a vee the sides meet. */
function wideParts(levels: readonly Level[]): Level[][] {
  const parts: Level[][] = [];
  let before: Level | null = null;
  let part: Level[] = [];
  const end = (): void => {
    if (part.length > 1) parts.push(part);
    part = [];
  };
  for (const level of levels) {
    const [wide, was] = [level.to - level.from, before ? before.to - before.from : 0];
    if (before && wide < 0 !== was < 0) {
      const share = was / (was - wide);
      const between = (one: number, other: number): number => one + share * (other - one);
      const across = between(before.from, level.from);
      part.push({ up: between(before.up, level.up), from: across, to: across });
      if (wide < 0) end();
    }
    if (wide >= 0) part.push(level);
    before = level;
  }
  end();
  return parts;
}
