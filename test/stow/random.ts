/** Random voids, steels and prices for laws of the stowage. */
import type { LaidVoid } from '../../src/stow/laid.ts';
import type { LayoutPrices } from '../../src/stow/layout.ts';
import type { Dice } from '../bench/dice.ts';
import type { Setting } from './recount.ts';
import { laidOf, rulesWith, sawWith, steelsFor, throwSection } from './spaces.ts';

export type Shape = 'box' | 'keepOut' | 'stations' | 'opening' | 'bearers' | 'drain';

export function throwSetting(dice: Dice, shape: Shape): Setting {
  const sections = Array.from({ length: dice.whole(1, 3) }, () => throwSection(dice));
  return {
    laid: throwVoid(dice, shape),
    steels: steelsFor(sections, dice.stepped(0, 3, 0.5)),
    rules: rulesWith({
      limit: dice.stepped(5, 16, 0.5),
      wrap: dice.pick([0, 2, 3]),
      wrapping: dice.pick([0, 0.05, 0.1]),
      maxBars: dice.pick([3, 8, 30]),
    }),
    saw: sawWith({ tolerance: dice.pick([0, 1, 2]) }),
  };
}

function throwVoid(dice: Dice, shape: Shape): LaidVoid {
  const [length, width, height] = [dice.whole(400, 1300), dice.whole(100, 320), dice.whole(70, 170)];
  const box = laidOf({
    length,
    width,
    height,
    clear: { ends: dice.whole(0, 10), sides: dice.whole(0, 6), top: dice.whole(0, 15) },
    dunnage: dice.stepped(0, 15, 0.5),
    gap: { runs: dice.whole(0, 10), across: dice.whole(0, 6) },
    ...(dice.chance(0.5) ? { limit: dice.stepped(4, 12, 0.5) } : {}),
  });
  if (shape === 'keepOut') {
    const along = dice.whole(0, length - 60);
    const across = dice.whole(-50, 30);
    const access = dice.chance(0.5);
    return {
      ...box,
      keepOut: [{ along: [along, along + 60], across: [across, across + 30], up: [0, dice.whole(20, 80)], access }],
    };
  }
  if (shape === 'opening') {
    const opening = {
      along: dice.whole(200, length),
      across: dice.whole(80, width),
      endFirst: dice.chance(0.7),
      deck: 18,
    };
    return { ...box, opening };
  }
  if (shape === 'box') return box;
  if (shape === 'bearers') {
    const apart = dice.whole(80, 200);
    const bearers = Array.from({ length: Math.ceil(length / apart) }, (_, n) => ({
      along: 30 + n * apart,
      width: 40,
      ...(dice.chance(0.5) ? { most: dice.whole(15, 80) } : {}),
    }));
    return { ...box, bearers, ...(dice.chance(0.5) ? { mostPerMetre: dice.whole(50, 300) } : {}) };
  }
  const half = width / 2;
  const stations = [0, length].map((along) => ({
    along,
    at: [
      { up: dice.whole(0, 15), from: -Math.round(half * dice.stepped(0.4, 0.8, 0.1)), to: Math.round(half * 0.6) },
      { up: height, from: -Math.round(half), to: Math.round(half) },
    ],
  }));
  if (shape === 'stations') return { ...box, stations };
  const drain = {
    width: dice.whole(15, 50),
    height: dice.whole(20, 50),
    where: dice.pick(['middle', 'sides'] as const),
  };
  return { ...box, drain, ...(dice.chance(0.5) ? { stations } : {}) };
}

/** Prices at random for some of the lengths that may lie in the void: a kilogram is worth about one, a bundle up to one. */
export function throwPrices(
  dice: Dice,
  { laid, steels, rules, saw }: Setting,
  count: number,
  moments: boolean,
): LayoutPrices {
  const room = Math.floor(laid.length - 2 * laid.clear.ends - saw.tolerance - 2 * rules.endCover);
  const lengths = [...new Set(Array.from({ length: count }, () => dice.whole(150, Math.max(150, room))))];
  lengths.sort((a, b) => a - b);
  const slope = dice.stepped(-1, 1, 0.1);
  return {
    lengths,
    perBar: lengths.map((length) =>
      Float64Array.from(steels, (steel) => (steel.heaviest * length * dice.stepped(-0.1, 0.6, 0.01)) / 1000),
    ),
    perBundle: dice.pick([0, 0.05, 0.5]),
    extraPerKg: moments ? (along) => (slope * (along - laid.length / 3)) / 1000 : null,
  };
}
