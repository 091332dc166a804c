/** Ceilings are never below what can be stowed: what the stowage finds, and what trying everything finds. */
import { describe, expect, test } from 'vitest';
import type { Section } from '../../src/job/section.ts';
import { BerthCeiling } from '../../src/stow/ceiling.ts';
import { Berth, type LayoutPrices } from '../../src/stow/layout.ts';
import type { CeilingPrices } from '../../src/stow/pileCeiling.ts';
import { type Dice, throwDice } from '../bench/dice.ts';
import { exactBerth } from './exact.ts';
import { throwPrices, throwSetting } from './random.ts';
import { countWorth, type Setting } from './recount.ts';
import { laidOf, rulesWith, sawWith, steelsFor, throwSection } from './spaces.ts';

const SEEDS = Array.from({ length: 60 }, (_, i) => i + 1);
const LEAST = 150;

/** What a layout's prices say of any length: the listed ones as listed, others as nothing. */
function asCeilingPrices({ lengths, perBar, perBundle, extraPerKg }: LayoutPrices): CeilingPrices {
  const at = new Map(lengths.map((length, i) => [length, perBar[i]!]));
  return { perBar: (steel, length) => at.get(length)?.[steel] ?? -1e6, perBundle, extraPerKg };
}

function ceilingOf({ laid, steels, rules, saw }: Setting): BerthCeiling {
  return new BerthCeiling(laid, steels, rules, saw, LEAST);
}

describe('the ceiling of a box', () => {
  // Half of them: the layouts take their time.
  const hold = (moments: boolean) => {
    let ratios = 0;
    let filled = 0;
    for (const seed of SEEDS.slice(0, 30)) {
      const dice = throwDice(seed);
      const setting = throwSetting(dice, 'box');
      const prices = throwPrices(dice, setting, 8, moments);
      const { laid, steels, rules, saw } = setting;
      const found = new Berth(laid, steels, rules, saw).best(prices);
      if (!found) continue;
      const ceiling = ceilingOf(setting).at(asCeilingPrices(prices)).value;
      const counted = countWorth(setting, found.layout, prices);
      expect([seed, ceiling > counted - slack(moments, setting)]).toEqual([seed, true]);
      filled++;
      ratios += counted / ceiling;
    }
    expect(filled).toBeGreaterThan(20);
    expect(ratios / filled).toBeGreaterThan(0.9);
  };

  test('is never below what the best layout found counts up to', () => hold(false));
  test('is never below it with moments', () => hold(true));
});

test('of a run of two lengths each is priced where its own middle lies', () => {
  const laid = laidOf({
    length: 550,
    width: 30,
    height: 50,
    dunnage: 0,
    gap: { runs: 0, across: 0 },
    clear: { ends: 0, sides: 0, top: 0 },
  });
  const sections = [20, 30].map((side): Section => ({ shape: 'square', side }));
  const steels = steelsFor(sections, 0);
  const rules = rulesWith({ limit: 100, wrap: 0, wrapping: 0, endCover: 0 });
  const saw = sawWith({ kerf: 3, squaring: 0, tolerance: 50 });
  const kgOf = (steel: number, length: number) => (steels[steel]!.lightest * length) / 1000;
  const perBar = (steel: number, length: number) =>
    steel === 0 && length === 500 ? 5 : steel === 1 && length === 400 ? 8 : -1000;
  // One bundle of each, both begun at 0: their middles lie at 275 and 225.
  const worth = 5 - kgOf(0, 500) * 0.275 + 8 - kgOf(1, 400) * 0.225;
  const prices = { perBar, perBundle: 0, extraPerKg: (along: number) => -along / 1000 };
  const { value } = new BerthCeiling(laid, steels, rules, saw, 100).at(prices);
  expect(value).toBeGreaterThanOrEqual(worth - 1e-9);
  expect(value).toBeLessThan(worth + 0.5);
});

/** A middle is known to a quarter of a millimetre: so many kilograms can not be worth more than that by moments. */
function slack(moments: boolean, { laid }: Setting): number {
  return moments ? (laid.length * laid.width * laid.height * 7850e-9 * 0.25) / 1000 : 1e-6;
}

/** A void small enough to try everything in, with one or two sections. */
function tinySetting(dice: Dice, wrapping: number): Setting {
  const sections = Array.from({ length: dice.whole(1, 2) }, () => throwSection(dice));
  const laid = laidOf({
    length: dice.whole(350, 800),
    width: dice.whole(70, 170),
    height: dice.whole(70, 130),
    gap: { runs: dice.whole(0, 8), across: dice.whole(0, 5) },
    clear: { ends: 5, sides: dice.whole(0, 5), top: 5 },
  });
  const rules = rulesWith({ limit: dice.stepped(3, 9, 0.5), wrap: dice.pick([0, 2, 3]), wrapping, maxBars: 12 });
  return { laid, steels: steelsFor(sections, dice.stepped(0, 3, 0.5)), rules, saw: sawWith() };
}

function tinyPrices(dice: Dice, setting: Setting, moments: boolean): CeilingPrices {
  const slope = dice.stepped(-2, 2, 0.1);
  const rate = dice.stepped(0.3, 1, 0.05);
  const bump = dice.whole(160, 320);
  return {
    perBar: (steel, length) =>
      ((setting.steels[steel]!.heaviest * length) / 1000) * (length % bump < 12 ? rate : rate / 2),
    perBundle: dice.pick([0, 0.2, 0.6]),
    extraPerKg: moments ? (along) => (slope * (along - 250)) / 1000 : null,
  };
}

function lengthsIn(dice: Dice, { laid, rules, saw }: Setting, count: number): number[] {
  const most = laid.length - 2 * laid.clear.ends - saw.tolerance - 2 * rules.endCover;
  return Array.from({ length: count }, () => dice.whole(LEAST, Math.floor(most)));
}

describe('the ceiling of a small box', () => {
  test.each(SEEDS)('is never below what trying everything finds (seed %i)', (seed) => {
    const dice = throwDice(seed);
    const setting = tinySetting(dice, dice.pick([0, 0.05]));
    const prices = tinyPrices(dice, setting, false);
    const exact = exactBerth(setting, prices, lengthsIn(dice, setting, 5), 0.5);
    const ceiling = ceilingOf(setting).at(prices).value;
    expect(ceiling).toBeGreaterThan(exact - 1e-6);
  });

  const holdWithMoments = (seed: number, wrapping: number) => {
    const dice = throwDice(seed);
    const setting = tinySetting(dice, wrapping);
    const prices = tinyPrices(dice, setting, true);
    const exact = exactBerth(setting, prices, lengthsIn(dice, setting, 3), 20);
    const ceiling = ceilingOf(setting).at(prices).value;
    expect(ceiling).toBeGreaterThan(exact - slack(true, setting));
  };

  test.each(SEEDS.slice(0, 30))('with moments is never below what trying everything finds (seed %i)', (seed) =>
    holdWithMoments(seed, 0),
  );
  test('nor where the wrapping weighs something', () => {
    for (const seed of SEEDS.slice(0, 30)) holdWithMoments(seed, 0.9);
  });
});

describe('the ceiling of nested bundles', () => {
  const saw = sawWith();
  const setting = (widths: number, rows: number, maxBars: number): Setting => ({
    laid: laidOf({
      length: 230,
      width: 20 * widths,
      height: 20 * (1 + ((rows - 1) * Math.sqrt(3)) / 2) + 0.5,
      clear: { ends: 0, sides: 0, top: 0 },
      dunnage: 0,
      limit: 1000,
    }),
    steels: steelsFor([{ shape: 'round', diameter: 20 }], 0),
    rules: rulesWith({ wrap: 0, maxBars }),
    saw,
  });

  const hold = (rows: number) => {
    const below: string[] = [];
    for (let widths = 1; widths <= 5; widths += 0.5) {
      for (let maxBars = 1; maxBars <= 12; maxBars += maxBars < 6 ? 1 : 3) {
        for (const perBundle of [0, 2.5]) {
          const tried = setting(widths, rows, maxBars);
          const prices = { perBar: () => 1, perBundle, extraPerKg: null };
          const exact = exactBerth(tried, prices, [200], 0.5);
          const ceiling = ceilingOf(tried).at(prices).value;
          if (ceiling < exact - 1e-6) below.push(`${widths} wide, at most ${maxBars}: ${ceiling} for ${exact}`);
        }
      }
    }
    expect(below).toEqual([]);
  };

  test.each([2, 3, 4])('of %i rows counts every way of laying rows that the format allows', hold);
});
